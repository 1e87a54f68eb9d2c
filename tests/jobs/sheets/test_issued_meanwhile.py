"""A sheet is laid out while others write.

In a module of its own: what the other connection is to see must be committed, and the scenes of a
module are not.
"""

from __future__ import annotations

import threading

import pytest
from django.db import connection, transaction

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.models import Panel, Role, SheetKind
from jobs.sheets import engine
from tests.jobs.factories import make_person
from tests.jobs.scenes import set_saloon
from tests.jobs.shelf import stock_shelf


@pytest.mark.django_db(transaction=True)
def test_another_write_succeeds_while_a_sheet_prints(monkeypatch):
    """A second connection saves a panel while the first is laying out its sheet."""
    scene = set_saloon(stock_shelf())
    manager = make_person("max", "Max", "Lead", Role.MANAGER)
    saved: list[str] = []

    def write() -> None:
        try:
            with transaction.atomic():
                Panel.objects.create(job_id=scene.job.pk, name="Meanwhile")
            saved.append("saved")
        finally:
            connection.close()

    def slow(html: str, **_more: object) -> bytes:
        other = threading.Thread(target=write)
        other.start()
        other.join(timeout=30)
        return html.encode()

    monkeypatch.setattr(engine, "render", slow)
    sheets.issue(work_out(load(scene.job)), SheetKind.BUILD, sheets.Options(), manager)
    assert saved == ["saved"]
    assert Panel.objects.filter(name="Meanwhile").count() == 1
