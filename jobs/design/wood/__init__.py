"""The carcass of a box, from its records to panels, nests and gluing order."""
