"""What stiffens a box from within: plates spaced by count, and each brace that was entered."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from shapely.geometry import LineString, Polygon

from acoustics.carcass.shape.braces import Brace, CrossBrace, Shelf, Strut
from acoustics.carcass.shape.errors import PlacementError, at_most, metres
from acoustics.carcass.shape.outline import Loop, rectangle
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Point
from acoustics.errors import Id
from acoustics.names import Name
from jobs.models import Box
from jobs.models.box_wood import PLATE, SHELF, STRUT_ACROSS, STRUT_ALONG, UPRIGHT

# Further than any box reaches [m].
FAR = 100.0
# A middle line is told by two points this far apart [m].
STEP = 0.001
# More than this many plates in one box are a slip [-].
MOST_SPACED = 20


def braces(box: Box, bare: Carcass, thickness: float) -> tuple[Brace, ...]:
    """Return every brace of a box; those entered by hand are as thick as the sheet."""
    entered = []
    count: dict[str, int] = {}
    for one in box.inner_braces or ():
        word = one["kind"].split()[0]
        count[word] = count.get(word, 0) + 1
        entered.append(_entered(f"{word} {count[word]}", one, bare, thickness))
    outline = bare.air_profile.polygon
    return (*spaced(box, bare.air_span, thickness, lambda _: outline), *entered)


def _entered(name: str, one: dict[str, Any], bare: Carcass, thickness: float) -> Brace:
    if one["kind"] == PLATE:
        return _plate(name, one, bare, thickness)
    if one["kind"] in (SHELF, UPRIGHT):
        return _shelf(name, one, bare, thickness)
    return _strut(name, one, bare, thickness)


def spaced(
    box: Box, span: tuple[float, float], thickness: float, section: Callable[[float], Polygon]
) -> tuple[CrossBrace, ...]:
    """Space plates unevenly over a span, so that no two panel fields ring alike.

    `section` gives the air that a plate meets which begins so far along.
    """
    start, end = span
    count = box.brace_count
    at_most(count, MOST_SPACED, Name.INNER_BRACES, PlacementError)
    # 0.46 of the field instead of the half: neighbouring fields differ in size.
    places = [
        start + (end - start) * (number - 0.04) / (count + 1) - thickness / 2
        for number in range(1, count + 1)
    ]
    return tuple(
        CrossBrace(
            name=f"brace {number}",
            at=place,
            thickness=thickness,
            windows=_smaller(section(place), box.brace_opening),
        )
        for number, place in enumerate(places, start=1)
    )


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


def _plate(name: str, one: dict[str, Any], bare: Carcass, thickness: float) -> CrossBrace:
    (at,) = one["at"]
    windows = _smaller(bare.air_profile.polygon, one["open"])
    return CrossBrace(name=name, at=at - thickness / 2, thickness=thickness, windows=windows)


def _shelf(name: str, one: dict[str, Any], bare: Carcass, thickness: float) -> Shelf:
    """A plate over the whole width: level, or upright as the front is."""
    (at,) = one["at"]
    line = _longest(name, bare, at, level=one["kind"] == SHELF)
    return Shelf(
        name=name,
        start=line[0],
        end=line[1],
        thickness=thickness,
        windows=_window(name, line, bare, thickness, one["open"]),
    )


def _window(
    name: str, line: tuple[Point, Point], bare: Carcass, thickness: float, share: float
) -> tuple[Loop, ...]:
    """One opening in the middle of a shelf, its sides in proportion."""
    if share <= 0:
        return ()
    (start, end), across = bare.air_span, 0 if line[0][1] == line[1][1] else 1
    section = Shelf(name=name, start=line[0], end=line[1], thickness=thickness).section(
        bare.air_profile.polygon
    )
    first, last = section.bounds[across], section.bounds[across + 2]
    width, scale = end - start, math.sqrt(share)
    depth = line[1][across] - line[0][across]
    # Counted from the corner that reaches farthest; the middle line may begin a little later.
    low = line[0][across] - first + depth * (1 - scale) / 2
    rim = min(low, (last - first) - low - depth * scale, width * (1 - scale) / 2)
    if rim < thickness:
        raise PlacementError(
            code="window-rim-too-thin", name=Id(name), rim=metres(rim), wanted=metres(thickness)
        )
    return (rectangle(width * (1 - scale) / 2, low, width * (1 + scale) / 2, low + depth * scale),)


def _corner(bare: Carcass) -> Point:
    """Where places are counted from: the foremost and the lowest of the outside."""
    x, y, _, _ = bare.profile.polygon.bounds
    return x, y


def _strut(name: str, one: dict[str, Any], bare: Carcass, thickness: float) -> Shelf | Strut:
    """A stick from wall to wall: across from cheek to cheek, along to the rear, or up."""
    first, second, breadth = one["at"]
    if one["kind"] == STRUT_ACROSS:
        x, y = _corner(bare)
        at = (x + first, y + second)
        return Strut(name=name, at=at, breadth=breadth, thickness=thickness)
    line = _longest(name, bare, first, level=one["kind"] == STRUT_ALONG)
    span = (second - breadth / 2, second + breadth / 2)
    return Shelf(name=name, start=line[0], end=line[1], thickness=thickness, span=span)


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
