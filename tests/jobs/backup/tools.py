"""What the tests of back-up and restore share."""

from __future__ import annotations

import hashlib
import os
import resource
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import replace
from pathlib import Path
from urllib.parse import urlencode

import psycopg
import pytest
from django.conf import settings
from django.db import connection
from psycopg import sql

from jobs.backup import database
from jobs.backup.database import Database, Reading
from jobs.backup.installation import Installation
from jobs.backup.postgres import PostgresDatabase
from jobs.backup.restoring import put_in_place, unpacked
from jobs.backup.sqlite import SqliteFile

ROOT = Path(__file__).resolve().parents[3]
Rows = dict[str, set[tuple[object, ...]]]


def is_postgres() -> bool:
    """Whether these tests run on PostgreSQL (`python -m tests.postgres pytest …`)."""
    return connection.vendor == "postgresql"


of_files = pytest.mark.skipif(is_postgres(), reason="about the files of SQLite")


def at(folder: Path) -> Installation:
    """Return an installation in this folder, laid out as the settings do it."""
    folder.mkdir(exist_ok=True)
    return Installation(
        folder=folder,
        database=_database_of(folder),
        media=folder / "media",
        key=folder / "secret_key",
    )


def _database_of(folder: Path) -> Database:
    """Of the kind these tests run on, with a name of its own for each folder."""
    if not is_postgres():
        return SqliteFile(folder / "undertrim.sqlite3")
    name = f"drill-{hashlib.sha256(str(folder).encode()).hexdigest()[:16]}"
    return PostgresDatabase.of(settings.DATABASES["default"] | {"NAME": name})


def make_postgres(there: Installation, like: Installation | None = None) -> None:
    """Make its database on the server the tests run on, empty or a copy of another."""
    assert isinstance(there.database, PostgresDatabase)
    template = like.database.name if like else "template0"
    make = sql.SQL("CREATE DATABASE {} TEMPLATE {}")
    names = sql.Identifier(there.database.name), sql.Identifier(template)
    with psycopg.connect(**there.database.way, dbname="postgres", autocommit=True) as server:
        server.execute(make.format(*names))


def environment(there: Installation) -> dict[str, str]:
    """Return what a process needs to work on it."""
    name = there.database.name
    url = f"sqlite:///{name}"
    if isinstance(there.database, PostgresDatabase):
        way = there.database.way
        place = {key: way[key] for key in ("host", "port", "password") if key in way}
        url = f"postgres://{way.get('user', '')}@/{name}?{urlencode(place)}"
    return {
        **os.environ,
        "DJANGO_SETTINGS_MODULE": "config.settings",
        "UNDERTRIM_VAR": str(there.folder),
        "DATABASE_URL": url,
    }


def manage(there: Installation, *words: object, **changed: str) -> subprocess.CompletedProcess[str]:
    """Run a command of `manage.py` on it, with these variables changed."""
    command = [sys.executable, "manage.py", *map(str, words)]
    return subprocess.run(
        command, env=environment(there) | changed, cwd=ROOT, capture_output=True, text=True,
        timeout=300,
    )  # fmt: skip


def restore(file: Path, there: Installation, *, replace: bool = False) -> Path | None:
    """Restore as the command does, without bringing tables up to date."""
    with unpacked(file, there) as found:
        return put_in_place(found, there, replace=replace)


def rows(database: Database) -> Rows:
    """Return every row of every table, as at one moment."""
    with database.reading() as reading:
        if isinstance(database, SqliteFile):
            reading.rows("BEGIN")
        return {name: set(reading.rows(_all_of(reading, name))) for name in reading.tables()}


def _all_of(reading: Reading, table: str) -> str:
    """Ask for every row; PostgreSQL for texts, so that two can be compared whatever they hold."""
    if not is_postgres():
        return f"SELECT * FROM {table}"
    named = (
        f"SELECT attname FROM pg_attribute WHERE attrelid = '\"{table}\"'::regclass "
        "AND attnum > 0 AND NOT attisdropped"
    )
    columns = ", ".join(f'"{name}"::text' for (name,) in reading.rows(named))
    return f"SELECT {columns} FROM {table}"


def state(there: Installation) -> object:
    """Return all there is of an installation, to see that nothing was changed."""
    held = rows(there.database) if is_postgres() and not there.database.is_empty() else {}
    return files(there.folder), held


def named_files(there: Installation) -> set[str]:
    """Return the files its rows name."""
    with there.database.reading() as reading:
        return database.named_files(reading)


def kept_database(there: Installation, kept: Path) -> Database:
    """Return the database that was there before a restore."""
    if isinstance(there.database, SqliteFile):
        return SqliteFile(kept / there.database.path.name)
    assert isinstance(there.database, PostgresDatabase)
    return replace(there.database, name=there.database.kept_in(kept))


def run_sql(there: Installation, text: str) -> int:
    """Change it behind the app's back; returns how many rows that concerned."""
    if isinstance(there.database, SqliteFile):
        with closing(sqlite3.connect(there.database.path)) as file, file:
            return file.execute(text).rowcount
    assert isinstance(there.database, PostgresDatabase)
    with psycopg.connect(**there.database.way, dbname=there.database.name) as live:
        return live.execute(text.encode()).rowcount


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
