"""What every page is made of: forms, fields, rows, single records, the strip."""
