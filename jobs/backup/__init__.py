"""Back-up and restore: one file with the database, the photos and the secret key.

`database` knows SQLite files, `archive` the file that is carried away, `installation` where
things lie on this machine; `making` and `restoring` are what the two commands do.
"""
