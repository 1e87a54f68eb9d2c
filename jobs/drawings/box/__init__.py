"""Charts of a box: side by side, its study, its driver as measured."""
