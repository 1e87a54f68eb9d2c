"""The scenes keep what their stories say, so that a test may rely on it."""

from __future__ import annotations

from collections import Counter

import pytest

from jobs.design.job.whole import load, work_out
from jobs.models import Job, JobPart
from tests.jobs.pages.kinds import KINDS

pytestmark = pytest.mark.django_db


def _codes(scene, severity: str) -> Counter[str]:
    return Counter(
        one.code for one in work_out(load(scene.job)).findings if one.severity == severity
    )


def test_nothing_special_trips_in_the_hatchback(hatchback):
    """No stop; the looks are those of its sweep and of the two habits of its car."""
    assert not _codes(hatchback, "stop")
    assert _codes(hatchback, "look") == {
        "measured-differs-from-catalogue": 2,
        "start-stop-caution": 1,
        "smart-charging-caution": 1,
    }


def test_the_hatchback_has_a_row_of_every_kind(hatchback):
    """What is asked of every kind of row can be asked of a row of it."""
    empty = [kind.slug for kind in KINDS if not kind.model.objects.filter(job=hatchback.job)]
    assert len(KINDS) > 10
    assert empty == []


def test_the_van_lacks_the_procedure_for_its_airbags_and_nothing_else(van):
    """Its one stop is none of the wiring; it has no wood."""
    assert _codes(van, "stop") == {"airbag-procedure-missing": 1}
    assert not van.job.boxes.exists()


def test_the_saloon_leaves_much_open_and_nothing_unsafe(saloon):
    """Looks of the box, of the supply and of what nobody looked at; no stop."""
    assert not _codes(saloon, "stop")
    assert _codes(saloon, "look").keys() >= {
        "port-noisy",
        "passage-unknown",
        "terminal-not-chosen",
        "amplifier-in-closed-space",
        "alternator-idle-current-unknown",
        "key-off-total-unknown",
    }


def test_a_scene_is_read_anew_for_each_test(hatchback):
    """What one test typed into a row in memory is not there for the next."""
    hatchback.box.name = "typed and not saved"
    again = hatchback.again()
    assert again.box.name != hatchback.box.name
    assert again == hatchback  # the same rows


def test_every_named_row_is_of_its_job(hatchback, van, saloon):
    """A name never leads to the row of another job."""
    for scene in (hatchback, van, saloon):
        rows = [row for row in vars(scene).values() if isinstance(row, JobPart)]
        assert len(rows) > 5
        assert {row.job_id for row in rows} == {scene.job.pk}
    assert Job.objects.count() == 3
