"""What the strip says of a step: the worst that is open there, and how many of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from jobs.design.job.whole import load, work_out

pytestmark = pytest.mark.django_db


def test_only_open_stops_are_counted_as_stops(hatchback):
    """An open look alone makes no stop of a step; a stop beside it does."""
    design = work_out(load(hatchback.job))
    step = "power"
    looks = [f for f in design.findings if f.severity == "look" and f.is_open]
    assert looks
    only = replace(looks[0], section=step)
    asked = replace(design, findings=(only,))
    assert asked.state_of(step).state == "look"
    unsafe = replace(design, findings=(only, replace(only, severity="stop")))
    assert unsafe.state_of(step).state == "stop"
