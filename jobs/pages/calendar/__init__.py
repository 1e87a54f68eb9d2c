"""The calendar: the week of the workshop, the days of a job, the bays, a feed per person."""
