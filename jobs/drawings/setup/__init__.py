"""The pictures of a set-up: what the ways of a side sum to."""
