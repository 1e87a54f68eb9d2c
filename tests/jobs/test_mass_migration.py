"""The migration that gave every part of the catalogue a mass: no driver loses its own."""

from __future__ import annotations

import pytest
from django.db.migrations.loader import MigrationLoader


@pytest.mark.long  # what is written never changes
def test_a_driver_keeps_its_mass(apart):
    """What was entered for a driver is its mass as a part; what was not is still unknown."""
    loader = MigrationLoader(None, replace_migrations=False)
    before = loader.project_state(("jobs", "0038_shapes_are_rows"))
    driver = before.apps.get_model("jobs", "Driver")
    with apart.schema_editor() as tables:
        for model in before.apps.get_app_config("jobs").get_models():
            tables.create_model(model)
    driver.objects.create(kind="driver", name="heavy", mass=6.9)
    driver.objects.create(kind="driver", name="unread")
    with apart.schema_editor() as tables:
        after = loader.get_migration("jobs", "0070_held_equipment_and_masses").apply(
            before.clone(), tables
        )
    rows = after.apps.get_model("jobs", "Part").objects.order_by("pk")
    assert [(row.name, row.mass) for row in rows] == [("heavy", 6.9), ("unread", None)]
    assert after.apps.get_model("jobs", "Driver").objects.get(name="heavy").mass == 6.9
