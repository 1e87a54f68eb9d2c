"""A stop that has no figure of its own is released for the records as they are, and no others."""

from __future__ import annotations

import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.records.about import about
from jobs.design.records.decisions import take
from jobs.models import PowerNode, Run

pytestmark = pytest.mark.django_db


def _stop(scene, row, code):
    [finding] = [
        one
        for one in work_out(load(scene.job)).findings
        if one.code == code and one.about.is_of(about(row))
    ]
    return finding


@pytest.fixture
def pump(hatchback) -> PowerNode:
    """Something nothing feeds."""
    return PowerNode.objects.create(
        job=hatchback.job, kind=PowerNode.Kind.LOAD, name="Pump", current=1.0
    )


def test_a_released_load_asks_again_when_it_becomes_another(hatchback, pump, cast):
    """What was released at 1 A is open at 120 A; a new name and place leave it as it was."""
    take(hatchback.job, _stop(hatchback, pump, "load-without-source"), cast.manager, "on the bench")
    PowerNode.objects.filter(pk=pump.pk).update(name="Water pump", place="under the floor")
    assert not _stop(hatchback, pump, "load-without-source").is_open
    PowerNode.objects.filter(pk=pump.pk).update(current=120.0)
    assert _stop(hatchback, pump, "load-without-source").is_open


def test_a_released_cable_asks_again_when_it_grows(hatchback, cast):
    """A stretch without a fuse is released at its length, not at twenty times as much."""
    run = hatchback.main_run
    Run.objects.filter(pk=run.pk).update(fuse=None, length=0.3)
    take(hatchback.job, _stop(hatchback, run, "unprotected-conductor"), cast.manager, "on a bench")
    assert not _stop(hatchback, run, "unprotected-conductor").is_open
    Run.objects.filter(pk=run.pk).update(length=6.0)
    assert _stop(hatchback, run, "unprotected-conductor").is_open
