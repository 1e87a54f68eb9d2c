"""Dates as the workshop writes them: 25 Nov 2026 can be read in one way only."""

DATE_FORMAT = "j M Y"
SHORT_DATE_FORMAT = "j M Y"
SHORT_DATETIME_FORMAT = "j M Y, H:i"
