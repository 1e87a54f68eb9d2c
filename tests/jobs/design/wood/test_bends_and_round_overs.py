"""Panels bent over kerfs and edges rounded over: on the part, in its file, said at the field."""

from __future__ import annotations

import io
import math

import ezdxf
import pytest
from django.utils import translation
from shapely.geometry import Polygon

from jobs.design.job.whole import load, work_out
from jobs.design.records.about import about
from jobs.design.wood.cutting import check_machines, work_out_cutting
from jobs.design.wood.marking import marks_of
from jobs.drawings.wood import wood_pictures
from jobs.sheets import dxf

pytestmark = pytest.mark.django_db
BEND = {"bend_at": 0.1, "bend_radius": 0.15, "bend_angle": math.pi / 2, "bend_skin": 0.003,
        "bend_blade": 0.0032}  # fmt: skip


def changed(hatchback, **fields):
    """The hatchback's trim panel with what is typed, bare of box and openings."""
    records = load(hatchback.job)
    panel = next(row for row in records.trim_panels if row.pk == hatchback.cover.pk)
    for name, value in {
        "box": None,
        "openings": None,
        "width": 0.6,
        "height": 0.4,
        **fields,
    }.items():
        setattr(panel, name, value)
    design = work_out(records)
    (result,) = [trim for trim in design.trims if trim.record is panel]
    return design, result


def found(design, result):
    """Codes found of the panel."""
    return {f.code for f in design.findings if f.about.is_of(about(result.record))}


def test_kerfs_in_the_file_are_those_of_the_list_mirrored(hatchback):
    """By hand: kerfs lie half a spacing from where the bend begins, as deep as the board less the
    skin; in the file the inner face lies up, so that each counts from the other end."""
    design, result = changed(hatchback, **BEND)
    bend = result.bent.bend
    assert bend.length == pytest.approx(0.1485 * math.pi / 2)
    cutting = work_out_cutting(design.records, (), design.trims)
    text = next(t for n, t in dxf.drawings(cutting, {}).items() if f"/{result.piece.label}-" in n)
    space = ezdxf.read(io.StringIO(text)).modelspace()
    layer = f"KERF_INSIDE_{1000 * bend.depth:.1f}"
    lines = [(line.dxf.start, line.dxf.end) for line in space.query(f"LINE[layer=='{layer}']")]
    places = sorted(600 - start.x for start, _end in lines)
    by_hand = [100 + (n + 0.5) * 1000 * bend.spacing for n in range(bend.count)]
    assert places == pytest.approx(by_hand, abs=0.1)
    assert {round(abs(end.y - start.y), 1) for start, end in lines} == {400.0}
    first, last = (
        mark for mark in marks_of(result.piece) if "kerfs" in mark.what or "last" in mark.what
    )
    assert [1000 * first.at[0], 1000 * last.at[0]] == pytest.approx(
        [places[0], places[-1]], abs=0.1
    )
    assert f">{bend.count} kerfs<" in wood_pictures.alone(result.piece, "bent")
    # A decimal comma parts no figure.
    with translation.override("de"):
        drawn = wood_pictures.alone(result.piece, "bent")
    assert f">{bend.count} Sägeschnitte<" in drawn
    assert ">3,2\N{NO-BREAK SPACE}mm breit<" in drawn


@pytest.mark.parametrize(("fields", "says"), [
    ({"bend_skin": 0.03}, "leave less"),
    ({"bend_at": 0.5}, "the flat panel is 600\N{NO-BREAK SPACE}mm"),
    ({"bend_radius": 0.0165}, "larger radius"),
    ({"bend_blade": None}, "width of a kerf"),
])  # fmt: skip
def test_a_bend_that_cannot_be_is_refused_in_words(hatchback, fields, says):
    """A skin as thick as the board, a bend off the panel, kerfs in each other, no width of one."""
    _design, result = changed(hatchback, **BEND | fields)
    assert says in result.trouble


def test_an_opening_in_a_bend_is_found(hatchback):
    """One at 200 mm lies between 100 and 333; one at 500 does not."""
    for u, codes in ((0.2, {"opening-in-bend"}), (0.5, set())):
        design, result = changed(hatchback, **BEND, openings=[[u, 0.2, 0.04]])
        assert {"opening-in-bend"} & found(design, result) == codes


