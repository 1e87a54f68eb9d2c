"""The wood of a box: panels, cut list, gluing order, mass, panel modes; rings and trim panels."""
