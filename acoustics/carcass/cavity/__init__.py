"""The space in the car: its outline, openings, and the boxes that fit it."""
