"""An installation in a folder of its own, filled from a scene, and a back-up of it."""

from __future__ import annotations

import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from django.db import connection
from django.db.migrations.loader import MigrationLoader
from django.test import override_settings

from jobs.backup.installation import Installation
from jobs.backup.making import back_up
from jobs.backup.sqlite import SqliteFile
from jobs.models import User
from tests.jobs.backup.fill import WHEN, add_photos_and_a_sheet
from tests.jobs.backup.tools import ROOT, at, environment, is_postgres, make_postgres, manage
from tests.jobs.scenes import Hatchback


@pytest.fixture(scope="module", autouse=True)
def _migrations_as_written() -> Iterator[None]:
    """Tables of tests come from the models; a back-up asks for the migrations on the disk."""
    with override_settings(MIGRATION_MODULES={}):
        yield


def _install(folder: Path, hatchback: Hatchback, installer: User) -> Path:
    """Lay an installation out, its migrations noted as `migrate` notes them."""
    there = at(folder)
    assert isinstance(there.database, SqliteFile)
    there.key.write_text("an invented key")
    with override_settings(MEDIA_ROOT=there.media):
        add_photos_and_a_sheet(hatchback.job, installer)
    assert isinstance(connection.connection, sqlite3.Connection)
    there.database.path.write_bytes(connection.connection.serialize())
    noted = [(app, name, WHEN.isoformat()) for app, name in MigrationLoader(None).disk_migrations]
    with closing(sqlite3.connect(there.database.path)) as file, file:
        file.execute("PRAGMA journal_mode=WAL")
        file.execute(
            "CREATE TABLE django_migrations (id integer PRIMARY KEY AUTOINCREMENT,"
            " app varchar(255), name varchar(255), applied datetime)"
        )
        file.executemany(
            "INSERT INTO django_migrations (app, name, applied) VALUES (?, ?, ?)", noted
        )
    return folder


@pytest.fixture(scope="session")
def _installed_on_postgres(tmp_path_factory, django_db_setup) -> Path:
    """The same with a database that was migrated for real, once for all modules."""
    folder = tmp_path_factory.mktemp("template") / "installed"
    there = at(folder)
    make_postgres(there)
    there.key.write_text("an invented key")
    assert manage(there, "migrate", "-v0").returncode == 0
    filled = [sys.executable, "-m", "tests.jobs.backup.fill"]
    subprocess.run(filled, env=environment(there), cwd=ROOT, check=True)
    return folder


@pytest.fixture(scope="module")
def _installed(tmp_path_factory, _building, request) -> Path:
    if is_postgres():
        return Path(request.getfixturevalue("_installed_on_postgres"))
    folder = tmp_path_factory.mktemp("template") / "installed"
    hatchback, people = (request.getfixturevalue(name) for name in ("_hatchback", "_people"))
    return _building(_install, folder, hatchback, people.installer)


@pytest.fixture(scope="module")
def _backup(tmp_path_factory, _installed) -> Path:
    file = tmp_path_factory.mktemp("template") / "undertrim.zip"
    back_up(at(_installed), file)
    return file


@pytest.fixture
def installed(db, tmp_path, _installed) -> Installation:
    """An installation nobody is working on."""
    there = at(shutil.copytree(_installed, tmp_path / "installed"))
    if is_postgres():
        make_postgres(there, like=at(_installed))
    return there


@pytest.fixture
def backup(db, tmp_path, _backup) -> Path:
    """A back-up of it."""
    folder = tmp_path / "away"
    folder.mkdir()
    return Path(shutil.copy(_backup, folder / "undertrim.zip"))
