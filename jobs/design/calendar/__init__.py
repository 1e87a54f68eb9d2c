"""The calendar of all jobs: where cars and people are by day, what clashes, what is short."""
