"""Cables of a car: the power tree, its runs and the ways they go."""
