"""Where boards stand on the panels of a box, as it is printed on each panel."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from scipy.spatial import Delaunay
from shapely.geometry import Polygon

from acoustics.carcass.panels.standing import standing_on
from jobs.design.carcass.carcass import wood
from jobs.design.wood.marking import marks_of
from jobs.design.wood.pieces import pieces_of
from jobs.models import Box
from tests.jobs.design.wood.test_slots import slotted
from tests.jobs.design.wood.test_wood import SHEET, a_box

# How far into the room, and how near to the rim of a strip, nothing is asked [m].
STEP, RIM = 1e-4, 5e-4


def printed(box: Box, panel: str, length: float | None = None) -> dict[str, tuple]:
    """What the drawing of a panel says stands on it: its middle and its size by its words."""
    built = wood(box, port_length=length)
    pieces = pieces_of(built.parts, built.carcass, "A")
    (piece,) = [piece for piece in pieces if panel in piece.panels]
    return {m.what: (*m.at, *m.size) for m in marks_of(piece) if "stands" in m.what}


def test_a_plate_is_drawn_on_each_wall_it_is_glued_to():
    """By hand: its middle 350 mm from the outside of the left side, seen from above and below."""
    box = a_box(inner_braces=[{"kind": "plate", "at": [0.35], "open": 0}])
    wide, deep = 0.6 - 2 * SHEET, 0.35 - 2 * SHEET
    from_left = 0.35 - SHEET
    # Bottom and top are cut alike; from below left and right change places.
    strips = printed(box, "bottom")
    assert len(strips) == 2
    assert all("inside" in what for what in strips)
    (below,) = [at for what, at in strips.items() if "bottom" in what]
    (above,) = [at for what, at in strips.items() if "top" in what]
    assert below == pytest.approx((wide - from_left, 0.35 / 2, SHEET, deep))
    assert above == pytest.approx((from_left, 0.35 / 2, SHEET, deep))


def test_a_shelf_is_drawn_once_on_sides_that_are_cut_alike():
    """The sides of a sloped box are turned over onto each other: one place for both, by hand."""
    box = a_box(
        shape="sloped", top_depth=0.2, inner_braces=[{"kind": "shelf", "at": [0.2], "open": 0}]
    )
    built = wood(box, port_length=None)
    (piece,) = [p for p in pieces_of(built.parts, built.carcass, "A") if "left" in p.panels]
    (seat,) = piece.seats
    assert seat.panels == ()
    _left, low, _right, high = seat.outline.polygon.bounds
    assert (low + high) / 2 == pytest.approx(0.2)
    assert high - low == pytest.approx(SHEET)


def test_a_slot_says_how_high_its_board_stands():
    """The lower face of its board is the slot's height above the inside of the bottom."""
    (front,) = printed(slotted(), "front", 0.25).values()
    assert front[1] - front[3] / 2 == pytest.approx(0.04)  # the front stands on the bottom


@pytest.mark.second_method
@pytest.mark.parametrize(
    ("box", "length"),
    [
        (slotted(port_lies="bottom left", port_width=0.2, port_bend="+v"), 0.45),
        (a_box(inner_braces=[{"kind": "strut up", "at": [0.15, 0.3, 0.05], "open": 0}]), None),
        (
            a_box(shape="taper", top_depth=0.3, top_width=0.5, brace_count=1, brace_opening=0.4),
            None,
        ),
        (a_box(baffle_layers=2, brace_count=2), None),
    ],
)
def test_what_stands_on_a_panel_touches_it_there_and_nowhere_else(box, length):
    """Points a hair before each inner face lie in a board's hull (scipy) just over its strips."""
    built = wood(box, port_length=length)
    panels = [panel for part in built.parts for panel in part.panels]
    boards = {brace.name for brace in built.carcass.braces}
    strips, asked, under = standing_on(panels, boards), 0, 0
    for host in panels:
        mine = {s.board: Polygon(s.outline) for s in strips[host.name] if s.face == "inside"}
        low, high = np.min(host.inside, axis=0), np.max(host.inside, axis=0)
        grid = [
            (u, v)
            for u in np.linspace(low[0], high[0], 41)
            for v in np.linspace(low[1], high[1], 41)
        ]
        grid += [tuple(p) for strip in mine.values() for p in strip.centroid.coords]
        within = Polygon(host.inside).buffer(-RIM)
        spots = np.array(grid)[shapely.contains_xy(within, grid)]
        before = host.frame.place(tuple(map(tuple, spots)), host.thickness + STEP)
        for board in panels:
            if board.name not in boards or board is host:
                continue
            strip = mine.get(board.name, Polygon())
            solid = Delaunay(np.vstack(board.corners()))  # every board here is convex
            inside = solid.find_simplex(before) >= 0
            # An empty strip has no rim: its distance is no number, and every point counts.
            clear = ~(shapely.distance(strip.boundary, shapely.points(spots)) < RIM)
            asked += np.count_nonzero(clear)
            under += np.count_nonzero(inside & clear)
            covered = shapely.contains_xy(strip, spots)
            assert (inside == covered)[clear].all(), (host.name, board.name)
    assert asked > 1000
    assert under >= 4
