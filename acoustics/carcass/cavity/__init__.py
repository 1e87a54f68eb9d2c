"""The cavity in the car: its outline and openings, and the boxes that fit it."""
