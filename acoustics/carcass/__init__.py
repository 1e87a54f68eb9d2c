"""Boxes as wood: shapes, joints, panels, room for what goes in, sheets to cut them from."""
