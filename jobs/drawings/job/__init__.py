"""Design results handed to the writers."""
