"""The migration that gave people several roles: nobody loses theirs, forwards and back."""

from __future__ import annotations

import pytest
from django.db.migrations.loader import MigrationLoader

BEFORE, AFTER = ("jobs", "0013_issued_sheet_fingerprint"), ("jobs", "0014_people")


@pytest.mark.long  # what is written never changes
def test_one_role_becomes_the_first_of_several(apart):
    """Roles are kept, whoever had none has none, and the demo is known by its people."""
    loader = MigrationLoader(None, replace_migrations=False)
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
