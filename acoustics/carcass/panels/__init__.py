"""The wood of a box: panels, inner wood, assembly, cut list, mass."""
