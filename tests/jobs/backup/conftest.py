"""An installation in a folder of its own, filled from a scene, and a back-up of it."""

from __future__ import annotations

import datetime as dt
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from django.core.files.base import ContentFile
from django.db import connection
from django.db.migrations.loader import MigrationLoader
from django.test import override_settings

from jobs.backup.installation import Installation
from jobs.backup.making import back_up
from jobs.models import IssuedSheet, Photo, User
from tests.jobs.backup.tools import at
from tests.jobs.scenes import Hatchback

WHEN = dt.datetime(2026, 11, 28, 9, 30, tzinfo=dt.UTC)


@pytest.fixture(scope="module", autouse=True)
def _migrations_as_written() -> Iterator[None]:
    """Tables of tests come from the models; a back-up asks for the migrations on the disk."""
    with override_settings(MIGRATION_MODULES={}):
        yield


def _add_photos_and_a_sheet(hatchback: Hatchback, installer: User) -> None:
    """Add what a scene has none of."""
    for number in range(3):
        pictures = {
            name: ContentFile(bytes([number]) * 5000, "x")
            for name in ("image", "small", "original")
        }
        Photo.objects.create(
            job=hatchback.job, panel=hatchback.job.panels.first(), taken_by=installer, **pictures
        )
    IssuedSheet.objects.create(
        job=hatchback.job, kind="build", revision=1, paper="a4", language="en", data={"a": 1},
        pdf=b"%PDF-1.7 invented", sha256="0" * 64, issued_by=installer, issued_at=WHEN,
    )  # fmt: skip


def _install(folder: Path, hatchback: Hatchback, installer: User) -> Path:
    """Lay an installation out, its migrations noted as `migrate` notes them."""
    there = at(folder)
    there.key.write_text("an invented key")
    with override_settings(MEDIA_ROOT=there.media):
        _add_photos_and_a_sheet(hatchback, installer)
    assert isinstance(connection.connection, sqlite3.Connection)
    there.database.write_bytes(connection.connection.serialize())
    noted = [(app, name, WHEN.isoformat()) for app, name in MigrationLoader(None).disk_migrations]
    with closing(sqlite3.connect(there.database)) as file, file:
        file.execute("PRAGMA journal_mode=WAL")
        file.execute(
            "CREATE TABLE django_migrations (id integer PRIMARY KEY AUTOINCREMENT,"
            " app varchar(255), name varchar(255), applied datetime)"
        )
        file.executemany(
            "INSERT INTO django_migrations (app, name, applied) VALUES (?, ?, ?)", noted
        )
    return folder


@pytest.fixture(scope="module")
def _installed(tmp_path_factory, _building, _hatchback, _people) -> Path:
    folder = tmp_path_factory.mktemp("template") / "installed"
    return _building(_install, folder, _hatchback, _people.installer)


@pytest.fixture(scope="module")
def _backup(tmp_path_factory, _installed) -> Path:
    file = tmp_path_factory.mktemp("template") / "undertrim.zip"
    back_up(at(_installed), file)
    return file


@pytest.fixture
def installed(db, tmp_path, _installed) -> Installation:
    """An installation nobody is working on."""
    return at(shutil.copytree(_installed, tmp_path / "installed"))


@pytest.fixture
def backup(db, tmp_path, _backup) -> Path:
    """A back-up of it."""
    folder = tmp_path / "away"
    folder.mkdir()
    return Path(shutil.copy(_backup, folder / "undertrim.zip"))
