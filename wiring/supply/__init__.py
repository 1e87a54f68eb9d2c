"""What takes and what gives: amplifiers and their heat, charging, reserve."""
