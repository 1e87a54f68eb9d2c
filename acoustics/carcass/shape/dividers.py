"""Boards inside a box as they lie: their outlines and frames, and closed ones as faces of parts."""

from __future__ import annotations

import math

from shapely.geometry import Polygon

from acoustics.carcass.shape.braces import CrossBrace, Shelf
from acoustics.carcass.shape.faces import Face, rectangle_points
from acoustics.carcass.shape.panel import Frame
from acoustics.carcass.shape.profile import Point, Profile
from acoustics.carcass.shape.slab import Slab

Outline = tuple[Point, ...]
# A way that rises less than this is level [-].
LEVEL = 1e-9
# Corners nearer to a face of a board than this lie on it [m].
SAME = 1e-6


def plate_board(plate: CrossBrace, air: Profile) -> tuple[Outline, Frame]:
    """Return a plate across a prism as a board, its outer face to the right.

    Args:
        plate: the plate.
        air: section of the air [m].

    Returns: outline (u, v) from the lower left of the air [m], and where it lies

    Source: definition.
    """
    x0, y0, _, _ = air.polygon.bounds
    frame = Frame(origin=(x0, y0, plate.at + plate.thickness), u=(1, 0, 0), v=(0, 1, 0))
    return tuple((x - x0, y - y0) for x, y in air.points), frame


def shelf_board(
    shelf: Shelf, air: Polygon, start: float, end: float
) -> tuple[Outline, Outline, Frame]:
    """Return both faces of a shelf from wall to wall, and where it lies.

    Its outer face is the one on the right of start → end, as for an edge of the profile; up on it
    rises, or runs to the rear.

    Args:
        shelf: the shelf.
        air: section of the air, coordinates in [m].
        start: where it begins across the width [m].
        end: where it ends [m].

    Returns: outer and inner outline (u, v) [m], and where it lies

    Raises:
        PlacementError: when it does not lie in the air.

    Source: definition.
    """
    (ax, ay), (bx, by) = shelf.start, shelf.end
    length = math.dist(shelf.start, shelf.end)
    way, half = ((bx - ax) / length, (by - ay) / length), shelf.thickness / 2
    foot = (ax + half * way[1], ay - half * way[0])
    return _lying(foot, way, shelf.faces(air), (start, end))


def slab_board(slab: Slab) -> tuple[Outline, Outline, Frame]:
    """Return both faces of a board that stands free, and where it lies.

    Args:
        slab: the board.

    Returns: outer and inner outline (u, v) [m], and where it lies

    Source: definition.
    """
    if slab.way is None:
        x0, y0, _, _ = Polygon(slab.outline).bounds
        frame = Frame(origin=(x0, y0, slab.span[1]), u=(1, 0, 0), v=(0, 1, 0))
        sheet = tuple((x - x0, y - y0) for x, y in slab.outline)
        return sheet, sheet, frame
    vx, vy = slab.way
    corners = [(x * vx + y * vy, x * vy - y * vx) for x, y in slab.outline]
    outer, inner = max(off for _, off in corners), min(off for _, off in corners)
    spans = []
    for face in (outer, inner):
        along = [s for s, off in corners if abs(off - face) < SAME]
        spans.append((min(along), max(along)))
    return _lying((outer * vy, -outer * vx), slab.way, (spans[0], spans[1]), slab.span)


def _lying(
    foot: Point,
    way: Point,
    spans: tuple[tuple[float, float], tuple[float, float]],
    across: tuple[float, float],
) -> tuple[Outline, Outline, Frame]:
    """Both faces of a board drawn out over the width; up on it rises, or runs to the rear."""
    (vx, vy), (start, end) = way, across
    base, far = min(s for s, _ in spans), max(s for _, s in spans)
    if vy > LEVEL or (abs(vy) <= LEVEL and vx > 0):
        origin = (foot[0] + base * vx, foot[1] + base * vy, end)
        frame = Frame(origin=origin, u=(0, 0, -1), v=(vx, vy, 0))
        ends = [(low - base, high - base) for low, high in spans]
    else:
        origin = (foot[0] + far * vx, foot[1] + far * vy, start)
        frame = Frame(origin=origin, u=(0, 0, 1), v=(-vx, -vy, 0))
        ends = [(far - high, far - low) for low, high in spans]
    out, inn = (rectangle_points(0.0, low, end - start, high) for low, high in ends)
    return out, inn, frame


def divider_board(
    divider: CrossBrace | Shelf, air: Profile, span: tuple[float, float]
) -> tuple[Outline, Frame]:
    """Return the outer face of a closed plate or shelf.

    Args:
        divider: the plate or shelf.
        air: section of the air [m].
        span: where the air begins and ends across the width [m].

    Returns: outline (u, v) [m], and where it lies

    Raises:
        PlacementError: when it does not lie in the air.

    Source: definition.
    """
    if isinstance(divider, CrossBrace):
        return plate_board(divider, air)
    outline, _inner, frame = shelf_board(divider, air.polygon, *span)
    return outline, frame


def divider_face(divider: CrossBrace | Shelf, air: Profile, span: tuple[float, float]) -> Face:
    """Return a closed plate or shelf as a face that parts sit in, seen from its outer side.

    Args:
        divider: the plate or shelf.
        air: section of the air [m].
        span: where the air begins and ends across the width [m].

    Returns: face

    Raises:
        PlacementError: when it does not lie in the air.

    Source: definition.
    """
    outline, frame = divider_board(divider, air, span)
    size = max(u for u, _ in outline), max(v for _, v in outline)
    return Face(
        name=divider.name, frame=frame, size=size, wood=divider.thickness, inner=0.0, outer=0.0
    )
