"""What takes and what gives: amplifiers, charging, reserve."""
