"""The chambers that closed plates part a box into, and which part works in which."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from shapely.geometry import Point as Spot
from shapely.geometry import Polygon
from shapely.ops import unary_union

from acoustics.carcass.shape.braces import Brace, CrossBrace, Shelf
from acoustics.carcass.shape.contents import Placed, PortBody, RoundPart
from acoustics.carcass.shape.faces import Face
from acoustics.carcass.shape.panel import Vector
from acoustics.carcass.shape.profile import Point

# A part works in the chamber this far behind the wood it sits in [m].
BEHIND = 1e-4


def is_closed(brace: Brace) -> bool:
    """Say whether a brace parts the air: a plate or a shelf from wall to wall without a window.

    Args:
        brace: a brace.

    Returns: whether no air passes it

    Source: definition.
    """
    if isinstance(brace, CrossBrace):
        return not brace.windows
    return isinstance(brace, Shelf) and brace.span is None and not brace.windows


@dataclass(frozen=True, kw_only=True, eq=False)
class Room:
    """Air between walls and closed plates, the wood of the other braces taken off.

    Attributes:
        volume: its air, parts not taken off [m³].
        holds: says whether a point (x, y, z) lies in it.
    """

    volume: float
    holds: Callable[[Vector], bool]


@dataclass(frozen=True, kw_only=True, eq=False)
class Chamber:
    """A room with the parts that work in it.

    Attributes:
        volume: its air, parts taken off [m³].
        inside: numbers of the parts whose inner end lies in it [-].
        facing: numbers of the parts in a plate that look into it [-].
    """

    volume: float
    inside: tuple[int, ...]
    facing: tuple[int, ...]


class Parted(Protocol):
    """A box that closed plates may part."""

    @property
    def contents(self) -> tuple[Placed, ...]:
        """Parts in its faces."""

    @property
    def faces(self) -> tuple[str, ...]:
        """Names of its outer faces."""

    @property
    def rooms(self) -> tuple[Room, ...]:
        """Its air, parted by closed plates."""

    def face(self, name: str) -> Face:
        """Return a face [m]."""

    def centre(self, placed: Placed) -> Point:
        """Return where a part sits on its face [m]."""


def chambers(body: Parted) -> tuple[Chamber, ...]:
    """Return the chambers of a box; one where nothing parts it.

    Args:
        body: the box.

    Returns: chambers, what their parts take of them taken off [m³]

    Source: definition.
    """
    ends = [_ends(body, placed) for placed in body.contents]
    parted = []
    for room in body.rooms:
        inside = tuple(i for i, (inner, _outer) in enumerate(ends) if room.holds(inner))
        facing = tuple(
            i for i, (_inner, outer) in enumerate(ends) if outer is not None and room.holds(outer)
        )
        taken = sum(_taken(body, body.contents[i]) for i in inside)
        parted.append(Chamber(volume=room.volume - taken, inside=inside, facing=facing))
    return tuple(parted)


def _taken(body: Parted, placed: Placed) -> float:
    return placed.part.volume_behind(body.face(placed.face).thickness)


def _ends(body: Parted, placed: Placed) -> tuple[Vector, Vector | None]:
    """Where a part works: behind its wood, a port at its mouth; and before a plate it sits in."""
    face = body.face(placed.face)
    axes = {"u": np.asarray(face.frame.u), "v": np.asarray(face.frame.v), "n": -face.frame.normal}
    point = face.frame.place((body.centre(placed),), -face.outer)[0]
    before = None if placed.face in body.faces else point - BEHIND * axes["n"]
    if isinstance(placed.part, PortBody):
        for leg in placed.part.legs:
            way = axes[leg.heading[-1]] * (-1.0 if leg.heading[0] == "-" else 1.0)
            point = point + leg.length * way
    else:
        point = point + (face.thickness + BEHIND) * axes["n"]
    return _vector(point), None if before is None else _vector(before)


def _vector(point: np.ndarray) -> Vector:
    x, y, z = (float(c) for c in point)
    return x, y, z


def shut_off(body: Parted) -> float:
    """Return the air that no driver has behind it: that of chambers without a driver's motor.

    Args:
        body: the box.

    Returns: volume, 0 where nothing parts the box or no driver sits in it [m³]

    Source: definition.
    """
    if len(body.rooms) < 2:
        return 0.0
    parted = chambers(body)
    played = [c for c in parted if drivers_in(body, c.inside)]
    return sum(c.volume for c in parted) - sum(c.volume for c in played) if played else 0.0


def drivers_in(body: Parted, numbers: Sequence[int]) -> int:
    """Count the drivers among some parts of a box.

    Args:
        body: the box.
        numbers: numbers of parts [-].

    Returns: how many of them are drivers [-]

    Source: definition.
    """
    parts = [body.contents[i].part for i in numbers]
    return sum(isinstance(part, RoundPart) and part.kind == "driver" for part in parts)


def prism_rooms(
    air: Polygon, span: tuple[float, float], braces: Sequence[Brace]
) -> tuple[Room, ...]:
    """Return the rooms of a prism: pieces of its side view between plates across it.

    Args:
        air: section of the air, coordinates in [m].
        span: where the air begins and ends across the width [m].
        braces: its braces.

    Returns: rooms, from the left cheek on

    Source: definition.
    """
    closed = [brace for brace in braces if is_closed(brace)]
    others = [brace for brace in braces if brace not in closed]
    walls = [brace.section(air) for brace in closed if isinstance(brace, Shelf)]
    left = air.difference(unary_union(walls).buffer(1e-9, join_style="mitre")) if walls else air
    pieces = [piece for piece in getattr(left, "geoms", [left]) if piece.area > 1e-8]
    rooms = []
    for start, end in gaps(span, [b.reach(*span) for b in closed if isinstance(b, CrossBrace)]):
        for piece in pieces:
            wood = sum(_wood_in(brace, air, span, piece, (start, end)) for brace in others)
            rooms.append(
                Room(
                    volume=float(piece.area) * (end - start) - wood,
                    holds=_holder(piece, start, end),
                )
            )
    return tuple(rooms)


def _holder(piece: Polygon, start: float, end: float) -> Callable[[Vector], bool]:
    return lambda point: start <= point[2] <= end and bool(piece.covers(Spot(point[:2])))


def gaps(
    span: tuple[float, float], taken: Sequence[tuple[float, float]]
) -> list[tuple[float, float]]:
    """Return what stretches leave of a whole.

    Args:
        span: beginning and end of the whole [m].
        taken: beginning and end of each stretch [m].

    Returns: beginning and end of each gap [m]

    Source: definition.
    """
    ends = [span[0], *itertools.chain(*sorted(taken)), span[1]]
    return [(a, b) for a, b in zip(ends[::2], ends[1::2], strict=True) if b - a > 1e-9]


def _wood_in(
    brace: Brace,
    air: Polygon,
    span: tuple[float, float],
    piece: Polygon,
    stretch: tuple[float, float],
) -> float:
    """The wood of an open brace that stands in one room."""
    low, high = brace.reach(*span)
    depth = min(high, stretch[1]) - max(low, stretch[0])
    if depth <= 0:
        return 0.0
    whole = float(brace.section(air).area)
    share = float(brace.section(air).intersection(piece).area) / whole
    return brace.volume(air, span[1] - span[0]) * share * depth / (high - low)


def level_rooms(
    span: tuple[float, float],
    braces: Sequence[CrossBrace],
    volume: Callable[[float, float], float],
    wood: Callable[[CrossBrace], float],
) -> tuple[Room, ...]:
    """Return the rooms between level plates.

    Args:
        span: where the air begins and ends upwards [m].
        braces: level plates.
        volume: gives the air between two heights [m³].
        wood: gives the wood of a plate [m³].

    Returns: rooms, from the bottom up

    Source: definition.
    """
    closed = [brace.reach(*span) for brace in braces if is_closed(brace)]
    rooms = []
    for low, high in gaps(span, closed):
        inner = [b for b in braces if b.windows and low <= b.at < high]
        rooms.append(
            Room(
                volume=volume(low, high) - sum(wood(brace) for brace in inner),
                holds=_between(low, high),
            )
        )
    return tuple(rooms)


def _between(low: float, high: float) -> Callable[[Vector], bool]:
    return lambda point: low <= point[1] <= high
