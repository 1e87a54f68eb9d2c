"""The marks of each part on the cut sheet: what a hand drills by it is what the router cuts."""

from __future__ import annotations

import html
import io
import re

import ezdxf
import pytest
from django.template.loader import render_to_string

from jobs.design.job.whole import load, work_out
from jobs.design.wood.cutting import work_out_cutting
from jobs.sheets import cut, dxf

pytestmark = pytest.mark.django_db
MARK = re.compile(r"<tr><td>(?P<what>[^<]*)</td>(?P<numbers>.*?)</tr>", re.DOTALL)
NUMBER = re.compile(r"-?\d+\.\d")


def read_marks(marked) -> list[tuple[str, list[float]]]:
    """Every row as a hand reads it: what, then its numbers in millimetres."""
    text = html.unescape(render_to_string("sheets/marked_part.html", {"marked": marked}))
    return [
        (row["what"], [float(number) for number in NUMBER.findall(row["numbers"])])
        for row in MARK.finditer(text)
    ]


@pytest.fixture
def drilled(design):
    """A box with a driver, a port through a side, a terminal plate."""
    assert {"driver", "port", "terminal plate"} <= {
        getattr(placed.part, "kind", "port") for placed in design.boxes[0].wood.carcass.contents
    }
    context = cut.context(design)
    cutting = work_out_cutting(design.records, design.boxes, design.trims)
    files = {
        name.split("/")[1].split("-")[0]: ezdxf.read(io.StringIO(text)).modelspace()
        for name, text in dxf.drawings(cutting, {}).items()
        if name.startswith("parts/")
    }
    (box,) = context["cut_boxes"]
    return box, files


@pytest.fixture
def design(saloon):
    """The saloon's box with a terminal plate in its leaning rear."""
    records = load(saloon.job)
    box = records.boxes[0]
    box.terminal_face, box.terminal_diameter = "rear", 0.057
    box.terminal_u, box.terminal_v, box.driver_u = 0.12, 0.08, 0.31
    return work_out(records)


def test_a_part_drilled_by_the_cut_sheet_is_the_one_in_the_router_file(drilled):
    """Centres and diameters of every round hole agree to 0.1 mm, both read back."""
    box, files = drilled
    compared = 0
    for marked in box.marked:
        space = files[marked.piece.label]
        cut_holes = sorted(
            (2 * e.dxf.radius, e.dxf.center.x, e.dxf.center.y)
            for e in space.query("CIRCLE[layer=='CUT']")
        )
        holes = sorted(tuple(n) for what, n in read_marks(marked) if what == "hole")
        assert len(holes) == len(cut_holes)
        for by_hand, by_router in zip(holes, cut_holes, strict=True):
            assert by_hand == pytest.approx(by_router, abs=0.1)
        compared += len(holes)
    assert compared >= 3


def test_a_trapezoid_says_its_corners_and_all_its_sides(drilled):
    """The corners printed of a side are those of the router file, to 0.1 mm, in their order."""
    box, files = drilled
    slanting = [marked for marked in box.marked if not marked.piece.rectangular]
    assert slanting
    for marked in slanting:
        corners = [n for what, n in read_marks(marked) if what.startswith("corner")]
        outline = max(
            (list(e.get_points("xy")) for e in files[marked.piece.label].query("LWPOLYLINE")),
            key=len,
        )
        assert len(corners) == len(outline) >= 4
        for (across, up), (x, y) in zip(corners, outline, strict=True):
            assert (across, up) == pytest.approx((x, y), abs=0.1)


def test_the_hole_counts_from_the_part_and_not_from_the_box(drilled):
    """310 mm from the outside of the box is 310 mm less the side of 16.1 mm on the front itself."""
    box, _files = drilled
    (front,) = [m for m in box.marked if "front" in m.piece.panels]
    (hole,) = [n for what, n in read_marks(front) if what == "hole"]
    thick = box.subject.result.wood.carcass.cheeks[0] * 1000
    assert hole[1] == pytest.approx(310 - thick, abs=0.06)


def test_a_tube_says_its_length_beside_the_wood(drilled, design):
    """The port of the box stands on the cut sheet with the length it was worked out with."""
    box, _files = drilled
    (tube,) = box.tubes
    assert tube.inside == pytest.approx((0.068,))
    assert tube.outside == pytest.approx((0.074,))
    assert tube.length == pytest.approx(design.boxes[0].port.length)
