"""Fuses and the checks of a tree."""
