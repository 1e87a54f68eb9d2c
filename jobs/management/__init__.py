"""Commands for whoever runs an installation."""
