"""Speaker, line and control runs, schedules and choice."""
