"""Run a command on a PostgreSQL of its own: `python -m tests.postgres pytest …`."""

from __future__ import annotations

import os
import signal
import subprocess
import sys

from tests.postgres.server import MISSING, is_installed, running

# What is written need not outlive the tests.
HASTY = (
    "fsync = off",
    "synchronous_commit = off",
    "full_page_writes = off",
    "max_connections = 50",
)


def main(command: list[str]) -> int:
    """Return how the command ended; where there is no PostgreSQL, say so and go on."""
    if not is_installed():
        print(f"Not tested on PostgreSQL: {MISSING}")  # noqa: T201 - said to whoever runs it
        return 0
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))  # told to stop, it clears up
    with running(HASTY) as cluster:
        environment = {**os.environ, "DATABASE_URL": cluster.url("postgres")}
        return subprocess.run(command, env=environment).returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
