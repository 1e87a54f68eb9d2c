"""What holds a box in a crash, and what stands outside it: recess, screws."""

from __future__ import annotations

import io
import itertools
import math

import ezdxf
import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.wood.cutting import work_out_cutting
from jobs.design.wood.marking import marks_of
from jobs.models import Box
from jobs.sheets import dxf

pytestmark = pytest.mark.django_db


def worked_out(saloon, part=(), **fields):
    """The saloon's box and its driver's part changed, and what they come to."""
    records = load(saloon.job)
    box = records.boxes[0]
    for name, value in fields.items():
        setattr(box, name, value)
    for name, value in part:
        setattr(box.driver.part.driver, name, value)
    design = work_out(records)
    return design, design.boxes[0]


@pytest.mark.parametrize(
    ("fields", "code", "severity"),
    [
        ({"held_by": Box.Held.LOOSE}, "box-unfixed", "stop"),
        ({"held_by": Box.Held.UNSAID}, "box-fixing-unknown", "look"),
        ({"held_by": Box.Held.BRACKETS, "held_into": " "}, "fixing-into-nothing", "look"),
    ],
)
def test_a_box_that_is_not_held_is_found(saloon, fields, code, severity):
    """Loose is a stop with its mass, unsaid a look; a bracket into nothing is asked about."""
    _design, box = worked_out(saloon, **fields)
    (finding,) = [f for f in box.findings if f.code == code]
    assert finding.severity == severity
    if code != "fixing-into-nothing":
        assert finding.value > 5.0  # kg of the wood alone
    # Refused or without a driver it is asked all the same.
    for more in ({"width": 0.001}, {"driver": None}):
        _design, box = worked_out(saloon, **fields | more)
        assert code in {f.code for f in box.findings}


@pytest.mark.parametrize(
    "fields",
    [
        {"held_by": Box.Held.MAKERS},
        {"held_by": Box.Held.INSERTS, "held_into": "4 x M8, cross member"},
        {"held_by": Box.Held.LOOSE, "chosen": False},
        {"held_by": Box.Held.LOOSE, "kind": Box.Kind.INFINITE_BAFFLE},
    ],
)
def test_a_box_that_is_held_or_none_says_nothing(saloon, fields):
    """So does one that is not built, and a baffle that is part of the car."""
    _design, box = worked_out(saloon, **fields)
    codes = {"box-unfixed", "box-fixing-unknown", "fixing-into-nothing"}
    assert not codes & {finding.code for finding in box.findings}


def test_screws_are_drilled_where_the_drawing_shows_them(saloon):
    """Six holes of 3.5 mm lie 60 degrees apart on the screw circle, on the list and in the file."""
    design, box = worked_out(saloon, part=[("screws", 6), ("screw_hole", 0.0035)])
    cutting = work_out_cutting(design.records, design.boxes, design.trims)
    (front,) = [piece for piece in cutting.pieces if "front" in piece.panels]
    driver = box.wood.carcass.contents[0].part
    (circle,) = front.marks
    ways = []
    for pilot in front.pilots:
        off = [a - b for a, b in zip(pilot.centre, circle.centre, strict=True)]
        assert math.hypot(*off) == pytest.approx(driver.bolt_circle_diameter / 2)
        ways.append(math.degrees(math.atan2(off[1], off[0])) % 360)
    steps = [b - a for a, b in itertools.pairwise(sorted(ways))]
    assert steps == pytest.approx([60] * 5)
    assert [m.diameter for m in marks_of(front) if m.what == "screw hole"] == [0.0035] * 6
    text = next(t for n, t in dxf.drawings(cutting, {}).items() if f"/{front.label}-" in n)
    drilled = ezdxf.read(io.StringIO(text)).modelspace().query("CIRCLE[layer=='DRILL']")
    assert len(drilled) == 6


def test_a_flush_driver_lies_deeper_in_a_recess_a_little_wider_than_its_flange(saloon):
    """By hand: the depth it needs grows by the recess, its litres by what sinks into the hole."""
    _design, plain = worked_out(saloon)
    design, sunk = worked_out(saloon, driver_recess=0.006)
    before, after = (b.wood.carcass.contents[0].part for b in (plain, sunk))
    assert after.mounting_depth == pytest.approx(before.mounting_depth + 0.006)
    hole = math.pi / 4 * before.cutout_diameter**2
    volumes = [b.wood.carcass.volumes.parts for b in (plain, sunk)]
    assert volumes[1] - volumes[0] == pytest.approx(hole * 0.006)
    cutting = work_out_cutting(design.records, design.boxes, design.trims)
    (front,) = [piece for piece in cutting.pieces if "front" in piece.panels]
    (pocket,) = front.pockets
    assert (pocket.face, pocket.depth) == ("outside", 0.006)
    assert 2 * pocket.figure.radius == pytest.approx(before.flange_diameter + 0.002)
    text = next(t for n, t in dxf.drawings(cutting, {}).items() if f"/{front.label}-" in n)
    (milled,) = ezdxf.read(io.StringIO(text)).modelspace().query("*[layer=='POCKET_OUTSIDE_6.0']")
    assert milled.dxftype() == "CIRCLE"


@pytest.mark.parametrize(
    ("recess", "code"),
    [(0.006, None), (0.010, "recess-weakens-panel"), (0.017, "recess-through-panel")],
)
def test_a_recess_leaves_half_the_wood(saloon, recess, code):
    """In a panel of 16.1 mm: 6 mm go, 10 mm are a look, 17 mm a stop."""
    _design, box = worked_out(saloon, driver_recess=recess)
    codes = {f.code for f in box.findings if f.code.startswith("recess")}
    assert codes == ({code} if code else set())


@pytest.mark.parametrize(
    ("height", "surround", "codes"),
    [
        (None, None, set()),
        (0.05, None, {"grille-not-checked"}),
        (0.005, 0.006, {"grille-hits-cone"}),
        (0.4, 0.006, set()),
    ],
)
def test_a_grille_is_held_against_the_cone_of_its_box(saloon, height, surround, codes):
    """Without one nothing is asked; with one its free height against surround and travel."""
    part = [("surround_height", surround)]
    _design, box = worked_out(saloon, part, grille_height=height)
    assert {f.code for f in box.findings if f.code.startswith("grille-")} == codes
