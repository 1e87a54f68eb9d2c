"""Sheets of material: blanks and nesting."""
