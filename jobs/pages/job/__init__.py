"""Pages of the job as a whole."""
