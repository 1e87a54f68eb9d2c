"""Outlines of panels as they are drawn: arcs, rounded corners, edges measured from a batten."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

import numpy as np
from scipy.interpolate import CubicSpline
from shapely.geometry import Polygon

from acoustics.carcass.shape.bows import arc_between
from acoustics.carcass.shape.errors import ProfileError, metres
from acoustics.carcass.shape.profile import Point
from acoustics.errors import COUNT, Quantity

# How far a straight piece may lie off the curve it stands for [m]; pieces of one curve at most.
DEVIATION, MOST = 1e-4, 200
# Two lengths closer than this are one [m].
TOUCH = 1e-6


@dataclass(frozen=True, kw_only=True)
class Corner:
    """A corner of an outline, and the edge after it.

    Attributes:
        at: across and up [m].
        bow: how far the middle of the edge after it lies off the straight line, outwards above
            zero [m].
        radius: how it is rounded; 0 leaves it sharp [m].
        stations: how far the edge after it lies off a straight batten from this corner to the
            next: along the batten, and outwards from it above zero [m].
    """

    at: Point
    bow: float = 0.0
    radius: float = 0.0
    stations: tuple[Point, ...] = ()


def measured(
    corners: Sequence[Corner], stations: Sequence[tuple[int, float, float]]
) -> list[Corner]:
    """Return corners with what was measured off battens laid along the edges after them.

    Args:
        corners: the corners, all round.
        stations: number of the corner [-], along the batten, and outwards from it [m].

    Returns: the corners, each with its stations

    Raises:
        ProfileError: when a batten begins at a corner that is not there.

    Source: definition.
    """
    for number, _along, _out in stations:
        if not 1 <= number <= len(corners):
            raise ProfileError(
                code="no-such-corner",
                corner=Quantity(number, COUNT),
                most=Quantity(len(corners), COUNT),
            )
    return [
        replace(corner, stations=tuple((along, out) for at, along, out in stations if at == number))
        for number, corner in enumerate(corners, start=1)
    ]


@dataclass(frozen=True, kw_only=True)
class Spot:
    """A point of an outline that is set out by hand, in the order of the outline.

    Attributes:
        kind: a corner, where an arc is farthest off its chord, where a rounded corner begins or
            ends, a station of a batten.
        number: number of its corner [-].
        index: which point of the outline it is [-].
        radius: radius of the arc it is on, where there is one [m].
        hollow: whether the arc bends inwards.
    """

    kind: Literal["corner", "arc", "round", "station"]
    number: int
    index: int
    radius: float | None = None
    hollow: bool = False


@dataclass(frozen=True, kw_only=True)
class Edged:
    """An outline as straight lines, with the points a hand sets out.

    Attributes:
        points: its corners, curves as short lines [m].
        spots: the points that are set out.
    """

    points: tuple[Point, ...]
    spots: tuple[Spot, ...]


def edged(corners: Sequence[Corner]) -> Edged:
    """Return an outline with its arcs, rounded corners and measured edges as straight lines.

    An edge that bows is an arc (`straightened`); a corner of radius r between edges that turn by a
    touches each at r tan(a/2) from the corner; an edge of stations is the natural cubic spline
    through them, as a thin lath bent round pins lies.

    Args:
        corners: the corners, all round.

    Returns: its points and what is set out [m]

    Valid: curves are followed to 0.1 mm; arcs up to half a circle; a lath that leads less than
        about 30° off its batten.

    Raises:
        ProfileError: when a corner that is rounded has no straight edges or too short ones, or a
            station lies off its batten or where another is.

    Source: definition; a lath that bends little is a beam whose moment is linear between pins.
    """
    line = _Line(corners)
    for n in range(len(corners)):
        line.corner(n)
        line.edge(n)
    return line.closed()


class _Line:
    """An outline while it is drawn, corner by corner."""

    def __init__(self, corners: Sequence[Corner]) -> None:
        self.corners = corners
        self.outwards = math.copysign(1.0, _signed([corner.at for corner in corners]))
        self.points: list[Point] = []
        self.spots: list[Spot] = []

    def closed(self) -> Edged:
        """The outline whose last point is not its first."""
        last = len(self.points) - 1
        if math.dist(self.points[0], self.points[last]) >= TOUCH:
            return Edged(points=tuple(self.points), spots=tuple(self.spots))
        spots = [replace(spot, index=spot.index % last) for spot in self.spots]
        return Edged(points=tuple(self.points[:last]), spots=tuple(spots))

    def corner(self, n: int) -> None:
        """Draw a corner, sharp or rounded."""
        corner, count = self.corners[n], len(self.points)
        if corner.radius <= 0:
            self.spots.append(Spot(kind="corner", number=n + 1, index=count))
            self.points.append(corner.at)
            return
        after = self.corners[(n + 1) % len(self.corners)]
        hollow = _turn(self.corners[n - 1].at, corner.at, after.at) * self.outwards < 0
        rounded = _round(self.corners, n, self.outwards)
        # Where the rounding before ended, this one may begin: an edge with nothing left of it.
        if self.points and math.dist(self.points[-1], rounded[0]) < TOUCH:
            rounded, count = rounded[1:], count - 1
        self.points += rounded
        self.spots += [
            Spot(kind="round", number=n + 1, index=index, radius=corner.radius, hollow=hollow)
            for index in dict.fromkeys((count, len(self.points) - 1))
        ]

    def edge(self, n: int) -> None:
        """Draw the edge after a corner, where it is no straight line."""
        corner, after = self.corners[n], self.corners[(n + 1) % len(self.corners)]
        count = len(self.points)
        if corner.stations:
            curve, pinned = _bent(corner, after.at, self.outwards, n + 1)
            self.points += curve
            self.spots += [
                Spot(kind="station", number=n + 1, index=count + index) for index in pinned
            ]
        elif corner.bow:
            arc = arc_between(
                corner.at, after.at, corner.bow, self.outwards, deviation=DEVIATION, most=MOST
            )
            chord, high = math.dist(corner.at, after.at), abs(corner.bow)
            self.points += arc
            self.spots.append(
                Spot(
                    kind="arc",
                    number=n + 1,
                    index=count + len(arc) // 2,
                    radius=(chord**2 / 4 + high**2) / (2 * high),
                    hollow=corner.bow < 0,
                )
            )


def _turn(before: Point, at: Point, after: Point) -> float:
    """By how much an outline turns at a corner, to the left above zero [rad]."""
    a = math.atan2(at[1] - before[1], at[0] - before[0])
    b = math.atan2(after[1] - at[1], after[0] - at[0])
    return math.remainder(b - a, math.tau)


def _touch(corners: Sequence[Corner], n: int) -> float:
    """How far from a corner its rounding touches the edges; 0 of a sharp one [m]."""
    corner = corners[n]
    if corner.radius <= 0:
        return 0.0
    before, after = corners[n - 1].at, corners[(n + 1) % len(corners)].at
    return corner.radius * math.tan(abs(_turn(before, corner.at, after)) / 2)


def _round(corners: Sequence[Corner], n: int, outwards: float) -> list[Point]:
    """The points of a rounded corner, from where it leaves one edge to where it meets the next."""
    corner, last, after = corners[n], corners[n - 1], corners[(n + 1) % len(corners)]
    if corner.bow or corner.stations or last.bow or last.stations:
        raise ProfileError(code="round-beside-curve", corner=Quantity(n + 1, COUNT))
    touch = _touch(corners, n)
    for neighbour, at in ((n - 1, last.at), ((n + 1) % len(corners), after.at)):
        room = math.dist(corner.at, at) - _touch(corners, neighbour)
        if touch > room + TOUCH:
            raise ProfileError(
                code="round-too-large",
                corner=Quantity(n + 1, COUNT),
                radius=metres(corner.radius),
                limit=metres(max(corner.radius * room / touch, 0.0)),
            )
    start, end = _towards(corner.at, last.at, touch), _towards(corner.at, after.at, touch)
    chord = math.dist(start, end)
    turn = _turn(last.at, corner.at, after.at)
    bow = corner.radius * (1 - math.cos(turn / 2))
    side = math.copysign(bow, turn * outwards)
    if chord < TOUCH:
        return [start]
    arc = arc_between(start, end, side, outwards, deviation=DEVIATION, most=MOST)
    return [start, *arc, end]


def _towards(here: Point, there: Point, by: float) -> Point:
    share = by / math.dist(here, there)
    return here[0] + (there[0] - here[0]) * share, here[1] + (there[1] - here[1]) * share


def _bent(
    corner: Corner, after: Point, outwards: float, number: int
) -> tuple[list[Point], list[int]]:
    """The points of a measured edge between its corners, and which of them are stations."""
    length = math.dist(corner.at, after)
    for along, _out in corner.stations:
        if not -TOUCH <= along <= length + TOUCH:
            raise ProfileError(
                code="station-off-batten",
                corner=Quantity(number, COUNT),
                along=metres(along),
                limit=metres(length),
            )
    ends = (0.0, length)
    pins = {
        next((end for end in ends if abs(along - end) < TOUCH), along): out
        for along, out in sorted(corner.stations)
    }
    if len(pins) < len(corner.stations):
        raise ProfileError(code="stations-coincide", corner=Quantity(number, COUNT))
    whole = dict(sorted((dict.fromkeys(ends, 0.0) | pins).items()))
    lath = CubicSpline(np.array(list(whole)), np.array(list(whole.values())), bc_type="natural")
    at = [0.0]
    for start, end in pairwise(whole):
        bend = max(abs(float(lath(start, 2))), abs(float(lath(end, 2))))
        pieces = math.ceil((end - start) * math.sqrt(bend / (8 * DEVIATION)))
        at += [float(x) for x in np.linspace(start, end, max(min(pieces, MOST), 1) + 1)[1:]]
    way = ((after[0] - corner.at[0]) / length, (after[1] - corner.at[1]) / length)
    off = (way[1] * outwards, -way[0] * outwards)
    points = [
        (
            corner.at[0] + x * way[0] + float(lath(x)) * off[0],
            corner.at[1] + x * way[1] + float(lath(x)) * off[1],
        )
        for x in at
    ]
    # An end of the batten is the corner itself where the edge begins or ends on it.
    first = 0 if abs(float(lath(0.0))) > TOUCH else 1
    last = len(points) if abs(float(lath(length))) > TOUCH else len(points) - 1
    pinned = [n - first for n in range(first, last) if any(abs(at[n] - x) < TOUCH for x in pins)]
    return points[first:last], pinned


def inset(outline: Edged, by: float) -> Edged:
    """Return an outline so much smaller all round, corners kept sharp and arcs round.

    Args:
        outline: the outline.
        by: how far each edge moves inwards [m].

    Returns: the smaller outline, its spots with it [m]

    Raises:
        ProfileError: when an edge or all of it vanishes.

    Source: definition (parallel curve).
    """
    if by == 0:
        return outline
    points = outline.points
    outwards = math.copysign(1.0, _signed(points))
    moved: list[Point] = []
    for before, at, after in zip(
        (points[-1], *points[:-1]), points, (*points[1:], points[0]), strict=True
    ):
        (ax, ay), (bx, by_) = _normal(before, at, outwards), _normal(at, after, outwards)
        scale = by / (1 + ax * bx + ay * by_)
        moved.append((at[0] - (ax + bx) * scale, at[1] - (ay + by_) * scale))
    area = Polygon(points).buffer(-by, join_style="mitre", mitre_limit=100).area
    smaller = Polygon(moved)
    if area <= 0 or not smaller.is_valid or abs(smaller.area - area) > 1e-6:
        raise ProfileError(code="gap-closes-outline", gap=metres(by))
    spots = tuple(
        replace(spot, radius=None if spot.radius is None else spot.radius + by * _sign(spot))
        for spot in outline.spots
    )
    return Edged(points=tuple(moved), spots=spots)


def _sign(spot: Spot) -> float:
    return 1.0 if spot.hollow else -1.0


def _signed(points: Sequence[Point]) -> float:
    return sum(
        here[0] * there[1] - there[0] * here[1]
        for here, there in zip(points, [*points[1:], *points[:1]], strict=True)
    )


def _normal(here: Point, there: Point, outwards: float) -> Point:
    """The unit vector that leads out of an outline across one of its edges."""
    length = math.dist(here, there)
    across, up = (there[0] - here[0]) / length, (there[1] - here[1]) / length
    return up * outwards, -across * outwards
