"""The power tree as a circuit: solution, faults, transients."""
