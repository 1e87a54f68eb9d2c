"""Charts of a box."""
