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


def test_a_panel_alone_is_something_to_build(hatchback):
    """The step of boxes is empty where neither a box nor a ring nor a panel is planned."""
    design = work_out(load(hatchback.job))
    assert design.records.trim_panels
    quiet = replace(design, findings=())
    for boxes, panels, says in (([], design.records.trim_panels, "complete"), ([], [], "nothing")):
        records = replace(design.records, boxes=boxes, rings=[], trim_panels=panels)
        assert says in replace(quiet, records=records).state_of("boxes").says
