"""A box over a plan of its own, as in a corner, walls upright or leaning: from tape to pieces."""

from __future__ import annotations

import math

import numpy as np
import pytest
import trimesh

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.shape.errors import PlacementError, ProfileError
from jobs.design.box.boxes import work_out_box
from jobs.design.carcass.carcass import build, wood
from jobs.design.wood.fitting import fit_boxes
from jobs.design.wood.pieces import pieces_of
from jobs.models import Box, SheetMaterial
from tests.acoustics.carcass.second_method import solid_of
from tests.refused import refused

pytestmark = pytest.mark.django_db
SHEET, HIGH = 0.018, 0.42
# A quarter panel with its outer skin cut in two and leaning in, invented.
CORNERS = [(0.0, 0.0), (0.46, 0.0), (0.46, 0.26), (0.34, 0.42), (0.12, 0.48), (0.0, 0.48)]
LEANS = [0.0, 0.0, math.radians(14), math.radians(3), 0.0, 0.0]


def a_corner(**more) -> Box:
    """An unsaved box of plain 18 mm sheet."""
    sheet = SheetMaterial(name="plain", thickness=SHEET, density=680.0, stiffness=3.5e9)
    box = Box(name="box", shape=Box.Shape.PLAN, height=HIGH, material=sheet)
    box.plan = [[*at, 0, lean] if lean else [*at] for at, lean in zip(CORNERS, LEANS, strict=True)]
    for name, value in more.items():
        setattr(box, name, value)
    return box


@pytest.mark.second_method
@pytest.mark.parametrize("corner", ["butt", "mitre"])
def test_the_cut_list_put_together_encloses_the_printed_litres(corner):
    """The inside is the hull of half spaces (trimesh, 0.01 %); wood and air make the outer hull."""
    made = build(a_corner(corner_joint=corner), port_length=None)

    def hull(inwards: float) -> float:
        points = []
        for y in (inwards, HIGH - inwards):
            planes = []
            for n, (x0, z0) in enumerate(CORNERS):
                x1, z1 = CORNERS[(n + 1) % len(CORNERS)]
                long = math.hypot(x1 - x0, z1 - z0)
                a, b = (z1 - z0) / long, -(x1 - x0) / long  # out of the plan
                back = inwards / math.cos(LEANS[n]) + y * math.tan(LEANS[n])
                planes.append((a, b, a * x0 + b * z0 - back))
            for (a, b, c), (d, e, f) in zip([planes[-1], *planes[:-1]], planes, strict=True):
                x, z = np.linalg.solve([[a, b], [d, e]], [c, f])
                points.append((x, y, z))
        return trimesh.convex.convex_hull(np.array(points)).volume

    assert made.gross_volume == pytest.approx(hull(SHEET), rel=1e-4)
    pieces = sum(solid_of(panel).volume for panel in panels(made))
    assert pieces + made.gross_volume == pytest.approx(hull(0.0), rel=1e-4)


def test_a_tape_may_go_round_it_either_way():
    """Typed clockwise it is the same box, and each wall keeps the number it was typed under."""
    box = a_corner()
    # Backwards from the first corner: the wall after a corner is the one before it.
    turned = [CORNERS[0], *CORNERS[:0:-1]]
    box.plan = [
        [*at, 0, lean] if lean else [*at] for at, lean in zip(turned, LEANS[::-1], strict=True)
    ]
    there = build(box, port_length=None)
    back = build(a_corner(), port_length=None)
    assert there.gross_volume == pytest.approx(back.gross_volume)
    leans = dict(zip(there.plan.names, there.leans, strict=True))
    assert [leans[f"side {n}"] for n in range(1, 7)] == pytest.approx(LEANS[::-1])


def test_what_no_such_box_has_is_refused_by_name():
    """A plan that turns inward; a side it has not; and nothing is built without plan or height."""
    hollow = [[0, 0], [0.4, 0], [0.4, 0.4], [0.3, 0.1], [0, 0.4]]
    with refused(ProfileError, "plan-turns-inward"):
        wood(a_corner(plan=hollow), port_length=None)
    with refused(PlacementError, "thickness-of-no-side"):
        wood(a_corner(thicknesses={"side 7": 0.02}), port_length=None)
    assert wood(a_corner(plan=None), port_length=None) is None
    assert wood(a_corner(height=None), port_length=None) is None


def test_a_corner_box_goes_from_tape_to_pieces(hatchback):
    """Saved and read again: litres, mass, a piece for each panel, the driver in the last wall."""
    box = hatchback.job.boxes.select_related("driver__part__driver", "material").first()
    box.shape, box.plan, box.height, box.width = Box.Shape.PLAN, a_corner().plan, HIGH, None
    box.cavity_profile, box.inner_braces, box.divider = None, None, ""
    box.baffle_layers, box.corner_joint, box.thicknesses = 1, "", None
    box.save()
    box = Box.objects.select_related("driver__part__driver", "material").get(pk=box.pk)
    result = work_out_box(box)
    assert result.refused is None
    assert result.wood.face == "side 6"
    named = {figure.name: figure.value for figure in result.figures}
    assert named["net_volume"] == pytest.approx(result.wood.carcass.net_volume)
    names = {name for piece in _pieces(result) for name in piece.panels}
    assert names == {*(f"side {n}" for n in range(1, 7)), "bottom", "top"}


def _pieces(result):
    return pieces_of(result.wood.parts, result.wood.carcass, "A")


def test_what_fit_lays_past_a_corner_becomes_a_record_that_stands_there(hatchback):
    """As a record the box has the litres wanted and nothing against it in its cavity."""
    box = hatchback.job.boxes.select_related("driver__part__driver", "material").first()
    typed = Box(job=hatchback.job, name="fitted", kind="sealed", driver=box.driver)
    typed.material, typed.wanted_volume = box.material, 0.06
    typed.cavity_profile = [[0, 0], [0.55, 0], [0.45, 0.45], [0, 0.45]]
    typed.cavity_width, typed.cavity_gap = 0.9, 0.01
    block = [[0.25, 0], [0.6, 0], [0.6, 0.3], [0.25, 0.3]]
    typed.cavity_obstacles = [{"name": "arch", "points": block, "start": 0.6, "end": None}]
    boxes = {c.answer.kind: c for c in fit_boxes(typed, "front").candidates}
    assert {"corner", "taper"} <= set(boxes)
    for kind in ("corner", "taper"):
        result = boxes[kind].result
        assert result.refused is None
        assert result.wood.carcass.net_volume == pytest.approx(0.06, rel=1e-6)
        assert "box-too-near" not in {finding.code for finding in result.findings}
