"""Strokes, axes and charts every drawing is made of."""
