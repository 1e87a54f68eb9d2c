"""The migration that gave people several roles: nobody loses theirs, forwards and back."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from django.db import connections
from django.db.migrations.loader import MigrationLoader
from django.test import override_settings

BEFORE, AFTER = ("jobs", "0013_issued_sheet_fingerprint"), ("jobs", "0014_people")
APART = "apart"


class Apart:
    """Sends every query to the database apart."""

    def db_for_read(self, model: object, **hints: object) -> str:
        """Return where rows are read."""
        return APART

    db_for_write = db_for_read


@pytest.fixture
def apart(tmp_path, django_db_blocker) -> Iterator[Any]:
    """An empty database beside that of the tests."""
    connections.settings[APART] = connections.settings["default"] | {"NAME": tmp_path / "apart"}
    with django_db_blocker.unblock(), override_settings(DATABASE_ROUTERS=[Apart()]):
        yield connections[APART]
        connections[APART].close()
    del connections[APART], connections.settings[APART]


def test_one_role_becomes_the_first_of_several(apart):
    """Roles are kept, whoever had none has none, and the demo is known by its people."""
    loader = MigrationLoader(None)
    migration, before = loader.get_migration(*AFTER), loader.project_state(BEFORE)
    people = {"consultant": "consultant", "designer": "designer", "installer": "installer"}
    people |= {"manager": "manager", "stranger": ""}
    user, workshop = (before.apps.get_model("jobs", name) for name in ("User", "Workshop"))
    # Only the tables it changes are made, not those of all migrations before it.
    with apart.schema_editor() as tables:
        tables.create_model(user)
        tables.create_model(workshop)
    for name, role in people.items():
        user.objects.create(username=name, role=role)
    workshop.objects.create()
    with apart.schema_editor() as tables:
        after = migration.apply(before.clone(), tables)
    assert after.apps.get_model("jobs", "Workshop").objects.get().is_demo
    user = after.apps.get_model("jobs", "User")
    roles = dict(user.objects.values_list("username", "roles"))
    assert roles == {name: [role] if role else [] for name, role in people.items()}
    user.objects.filter(username="designer").update(roles=["installer", "manager"])
    with apart.schema_editor() as tables:
        migration.unapply(before.clone(), tables)
    user = before.apps.get_model("jobs", "User")
    roles = dict(user.objects.values_list("username", "role"))
    assert roles == people | {"designer": "manager"}
