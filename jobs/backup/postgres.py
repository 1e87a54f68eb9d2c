"""A database of a PostgreSQL server: dumped while others write, restored beside, renamed.

Its own tools copy and restore (`pg_dump`, `pg_restore`). The new database is made beside the old
one and takes its name at the end, so that nothing is overwritten and both are kept.
"""

from __future__ import annotations

import os
import secrets
import shutil
import subprocess
import time
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import psycopg
from django.db.backends.postgresql.base import DatabaseWrapper
from psycopg import sql

from jobs.backup import archive
from jobs.backup.refusal import BackupError

LONGEST_NAME = 63  # bytes; PostgreSQL cuts what is longer
PATIENCE = 3.0  # seconds until a process that has closed its connection is gone from the list
NO_TOOL = "%s is not on this machine: apt-get install postgresql-client, of the server's version."
NOT_ALLOWED = (
    "%s may not make a database, which a restore needs. As the server's administrator type: "
    'ALTER ROLE "%s" CREATEDB'
)


@dataclass(frozen=True)
class PostgresReading:
    """A transaction that sees one moment."""

    live: psycopg.Connection[Any]

    def rows(self, question: str) -> list[tuple[Any, ...]]:
        """Return what a question is answered."""
        return self.live.execute(question.encode()).fetchall()

    def tables(self) -> set[str]:
        """Return the names of its tables."""
        there = "SELECT tablename FROM pg_tables WHERE schemaname = current_schema()"
        return {name for (name,) in self.rows(there)}

    def fault(self) -> str:
        """Nothing to ask: the server holds its own rules, and a damaged page stops its tools."""
        return ""


