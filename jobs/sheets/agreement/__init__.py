"""What the customer agrees to, as it is printed: the spec with its price, and options beside it."""
