"""A database as back-up and restore see it: two kinds behind one door, and what is asked of both.

`sqlite` and `postgres` open the door each in its own way; nothing else here knows which it is.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from contextlib import AbstractContextManager, ExitStack
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Protocol

from django.apps import apps
from django.db.migrations.loader import MigrationLoader
from django.db.models import FileField

from jobs.models import IssuedSheet, Job, Photo

Migration = tuple[str, str]
# Written by the history of every record when it is saved.
SAVED_AT = "history_date"
# Noted in databases made while they were the first; a larger squash has taken the place of each.
FORMER_FIRST: set[Migration] = {("jobs", "0001_squashed_0121")}


class Reading(Protocol):
    """A database that is asked as it is at one moment."""

    def rows(self, question: str) -> list[tuple[Any, ...]]:
        """Return what a question of plain SQL is answered."""

    def tables(self) -> set[str]:
        """Return the names of its tables."""

    def fault(self) -> str:
        """Return what is wrong with it, empty when it is sound."""


class Database(Protocol):
    """Where an installation keeps its rows."""

    @property
    def member(self) -> str:
        """The name of its copy within a back-up; one kind does not read the other's."""

    @property
    def name(self) -> str:
        """What the settings call it."""

    def is_empty(self) -> bool:
        """Whether nothing was ever kept in it, or it is not there."""

    def is_open(self) -> bool:
        """Whether anybody else works on it; a damaged one can be asked too."""

    def reading(self) -> AbstractContextManager[Reading]:
        """Open it to be asked."""

    def copied(self, file: Path) -> AbstractContextManager[Reading]:
        """Copy it, while others write, into a file; gives what is in the copy to be asked."""

    def unpacked(self, file: Path) -> AbstractContextManager[Database]:
        """Make a database beside it out of a copy; cleared away unless it took the place."""

    def set_aside(self, kept: Path, undo: ExitStack) -> None:
        """Move it out of the way; `kept` is the folder for what was there before."""

    def take_place(self, of: Any, undo: ExitStack) -> None:
        """Move it to where another one was that has been set aside."""

    def kept_in(self, kept: Path) -> str:
        """Say where it is kept once it was set aside."""

    def forget(self, kept: Path) -> None:
        """Clear away what was set aside and never held anything."""


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


def migrations(database: Reading) -> set[Migration]:
    """Return the migrations a database has been through; none when it has no tables yet."""
    if "django_migrations" not in database.tables():
        return set()
    return {(app, name) for app, name in database.rows("SELECT app, name FROM django_migrations")}


def unknown_here(been_through: Iterable[Migration]) -> list[Migration]:
    """Return the migrations this code does not have: they come from a newer one."""
    known = set(FORMER_FIRST)
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


def counts(database: Reading) -> Counts:
    """Count what a person would ask for; a table of a later time counts as empty."""
    there = database.tables()

    def rows(table: str) -> int:
        if table not in there:
            return 0
        return int(database.rows(f"SELECT count(*) FROM {table}")[0][0])  # noqa: S608 - a table of ours

    saved = [
        database.rows(f"SELECT max({SAVED_AT}) FROM {table}")[0][0]  # noqa: S608 - a table of ours
        for table in _tables_with(SAVED_AT)
        if table in there
    ]
    return Counts(
        jobs=rows(Job._meta.db_table),
        photos=rows(Photo._meta.db_table),
        sheets=rows(IssuedSheet._meta.db_table),
        newest=max((_moment(row) for row in saved if row), default=None),
    )


def named_files(database: Reading) -> set[str]:
    """Return the files its rows name, as they are stored."""
    there = database.tables()
    return {
        name
        for model in apps.get_models()
        if model._meta.db_table in there
        for field in model._meta.local_fields
        if isinstance(field, FileField)
        for (name,) in database.rows(f"SELECT {field.column} FROM {model._meta.db_table}")  # noqa: S608 - a table of ours
        if name
    }


def _moment(stored: dt.datetime | str) -> dt.datetime:
    """Read a moment as either kind keeps it; text is without its zone, which is UTC."""
    if isinstance(stored, dt.datetime):
        return stored.astimezone(dt.UTC)
    return dt.datetime.fromisoformat(stored).replace(tzinfo=dt.UTC)


def _tables_with(column: str) -> list[str]:
    return [
        model._meta.db_table
        for model in apps.get_models()
        if any(field.column == column for field in model._meta.local_fields)
    ]
