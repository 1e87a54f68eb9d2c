"""Two kinds of database: neither is restored as the other, and each says who is in the way."""

from __future__ import annotations

import json
import subprocess
import zipfile
from pathlib import Path

import psycopg
import pytest
from django.conf import settings

from jobs.backup import archive
from jobs.backup.installation import Installation
from jobs.backup.making import back_up
from jobs.backup.postgres import PostgresDatabase
from jobs.backup.refusal import BackupError
from tests.jobs.backup.tools import at, files, is_postgres, manage, restore, state

of_a_server = pytest.mark.skipif(
    not is_postgres(), reason="needs PostgreSQL: python -m tests.postgres pytest"
)
OTHER = {archive.SQLITE: archive.POSTGRES, archive.POSTGRES: archive.SQLITE}


def _of_the_other_kind(backup: Path) -> Path:
    """The same back-up as the other kind would have named its database."""
    with zipfile.ZipFile(backup) as packed:
        members = {name: packed.read(name) for name in packed.namelist()}
    manifest = json.loads(members["manifest.json"])
    for held in (members, manifest["members"]):
        for name in OTHER.keys() & held.keys():
            held[OTHER[name]] = held.pop(name)
            break
    members["manifest.json"] = json.dumps(manifest).encode()
    other = backup.with_name("other.zip")
    with zipfile.ZipFile(other, "w") as packed:
        for name, raw in members.items():
            packed.writestr(name, raw)
    return other


def test_a_backup_of_the_other_kind_is_refused(backup, installed):
    """A SQLite file does not go into PostgreSQL, nor a dump into SQLite; both are named."""
    before = state(installed)
    with pytest.raises(BackupError, match=r"of the kind (SQLite|PostgreSQL).*DATABASE_URL"):
        restore(_of_the_other_kind(backup), installed, replace=True)
    assert state(installed) == before


def test_the_settings_say_which_kind(db):
    """One variable decides; nothing else is asked."""
    assert Installation.here().database.member == (
        archive.POSTGRES if is_postgres() else archive.SQLITE
    )


def _databases() -> set[str]:
    way = PostgresDatabase.of(settings.DATABASES["default"]).way
    with psycopg.connect(**way, dbname="postgres") as server:
        return {name for (name,) in server.execute("SELECT datname FROM pg_database")}


@of_a_server
def test_a_restore_leaves_no_database_behind(backup, installed, tmp_path):
    """Refused or done: what was made on the way is gone."""
    before = _databases()
    raw = backup.read_bytes()
    backup.write_bytes(raw.replace(b"PGDMP", b"PGXXX", 1))
    with pytest.raises(BackupError, match="damaged"):
        restore(backup, installed, replace=True)
    backup.write_bytes(raw)
    with pytest.raises(BackupError, match="say --replace"):
        restore(backup, installed)
    assert _databases() == before
    new = at(tmp_path / "new")
    assert restore(backup, new) is None
    assert _databases() - before == {new.database.name}


@of_a_server
def test_a_dump_that_does_not_restore_is_refused(backup, installed):
    """Its hash is right and its rows are not: the server says so before anything is moved."""
    with zipfile.ZipFile(backup) as packed:
        members = {name: packed.read(name) for name in packed.namelist()}
    cut = members["undertrim.pgdump"][: len(members["undertrim.pgdump"]) // 2]
    away = backup.with_name("cut")
    away.write_bytes(cut)
    with zipfile.ZipFile(backup) as packed:
        about = json.loads(packed.read("manifest.json"))
    odd = backup.with_name("odd.zip")
    named = {name: about[name] for name in ("app", "made", "schema", "counts")}
    archive.pack(odd, [("undertrim.pgdump", away)], **named)
    before = state(installed)
    with pytest.raises(BackupError, match="damaged"):
        restore(odd, installed, replace=True)
    assert state(installed) == before


@of_a_server
def test_nobody_restores_over_a_database_in_use(backup, installed):
    """Whoever is connected is in the way, and is told to stop."""
    before = files(installed.folder)
    assert isinstance(installed.database, PostgresDatabase)
    with (
        psycopg.connect(**installed.database.way, dbname=installed.database.name),
        pytest.raises(BackupError, match="is running on this database"),
    ):
        restore(backup, installed, replace=True)
    assert files(installed.folder) == before
    assert restore(backup, installed, replace=True) is not None


@of_a_server
@pytest.mark.parametrize("step", range(1, 3))
def test_a_rename_that_fails_takes_everything_back(backup, installed, monkeypatch, step):
    """The old database, the photos and the key are where they were."""
    before, rename, calls = state(installed), PostgresDatabase._rename, 0

    def failing(self: PostgresDatabase, name: str, to: str) -> None:
        nonlocal calls
        calls += 1
        if calls == step:
            message = "the server went away"
            raise BackupError(message)
        rename(self, name, to)

    monkeypatch.setattr(PostgresDatabase, "_rename", failing)
    with pytest.raises(BackupError, match="went away"):
        restore(backup, installed, replace=True)
    assert state(installed) == before


@of_a_server
def test_who_may_not_make_a_database_is_told_what_to_type(backup, installed, tmp_path):
    """A restore needs one right more than the app."""
    assert isinstance(installed.database, PostgresDatabase)
    with psycopg.connect(**installed.database.way, dbname="postgres", autocommit=True) as server:
        server.execute("CREATE ROLE humble LOGIN")
        try:
            new = at(tmp_path / "new")
            humble = PostgresDatabase(
                name=new.database.name, way={**installed.database.way, "user": "humble"}
            )
            there = Installation(folder=new.folder, database=humble, media=new.media, key=new.key)
            with pytest.raises(BackupError, match='ALTER ROLE "humble" CREATEDB'):
                restore(backup, there)
        finally:
            server.execute("DROP ROLE humble")
    assert files(new.folder) == {}


@of_a_server
def test_missing_tools_are_named(installed, tmp_path, monkeypatch):
    """Without pg_dump there is no back-up, and one line says what to install."""
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(BackupError, match="apt-get install postgresql-client"):
        back_up(installed, tmp_path / "away.zip")
    assert not (tmp_path / "away.zip").exists()


@of_a_server
def test_a_password_stands_in_no_list_of_processes(installed, tmp_path, monkeypatch):
    """It goes to the tools in their environment."""
    seen: list[tuple[list[str], dict[str, str]]] = []
    assert isinstance(installed.database, PostgresDatabase)
    secret = PostgresDatabase(
        name=installed.database.name, way={**installed.database.way, "password": "hush"}
    )
    run = subprocess.run

    def noting(words: list[str], **more: object) -> object:
        seen.append((words, more["env"]))  # type: ignore[arg-type]
        return run(words, **more)  # type: ignore[call-overload]

    monkeypatch.setattr(subprocess, "run", noting)
    with secret.copied(tmp_path / "dump"):
        pass
    ((words, given),) = seen
    assert "hush" not in " ".join(words)
    assert given["PGPASSWORD"] == "hush"
    assert "hush" not in repr(secret)


@of_a_server
def test_a_server_that_is_away_is_one_line(installed, tmp_path):
    """No back-up is made, and the terminal says why."""
    nowhere = f"postgres://x@/y?host={tmp_path}"
    told = manage(installed, "backup", tmp_path / "away.zip", DATABASE_URL=nowhere)
    assert told.returncode == 1
    assert "refused" in told.stderr
    assert len(told.stderr.strip().splitlines()) == 1
