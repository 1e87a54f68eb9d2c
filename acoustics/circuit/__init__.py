"""The electro-mechano-acoustic circuit: solver, targets, limits, tolerance bands, filters."""
