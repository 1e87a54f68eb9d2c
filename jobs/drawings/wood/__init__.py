"""Boxes, parts and nests of wood."""
