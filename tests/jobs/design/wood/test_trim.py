"""Speaker rings and trim panels: from the record to the piece that is cut."""

from __future__ import annotations

import math

import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.records.about import about
from jobs.design.wood.cutting import work_out_cutting
from jobs.models import Ring, SheetKind, TrimPanel
from jobs.sheets import unavailable
from tests.jobs.sheets.test_sheets import words

pytestmark = pytest.mark.django_db


@pytest.fixture
def records(hatchback):
    """The records of a job with rings and a trim panel."""
    return load(hatchback.job)


def trims(records):
    """The rings and the trim panel worked out, by what they are."""
    return {type(one.record): one for one in work_out(records).trims}


def test_a_ring_takes_from_its_driver_what_was_left_empty(records):
    """The inner diameter is the driver's cut-out, 142 mm (the woofer of the shelf)."""
    piece = trims(records)[Ring].piece
    assert piece.round_holes == [0.004, 0.142]
    assert piece.size == pytest.approx((0.186, 0.186), rel=1e-3)


def test_a_tilted_stack_gets_the_layers_its_high_side_needs(records):
    """17.7 mm low and 186 mm · tan 4° = 13.0 mm more is two sheets each, four for two rings."""
    ring = trims(records)[Ring]
    assert ring.thickness[1] - ring.thickness[0] == pytest.approx(0.186 * math.tan(math.radians(4)))
    assert ring.piece.quantity == 4
    records.rings[0].tilt = 0.0
    assert trims(records)[Ring].piece.quantity == 2


def test_a_trim_panel_opens_round_what_shows(records):
    """The driver's rim of 315 mm and the slot of 90 × 50 mm, each 3 mm larger all round."""
    piece = trims(records)[TrimPanel].piece
    assert piece.round_holes == [0.321]
    slot = next(hole for hole in piece.holes if hasattr(hole, "points"))
    assert slot.area == pytest.approx(0.096 * 0.056)
    centre = piece.holes[0].centre
    # The face lies in the middle of 620 × 450 mm, moved 40 mm to the left.
    assert centre == pytest.approx((0.27, 0.225))


def test_the_piece_ends_on_the_sheets_that_are_cut(records):
    """Ring and panel are nested with the panels of their material, under their own numbers."""
    design = work_out(records)
    made = work_out_cutting(records, design.boxes, design.trims)
    laid = [one.label for p in made.plans for sheet in p.nest.sheets for one in p.laid(sheet)]
    assert laid.count("R1") == 4
    assert laid.count("T1") == 1


@pytest.mark.skipif(bool(unavailable()), reason=unavailable())
def test_the_piece_ends_on_paper(hatchback, as_loaded):
    """The cut sheet and the templates name both."""
    for kind in (SheetKind.CUT, SheetKind.TEMPLATES):
        text = words(as_loaded.sheet(hatchback, kind))
        assert hatchback.ring.name in text
        assert hatchback.cover.name in text


def test_what_is_missing_is_a_look_and_what_cannot_be_a_stop(records):
    """A ring without material waits; a screw circle outside its rim must not be cut."""
    records.rings[0].material = None
    ring = trims(records)[Ring]
    assert (ring.piece, ring.findings[0].severity) == (None, "look")
    assert "sheet material" in ring.trouble
    records = load(records.job)
    records.rings[0].bolt_circle = 0.2
    ring = trims(records)[Ring]
    assert (ring.piece, ring.findings[0].severity) == (None, "stop")


def test_screws_need_wood_on_both_sides(records):
    """A circle of 152 mm leaves (152 − 142 − 4) / 2 = 3 mm beside the opening: too little."""
    assert trims(records)[Ring].findings == []
    records.rings[0].bolt_circle = 0.152
    ring = trims(records)[Ring]
    assert ring.wood_at_screw == pytest.approx(0.003)
    assert [one.code for one in ring.findings] == ["screws-off-wood"]


@pytest.mark.parametrize(("name", "width", "height"), [("width", 9e-6, 0.4), ("height", 0.4, 9e-4)])
def test_a_board_narrower_than_a_saw_cut_is_refused(records, name, width, height):
    """A slip of the unit is said with the least there is; nobody tries to draw it."""
    panel = records.trim_panels[0]
    panel.width, panel.height, panel.outline = width, height, None
    result = trims(records)[TrimPanel]
    assert result.piece is None
    assert name in result.trouble
    assert "at least 1\N{NO-BREAK SPACE}mm" in result.trouble


def test_openings_that_run_into_each_other_are_refused(records):
    """A second opening over the driver's is named as such."""
    records.trim_panels[0].openings = [[0.27, 0.225, 0.1]]
    panel = trims(records)[TrimPanel]
    assert panel.piece is None
    assert "reveal" in panel.trouble


def test_a_trim_panel_larger_than_its_sheet_is_a_stop(records):
    """3 m do not come out of 2.8 m."""
    records.trim_panels[0].width = 3.0
    panel = about(records.trim_panels[0])
    codes = {one.code for one in work_out(records).findings if one.concerns(panel)}
    assert codes == {"part-larger-than-sheet"}
