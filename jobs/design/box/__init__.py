"""The sound of a box, from its records to figures and findings: curves, targets, study, compare."""
