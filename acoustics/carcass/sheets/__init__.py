"""Sheets of material: blanks and nesting. Nothing here is printed: that is `jobs/sheets`."""
