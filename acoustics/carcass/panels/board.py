"""Boards that carry amplifiers: where their holes are drilled, and the air they need."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

from shapely.geometry import Point as Spot
from shapely.geometry import Polygon
from shapely.ops import unary_union

from acoustics.carcass.shape.outline import Circle, Figure, Loop, rectangle
from acoustics.carcass.shape.profile import Point, positive
from acoustics.findings import Finding
from acoustics.names import Name

# Less than this lies on a line [m].
TOUCH = 1e-6


@dataclass(frozen=True, kw_only=True)
class Mounted:
    """A thing screwed to a board, square to it.

    Attributes:
        name: what it is called.
        middle: its middle on the board (u, v) [m].
        size: across and up as it stands [m].
        height: how far it stands off the board; None where nobody knows [m].
        holes: how far apart its screws are, across and up as it stands; none where unknown [m].
        hole: diameter of the holes for them [m].
        air: free space its maker asks for round it; None where nobody knows [m].

    Raises:
        ProfileError: when a length that is given is not greater than 0 m.

    Source: definition.
    """

    name: str
    middle: Point
    size: tuple[float, float]
    height: float | None = None
    holes: tuple[float, float] | None = None
    hole: float | None = None
    air: float | None = None

    def __post_init__(self) -> None:
        positive(Name.WIDTH, self.size[0], of=self.name)
        positive(Name.HEIGHT, self.size[1], of=self.name)

    @property
    def rim(self) -> Loop:
        """What it covers of the board.

        Returns: rectangle [m]
        """
        (u, v), (across, up) = self.middle, self.size
        return rectangle(u - across / 2, v - up / 2, u + across / 2, v + up / 2)

    @cached_property
    def reach(self) -> Polygon:
        """What it takes of the board: itself, and its holes where its feet stand out beyond it.

        Returns: area that turns inward nowhere, coordinates in [m]
        """
        parts = [self.rim.polygon, *(hole.polygon for hole in self.drilled)]
        return unary_union(parts).convex_hull

    @property
    def drilled(self) -> tuple[Circle, ...]:
        """The holes of its screws, one near each corner; none where they are not known.

        Returns: circles [m]
        """
        if self.holes is None or self.hole is None:
            return ()
        (u, v), (across, up) = self.middle, self.holes
        return tuple(
            Circle(centre=(u + x * across / 2, v + y * up / 2), radius=self.hole / 2)
            for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1))
        )


def check_board(
    outline: Figure,
    openings: Sequence[Figure],
    mounted: Sequence[Mounted],
    *,
    room: float | None,
) -> Iterator[Finding]:
    """Find what reaches over a board or an opening of it, collides, or lacks the air it needs.

    Args:
        outline: the board.
        openings: what is cut out of it.
        mounted: what is screwed to it.
        room: free height over the board; None where nobody measured it [m].

    Yields: findings, with the names of what they are about

    Source: definition; how much air is free is the part maker's word.
    """
    whole = outline.polygon.buffer(TOUCH)
    for thing in mounted:
        if not whole.covers(thing.reach):
            yield Finding(
                code="mount-beyond-board",
                detail=(thing.name,),
                value=_beyond(thing.reach, outline.polygon),
                unit="m",
            )
        if any(opening.polygon.intersection(thing.reach).area > TOUCH**2 for opening in openings):
            yield Finding(code="mount-over-opening", detail=(thing.name,))
        if not thing.drilled:
            yield Finding(code="mount-holes-unknown", detail=(thing.name,))
        yield from _above(thing, room)
    for first, second in combinations(mounted, 2):
        yield from _between(first, second)


def _beyond(rim: Polygon, board: Polygon) -> float:
    return max(float(board.distance(Spot(at))) for at in rim.exterior.coords)


def _above(thing: Mounted, room: float | None) -> Iterator[Finding]:
    if thing.air is None:
        yield Finding(code="mount-air-unknown", detail=(thing.name,), unit="m")
    if thing.height is None or room is None:
        yield Finding(code="mount-height-unknown", detail=(thing.name,), unit="m")
        return
    needed = thing.height + (thing.air or 0.0)
    if room < thing.height - TOUCH:
        code = "mount-higher-than-room"
    elif room < needed - TOUCH:
        code = "mount-without-air"
    else:
        return
    limit = thing.height if code == "mount-higher-than-room" else needed
    yield Finding(code=code, detail=(thing.name,), value=room, limit=limit, unit="m")


def _between(first: Mounted, second: Mounted) -> Iterator[Finding]:
    names = (first.name, second.name)
    # Feet that stand out take no air.
    gap = float(first.rim.polygon.distance(second.rim.polygon))
    if first.reach.intersection(second.reach).area > TOUCH**2:
        yield Finding(code="mounts-collide", detail=names)
        return
    air = max(first.air or 0.0, second.air or 0.0)
    if gap < air - TOUCH:
        yield Finding(code="mounts-crowded", detail=names, value=gap, limit=air, unit="m")
