"""Pages of channels, power and runs."""
