"""Panels drawn apart: each numbered, nothing drawn through what stands in front."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from itertools import pairwise

from jobs.drawings.wood.box_drawing import View
from jobs.drawings.wood.exploded import Board, exploded

VIEW = View(key="apart", title="Box", description="Drawn apart.")


def slab(label: str, x: float, **more) -> Board:
    """An upright board 1 m square and 20 mm thick at this depth, its outer face to the front."""
    ring = [(0.0, 0.0), (0.0, 1.0), (1.0, 1.0), (1.0, 0.0)]
    outside = [(x, v, u) for u, v in ring][::-1]
    inside = [(x + 0.02, v, u) for u, v in ring][::-1]
    return Board(label=label, outside=outside, inside=inside, **more)


def strokes(drawing: str) -> int:
    """How many pieces of line are drawn in full."""
    paths = re.findall(r'<path d="([^"]*)"[^>]*stroke-width="1.3"', drawing)
    return sum(path.count("M") for path in paths)


def ink(drawing: str) -> float:
    """How long all lines drawn in full are together."""
    paths = re.findall(r'<path d="([^"]*)"[^>]*stroke-width="1.3"', drawing)
    total = 0.0
    for piece in "".join(paths).split("M")[1:]:
        points = [tuple(map(float, p.split())) for p in piece.split("L")]
        total += sum(math.dist(a, b) for a, b in pairwise(points))
    return total


def test_every_board_carries_its_number():
    """A ball with its label stands on each."""
    drawing = exploded([slab("A1", 0.0), slab("A2", 1.0)], VIEW)
    said = [e.text for e in ET.fromstring(drawing).iter() if e.tag.endswith("text")]
    assert said == ["A1", "A2"]


def test_a_board_seen_from_the_front_shows_nine_edges():
    """Of the twelve edges of a board three meet at the corner nobody sees."""
    assert strokes(exploded([slab("A1", 0.0)], VIEW)) == 9


def test_what_stands_behind_is_not_drawn():
    """Two boards close together show less than two apart; pulling one away shows it again."""
    near = [slab("A1", 0.0), slab("A2", 0.05), slab("A3", 4.0)]
    far = [slab("A1", 0.0), slab("A2", 0.05, moved=(1.95, 0.0, 0.0)), slab("A3", 4.0)]
    # The first and the last fix the scale; seen whole, each of the three has the same lines.
    assert ink(exploded(near, VIEW)) < 0.9 * ink(exploded(far, VIEW))


def test_one_sees_through_a_hole():
    """A board behind another is seen through the hole in it."""
    square = [(0.0, 0.2, 0.2), (0.0, 0.2, 0.8), (0.0, 0.8, 0.8), (0.0, 0.8, 0.2)]
    behind = [(x + 0.02, y, z) for x, y, z in square]
    # A ledge behind the middle of the board: hidden by a whole one.
    ledge = Board(
        label="A2",
        outside=[(0.1, 0.5, 0.4), (0.1, 0.5, 0.6), (0.1, 0.55, 0.6), (0.1, 0.55, 0.4)],
        inside=[(0.12, 0.5, 0.4), (0.12, 0.5, 0.6), (0.12, 0.55, 0.6), (0.12, 0.55, 0.4)],
    )
    whole = strokes(exploded([slab("A1", 0.0), ledge], VIEW))
    pierced = strokes(exploded([slab("A1", 0.0, holes=[(square, behind)]), ledge], VIEW))
    assert whole == 9
    assert pierced > whole + 4  # the ledge, and the rims of the hole
