"""Labels for what is no cable stand on the stock of the cables: each thing once, said in full."""

from __future__ import annotations

import pytest
from django.test import override_settings

from jobs.design.job.whole import JobDesign, load, work_out
from jobs.design.wiring.schedule import Schedule, work_out_schedule
from jobs.models import GroundPoint, Panel
from jobs.panel_codes import give_codes
from jobs.sheets.place_labels import PlaceLabel, place_labels
from tests.jobs.factories import make_item_as_built

pytestmark = pytest.mark.django_db


def _worked_out(job) -> tuple[JobDesign, Schedule]:
    design = work_out(load(job))
    return design, work_out_schedule(design.records, design.power, design.records.workshop)


def _sheets(job) -> list[list[PlaceLabel]]:
    return place_labels(*_worked_out(job), columns=2, per_sheet=6, code_side=0.04)


def _said(job) -> dict[str, str]:
    every = [label.words for sheet in _sheets(job) for label in sheet]
    return {words.name: "; ".join(words.lines) for words in every}


def test_each_holder_amplifier_ground_and_panel_has_one(hatchback):
    """As many as there are, and each place of the stock is taken once."""
    design, schedule = _worked_out(hatchback.job)
    known = design.records.amplifiers
    amplifiers = [row for row in design.records.equipment if row.part_id in known]
    wanted = (
        len(schedule.fuses)
        + sum(row.quantity for row in amplifiers)
        + GroundPoint.objects.filter(job=hatchback.job).count()
        + Panel.objects.filter(job=hatchback.job).count()
    )
    sheets = _sheets(hatchback.job)
    assert sum(map(len, sheets)) == wanted > 6
    for sheet in sheets:
        places = {(label.column, label.row) for label in sheet}
        assert len(places) == len(sheet) <= 6


def test_they_say_what_is_in_the_car(hatchback, cast):
    """A fuse its rating and that no larger one goes in, an amplifier the number of its exchange."""
    make_item_as_built(hatchback.six, cast.installer, serial="NEW-6", place="under the seat")
    said = _said(hatchback.job)
    fuse = _worked_out(hatchback.job)[1].fuses[0]
    assert f"{fuse.part.rating:g}" in said[fuse.label]
    assert "Never a larger one" in said[fuse.label]
    assert "NEW-6" in said[str(hatchback.six.part)]
    assert "under the seat" in said[str(hatchback.six.part)]
    assert hatchback.sensor.name in said


def test_a_ground_without_a_torque_says_so(hatchback):
    """Unknown is said, and never left out."""
    GroundPoint.objects.filter(pk=hatchback.sensor.pk).update(torque=None)
    assert "torque not recorded" in _said(hatchback.job)[hatchback.sensor.name]
    GroundPoint.objects.filter(pk=hatchback.sensor.pk).update(torque=9.0)
    assert "9" in _said(hatchback.job)[hatchback.sensor.name]


def test_the_label_of_a_panel_opens_its_page(hatchback):
    """Where there is a public address and a code was given; airbags stand in words."""
    Panel.objects.filter(pk=hatchback.door_left.pk).update(airbag_near=True)
    with override_settings(PUBLIC="https://panels.invalid"):
        give_codes(hatchback.job)
        every = [label.words for sheet in _sheets(hatchback.job) for label in sheet]
    assert sum(bool(words.code) for words in every) == hatchback.job.panels.count()
    assert any("AIRBAG" in line for words in every for line in words.lines)
    assert not any(words.code for sheet in _sheets(hatchback.job) for words in [sheet[0].words])
