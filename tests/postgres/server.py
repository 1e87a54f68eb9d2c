"""A PostgreSQL server in a folder of its own, reached through a socket there and nothing else."""

from __future__ import annotations

import os
import pwd
import shutil
import signal
import subprocess
import tempfile
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

import psycopg

# Debian keeps the server's own programs out of the way, one folder per version.
PLACES = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda one: float(one.parent.name))
MISSING = "PostgreSQL is not installed. Type: apt-get install postgresql"
PATIENCE = 60.0  # seconds
PORT = 5432  # names the socket; nothing listens on the network


def _program(name: str) -> str | None:
    return shutil.which(name, path=os.pathsep.join([*map(str, reversed(PLACES)), os.defpath]))


def is_installed() -> bool:
    """Whether this machine can run a server."""
    return all(_program(name) for name in ("initdb", "postgres"))


class Cluster:
    """One server; root runs it as the person Debian made for it, for it refuses root."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.data = folder, folder / "data"
        self._owner = pwd.getpwnam("postgres") if os.geteuid() == 0 else None
        if self._owner:
            shutil.chown(folder, self._owner.pw_uid, self._owner.pw_gid)

    def _who(self) -> dict[str, Any]:
        if self._owner is None:
            return {}
        return {"user": self._owner.pw_uid, "group": self._owner.pw_gid, "extra_groups": []}

    def make(self, settings: Sequence[str] = ()) -> None:
        """Lay it out, everybody on this machine believed: the folder is closed to others."""
        words = [
            *(_program("initdb"), "--pgdata", str(self.data), "--username", "postgres"),
            *("--auth", "trust", "--encoding", "UTF8", "--locale", "C.UTF-8", "--no-sync"),
        ]
        quiet = subprocess.DEVNULL
        subprocess.run(words, check=True, cwd=self.folder, stdout=quiet, **self._who())
        plain = [f"unix_socket_directories = '{self.folder}'", "listen_addresses = ''"]
        with (self.data / "postgresql.conf").open("a") as file:
            file.write("\n".join([*plain, f"port = {PORT}", *settings, ""]))

    def start(self) -> None:
        """Start it and wait until it answers; it is a child of ours, so that its end is noticed."""
        with (self.folder / "log").open("ab") as log:
            self._server = subprocess.Popen(
                [_program("postgres"), "-D", str(self.data)], cwd=self.folder, stdout=log,
                stderr=log, process_group=0, **self._who(),
            )  # fmt: skip
        until = time.monotonic() + PATIENCE
        while self._server.poll() is None and time.monotonic() < until:
            with suppress(psycopg.OperationalError):
                psycopg.connect(host=str(self.folder), user="postgres", dbname="postgres").close()
                return
            time.sleep(0.05)
        raise RuntimeError((self.folder / "log").read_text()[-2000:])

    def stop(self) -> None:
        """Stop it, whoever is connected."""
        self._server.send_signal(signal.SIGINT)  # postgresql.org/docs/15/server-shutdown.html
        self._server.wait(timeout=PATIENCE)

    def kill(self) -> None:
        """End it as a power cut would, all its processes at once."""
        first = self._server.pid
        children = Path(f"/proc/{first}/task/{first}/children").read_text().split()
        for process in (first, *map(int, children)):
            with suppress(ProcessLookupError):
                os.kill(process, signal.SIGKILL)
        self._server.wait()

    def url(self, name: str) -> str:
        """Return the address of one of its databases, as DATABASE_URL takes it."""
        return f"postgres://postgres@/{name}?host={self.folder}"


@contextmanager
def running(settings: Sequence[str] = ()) -> Iterator[Cluster]:
    """Start a server that is gone afterwards with all that is in it."""
    # Short, as the name of a socket must be, and not in a folder closed to the server's person.
    with tempfile.TemporaryDirectory(prefix="undertrim-pg-", dir="/tmp") as name:
        cluster = Cluster(Path(name))
        cluster.make(settings)
        cluster.start()
        try:
            yield cluster
        finally:
            cluster.stop()
