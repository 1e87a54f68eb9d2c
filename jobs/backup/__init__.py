"""Back-up and restore: one file with the database, the photos and the secret key.

`database` is what both kinds of database answer, `sqlite` and `postgres` how each does; `archive`
is the file that is carried away, `installation` where things lie on this machine; `making` and
`restoring` are what the two commands do.
"""
