"""What is kept of a car for the time after it has left."""
