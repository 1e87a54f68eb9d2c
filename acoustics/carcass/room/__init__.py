"""The room inside a box: where parts go and what stays clear around them."""
