"""A PostgreSQL of the tests' own: `python -m tests.postgres COMMAND` runs a command on one."""