@dataclass(frozen=True, kw_only=True)
class PostgresDatabase:
    """A database by its name, and the way to its server."""

    name: str
    # What the server's library takes: host, port, user, password and the like.
    way: Mapping[str, Any] = field(repr=False)
    member = archive.POSTGRES

    @classmethod
    def of(cls, settings: Mapping[str, Any]) -> PostgresDatabase:
        """Return the one these settings of Django name."""
        given = DatabaseWrapper(dict(settings)).get_connection_params()
        known = {option.keyword.decode() for option in psycopg.pq.Conninfo.get_defaults()}
        way = {name: value for name, value in given.items() if name in known}
        return cls(name=way.pop("dbname"), way=way)

    @contextmanager
    def _connected(self, name: str = "") -> Iterator[psycopg.Connection[Any]]:
        try:
            with psycopg.connect(**self.way, dbname=name or self.name, autocommit=True) as live:
                yield live
        except psycopg.errors.InsufficientPrivilege as error:
            who = self.way.get("user", "This role")
            raise BackupError(NOT_ALLOWED % (who, who)) from error
        except psycopg.Error as error:
            message = f"The database server refused: {_line(str(error))}."
            raise BackupError(message) from error

    def _server(self) -> Any:
        """Connect beside the database: one that is in use cannot be renamed."""
        return self._connected("postgres" if self.name != "postgres" else "template1")

    def _exists(self) -> bool:
        with self._server() as server:
            asked = server.execute("SELECT 1 FROM pg_database WHERE datname = %s", [self.name])
            return asked.fetchone() is not None

    def is_empty(self) -> bool:
        """Whether it is not there, or has no table."""
        if not self._exists():
            return True
        with self.reading() as reading:
            return not reading.tables()

    def is_open(self) -> bool:
        """Whether anybody is connected to it."""
        ask = (
            "SELECT 1 FROM pg_stat_activity WHERE datname = %s AND pid <> pg_backend_pid() "
            "AND backend_type IS DISTINCT FROM 'autovacuum worker'"
        )
        until = time.monotonic() + PATIENCE
        with self._server() as server:
            while server.execute(ask, [self.name]).fetchone():
                if time.monotonic() > until:
                    return True
                time.sleep(0.1)
        return False

    @contextmanager
    def reading(self) -> Iterator[PostgresReading]:
        """Open it to be asked, as it is at one moment."""
        with self._connected() as live, live.transaction():
            live.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ READ ONLY")
            yield PostgresReading(live)

    @contextmanager
    def copied(self, file: Path) -> Iterator[PostgresReading]:
        """Dump it; what is asked is of the same moment as the dump."""
        with self.reading() as reading:
            ((snapshot,),) = reading.rows("SELECT pg_export_snapshot()")
            failed = self._run(
                *("pg_dump", "--format=custom", "--no-owner", "--no-privileges"),
                *(f"--snapshot={snapshot}", f"--file={file}"),
            )
            if failed:
                message = f"The database could not be copied ({failed}): keep the last back-up."
                raise BackupError(message)
            yield reading

    @contextmanager
    def unpacked(self, file: Path) -> Iterator[PostgresDatabase]:
        """Restore a copy into a new database; every rule of its tables is checked on the way."""
        new = replace(self, name=_named(self.name, f"restoring-{secrets.token_hex(4)}"))
        self._make(new.name)
        try:
            failed = new._run(
                *("pg_restore", "--exit-on-error", "--single-transaction"),
                *("--no-owner", "--no-privileges", str(file)),
            )
            if failed:
                raise BackupError(archive.DAMAGED % failed)
            with new._connected() as live:
                live.execute("ANALYZE")
            yield new
        finally:
            self._drop(new.name)

    def set_aside(self, kept: Path, undo: ExitStack) -> None:
        """Give it another name."""
        if self._exists():
            self._rename(self.name, self.kept_in(kept))
            undo.callback(self._rename, self.kept_in(kept), self.name)

    def take_place(self, of: PostgresDatabase, undo: ExitStack) -> None:
        """Take the other one's name."""
        self._rename(self.name, of.name)
        undo.callback(self._rename, of.name, self.name)

    def kept_in(self, kept: Path) -> str:
        """The name it has from then on."""
        return _named(self.name, kept.name)

    def forget(self, kept: Path) -> None:
        """Drop it."""
        self._drop(self.kept_in(kept))

    def _make(self, name: str) -> None:
        """Make a database that sorts and reads as this one does, or as the server does."""
        ask = "SELECT datcollate, datctype FROM pg_database WHERE datname = %s"
        make = sql.SQL("CREATE DATABASE {} TEMPLATE template0 ENCODING 'UTF8'").format(
            sql.Identifier(name)
        )
        with self._server() as server:
            if alike := server.execute(ask, [self.name]).fetchone():
                make += sql.SQL(" LC_COLLATE {} LC_CTYPE {}").format(*map(sql.Literal, alike))
            server.execute(make)

    def _drop(self, name: str) -> None:
        with self._server() as server:
            server.execute(sql.SQL("DROP DATABASE IF EXISTS {}").format(sql.Identifier(name)))

    def _rename(self, name: str, to: str) -> None:
        names = sql.Identifier(name), sql.Identifier(to)
        with self._server() as server:
            server.execute(sql.SQL("ALTER DATABASE {} RENAME TO {}").format(*names))

    def _run(self, tool: str, *words: str) -> str:
        """Run a tool of the server on it; returns why it failed, empty when it did not."""
        program = shutil.which(tool)
        if program is None:
            raise BackupError(NO_TOOL % tool)
        # The password stands in no list of processes.
        plain = {name: value for name, value in self.way.items() if name != "password"}
        address = psycopg.conninfo.make_conninfo(**plain, dbname=self.name)
        environment = dict(os.environ)
        if password := self.way.get("password"):
            environment["PGPASSWORD"] = str(password)
        done = subprocess.run(  # noqa: S603 - words of our own, no shell
            [program, f"--dbname={address}", *words],
            env=environment,
            capture_output=True,
            text=True,
        )
        return _line(done.stderr) or "no reason given" if done.returncode else ""


def _named(name: str, end: str) -> str:
    """Return a name that tells what it is, whole at its end."""
    room = LONGEST_NAME - len(end.encode()) - 1
    return f"{name.encode()[:room].decode(errors='ignore')}-{end}"


def _line(text: str) -> str:
    """Return the first line of what the server said, to be put into a sentence."""
    return text.strip().splitlines()[0].rstrip(".") if text.strip() else ""
