"""How a sheet is asked for, and the process that prints it."""
