"""Where in its cavity a box stands best."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

import numpy as np
from scipy.optimize import linprog
from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from acoustics.carcass.cavity.cavity import Cavity, Room, check_cavity
from acoustics.carcass.cavity.windows import Array
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.leaning import Leaning
from acoustics.carcass.shape.profile import Point

Place = tuple[float, float, float]


def stand(carcass: Body, cavity: Cavity) -> Place:
    """Return where a box stands in its cavity: as drawn if it is free there, else where it is.

    Drawn means: its profile in the coordinates of the cavity, in the middle of the width. Where
    the box is free nowhere, the place is the one that comes nearest.

    Args:
        carcass: the box.
        cavity: the cavity.

    Returns: x and y of the origin of the box's profile, and z of its left, in the cavity [m]

    Valid: a box that is not turned. In a room that turns inward it is tried with a corner in
        each corner, so that a rare free place may be missed.

    Source: definition.
    """
    rooms = [room for room in cavity.rooms() if room.width >= carcass.width - 1e-9]
    rooms = rooms or sorted(cavity.rooms(), key=lambda room: -room.width)[:1]
    outline = carcass.profile.polygon
    tried: list[tuple[float, Place]] = []
    for place in itertools.chain(
        (
            (float(x), float(y), room.start + (room.width - carcass.width) / 2)
            for room in rooms
            for x, y in itertools.chain(((0.0, 0.0),), _spots(outline, room))
        ),
        _past_things(carcass, cavity) if isinstance(carcass, Leaning) else (),
    ):
        short = _short(carcass, cavity, place)
        if short <= 0.0:
            return place
        tried.append((short, place))
    return min(tried, default=(0.0, (0.0, 0.0, (cavity.width - carcass.width) / 2)))[1]


def _past_things(carcass: Leaning, cavity: Cavity) -> Iterator[Place]:
    """Places of a box over a plan beside what stands in its cavity: on a floor, as far as it goes.

    Its plan may lie in the coordinates of the cavity, or with a corner in a corner of it.
    """
    region = cavity.inside
    ends = cavity.gap, cavity.width - cavity.gap - carcass.width
    outline = np.asarray(carcass.profile.polygon.exterior.coords)[:-1]
    for piece in getattr(region, "geoms", [region]):
        corners = np.asarray(piece.exterior.coords)[:-1]
        floors = sorted({round(float(y), 9) for y in corners[:, 1]})
        spots = [(0.0, floor) for floor in floors]
        spots += [(float(x), float(y)) for c in corners for x, y in c - outline]
        yield from ((x, y, z) for x, y in spots for z in (*ends, sum(ends) / 2))


def _short(carcass: Body, cavity: Cavity, place: Place) -> float:
    """By how much the gap is missed where it is missed most."""
    x, y, z = place
    return max(
        (
            float(finding.limit) - float(finding.value)
            for finding in check_cavity(carcass, cavity, x=x, y=y, z=z)
            if finding.code == "box-too-near"
            and finding.limit is not None
            and finding.value is not None
        ),
        default=0.0,
    )


def _spots(outline: Polygon, room: Room) -> Iterator[Point]:
    """Places worth trying: the freest in a convex room, corner in corner in any other."""
    region = orient(room.region)
    corners = np.asarray(region.exterior.coords)[:-1]
    points = np.asarray(outline.exterior.coords)[:-1]
    if region.convex_hull.area - region.area < 1e-9:
        yield _freest(corners, points)
        return
    for corner, point in itertools.product(corners, points):
        yield (float(corner[0] - point[0]), float(corner[1] - point[1]))


def _freest(corners: Array, points: Array) -> Point:
    """The move that keeps the least distance to any side of a convex room largest."""
    sides = np.roll(corners, -1, axis=0) - corners
    lengths = np.hypot(*sides.T)
    kept = lengths > 1e-9
    normals = np.column_stack((sides[kept, 1], -sides[kept, 0])) / lengths[kept, None]
    room = (normals * corners[kept]).sum(axis=1) - (points @ normals.T).max(axis=0)
    # Largest g with normal · move + g ≤ room for every side.
    solution = linprog(
        (0.0, 0.0, -1.0),
        A_ub=np.column_stack((normals, np.ones(len(normals)))),
        b_ub=room,
        bounds=((None, None),) * 3,
    )
    assert solution.x is not None  # a closed outline bounds g, and any move allows some g
    move, least = solution.x[:2], solution.x[2]
    # Where it could still slide along an axis, it stands in the middle of that.
    for axis in (0, 1):
        free = room - least + 1e-12 - normals[:, 1 - axis] * move[1 - axis]
        along = normals[:, axis]
        high = (free[along > 1e-9] / along[along > 1e-9]).min()
        low = (free[along < -1e-9] / along[along < -1e-9]).max()
        move[axis] = (low + high) / 2
    return float(move[0]), float(move[1])
