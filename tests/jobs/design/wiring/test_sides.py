"""The side of the car comes from what was entered as one, never from the words of a name."""

from __future__ import annotations

import pytest

from jobs.design.job.whole import load, work_out
from jobs.models import Channel, Panel, PanelContent, PowerNode, Stretch
from tests.jobs.scenes import Hatchback

pytestmark = pytest.mark.django_db

CODES = {"run-wrong-side", "run-crosses-car", "side-unknown"}


def _said(scene: Hatchback) -> list[tuple[str, str]]:
    findings = work_out(load(scene.again().job)).findings
    return [(finding.code, finding.says) for finding in findings if finding.code in CODES]


def test_words_of_a_name_are_no_side(hatchback):
    """A channel called “right” whose cable lies behind the left door says nothing by its name."""
    assert _said(hatchback) == []


def test_a_speaker_cable_of_the_other_side_is_found(hatchback):
    """The channel is on the right, the last panel of its cable on the left: look at the label."""
    Panel.objects.filter(pk=hatchback.door_left.pk).update(side="left")
    assert _said(hatchback) == []
    Channel.objects.filter(pk=hatchback.tweeter_left.pk).update(side="right")
    [(code, says)] = _said(hatchback)
    assert code == "run-wrong-side"
    assert hatchback.tweeter_run.label in says
    assert hatchback.door_left.name in says
    assert hatchback.tweeter_left.name in says


def test_a_node_is_where_its_equipment_is(hatchback):
    """Without a side of its own it takes that of the panel its equipment is behind."""
    PowerNode.objects.filter(pk=hatchback.six_node.pk).update(side="")
    Panel.objects.filter(pk=hatchback.side_trim.pk).update(side="right")
    assert _said(hatchback) == []
    PanelContent.objects.filter(equipment=hatchback.six).update(panel=hatchback.door_left)
    Panel.objects.filter(pk=hatchback.door_left.pk).update(side="left")
    codes = [code for code, _says in _said(hatchback)]
    # Its supply and its signal end there; its speaker cables start at a name in words.
    assert codes == ["run-wrong-side"] * 2


def test_equipment_behind_panels_of_both_sides_is_on_neither(hatchback):
    """Two pieces of it on two sides say nothing about a cable."""
    PowerNode.objects.filter(pk=hatchback.six_node.pk).update(side="")
    Panel.objects.filter(pk=hatchback.door_left.pk).update(side="left")
    Panel.objects.filter(pk=hatchback.side_trim.pk).update(side="right")
    PanelContent.objects.create(
        job=hatchback.job, equipment=hatchback.six, panel=hatchback.door_left
    )
    assert [code for code, _says in _said(hatchback)] == ["side-unknown"]


def test_a_supply_that_crosses_the_car_and_comes_back_is_found(hatchback):
    """Battery and block on one side, a panel of the other between them."""
    PowerNode.objects.filter(pk__in=(hatchback.battery.pk, hatchback.block.pk)).update(side="left")
    Panel.objects.filter(pk=hatchback.sill.pk).update(side="right")
    run = hatchback.main_run
    Stretch.objects.create(run=run, panel=hatchback.sill, position=2)
    Stretch.objects.create(run=run, panel=hatchback.boot_floor, position=3)
    codes = [code for code, _says in _said(hatchback)]
    assert codes.count("run-crosses-car") == 1


def test_sides_nobody_noted_are_one_note(hatchback):
    """All of them at once, by name, whatever number of runs pass there."""
    Panel.objects.filter(pk=hatchback.sill.pk).update(side="")
    Channel.objects.filter(pk=hatchback.tweeter_left.pk).update(side="")
    [(code, says)] = _said(hatchback)
    assert code == "side-unknown"
    assert hatchback.sill.name in says
    assert hatchback.tweeter_left.name in says
