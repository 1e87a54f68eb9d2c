"""The outline of a car: from the left, from above, from the right, and where its places lie."""
