"""A back-up that is not sound changes nothing; one that is comes back whole."""

from __future__ import annotations

import json
import random
import shutil
import sqlite3
import zipfile
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from jobs.backup import restoring
from jobs.backup.installation import Installation
from jobs.backup.making import back_up
from jobs.backup.refusal import BackupError
from jobs.backup.sqlite import SqliteReading
from tests.jobs.backup.tools import (
    at,
    disk_with,
    files,
    is_postgres,
    kept_database,
    of_files,
    restore,
    rows,
    run_sql,
    state,
)

FLIPS, MANY_FLIPS = 60, 5000


def _refused(file: Path, there: Installation, words: str, *, replace: bool = True) -> None:
    """Nothing is changed, and one line says why."""
    before = state(there)
    with pytest.raises(BackupError, match=words) as refusal:
        restore(file, there, replace=replace)
    assert "\n" not in str(refusal.value)
    assert state(there) == before


def _flipped(file: Path, position: int) -> Path:
    raw = bytearray(file.read_bytes())
    raw[position] ^= 0x10
    damaged = file.with_name("damaged.zip")
    damaged.write_bytes(raw)
    return damaged


def _repacked(file: Path, change: Callable[[dict[str, bytes]], None]) -> Path:
    """Pack the members anew after a change; hashes stay those of before."""
    with zipfile.ZipFile(file) as packed:
        members = {name: packed.read(name) for name in packed.namelist()}
    change(members)
    other = file.with_name("other.zip")
    with zipfile.ZipFile(other, "w") as packed:
        for name, raw in members.items():
            packed.writestr(name, raw)
    return other


def _same(there: Installation, as_in: Installation) -> bool:
    return (
        rows(there.database) == rows(as_in.database)
        and files(there.media) == files(as_in.media)
        and there.key.read_text() == as_in.key.read_text()
    )


def test_a_restored_installation_is_the_same(backup, installed, tmp_path):
    """Every row of every table and every file, readable by their owner only."""
    new = at(tmp_path / "new")
    if not is_postgres():
        new.database.path.touch()
    new.key.write_text("the key of a first start")
    assert restore(backup, new) is None
    assert _same(new, installed)
    own = set() if is_postgres() else {"undertrim.sqlite3"}
    assert {file.name for file in new.folder.iterdir()} == {"media", "secret_key"} | own
    modes = {file.stat().st_mode & 0o077 for file in new.folder.rglob("*")}
    assert modes == {0}


def test_an_installation_is_not_overwritten_unless_told(backup, installed):
    """Without --replace it is left as it is; with it, it is kept beside, whole."""
    _refused(backup, installed, "say --replace", replace=False)
    run_sql(installed, "UPDATE jobs_job SET title = 'typed since'")
    (installed.media / "since.jpg").write_bytes(b"since")
    before = rows(installed.database)
    kept = restore(backup, installed, replace=True)
    assert kept is not None
    assert rows(kept_database(installed, kept)) == before
    assert (kept / "media" / "since.jpg").read_bytes() == b"since"
    assert not (installed.media / "since.jpg").exists()
    assert rows(installed.database) != before


@of_files
@pytest.mark.parametrize("is_damaged", [False, True])
def test_what_lies_beside_an_old_database_does_not_come_back(backup, installed, is_damaged):
    """A -wal left by a crash holds newer writes; it goes with the database it belongs to."""
    crashed = at(installed.folder.with_name("crashed"))
    with closing(sqlite3.connect(installed.database.path)) as file:
        file.execute("UPDATE jobs_job SET title = 'newer write'")
        file.commit()
        for path in installed.database._files:
            if path.exists():
                shutil.copy(path, crashed.folder / path.name)
    assert (crashed.folder / "undertrim.sqlite3-wal").stat().st_size
    if is_damaged:
        crashed.database.path.write_bytes(b"no database" * 1000)
    kept = restore(backup, crashed, replace=True)
    assert kept is not None
    with closing(sqlite3.connect(crashed.database.path)) as file:
        assert file.execute("SELECT title FROM jobs_job").fetchone() != ("newer write",)
        assert file.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    if not is_damaged:
        with closing(sqlite3.connect(kept / "undertrim.sqlite3")) as file:
            assert file.execute("SELECT title FROM jobs_job").fetchone() == ("newer write",)


@of_files
def test_a_wal_without_its_database_is_no_empty_installation(backup, tmp_path):
    """Somebody's last saves may be in it."""
    there = at(tmp_path / "there")
    (there.folder / "undertrim.sqlite3-wal").write_bytes(b"saves")
    _refused(backup, there, "say --replace", replace=False)


