"""Options of a whole job, held side by side."""
