"""Braces cut to the bare box they stiffen: plates spaced by count, and each by its own place.

Places count as a rule lies in the box: from the foremost and the lowest of its outside, and from
the outside of its left.
"""

from __future__ import annotations

import math

from shapely.geometry import LineString, Polygon

from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.braces import CrossBrace, Shelf, Strut
from acoustics.carcass.shape.errors import PlacementError, at_most, metres
from acoustics.carcass.shape.outline import Loop, rectangle
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Point
from acoustics.errors import Id
from acoustics.names import Name

# Further than any box reaches [m].
FAR = 100.0
# A middle line is told by two points this far apart [m].
STEP = 0.001
# More than this many plates in one box are a slip [-].
MOST_SPACED = 20


def spaced_plates(
    bare: Body, count: int, *, opening: float, thickness: float
) -> tuple[CrossBrace, ...]:
    """Space plates unevenly, so that no two panel fields ring alike.

    Plate k of n lies at (k - 0.04) / (n + 1) of the air: neighbouring fields differ in size.

    Args:
        bare: the box without contents.
        count: how many plates [-].
        opening: share of each that is cut out; a plain plate unless between 0 and 1 [-].
        thickness: measured thickness [m].

    Returns: plates, across a prism and level in a taper

    Raises:
        NoInsideError: when the wood leaves no inside.
        PlacementError: when there are more than 20.

    Source: common practice, no source.
    """
    at_most(count, MOST_SPACED, Name.INNER_BRACES, PlacementError)
    start, end = bare.air_span
    places = [
        start + (end - start) * (number - 0.04) / (count + 1) - thickness / 2
        for number in range(1, count + 1)
    ]
    return tuple(
        CrossBrace(
            name=f"brace {number}",
            at=place,
            thickness=thickness,
            windows=_smaller(bare.plate_air(place, thickness), opening),
        )
        for number, place in enumerate(places, start=1)
    )


def plate(name: str, bare: Carcass, at: float, *, opening: float, thickness: float) -> CrossBrace:
    """Return a plate across the box.

    Args:
        name: what it is called.
        bare: the box without contents.
        at: distance of its middle from the outside of the left cheek [m].
        opening: share of it that is cut out; plain unless between 0 and 1 [-].
        thickness: measured thickness [m].

    Returns: plate

    Source: common practice, no source.
    """
    near = at - thickness / 2
    windows = _smaller(bare.plate_air(near, thickness), opening)
    return CrossBrace(name=name, at=near, thickness=thickness, windows=windows)


def _smaller(outline: Polygon, share: float) -> tuple[Loop, ...]:
    """The section of the air drawn smaller: the window of a plate; none when nothing is open."""
    scale = math.sqrt(max(share, 0.0))
    if not 0 < scale < 1:
        return ()
    centre = outline.representative_point()
    points = tuple(
        (centre.x + scale * (x - centre.x), centre.y + scale * (y - centre.y))
        for x, y in outline.exterior.coords[:-1]
    )
    return (Loop(points=points),)


def shelf(
    name: str, bare: Carcass, at: float, *, level: bool, opening: float, thickness: float
) -> Shelf:
    """Return a plate over the whole width, level or upright, with one window in its middle.

    Args:
        name: what it is called.
        bare: the box without contents.
        at: height of a level one, depth of an upright one, to its middle [m].
        level: whether it is level.
        opening: share of it that is cut out, its sides in proportion; 0 for none [-].
        thickness: measured thickness [m].

    Returns: shelf

    Raises:
        PlacementError: when it does not lie inside, or the window leaves too little rim.

    Source: common practice, no source.
    """
    start, end = _longest(name, bare, at, level=level)
    plain = Shelf(name=name, start=start, end=end, thickness=thickness)
    return Shelf(
        name=name,
        start=start,
        end=end,
        thickness=thickness,
        windows=_window(plain, bare, opening) if opening > 0 else (),
    )


def _window(plain: Shelf, bare: Carcass, share: float) -> tuple[Loop, ...]:
    """One opening in the middle of a shelf, its sides in proportion."""
    (left, right), thickness = bare.air_span, plain.thickness
    across = 0 if plain.start[1] == plain.end[1] else 1
    bounds = plain.section(bare.air_profile.polygon).bounds
    first, last = bounds[across], bounds[across + 2]
    width, scale = right - left, math.sqrt(share)
    depth = plain.end[across] - plain.start[across]
    # Counted from the corner that reaches farthest; the middle line may begin a little later.
    low = plain.start[across] - first + depth * (1 - scale) / 2
    rim = min(low, (last - first) - low - depth * scale, width * (1 - scale) / 2)
    if rim < thickness:
        raise PlacementError(
            code="window-rim-too-thin",
            name=Id(plain.name),
            rim=metres(rim),
            wanted=metres(thickness),
        )
    return (rectangle(width * (1 - scale) / 2, low, width * (1 + scale) / 2, low + depth * scale),)


def strut_across(name: str, bare: Carcass, at: Point, *, breadth: float, thickness: float) -> Strut:
    """Return a stick from cheek to cheek.

    Args:
        name: what it is called.
        bare: the box without contents.
        at: depth and height of its middle [m].
        breadth: extent from front to rear [m].
        thickness: extent upwards [m].

    Returns: strut

    Source: common practice, no source.
    """
    x, y = _corner(bare)
    return Strut(name=name, at=(x + at[0], y + at[1]), breadth=breadth, thickness=thickness)


def strut_between_walls(
    name: str, bare: Carcass, at: Point, *, level: bool, breadth: float, thickness: float
) -> Shelf:
    """Return a stick from wall to wall of the side view: to the rear, or up.

    Args:
        name: what it is called.
        bare: the box without contents.
        at: height of a level one, depth of an upright one, and how far its middle lies from the
            outside of the left cheek [m].
        level: whether it is level.
        breadth: extent across the box [m].
        thickness: measured thickness [m].

    Returns: strut, as a shelf over a share of the width

    Raises:
        PlacementError: when it does not lie inside.

    Source: common practice, no source.
    """
    start, end = _longest(name, bare, at[0], level=level)
    span = (at[1] - breadth / 2, at[1] + breadth / 2)
    return Shelf(name=name, start=start, end=end, thickness=thickness, span=span)


def _corner(bare: Carcass) -> Point:
    """Where places are counted from: the foremost and the lowest of the outside."""
    x, y, _, _ = bare.profile.polygon.bounds
    return x, y


def _longest(name: str, bare: Carcass, at: float, *, level: bool) -> tuple[Point, Point]:
    """The longest way from wall to wall at a height, or at a depth, in the side view."""
    at += _corner(bare)[1 if level else 0]
    ends = [(-FAR, at), (FAR, at)] if level else [(at, -FAR), (at, FAR)]
    cut = LineString(ends).intersection(bare.air_profile.polygon)
    pieces = [p for p in getattr(cut, "geoms", [cut]) if isinstance(p, LineString)]
    longest = max(pieces, key=lambda p: p.length, default=None)
    if longest is None or longest.length < STEP:
        raise PlacementError(code="brace-outside", name=Id(name))
    (ax, ay), (bx, by) = sorted(longest.coords)
    return (ax, ay), (bx, by)
