"""What `fit` searches: the shapes that boxes are cut from, and what they are held against."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from shapely.geometry import Polygon, box

from acoustics.carcass.cavity.cavity import Opening, Room
from acoustics.carcass.cavity.windows import Array, edges_of
from acoustics.carcass.room.arrange import Load
from acoustics.carcass.room.clearance import Clearances

# Places tried along each axis at first, beside the corners of the room.
COARSE = 9
# Corners of a room that are tried; of a round one every second or third.
MOST_PLACES = 24
# An edge of the room that is worth a leaning panel, against the room's larger extent.
WORTH_A_SLOPE = 0.2
MOST_SLOPES, MOST_CORNERS = 2, 12
# Least clear room between two panels [m].
LEAST_INSIDE = 0.03
FAR = 1e3
RECTANGLE, SLOPE, OUTLINE = "rectangle", "slope", "outline"
# Boxes over a plan, seen from above: upright walls, and walls that lean.
CORNER, TAPER = "corner", "taper"


@dataclass(frozen=True, kw_only=True)
class Task:
    """What every window is measured against; a is away from the driver's face, b square to it.

    Attributes:
        volume: net volume wanted [m³].
        thickness: thickness of the wood [m].
        baffle: thickness of the driver's panel with its layers [m].
        load: what goes in.
        on_side: whether the driver sits in a cheek.
        upward: whether it looks up, so that a runs down and b to the rear.
        clearances: the distances to keep.
        opening: what the box must pass through, or None.
        whole: outline of the cavity, turned like the rooms, coordinates in [m].
    """

    volume: float
    thickness: float
    baffle: float
    load: Load
    on_side: bool
    upward: bool
    clearances: Clearances
    opening: Opening | None
    whole: Polygon

    @cached_property
    def whole_edges(self) -> Array:
        """Edges of the whole cavity.

        Returns: rows of edges [m]
        """
        return edges_of(self.whole)

    @cached_property
    def taken(self) -> float:
        """What the parts take from the box.

        Returns: volume [m³]
        """
        return self.load.taken(baffle=self.baffle, thickness=self.thickness)

    @property
    def walls(self) -> float:
        """What cheeks and their layers take of the width.

        Returns: length [m]
        """
        return 2 * self.thickness + (self.baffle - self.thickness if self.on_side else 0.0)


@dataclass(frozen=True, kw_only=True, eq=False)
class Base:
    """A shape that windows are cut from.

    Attributes:
        kind: rectangle, slope or outline.
        room: the room it stands in, turned.
        outer: the shape, coordinates in [m].
        thickness: thickness of the wood [m].
        outer_edges: its edges, worked out [m].
        inner_edges: edges of its inside, worked out [m].
        room_edges: edges of what of it lies in the room, worked out [m].
    """

    kind: str
    room: Room
    outer: Polygon
    thickness: float
    outer_edges: Array = field(init=False)
    inner_edges: Array = field(init=False)
    room_edges: Array = field(init=False)

    def __post_init__(self) -> None:
        inner = self.outer.buffer(-self.thickness, join_style="mitre")
        within = self.outer & self.room.region
        for name, shape in (("outer", self.outer), ("inner", inner), ("room", within)):
            object.__setattr__(self, f"{name}_edges", edges_of(shape))

    def places(self, opening: Opening | None) -> tuple[Array, Array]:
        """Return the places along each axis worth trying first.

        Args:
            opening: what the box must pass through, or None.

        Returns: places along a and along b [m]
        """
        x0, y0, x1, y1 = self.outer.bounds
        corners = np.asarray(self.room.region.exterior.coords)
        corners = corners[:: math.ceil(len(corners) / MOST_PLACES)]
        both = []
        for low, high, own in ((x0, x1, corners[:, 0]), (y0, y1, corners[:, 1])):
            at = [*np.linspace(low, high, COARSE), *own]
            for size in () if opening is None else (opening.width, opening.height):
                at += [low + size, high - size]
            both.append(np.unique([a for a in at if low <= a <= high]))
        return both[0], both[1]


def bases(room: Room, thickness: float) -> Iterator[Base]:
    """Yield the shapes to try in a room: a rectangle, one leaning panel, the room's own outline.

    Args:
        room: the room, turned.
        thickness: thickness of the wood [m].

    Returns: bases, coordinates in [m]

    Source: common practice, no source.
    """
    region = room.region
    x0, y0, x1, y1 = region.bounds
    if min(x1 - x0, y1 - y0) < 2 * thickness + LEAST_INSIDE:
        return
    bounds = box(x0, y0, x1, y1)

    def base(kind: str, outer: Polygon) -> Base:
        return Base(kind=kind, room=room, outer=outer, thickness=thickness)

    yield base(RECTANGLE, bounds)
    leaning = []
    for ax, ay, bx, by in edges_of(region):
        length, lean = math.hypot(bx - ax, by - ay), abs(math.atan2(by - ay, bx - ax))
        off = min(lean, abs(lean - math.pi / 2), abs(lean - math.pi))
        if off > math.radians(2) and length >= WORTH_A_SLOPE * max(x1 - x0, y1 - y0):
            leaning.append((length, (ax, ay, bx, by)))
    for _, (ax, ay, bx, by) in sorted(leaning, reverse=True)[:MOST_SLOPES]:
        ex, ey = FAR * (bx - ax), FAR * (by - ay)
        half = Polygon(
            (
                (ax - ex, ay - ey),
                (bx + ex, by + ey),
                (bx + ex - ey, by + ey + ex),
                (ax - ex - ey, ay - ey + ex),
            )
        )
        cut = bounds & half
        if isinstance(cut, Polygon) and not cut.is_empty:
            yield base(SLOPE, cut)
    outline = fewer_corners(region)
    if outline is not None and outline.area < bounds.area * (1 - 1e-6):
        yield base(OUTLINE, outline)


def fewer_corners(region: Polygon) -> Polygon | None:
    """Cut off corners, the smallest first, until a saw can follow; None when it cannot.

    Args:
        region: an outline, coordinates in [m].

    Returns: an outline within it, coordinates in [m]

    Source: common practice, no source.
    """
    points = list(region.exterior.coords)[:-1]
    while len(points) > MOST_CORNERS:
        losses = []
        for i, (x, y) in enumerate(points):
            (ax, ay), (bx, by) = points[i - 1], points[(i + 1) % len(points)]
            losses.append((x - ax) * (by - ay) - (y - ay) * (bx - ax))
        # On a ring run counter-clockwise a corner that points out has a loss below zero here.
        ccw = region.exterior.is_ccw
        outward = [(abs(loss), i) for i, loss in enumerate(losses) if (loss < 0) == ccw]
        if not outward:
            return None
        points.pop(min(outward)[1])
    smaller = Polygon(points)
    return smaller if smaller.is_valid and region.buffer(1e-6).covers(smaller) else None