def test_damage_in_any_member_is_found(backup, tmp_path):
    """A byte flipped in the middle of each file in it."""
    there = at(tmp_path / "new")
    with zipfile.ZipFile(backup) as packed:
        entries = packed.infolist()
    assert len(entries) == 12
    for entry in entries:
        start = entry.header_offset + 30 + len(entry.filename) + 20
        middle = _flipped(backup, start + entry.compress_size // 2)
        _refused(middle, there, "damaged|no back-up")


def _flips(backup: Path, installed: Installation, folder: Path, count: int) -> None:
    chance, size, refused = random.Random(), backup.stat().st_size, 0
    for number in range(count):
        position = chance.randrange(size)
        there = at(folder / f"flip-{number}")
        try:
            restore(_flipped(backup, position), there)
        except BackupError:
            refused += 1
            assert files(there.folder) == {}, position
        else:
            assert _same(there, installed), position
        shutil.rmtree(there.folder)
    assert refused > count / 2


def test_a_damaged_backup_is_never_restored_as_something_else(backup, installed, tmp_path):
    """A byte flipped anywhere is refused, or was one that says nothing, such as a date."""
    _flips(backup, installed, tmp_path, FLIPS)


@pytest.mark.long
def test_thousands_of_flipped_bytes(backup, installed, tmp_path):
    """The same, thousands of times."""
    _flips(backup, installed, tmp_path, MANY_FLIPS)


@pytest.mark.parametrize("share", [0.0, 0.1, 0.5, 0.99])
def test_half_a_backup_is_refused(backup, installed, share):
    """A copy that was cut off."""
    raw = backup.read_bytes()
    backup.write_bytes(raw[: int(share * len(raw))])
    _refused(backup, installed, "no back-up of Undertrim")


def test_another_file_is_refused(backup, installed, tmp_path):
    """A text, a zip of something else, a zip with another manifest."""
    other = tmp_path / "other.zip"
    other.write_text("no zip at all")
    _refused(other, installed, "no back-up of Undertrim")
    _refused(_repacked(backup, lambda m: m.pop("manifest.json")), installed, "no back-up")
    for manifest in (b"[]", b"{}", b'{"format": "a game"}', b"not json", b"\xff"):

        def replace(members: dict[str, bytes], manifest: bytes = manifest) -> None:
            members["manifest.json"] = manifest

        _refused(_repacked(backup, replace), installed, "no back-up of Undertrim")


def test_what_it_does_not_list_is_refused(backup, installed):
    """A member more, a member less, one that would land elsewhere."""
    _refused(_repacked(backup, lambda m: m.update({"more": b""})), installed, "not what it lists")
    _refused(_repacked(backup, lambda m: m.pop("secret_key")), installed, "not what it lists")
    _refused(_repacked(backup, lambda m: m.update(secret_key=b"other")), installed, "secret_key is")
    for name in ("media/../../escaped", "/escaped", "config/settings.py"):

        def add(members: dict[str, bytes], name: str = name) -> None:
            manifest = json.loads(members["manifest.json"])
            manifest["members"][name] = manifest["members"]["secret_key"]
            members["manifest.json"] = json.dumps(manifest).encode()
            members[name] = members["secret_key"]

        _refused(_repacked(backup, add), installed, "damaged")
    assert not list(installed.folder.parent.rglob("escaped"))


def test_a_newer_format_is_refused(backup, installed):
    """A back-up of a format this code does not know."""

    def later(members: dict[str, bytes]) -> None:
        manifest = json.loads(members["manifest.json"]) | {"format_version": 2, "app": "9.0"}
        members["manifest.json"] = json.dumps(manifest).encode()

    _refused(_repacked(backup, later), installed, r"of a newer Undertrim \(9\.0\)")


def _note(there: Installation, migration: str) -> None:
    """Note a migration of ours as one it has been through."""
    run_sql(
        there,
        "INSERT INTO django_migrations (app, name, applied)"
        f" VALUES ('jobs', '{migration}', CURRENT_TIMESTAMP)",
    )


def test_tables_of_a_newer_app_are_refused(installed, tmp_path):
    """Migrations this code does not have have changed what it would not understand."""
    _note(installed, "9999_later")
    back_up(installed, tmp_path / "later.zip")
    _refused(tmp_path / "later.zip", installed, r"newer Undertrim .*jobs\.9999_later")


def test_tables_of_an_older_app_are_not(installed, tmp_path):
    """A squash that a larger one took the place of is noted in older databases, and known."""
    _note(installed, "0001_squashed_0121")
    back_up(installed, tmp_path / "older.zip")
    restore(tmp_path / "older.zip", installed, replace=True)


@of_files
def test_a_database_at_odds_with_itself_is_refused(installed, tmp_path, monkeypatch):
    """Rows that need rows that are not there, although every hash is right."""
    with closing(sqlite3.connect(installed.database.path)) as file, file:
        file.execute("DELETE FROM jobs_vehicle")
    with monkeypatch.context() as careless:
        careless.setattr(SqliteReading, "fault", lambda _reading: "")
        back_up(installed, tmp_path / "odd.zip")
    _refused(tmp_path / "odd.zip", installed, "needs a row of jobs_vehicle")


@of_files
@pytest.mark.parametrize("step", range(1, 7))
def test_a_move_that_fails_takes_all_moves_back(backup, installed, monkeypatch, step):
    """Whichever file cannot be moved, the old installation is where it was."""
    before, move, calls = files(installed.folder), shutil.move, 0

    def failing(source: Path, target: Path) -> None:
        nonlocal calls
        calls += 1
        if calls == step:
            raise OSError(28, "No space left on device")
        move(source, target)

    monkeypatch.setattr(restoring.shutil, "move", failing)
    with pytest.raises(OSError, match="No space left"):
        restore(backup, installed, replace=True)
    assert files(installed.folder) == before


@of_files
def test_a_full_disk_changes_nothing(backup, installed):
    """A back-up that finds no room beside the installation leaves it as it is."""
    before = files(installed.folder)
    with disk_with(100_000), pytest.raises(OSError, match="File too large"):
        restore(backup, installed, replace=True)
    assert files(installed.folder) == before
