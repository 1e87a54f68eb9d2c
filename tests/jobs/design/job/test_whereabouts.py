"""Where everything is: the record never invents, and never leaves out in silence."""

from __future__ import annotations

import pytest
from django.utils import timezone

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.models import PanelContent, Part, SheetKind, Supply
from jobs.sheets.issue import printed

pytestmark = pytest.mark.django_db


def _codes(scene) -> dict[str, object]:
    return {finding.code: finding for finding in work_out(load(scene.job)).findings}


def _record(scene) -> str:
    sheet = sheets.SHEETS[SheetKind.PANELS]
    design = work_out(load(scene.job))
    return printed(design, sheet, sheets.Options(), revision=1, at=timezone.now())[0]


def test_what_nobody_placed_is_a_finding_and_stands_on_the_record(hatchback):
    """A piece behind no panel and nowhere in words is named, with where it was planned."""
    assert "not-placed" not in _codes(hatchback)
    PanelContent.objects.get(equipment=hatchback.mono).remove()
    finding = _codes(hatchback)["not-placed"]
    assert f"1 × {hatchback.mono.part}" in finding.says
    html = _record(hatchback)
    assert "place not recorded" in html
    assert f"1 × {hatchback.mono.part}; planned: {hatchback.mono.place}" in html


def test_what_is_used_up_is_looked_for_nowhere(hatchback):
    """Glue is on the list of parts and in no place: neither a finding nor a piece with a number."""
    before = work_out(load(hatchback.job))
    glue = Supply.objects.create(kind=Part.Kind.SUPPLY, name="glue", use=Supply.Use.GLUE)
    hatchback.job.equipmentitems.create(part=glue.part_ptr, place="wood shop")
    after = work_out(load(hatchback.job))
    assert len(after.records.equipment) == len(before.records.equipment) + 1
    assert after.numbered == before.numbered
    assert "not-placed" not in {finding.code for finding in after.findings}


def test_pieces_are_counted_one_by_one(hatchback):
    """Of two pieces one placed leaves one; three placed are one too many."""
    pair = PanelContent.objects.get(equipment__part__name__icontains="woofer")
    assert pair.pieces == 2
    pair.pieces = 1
    pair.save()
    assert "1 × " in _codes(hatchback)["not-placed"].says
    pair.pieces = 3
    pair.save()
    finding = _codes(hatchback)["placed-too-often"]
    assert (finding.value, finding.limit) == (3.0, 2.0)


def test_a_removed_panel_places_nothing(hatchback):
    """What was behind a panel that was taken out of the list is nowhere until somebody says so."""
    hatchback.side_trim.remove()
    assert str(hatchback.six.part) in _codes(hatchback)["not-placed"].says


def test_three_states_of_a_panel(hatchback, cast, browse):
    """Nothing recorded is never printed as nothing there; empty stands on a person's name."""
    panel = hatchback.job.panels.create(name="Roof lining", position=9, airbag_near=False)
    address = f"/jobs/{hatchback.code}/panel/{panel.pk}/empty/"
    assert panel.name in _codes(hatchback)["panels-not-recorded"].says
    assert "Nothing recorded." in _record(hatchback)
    browse("installer").post(address, {"empty": "1"})
    assert "panels-not-recorded" not in _codes(hatchback)
    assert f"{cast.installer.full_name} looked" in _record(hatchback)
    hatchback.job.panelcontents.create(panel=panel, description="a tracker")
    assert _codes(hatchback)["panel-not-empty"].name == panel.name
    assert "looked" not in _record(hatchback)
    # Nobody confirms as empty what is listed.
    browse("installer").post(address, {"empty": "0"})
    browse("installer").post(address, {"empty": "1"})
    panel.refresh_from_db()
    assert panel.empty_at is None


def test_the_record_says_what_the_next_technician_asks(hatchback):
    """Both colours, fuse with its place, ground with torque, clip number, car by its number."""
    hatchback.job.vehicle.vin, hatchback.job.vehicle.plate = "ZZZ417ZZZ00000001", "ZQ 417"
    hatchback.job.vehicle.save()
    html = " ".join(_record(hatchback).replace("\xa0", " ").split())
    run = hatchback.main_run
    for text in (
        "ZZZ417ZZZ00000001", "ZQ 417", "51-47", f"{run.colour} + {run.return_colour}",
        "Car battery, boot floor, right, 0.15 m of cable from there", "9 N·m", "SUB-417",
    ):  # fmt: skip
        assert text in html, text
