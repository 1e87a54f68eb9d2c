"""Rows that were read along answer as if each parent had asked for its own."""

from __future__ import annotations

import pytest

from jobs.design.records.records import load
from jobs.models import AmplifierRating, Stretch

pytestmark = pytest.mark.django_db


def test_what_hangs_on_a_row_is_its_own_however_it_is_asked_for(hatchback):
    """All of it as read, and a choice of it as the table has it: never another parent's rows."""
    records = load(hatchback.job)
    long = [run for run in records.runs if len(run.stretches.all()) > 1]
    assert long
    for run in long:
        own = [stretch.pk for stretch in Stretch.objects.filter(run=run.pk)]
        assert [stretch.pk for stretch in run.stretches.all()] == own
        assert [stretch.pk for stretch in run.stretches.select_related("panel")] == own
    (amplifier, *_others) = records.amplifiers.values()
    gone = AmplifierRating.objects.filter(amplifier=amplifier.pk)[0]
    gone.remove()
    (again, *_others) = load(hatchback.job).amplifiers.values()
    assert gone not in again.ratings.all()
    assert gone not in again.ratings.filter(load__gt=0)
