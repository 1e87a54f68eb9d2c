"""Pages of wood: fit, rings, trim."""
