"""A SQLite file: copied while others write, looked over, counted."""

from __future__ import annotations

import datetime as dt
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path

from django.apps import apps
from django.db.migrations.loader import MigrationLoader
from django.db.models import FileField

from jobs.models import IssuedSheet, Job, Photo

Migration = tuple[str, str]
# Written by the history of every record when it is saved.
SAVED_AT = "history_date"
PATIENCE = 60.0  # seconds to wait for others


@dataclass(frozen=True, kw_only=True)
class Counts:
    """What a person knows a back-up by."""

    jobs: int
    photos: int
    sheets: int
    newest: dt.datetime | None  # when somebody last saved something

    def __str__(self) -> str:
        """Say it for the terminal."""
        newest = f"{self.newest:%Y-%m-%d %H:%M} UTC" if self.newest else "none"
        return (
            f"jobs {self.jobs}, photos {self.photos}, issued sheets {self.sheets}, "
            f"newest change {newest}"
        )


def copy(source: Path, target: Path) -> None:
    """Copy a database that others write to, as it is at one moment, into a single file."""
    with _opened(source) as live, closing(sqlite3.connect(target)) as written:
        live.backup(written)  # all pages in one step: no writer comes between them
        written.execute("PRAGMA journal_mode=DELETE")


def fault(database: Path) -> str:
    """Return what is wrong with a database, empty when it is sound."""
    try:
        with _opened(database) as file:
            (first,) = file.execute("PRAGMA integrity_check(1)").fetchone()
            if first != "ok":
                return str(first).splitlines()[-1]
            orphan = file.execute("PRAGMA foreign_key_check").fetchone()
    except sqlite3.DatabaseError as error:
        return str(error)
    if orphan:
        table, row, parent, _number = orphan
        return f"row {row} of {table} needs a row of {parent} that is not there"
    return ""


def migrations(database: Path) -> set[Migration]:
    """Return the migrations a database has been through; none when it has no tables yet."""
    with _opened(database) as file:
        if "django_migrations" not in _tables(file):
            return set()
        return set(file.execute("SELECT app, name FROM django_migrations"))


def unknown_here(been_through: Iterable[Migration]) -> list[Migration]:
    """Return the migrations this code does not have: they come from a newer one."""
    known: set[Migration] = set()
    for name, migration in MigrationLoader(None).disk_migrations.items():
        known |= {name, *migration.replaces}
    return sorted(set(been_through) - known)


def is_behind(been_through: set[Migration]) -> bool:
    """Whether this code has migrations the database has not been through."""
    return not set(MigrationLoader(None).graph.leaf_nodes()) <= been_through


def newest_names(been_through: Iterable[Migration]) -> list[str]:
    """Return the newest migration of each app, by name."""
    newest: dict[str, str] = {}
    for app, name in been_through:
        newest[app] = max(name, newest.get(app, ""))
    return [f"{app}.{name}" for app, name in sorted(newest.items())]


def counts(database: Path) -> Counts:
    """Count what a person would ask for; a table of a later time counts as empty."""
    with _opened(database) as file:
        there = _tables(file)

        def rows(table: str) -> int:
            if table not in there:
                return 0
            return int(file.execute(f"SELECT count(*) FROM {table}").fetchone()[0])  # noqa: S608 - a table of ours

        saved = [
            file.execute(f"SELECT max({SAVED_AT}) FROM {table}").fetchone()[0]  # noqa: S608 - a table of ours
            for table in _tables_with(SAVED_AT)
            if table in there
        ]
        newest = max((moment for moment in saved if moment), default=None)
        return Counts(
            jobs=rows(Job._meta.db_table),
            photos=rows(Photo._meta.db_table),
            sheets=rows(IssuedSheet._meta.db_table),
            newest=dt.datetime.fromisoformat(newest).replace(tzinfo=dt.UTC) if newest else None,
        )


def named_files(database: Path) -> set[str]:
    """Return the files its rows name, as they are stored."""
    with _opened(database) as file:
        there = _tables(file)
        return {
            name
            for model in apps.get_models()
            if model._meta.db_table in there
            for field in model._meta.local_fields
            if isinstance(field, FileField)
            for (name,) in file.execute(f"SELECT {field.column} FROM {model._meta.db_table}")  # noqa: S608 - a table of ours
            if name
        }


@contextmanager
def _opened(database: Path) -> Iterator[sqlite3.Connection]:
    """Open a database that is there; SQLite would make one otherwise."""
    address = f"{database.absolute().as_uri()}?mode=rw"
    with closing(sqlite3.connect(address, uri=True, timeout=PATIENCE)) as file:
        yield file


def _tables(file: sqlite3.Connection) -> set[str]:
    return {name for (name,) in file.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}


def _tables_with(column: str) -> list[str]:
    return [
        model._meta.db_table
        for model in apps.get_models()
        if any(field.column == column for field in model._meta.local_fields)
    ]
