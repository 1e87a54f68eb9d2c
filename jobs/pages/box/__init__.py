"""Pages of a box and its driver: form, study, targets, cabin, what was measured."""
