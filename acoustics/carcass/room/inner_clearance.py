"""How much room a box leaves: behind its faces, ahead of what stands in it, and beside it."""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely.geometry import MultiLineString, MultiPoint, box

from acoustics.carcass.room.solids import Array, Solid
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.braces import Brace
from acoustics.carcass.shape.taper import Taper

# Less than this is rounding, not a collision [m].
TOUCH = 1e-6
# A wall that leans less than this towards the way ahead is never met [-].
SQUARE = 1e-9


def room_ahead(
    carcass: Body,
    point: Array,
    way: Array,
    half: float,
    *,
    start: float = 0.0,
    sides: tuple[Array, Array] | None = None,
) -> float:
    """Return how far a flat end can move straight ahead before it meets a wall.

    Along the width that is the next cheek; in the side view it is the nearest wall within the
    whole breadth of the end, so a sloped panel counts where it is nearest. Where all walls lean
    it is the least (d - n · point - reach) / (n · way) over the walls ahead, n · way > 0, with
    reach = half · |n - (n · way) way| of a round end.

    Args:
        carcass: the box.
        point: middle of the end (x, y, z) [m].
        way: unit vector it moves along [-].
        half: half its breadth in the side view [m].
        start: how far ahead of the point the movement begins [m].
        sides: half sides of a rectangular end as vectors; None for a round one [m].

    Returns: distance from the point [m]

    Source: definition.
    """
    if isinstance(carcass, Taper):
        rooms = []
        for plane in carcass.air.values():
            normal = np.asarray(plane.normal)
            ahead = float(normal @ way)
            if ahead <= SQUARE:
                continue
            reach = half * math.sqrt(max(1.0 - ahead**2, 0.0))
            if sides is not None:
                reach = sum(abs(float(normal @ side)) for side in sides)
            rooms.append((plane.distance - float(normal @ point) - reach) / ahead)
        return max(min(rooms), 0.0)
    if abs(way[2]) > 0.5:
        low, high = carcass.air_span
        return float(high - point[2] if way[2] > 0 else point[2] - low)
    side = np.array([-way[1], way[0]])
    turn = np.array([way[:2], side])
    air = shapely.transform(carcass.air_profile.polygon, lambda xy: (xy - point[:2]) @ turn.T)
    x0, _, x1, _ = air.bounds
    lane = box(start + TOUCH, -max(half - TOUCH, TOUCH), max(x1, start) + (x1 - x0), half - TOUCH)
    return float(max(lane.difference(air).bounds[0] - TOUCH, 0.0))


def wall_gap(carcass: Body, solid: Solid, face: str | None) -> float:
    """Return the least distance from a solid to any wall but the face it comes from.

    Args:
        carcass: the box.
        solid: the solid.
        face: the face that is left out, or None for none.

    Returns: distance, negative by how far it reaches into a wall [m]

    Source: definition.
    """
    if isinstance(carcass, Taper):
        return min(
            plane.distance - solid.farthest(np.asarray(plane.normal))
            for name, plane in carcass.air.items()
            if name != face
        )
    figure, radius = solid.side_view
    profile = carcass.air_profile
    walls = [line for name, line in profile.lines.items() if name != face]
    inside = profile.polygon.buffer(TOUCH, join_style="mitre")
    distance = float(figure.distance(MultiLineString(walls)))
    if not inside.contains(figure):
        corners = shapely.get_coordinates(figure)
        distance = -max(float(profile.polygon.distance(shapely.Point(c))) for c in corners)
    low, high = carcass.air_span
    ends = [solid.span(2)[0] - low] if face != "left" else []
    ends += [high - solid.span(2)[1]] if face != "right" else []
    return min(distance - radius, *ends)


def brace_gap(carcass: Body, brace: Brace, solid: Solid) -> float:
    """Return the distance from a solid to a brace; in a window of a plate there is its room.

    Args:
        carcass: the box.
        brace: one of its braces.
        solid: the solid.

    Returns: distance, negative where it reaches into the wood [m]

    Valid: a level plate by the larger of its two faces, and by the corners around a round solid:
        the safe side by the lean over its thickness and by 0.2 % of the radius. A shelf as if it
        had no windows.

    Source: definition.
    """
    start, end = brace.reach(*carcass.air_span)
    if isinstance(carcass, Taper):
        axis, figure, radius = 1, MultiPoint(solid.hull[:, [2, 0]]).convex_hull, 0.0
    else:
        axis, (figure, radius) = 2, solid.side_view
    low, high = solid.span(axis)
    beside = float(carcass.section_of(brace).distance(figure)) - radius
    return max(low - end, start - high, beside)


def shared_wood(carcass: Body, first: Brace, second: Brace) -> float:
    """Return the wood that two braces would both take.

    Args:
        carcass: the box.
        first: one of its braces.
        second: another.

    Returns: volume, windows of shelves not taken off; zero where they only touch [m³]

    Valid: a level plate by the larger of its two faces, which is the safe side.

    Source: definition.
    """
    (a, b), (c, d) = (brace.reach(*carcass.air_span) for brace in (first, second))
    depth = min(b, d) - max(a, c)
    if depth <= TOUCH:
        return 0.0
    return float(carcass.section_of(first).intersection(carcass.section_of(second)).area) * depth
