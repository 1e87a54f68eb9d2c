"""A stage says what is missing before it; complete is what no gate asks for any more."""

from __future__ import annotations

import pytest
from django.utils import timezone

from jobs.design.job.due import DUE, IN_THE_BAY, ON_THE_CAR, cured_by, due_of
from jobs.design.job.stages import (
    GATES,
    ORDER,
    as_left,
    may_enter,
    next_stage,
    open_before,
    open_before_handover,
    still_open,
)
from jobs.design.job.whole import load, work_out
from jobs.design.wording import WORDS
from jobs.design.wording.gates import GATES as SAYS
from jobs.models import Job, PanelContent, Stage
from tests.jobs.factories import make_job, make_step

pytestmark = pytest.mark.django_db


def _open(job, stage):
    return {item.code for item in open_before(stage, work_out(load(job)))}


def test_every_gate_has_its_words_and_every_word_its_gate():
    """A code without a sentence is never shown, and no sentence is left over."""
    assert {gate.code for gate in GATES} == set(SAYS)


def test_findings_are_due_before_a_stage_somebody_reaches():
    """What is named by code is a code there is, named once, and due at one of three stages."""
    codes = [*IN_THE_BAY, *ON_THE_CAR]
    assert len(codes) == len(set(codes))
    assert set(codes) <= set(WORDS)
    assert set(DUE) == {Stage.AGREED, Stage.BAY, Stage.HANDED_OVER}


def test_an_empty_job_lacks_something_before_each_planned_stage():
    """Nothing written down is missing, not complete: wishes, equipment, panels, values."""
    job = make_job(stage=Stage.ENQUIRY, wishes="")
    assert next_stage(job.stage) == Stage.BRIEF
    assert _open(job, Stage.BRIEF) == set()
    assert "wishes" in _open(job, Stage.SPEC)
    assert {"wishes", "equipment"} <= _open(job, Stage.AGREED)
    assert {"wishes", "equipment", "panels"} <= _open(job, Stage.BAY)
    assert {"values-planned", "signed", "electronics"} <= _open(job, Stage.HANDED_OVER)
    states = {step: work_out(load(job)).state_of(step).state for step in ("brief", "equipment")}
    assert states == {"brief": "missing", "equipment": "missing"}


def test_only_what_lies_between_is_asked_but_before_hand_over_everything():
    """What a stage was entered without is not asked at the next, and is before the car goes."""
    job = make_job(stage=Stage.BAY, wishes="")
    assert "wishes" not in _open(job, Stage.SET_UP)
    assert "wishes" in _open(job, Stage.HANDED_OVER)
    assert _open(job, Stage.ENQUIRY) == set()
    job.stage = Stage.HANDED_OVER
    assert _open(job, Stage.AFTERCARE) == {"sheets"}


def test_a_job_on_hold_goes_nowhere():
    """Whatever stage it is to go to, the reason is said."""
    job = make_job(halt=Job.Halt.ON_HOLD, halt_why="The head unit is out of stock.")
    for stage in ORDER:
        says = [item.says for item in open_before(stage, work_out(load(job)))]
        assert any("The head unit is out of stock." in sentence for sentence in says)


def test_parts_to_come_keep_a_car_out_of_the_bay(hatchback):
    """Ordered is not there; what is in or fitted is."""
    hatchback.job.stage = Stage.PARTS
    hatchback.job.equipmentitems.update(state="ordered")
    assert "parts" in _open(hatchback.job, Stage.BAY)
    hatchback.job.equipmentitems.update(state="in")
    assert "parts" not in _open(hatchback.job, Stage.BAY)


def test_two_of_six_placed_is_not_complete(hatchback):
    """The panels are complete when somebody has said where every piece is, not before."""
    assert work_out(load(hatchback.job)).state_of("panels").says == "complete"
    PanelContent.objects.filter(job=hatchback.job, equipment=hatchback.sub).delete()
    design = work_out(load(hatchback.job))
    assert design.state_of("panels").state == "missing"
    (item,) = (item for item in still_open(design) if item.code == "placed")
    every = item.missing.figures["all"]
    assert design.state_of("panels").says == f"{every - 1} of {every} placed"
    assert item.page == "panels"


def test_a_word_of_the_manager_covers_one_stage_and_what_was_open_then(hatchback, cast):
    """Another stage is asked anew, and so is what came to be open later."""
    job, design = hatchback.job, work_out(load(hatchback.job))
    assert not may_enter(Stage.SET_UP, design)
    job.stagereleases.create(
        stage=Stage.SET_UP, left_open=as_left(open_before(Stage.SET_UP, design)),
        reason="Set up first, the sill comes last.", released_by=cast.manager,
        released_at=timezone.now(),
    )  # fmt: skip
    design = work_out(load(job))
    assert may_enter(Stage.SET_UP, design)
    assert not may_enter(Stage.HANDED_OVER, design)
    make_step(hatchback.sill, "One more.")
    assert not may_enter(Stage.SET_UP, work_out(load(job)))


def test_open_looks_are_asked_before_they_are_due(hatchback):
    """Each open look stands in exactly one of the three gates, or has a gate of its own."""
    design = work_out(load(hatchback.job))
    gates = [item for item in open_before_handover(design) if item.code.startswith("looks-")]
    keys = [key for item in gates for key in item.keys]
    looks = [look for look in design.open_looks if look.code != "not-placed"]
    assert sorted(keys) == sorted(f"look {look.fingerprint}" for look in looks)
    assert {due_of(look) for look in looks} <= set(DUE)
    assert all(cured_by(look) for look in looks)
