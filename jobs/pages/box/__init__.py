"""Pages of a box and its driver."""
