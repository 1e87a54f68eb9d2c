"""Money: what the workshop asks for, and what a job comes to."""
