"""An empty database of its own, for tests of one migration."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from django.db import connections
from django.test import override_settings

APART = "apart"


class Apart:
    """Sends every query to the database apart."""

    def db_for_read(self, model: object, **hints: object) -> str:
        """Return where rows are read."""
        return APART

    db_for_write = db_for_read


@pytest.fixture
def apart(tmp_path, django_db_blocker) -> Iterator[Any]:
    """An empty SQLite database beside that of the tests, of whatever kind that is."""
    connections.settings[APART] = connections.settings["default"] | {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": tmp_path / "apart",
        "OPTIONS": {},
    }
    # Tables of tests come from the models; here the migrations on the disk are asked for.
    as_written = override_settings(DATABASE_ROUTERS=[Apart()], MIGRATION_MODULES={})
    with django_db_blocker.unblock(), as_written:
        yield connections[APART]
        connections[APART].close()
    del connections[APART], connections.settings[APART]
