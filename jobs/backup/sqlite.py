"""A SQLite file: copied while others write, looked over, put in the place of another."""

from __future__ import annotations

import fcntl
import os
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import ExitStack, closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from jobs.backup import archive

PATIENCE = 60.0  # seconds to wait for others
# SQLite locks these bytes of its file for as long as somebody has it open in WAL mode
# (sqlite.org/fileformat2.html, "The Lock-Byte Page"; os_unix.c).
LOCK_BYTES = (0x4000_0000, 512)
BESIDE = ("", "-wal", "-shm", "-journal")  # what SQLite writes beside its file


@dataclass(frozen=True)
class SqliteReading:
    """An open file."""

    file: sqlite3.Connection

    def rows(self, question: str) -> list[tuple[Any, ...]]:
        """Return what a question is answered."""
        return self.file.execute(question).fetchall()

    def tables(self) -> set[str]:
        """Return the names of its tables."""
        return {name for (name,) in self.rows("SELECT name FROM sqlite_master WHERE type='table'")}

    def fault(self) -> str:
        """Return what is wrong with it: a page, or a row that needs one that is not there."""
        try:
            ((first,),) = self.rows("PRAGMA integrity_check(1)")
            if first != "ok":
                return str(first).splitlines()[-1]
            orphan = self.file.execute("PRAGMA foreign_key_check").fetchone()
        except sqlite3.DatabaseError as error:
            return str(error)
        if orphan:
            table, row, parent, _number = orphan
            return f"row {row} of {table} needs a row of {parent} that is not there"
        return ""


@dataclass(frozen=True)
class SqliteFile:
    """A file and what SQLite keeps beside it."""

    path: Path
    member = archive.SQLITE

    @property
    def name(self) -> str:
        """What the settings call it."""
        return str(self.path)

    @property
    def _files(self) -> list[Path]:
        return [self.path.with_name(self.path.name + end) for end in BESIDE]

    def is_empty(self) -> bool:
        """Whether nothing was ever kept: settings make an empty file on the first start."""
        return not any(file.exists() and file.stat().st_size for file in self._files)

    def is_open(self) -> bool:
        """Whether another process has it open; a damaged one can be asked too."""
        if not self.path.exists():
            return False
        start, length = LOCK_BYTES
        with self.path.open("r+b") as file:
            try:
                fcntl.lockf(file, fcntl.LOCK_EX | fcntl.LOCK_NB, length, start, os.SEEK_SET)
            except BlockingIOError:
                return True
        return False

    @contextmanager
    def reading(self) -> Iterator[SqliteReading]:
        """Open a file that is there; SQLite would make one otherwise."""
        address = f"{self.path.absolute().as_uri()}?mode=rw"
        with closing(sqlite3.connect(address, uri=True, timeout=PATIENCE)) as file:
            yield SqliteReading(file)

    @contextmanager
    def copied(self, file: Path) -> Iterator[SqliteReading]:
        """Copy it, as it is at one moment, into a single file."""
        with self.reading() as live, closing(sqlite3.connect(file)) as written:
            live.file.backup(written)  # all pages in one step: no writer comes between them
            written.execute("PRAGMA journal_mode=DELETE")
            yield SqliteReading(written)

    @contextmanager
    def unpacked(self, file: Path) -> Iterator[SqliteFile]:
        """A copy is a database already."""
        yield SqliteFile(file)

    def set_aside(self, kept: Path, undo: ExitStack) -> None:
        """Move all of it: what SQLite left beside the file would be written into the new one."""
        for file in self._files:
            if file.exists():
                shutil.move(file, kept / file.name)
                undo.callback(shutil.move, kept / file.name, file)

    def take_place(self, of: SqliteFile, undo: ExitStack) -> None:
        """Move it to where the other one was."""
        shutil.move(self.path, of.path)
        undo.callback(shutil.move, of.path, self.path)
        archive.settle(of.path.parent)

    def kept_in(self, kept: Path) -> str:
        """It lies in the folder with everything else."""
        return str(kept)

    def forget(self, kept: Path) -> None:
        """It goes with the folder."""
