"""Screws, T-nuts and inserts: on the part, in its file, on the list of what the wood takes."""

from __future__ import annotations

import io
import itertools
import math

import ezdxf
import pytest
from shapely.geometry import Polygon

from jobs.design.job.whole import load, work_out
from jobs.design.wood.cutting import work_out_cutting
from jobs.design.wood.marking import marks_of
from jobs.design.wood.needed import work_out_needs
from jobs.drawings.wood import wood_pictures
from jobs.models import EquipmentItem, Part, Supply
from jobs.sheets import dxf

pytestmark = pytest.mark.django_db
Use = Supply.Use


def supply(use, **figures):
    """A supply of the catalogue."""
    return Supply.objects.create(kind=Part.Kind.SUPPLY, name=f"Our {use}", use=use, **figures)


def screwed(saloon, fastener):
    """The saloon's driver screwed in with it, eight screws, and what the job comes to."""
    records = load(saloon.job)
    item = records.boxes[0].driver
    item.fastener, item.part.driver.screws = fastener, 8
    return work_out(records)


def codes_of(design):
    """What is found of fasteners on the box."""
    asked = ("barrel", "fastener")
    return {f.code for f in design.boxes[0].findings if f.code.startswith(asked)}


def test_t_nuts_are_drilled_with_the_hole_of_their_sheet(saloon):
    """Eight holes of 6.5 mm in list, drawing and file, each with its thread and its barrel."""
    design = screwed(saloon, supply(Use.T_NUT, thread="M5", barrel=0.012, hole=0.0065))
    assert codes_of(design) == set()
    cutting = work_out_cutting(design.records, design.boxes, design.trims)
    (front,) = [piece for piece in cutting.pieces if "front" in piece.panels]
    words = [mark.what for mark in marks_of(front)]
    assert words.count("screw hole") == 8
    assert "screw circle: 8 × M5 T-nut, barrel 12.0\xa0mm" in words
    drawing = wood_pictures.alone(front, "front")
    assert "8 × Ø 6.5" in drawing
    assert ">M5 T-nut<" in drawing
    text = next(t for n, t in dxf.drawings(cutting, {}).items() if f"/{front.label}-" in n)
    space = ezdxf.read(io.StringIO(text)).modelspace()
    drilled = [2 * hole.dxf.radius for hole in space.query("CIRCLE[layer=='DRILL']")]
    assert drilled == pytest.approx([6.5] * 8)
    assert any("8 × M5 T-nut" in note.dxf.text for note in space.query("TEXT"))


@pytest.mark.parametrize(("barrel", "hole", "codes"), [
    (0.030, 0.0065, {"barrel-longer-than-wood"}),
    (None, None, {"barrel-unknown", "fastener-hole-unknown"}),
])  # fmt: skip
def test_a_t_nut_that_does_not_go_or_is_not_known_is_found(saloon, barrel, hole, codes):
    """A barrel of 30 mm stands out of every front panel; what no sheet says drills no hole."""
    design = screwed(saloon, supply(Use.T_NUT, thread="M5", barrel=barrel, hole=hole))
    assert codes_of(design) == codes
    (front,) = [p for p in work_out_cutting(design.records, design.boxes, ()).pieces
                if "front" in p.panels]  # fmt: skip
    assert bool(front.pilots) == (hole is not None)


def test_a_ring_is_held_to_what_its_driver_is_screwed_in_with(hatchback):
    """Its holes are typed: an insert that asks for others is a look, a long barrel a stop."""
    records = load(hatchback.job)
    ring = records.rings[0]
    ring.driver.fastener = supply(Use.INSERT, thread="M4", barrel=0.05, hole=0.0057)
    (result,) = [trim for trim in work_out(records).trims if trim.record is ring]
    assert {"barrel-longer-than-wood", "fastener-hole-differs"} <= {
        finding.code for finding in result.findings
    }


def test_what_nobody_could_count_is_never_taken_for_none(saloon, hatchback):
    """A driver of unknown screws leaves its T-nuts unknown; a rim nobody measured, the tape."""
    nut = supply(Use.T_NUT, thread="M5", barrel=0.012, hole=0.0065, pack_pieces=25)
    records = load(saloon.job)
    item = records.boxes[0].driver
    item.fastener, item.part.driver.screws = nut, None
    design = work_out(records)
    (need,) = [n for n in work_out_needs(records, design.boxes, design.trims) if n.part == nut]
    assert (need.amount, need.says, need.lacking) == (None, "", None)
    records = load(hatchback.job)
    ring = records.rings[0]
    ring.outer_diameter, ring.inner_diameter, ring.bolt_circle = 0.186, 0.14, 0.158
    ring.driver.part.driver.outer_diameter = None
    design = work_out(records)
    (tape,) = [n for n in work_out_needs(records, design.boxes, design.trims) if n.use == Use.TAPE]
    assert tape.at_least
    assert tape.says.startswith("at least ")


