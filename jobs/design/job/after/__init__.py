"""A car that has left: who looked at it, what was changed since, where a part of it is."""
