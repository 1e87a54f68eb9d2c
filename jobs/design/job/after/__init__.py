"""A car after it has left: visits, what was changed since, and where a part is that is called back."""
