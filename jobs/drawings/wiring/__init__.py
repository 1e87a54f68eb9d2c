"""Trees and paths of the wiring."""
