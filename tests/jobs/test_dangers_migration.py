"""The migration that gave drilling and glass a third answer: no old no passes for a look."""

from __future__ import annotations

import pytest
from django.db.migrations.loader import MigrationLoader
from django.utils import timezone

NAME = "0129_what_nobody_looked_at"


@pytest.mark.long  # what is written never changes
def test_only_a_no_that_somebody_said_stays(apart):
    """A yes stays; a no stays where it took the place of a yes, and else nobody has looked."""
    loader = MigrationLoader(None, replace_migrations=False)
    before = loader.project_state(("jobs", "0128_equaliser"))
    with apart.schema_editor() as tables:
        for model in before.apps.get_app_config("jobs").get_models():
            tables.create_model(model)
    get, now = before.apps.get_model, timezone.now()
    customer = get("jobs", "Customer").objects.create(name="invented")
    car = get("jobs", "Vehicle").objects.create(customer=customer, maker="Norvane", model="Tarn")
    job = get("jobs", "Job").objects.create(vehicle=car, number=1)
    panels, entries = get("jobs", "Panel"), get("jobs", "HistoricalPanel")
    answers = {"yes": [True], "never asked": [False, False], "taken back": [True, False]}
    for n, (name, drilled) in enumerate(answers.items(), start=1):
        row = panels.objects.create(job=job, name=name, position=n, drilled=drilled[-1])
        for answer in drilled:
            entries.objects.create(
                id=row.pk, job_id=job.pk, name=name, position=n, drilled=answer, version=1,
                history_date=now, history_type="~",
            )  # fmt: skip
    with apart.schema_editor() as tables:
        after = loader.get_migration("jobs", NAME).apply(before.clone(), tables)
    rows = after.apps.get_model("jobs", "Panel").objects.order_by("pk")
    assert [(row.name, row.drilled) for row in rows] == [
        ("yes", True), ("never asked", None), ("taken back", False),
    ]  # fmt: skip
    assert {row.glass_near for row in rows} == {None}
    past = after.apps.get_model("jobs", "HistoricalPanel").objects.order_by("history_id")
    assert [row.drilled for row in past] == [True, None, None, True, False]
