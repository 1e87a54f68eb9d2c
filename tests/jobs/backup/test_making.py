"""A back-up is whole or not there at all."""

from __future__ import annotations

import hashlib
import json
import sqlite3
import zipfile
from contextlib import closing

import pytest

from jobs.backup import making
from jobs.backup.installation import Installation
from jobs.backup.making import back_up
from jobs.backup.refusal import BackupError
from tests.jobs.backup.tools import disk_with, files, of_files


def test_the_manifest_knows_the_hash_of_everything(backup, installed):
    """Database, key and photos, as they are stored, each with its SHA-256; nothing else."""
    with zipfile.ZipFile(backup) as packed:
        manifest = json.loads(packed.read("manifest.json"))
        names = set(packed.namelist()) - {"manifest.json"}
        hashes = {name: hashlib.sha256(packed.read(name)).hexdigest() for name in names}
    photos = {f"media/{name}" for name in files(installed.media)}
    assert len(photos) == 9
    assert names == photos | {installed.database.member, "secret_key"}
    assert {name: member["sha256"] for name, member in manifest["members"].items()} == hashes
    counts = manifest["counts"]
    assert (counts["jobs"], counts["photos"], counts["sheets"]) == (1, 3, 1)
    assert counts["newest"] > "2026"
    assert any(name.startswith("jobs.0") for name in manifest["schema"])


def test_only_its_owner_reads_a_backup(backup):
    """It holds customers, passwords and the key."""
    assert backup.stat().st_mode & 0o777 == 0o600
    assert [file.name for file in backup.parent.iterdir()] == [backup.name]


def test_a_backup_is_not_overwritten_unless_told(backup, installed):
    """The file of yesterday stays unless --replace is said."""
    before = backup.read_bytes()
    with pytest.raises(BackupError, match="is there already"):
        back_up(installed, backup)
    assert backup.read_bytes() == before
    (installed.media / "later.jpg").write_bytes(b"later")
    back_up(installed, backup, replace=True)
    assert backup.read_bytes() != before


@of_files
@pytest.mark.parametrize("share", [0.5, 1.5])
def test_a_full_disk_leaves_no_half_file(backup, installed, share):
    """Full while the database is copied, or while it is packed: the last back-up is as it was."""
    (installed.media / "large.jpg").write_bytes(bytes(3 * installed.database.path.stat().st_size))
    before = files(backup.parent)
    room = int(share * installed.database.path.stat().st_size)
    with disk_with(room), pytest.raises((OSError, sqlite3.Error)):
        back_up(installed, backup, replace=True)
    with disk_with(room), pytest.raises((OSError, sqlite3.Error)):
        back_up(installed, backup.with_name("other.zip"))
    assert files(backup.parent) == before
    assert len(list(backup.parent.iterdir())) == 1


@of_files
def test_a_damaged_database_does_not_replace_a_sound_backup(backup, installed):
    """What could not be restored is not written over what can."""
    before = backup.read_bytes()
    with closing(sqlite3.connect(installed.database.path)) as file, file:
        file.execute("DELETE FROM jobs_vehicle")
    with pytest.raises(BackupError, match="needs a row of jobs_vehicle"):
        back_up(installed, backup, replace=True)
    raw = bytearray(installed.database.path.read_bytes())
    raw[4096 : len(raw) // 2] = bytes(len(raw) // 2 - 4096)
    installed.database.path.write_bytes(raw)
    with pytest.raises((BackupError, sqlite3.DatabaseError)):
        back_up(installed, backup, replace=True)
    assert backup.read_bytes() == before


def test_a_photo_that_is_nowhere_is_told(installed, tmp_path):
    """A back-up is made without it, and says so."""
    gone = next(path for path in installed.photos())
    gone.unlink()
    made = back_up(installed, tmp_path / "away.zip")
    assert made.missing == [f"media/{gone.relative_to(installed.media)}"]


def test_a_photo_removed_meanwhile_stops_nothing(installed, tmp_path, monkeypatch):
    """Somebody erases a photo while the others are packed."""
    listed = installed.photos()
    listed[0].unlink()
    monkeypatch.setattr(Installation, "photos", lambda _self: listed)
    made = back_up(installed, tmp_path / "away.zip")
    assert len(made.missing) == 1


@of_files
def test_an_empty_installation_is_no_backup(installed, tmp_path):
    """An installation without tables is told from one worth keeping."""
    installed.database.path.unlink()
    installed.database.path.touch()
    with pytest.raises(BackupError, match="nothing to back up"):
        making.back_up(installed, tmp_path / "away.zip")
    assert not (tmp_path / "away.zip").exists()


def test_a_backup_among_the_photos_is_refused(installed):
    """It would contain itself."""
    with pytest.raises(BackupError, match="keep back-ups elsewhere"):
        back_up(installed, installed.media / "away.zip")


@of_files
def test_what_was_saved_is_on_the_disk(db):
    """SQLite syncs each commit: a power cut takes nothing that was answered as saved."""
    from django.db import connection

    with connection.cursor() as cursor:
        cursor.execute("PRAGMA synchronous")
        assert cursor.fetchone() == (2,)  # FULL, sqlite.org/pragma.html#pragma_synchronous
