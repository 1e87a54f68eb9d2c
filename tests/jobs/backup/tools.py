"""What the tests of back-up and restore share."""

from __future__ import annotations

import os
import resource
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from jobs.backup.installation import Installation
from jobs.backup.restoring import put_in_place, unpacked

ROOT = Path(__file__).resolve().parents[3]
Rows = dict[str, set[tuple[object, ...]]]


def at(folder: Path) -> Installation:
    """Return an installation in this folder, laid out as the settings do it."""
    folder.mkdir(exist_ok=True)
    return Installation(
        folder=folder,
        database=folder / "undertrim.sqlite3",
        media=folder / "media",
        key=folder / "secret_key",
    )


def environment(there: Installation) -> dict[str, str]:
    """Return what a process needs to work on it."""
    return {
        **os.environ,
        "DJANGO_SETTINGS_MODULE": "config.settings",
        "UNDERTRIM_VAR": str(there.folder),
        "DATABASE_URL": f"sqlite:///{there.database}",
    }


def manage(there: Installation, *words: object) -> subprocess.CompletedProcess[str]:
    """Run a command of `manage.py` on it."""
    command = [sys.executable, "manage.py", *map(str, words)]
    return subprocess.run(
        command, env=environment(there), cwd=ROOT, capture_output=True, text=True, timeout=300
    )


def restore(file: Path, there: Installation, *, replace: bool = False) -> Path | None:
    """Restore as the command does, without bringing tables up to date."""
    with unpacked(file, there) as found:
        return put_in_place(found, there, replace=replace)


def rows(database: Path) -> Rows:
    """Return every row of every table, as at one moment."""
    with closing(sqlite3.connect(database, timeout=60)) as file:
        file.execute("BEGIN")
        tables = file.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
        return {name: set(file.execute(f"SELECT * FROM {name}")) for (name,) in tables}


def files(folder: Path) -> dict[str, bytes]:
    """Return every file under a folder."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


@contextmanager
def disk_with(room: int) -> Iterator[None]:
    """Let no file grow beyond this many bytes, as on a disk that is full."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (room, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