@pytest.mark.parametrize(("radius", "code"), [
    (0.012, None), (0.03, "round-over-beyond-board"),
])  # fmt: skip
def test_a_trim_panel_is_rounded_over_within_its_board(hatchback, radius, code):
    """Its size stays; what is left flat is less by the radius on each side."""
    design, result = changed(hatchback, round_over=radius)
    codes = {c for c in found(design, result) if c.startswith("round-over")}
    assert codes == ({code} if code else set())
    (flat,) = [mark for mark in marks_of(result.piece) if "round-over" in mark.what]
    assert flat.size == pytest.approx((0.6 - 2 * radius, 0.4 - 2 * radius))
    assert result.piece.size == pytest.approx((0.6, 0.4))


@pytest.mark.parametrize(("radius", "codes"), [
    (0.006, set()), (0.05, {"round-over-beyond-board"}),
])  # fmt: skip
def test_a_box_is_rounded_over_on_the_panels_that_were_chosen(saloon, radius, codes):
    """The driver's panel alone or every outer one; a bit bigger than the board is a stop."""
    for every in (False, True):
        records = load(saloon.job)
        records.boxes[0].round_over, records.boxes[0].round_all = radius, every
        design = work_out(records)
        rounding = {f.code for f in design.boxes[0].findings if f.code.startswith("round-over")}
        assert rounding == codes
        cutting = work_out_cutting(design.records, design.boxes, ())
        names = [name for piece in cutting.boxes[0].pieces for name in piece.rounded]
        faces = set(design.boxes[0].wood.carcass.faces)
        assert set(names) == (faces if every else {"front"})


def test_a_part_within_the_round_over_is_told_what_is_taken_off_it(saloon):
    """By hand: between bottom and top that run through, a front begins 16.1 mm inside the edge, so
    that 6 mm take nothing off it; the bottom itself loses them on all four sides."""
    records = load(saloon.job)
    box = records.boxes[0]
    box.round_over, box.round_all, box.thicknesses = 0.006, True, None
    design = work_out(records)
    carcass = design.boxes[0].wood.carcass
    pieces = work_out_cutting(design.records, design.boxes, ()).boxes[0].pieces
    for piece in pieces:
        for name in piece.rounded:
            wood = next(p for part in design.boxes[0].wood.parts for p in part.panels
                        if p.name == name)  # fmt: skip
            face, own = Polygon(carcass.outline(name)), Polygon(wood.outside)
            cut = own.area - own.intersection(face.buffer(-0.006, join_style="mitre")).area
            if len(piece.panels) == 1:
                assert (piece.flat is not None) == (cut > 1e-6)
    bottom = next(piece for piece in pieces if "bottom" in piece.panels)
    assert bottom.flat is not None


def test_a_slot_in_a_rebated_corner_cuts_a_strip_off_its_panel(saloon):
    """By hand: let in by 5 mm below a slot from wall to wall, 5 mm of the front fall off."""
    records = load(saloon.job)
    box = records.boxes[0]
    box.port_shape, box.port_lies, box.port_height, box.port_bend = "slot", "bottom", 0.03, ""
    box.port_diameter = box.port_width = box.port_face = None
    box.port_face, box.corner_joint, box.rebate_depth = "", "rebate", 0.005
    findings = check_machines(records, work_out(records).boxes, ())
    strips = [f for f in findings if f.code == "panel-cut-apart"]
    assert [f.value for f in strips] == pytest.approx([0.005], abs=1e-5)
    box.corner_joint = "butt"
    findings = check_machines(records, work_out(records).boxes, ())
    assert not [f for f in findings if f.code == "panel-cut-apart"]


def test_a_round_over_that_runs_into_the_flange_is_found(saloon):
    """Moved to 5 mm from the edge of its panel the flange lies in a round-over of 8 mm."""
    records = load(saloon.job)
    box = records.boxes[0]
    rim = box.driver.part.driver.outer_diameter / 2
    box.round_over, box.driver_v = 0.008, rim + 0.005
    design = work_out(records)
    (meets,) = [f for f in design.boxes[0].findings if f.code == "round-over-meets-part"]
    assert meets.value == pytest.approx(0.005, abs=1e-4)
