"""The restore drill: a back-up counts once it was restored and compared."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from jobs.backup.installation import Installation
from jobs.backup.making import back_up
from jobs.backup.refusal import BackupError
from tests.jobs.backup.tools import ROOT, Rows, at, environment, files, named_files, restore, rows

pytestmark = pytest.mark.served

ROUNDS, MANY_ROUNDS = 5, 100


class Writer:
    """Another process that keeps saving."""

    def __init__(self, process: subprocess.Popen[bytes], counted: Path) -> None:
        self.process, self._counted = process, counted

    @property
    def saves(self) -> int:
        """How many were acknowledged by now."""
        return self._counted.stat().st_size if self._counted.exists() else 0

    def wait_for_more_than(self, saves: int) -> None:
        """Wait until it has saved more."""
        while self.saves <= saves:
            assert self.process.poll() is None, "the writer ended"


@contextmanager
def _somebody_saving(there: Installation, tmp_path: Path) -> Iterator[Writer]:
    counted = tmp_path / "counted"
    command = [sys.executable, "-m", "tests.jobs.backup.writer", str(counted)]
    process = subprocess.Popen(command, env=environment(there), cwd=ROOT, stdin=subprocess.PIPE)
    writer = Writer(process, counted)
    try:
        writer.wait_for_more_than(0)
        yield writer
    finally:
        process.communicate()
    assert process.returncode == 0


def _lasting(all_rows: Rows) -> Rows:
    """Leave out what is changed in place: one row with its words, and SQLite's own counters."""
    plain = {row for row in all_rows["jobs_customer"] if "counter" not in row}
    words = {row for row in all_rows["jobs_word"] if "customer" not in row}
    lasting = all_rows | {"jobs_customer": plain, "jobs_word": words}
    lasting.pop("sqlite_sequence", None)
    return lasting


def _missing(before: Rows, restored: Rows) -> int:
    return sum(len(table - restored[name]) for name, table in before.items())


def _round(live: Installation, writer: Writer, folder: Path) -> int:
    """Back up, restore elsewhere, compare; returns how many saves fell into the back-up."""
    folder.mkdir()
    writer.wait_for_more_than(writer.saves)
    saves = writer.saves
    before, photos = rows(live.database), named_files(live)
    back_up(live, folder / "away.zip")
    during = writer.saves - saves
    after = rows(live.database)
    new = at(folder / "new")
    assert restore(folder / "away.zip", new) is None
    restored, kept = rows(new.database), files(new.media)

    assert _missing(_lasting(before), restored) == 0
    assert _missing(_lasting(restored), after) == 0
    names = {str(value) for row in restored["jobs_customer"] for value in row}
    assert {f"save {number}" for number in range(1, saves + 1)} <= names
    counter = next(row for row in restored["jobs_customer"] if "counter" in row)
    assert max(int(value) for value in counter if str(value).isdigit()) >= saves
    asked_for = named_files(new)
    assert photos
    assert photos <= asked_for
    assert {name: kept.get(name) for name in asked_for} == {
        name: (live.media / name).read_bytes() for name in asked_for
    }
    assert new.key.read_bytes() == live.key.read_bytes()
    return during


def _drill(live: Installation, tmp_path: Path, rounds: int) -> None:
    with _somebody_saving(live, tmp_path) as writer:
        during = [_round(live, writer, tmp_path / f"round-{n}") for n in range(rounds)]
        with pytest.raises(BackupError, match="is running on this database"):
            live.refuse_to_overwrite(replace=True)
    assert sum(during) > 0  # somebody did save while it was copied
    live.refuse_to_overwrite(replace=True)


def test_what_was_saved_before_a_backup_is_restored(installed, tmp_path):
    """Of all saves acknowledged before a back-up began none is missing, while others save on."""
    _drill(installed, tmp_path, ROUNDS)


@pytest.mark.long
def test_a_hundred_restores_are_equal(installed, tmp_path):
    """The same a hundred times."""
    _drill(installed, tmp_path, MANY_ROUNDS)
