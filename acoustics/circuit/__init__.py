"""The electro-mechano-acoustic circuit: solver, limits, tolerances, filters."""
