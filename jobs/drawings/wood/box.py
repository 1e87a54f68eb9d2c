"""A box as a drawing meets it: its edges in the side view, and what sits in its faces.

Lengths are metres. The body knows its own geometry (`Drawn`); here is only what the side view
needs on top: x runs from the front to the rear, y upwards, corners counter-clockwise.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from jobs.design.carcass.carcass import Drawn, Placed, PortBody, RoundPart
from jobs.design.wording import term
from jobs.drawings.pencil.svg import Point

# A face whose normal runs along the width by more than this is seen square on [-].
LENGTHWISE = 0.5


@dataclass(frozen=True, kw_only=True)
class Edge:
    """A panel seen end on: where it starts, along it, out of the box, and how thick it is."""

    start: Point
    along: Point
    out: Point
    length: float
    thickness: float

    def at(self, along: float, inwards: float = 0.0) -> Point:
        """A point of the side view, so far along the edge and so far into the box."""
        return (
            self.start[0] + self.along[0] * along - self.out[0] * inwards,
            self.start[1] + self.along[1] * along - self.out[1] * inwards,
        )


@dataclass(frozen=True, kw_only=True)
class Thing:
    """A part in a face: on which edge of the side view and where, or in a side panel."""

    part: RoundPart | PortBody
    face: str
    # Middle on the face, seen from outside.
    centre: Point
    # Middle in the side view.
    at: Point
    # None in a side panel.
    edge: int | None
    along: float = 0.0
    # +1 where up on the face runs along the edge.
    rising: int = 1

    @property
    def name(self) -> str:
        """What it is called."""
        return term(self.part.name)

    @property
    def near(self) -> bool:
        """Whether the side panel it sits in is the one cut away."""
        return self.face == "right"


@dataclass(frozen=True, kw_only=True)
class Box:
    """A body to draw, and the space in the car it goes in, in the same coordinates."""

    body: Drawn
    cavity: Sequence[Point] = ()
    obstacles: Sequence[Sequence[Point]] = ()

    @cached_property
    def edges(self) -> list[Edge]:
        """The panels round the side view."""
        profile = self.body.profile
        faces = [self.body.face(name) for name in profile.names]
        return [
            Edge(
                start=profile.points[i],
                along=profile.direction(i),
                out=profile.normal(i),
                length=profile.length(i),
                thickness=face.wood + face.inner,
            )
            for i, face in enumerate(faces)
        ]

    @cached_property
    def dividers(self) -> dict[str, Edge]:
        """Closed boards inside that parts sit in and that the side view shows end on."""
        seats = {}
        for placed in self.body.contents:
            face = self.body.face(placed.face)
            if placed.face in self.body.faces or abs(face.frame.normal[2]) > LENGTHWISE:
                continue
            seats[placed.face] = Edge(
                start=face.frame.origin[:2],
                along=face.frame.v[:2],
                out=(float(face.frame.normal[0]), float(face.frame.normal[1])),
                length=face.size[1],
                thickness=face.wood,
            )
        return seats

    @cached_property
    def seats(self) -> list[Edge]:
        """The panels round the side view, then the boards inside that parts sit in."""
        return [*self.edges, *self.dividers.values()]

    @cached_property
    def contents(self) -> list[Thing]:
        """What sits on an edge of the side view."""
        return [thing for thing in self.things if thing.edge is not None]

    @cached_property
    def in_cheeks(self) -> list[Thing]:
        """What sits in a side panel."""
        return [thing for thing in self.things if thing.edge is None]

    @cached_property
    def things(self) -> list[Thing]:
        """Everything in its faces."""
        return [self._thing(placed) for placed in self.body.contents]

    def _thing(self, placed: Placed) -> Thing:
        frame, profile = self.body.face(placed.face).frame, self.body.profile
        centre = self.body.centre(placed)
        x, y, _z = frame.place((centre,))[0].tolist()
        if placed.face in self.dividers:
            edge = len(self.edges) + list(self.dividers).index(placed.face)
            return Thing(
                part=placed.part,
                face=placed.face,
                centre=centre,
                at=(x, y),
                edge=edge,
                along=centre[1],
            )
        if placed.face not in profile.names:
            return Thing(part=placed.part, face=placed.face, centre=centre, at=(x, y), edge=None)
        edge = profile.index(placed.face)
        (x0, y0), (ux, uy) = profile.points[edge], profile.direction(edge)
        return Thing(
            part=placed.part,
            face=placed.face,
            centre=centre,
            at=(x, y),
            edge=edge,
            along=(x - x0) * ux + (y - y0) * uy,
            rising=1 if frame.v[0] * ux + frame.v[1] * uy > 0 else -1,
        )