def test_what_the_wood_takes_is_counted_in_packs(saloon):
    """By hand: glue by its coverage on what the cut sheet glues, eight T-nuts of a pack of five."""
    nut = supply(Use.T_NUT, thread="M5", barrel=0.012, hole=0.0065, pack_pieces=5)
    glue = supply(Use.GLUE, spread=0.5, pack_mass=0.01)
    EquipmentItem.objects.create(job=saloon.job, part=glue.part_ptr, place="shop", quantity=2)
    design = screwed(saloon, nut)
    needs = {need.use: need for need in work_out_needs(design.records, design.boxes, design.trims)}
    box = work_out_cutting(design.records, design.boxes, ()).boxes[0].supplies
    assert needs[Use.GLUE].amount == pytest.approx(0.5 * box.glued)
    assert needs[Use.GLUE].lacking == math.ceil(50 * box.glued) - 2
    assert (needs[Use.T_NUT].amount, needs[Use.T_NUT].lacking) == (8, 2)
    assert needs[Use.TAPE].part is None  # nobody has said which
    assert needs[Use.TAPE].amount == pytest.approx(box.gasket)
    # Nobody has ordered the T-nuts; of the glue two packs are too few.
    short = [finding for finding in design.findings if finding.code == "supply-short"]
    assert {finding.severity for finding in short} == {"look"}
    by_hand = {"Our glue": pytest.approx(0.5 * box.glued), "Our t_nut": 8}
    assert {finding.name: finding.value for finding in short} == by_hand


def milled(text, piece):
    """Face, depth and corners [mm] of every closed line on a pocket's layer, outer face up."""
    space = ezdxf.read(io.StringIO(text)).modelspace()
    lines = [line for line in space.query("LWPOLYLINE") if line.dxf.layer.startswith("POCKET_")]
    turned = any(line.dxf.layer.startswith("POCKET_INSIDE") for line in lines)
    for line in lines:
        _pocket, face, depth = line.dxf.layer.split("_")
        corners = [(1000 * piece.size[0] - x if turned else x, y) for x, y, *_ in line.get_points()]
        yield face.lower(), float(depth), corners


@pytest.mark.parametrize(("joint", "cheeks"), [("rebate", "cover"), ("", "rebate")])
def test_rebates_on_the_part_are_those_of_the_file(saloon, joint, cheeks):
    """Second method: each closed line of the router's file, mirrored back where it lies inside up,
    has middle, size, width and depth of the list and its letter on the drawing, to 0.1 mm."""
    records = load(saloon.job)
    box = records.boxes[0]
    box.corner_joint, box.cheek_joint, box.rebate_depth = joint, cheeks, 0.005
    design = work_out(records)
    cutting = work_out_cutting(design.records, design.boxes, design.trims)
    files, seen = dxf.drawings(cutting, {}), 0
    for piece in cutting.pieces:
        strips = [mark for mark in marks_of(piece) if ": rebate" in mark.what]
        text = next(t for n, t in files.items() if f"parts/{piece.label}-" in n)
        lines = list(milled(text, piece))
        assert len(strips) == len(lines)
        drawing = wood_pictures.alone(piece, "part") if strips else ""
        for letter, mark in zip("abcd", strips, strict=False):
            at = [1000 * along for along in mark.at]
            (line,) = [
                line for line in lines if Polygon(line[2]).envelope.centroid.coords[0]
                == pytest.approx(at, abs=0.1)
            ]  # fmt: skip
            face, depth, corners = line
            left, low, right, high = Polygon(corners).bounds
            if mark.size:  # of one that slants the corners are listed
                size = [1000 * side for side in mark.size]
                assert size == pytest.approx([right - left, high - low], abs=0.1)
            lain = Polygon(corners).minimum_rotated_rectangle.exterior.coords
            width = min(math.dist(a, b) for a, b in itertools.pairwise(lain))
            assert f"{letter}: rebate, {face}, {width:.1f}\xa0mm wide" in mark.what
            assert f"{depth:.1f}\xa0mm deep" in mark.what
            assert f">{letter}: {width:.1f} wide, {depth:.1f} deep" in drawing
            seen += 1
    assert seen >= 4
