"""Every mark on every part of boxes of many kinds, and what is found in them, as let stand."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from jobs.design.carcass.carcass import wood
from jobs.design.wood.marking import marks_of, tubes_of
from jobs.design.wood.pieces import pieces_of
from jobs.models import Box
from tests.approval import hold
from tests.jobs.design.wood.test_slots import slotted
from tests.jobs.design.wood.test_wood import a_box
from tests.told import row

TERMINAL = {"terminal_face": "left", "terminal_diameter": 0.06, "terminal_u": 0.1}
TUBE = {"kind": Box.Kind.VENTED, "port_diameter": 0.06}
BOXES: dict[str, tuple[Box, float | None]] = {
    "plain": (a_box(**TERMINAL, terminal_v=0.12), None),
    "slot": (slotted(), 0.25),
    "slot in a corner": (slotted(port_lies="bottom left", port_width=0.2, port_bend="+v"), 0.45),
    "tube": (a_box(**TUBE, port_count=2, port_face="left"), 0.2),
    "bent tube": (a_box(**TUBE, port_bend="+v", port_straight=0.1), 0.3),
    "sloped": (
        a_box(
            shape="sloped",
            top_depth=0.2,
            brace_count=1,
            inner_braces=[{"kind": "shelf", "at": [0.2], "open": 0.3}],
        ),
        None,
    ),
    "step": (
        a_box(shape="step", cut_depth=0.1, cut_height=0.12, corner_joint="rebate", **TERMINAL),
        None,
    ),
    "knee": (
        a_box(shape="knee", top_depth=0.15, cut_depth=0.3, cut_height=0.2, corner_joint="mitre"),
        None,
    ),
    "taper": (
        a_box(shape="taper", top_depth=0.3, top_width=0.5, brace_count=1, brace_opening=0.4),
        None,
    ),
    "covered": (a_box(cheek_joint="cover", **TERMINAL), None),
    "rebated": (a_box(cheek_joint="rebate", rebate_depth=0.006), None),
    "doubled": (
        a_box(
            baffle_layers=2,
            inner_braces=[
                {"kind": "strut up", "at": [0.15, 0.3, 0.05], "open": 0},
                {"kind": "plate", "at": [0.35], "open": 0.25},
            ],
        ),
        None,
    ),
}


# Radius of the edges of a panel, where it is rounded over.
ROUNDED = {"covered": {"front": 0.012}, "rebated": {"front": 0.006, "rear": 0.006, "left": 0.003}}


def _told(box: Box, length: float | None, rounded: dict[str, float]) -> Iterator[str]:
    built = wood(box, port_length=length)
    assert built is not None
    pieces = pieces_of(built.parts, built.carcass, "A", rounded)
    for piece in pieces:
        yield row(piece.panels, piece.quantity, piece.rectangular)
        for mark in marks_of(piece):
            yield "  " + row(mark.what, mark.at, mark.diameter, mark.size, mark.radius)
    for tube in tubes_of(built.carcass, pieces):
        yield row("tube", tube.count, tube.panel, tube.inside, tube.outside, tube.legs)
    for finding in built.findings:
        yield row(finding.code, finding.detail, finding.value, finding.limit)


@pytest.mark.parametrize("name", BOXES)
def test_every_mark_of_a_box_is_what_was_let_stand(name):
    """Holes, rebates, strips, corners and tubes, each counted from the corner of its part."""
    hold(f"wood/{name}", _told(*BOXES[name], ROUNDED.get(name, {})))
