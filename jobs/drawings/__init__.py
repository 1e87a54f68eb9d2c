"""Drawings as SVG, for page and sheet alike."""
