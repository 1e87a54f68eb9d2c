"""Trees and paths of the wiring, with what is open on them at the spot."""
