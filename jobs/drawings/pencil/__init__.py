"""Strokes, axes, bands and charts every drawing is made of."""
