"""What a box looks like to a drawing: its profile, its wood and what sits on its faces.

Lengths are metres. The profile is the outside of the side view: x runs from the front to the
rear, y upwards, corners counter-clockwise. Edge ``i`` runs from corner ``i`` to the
next; its panel is ``thicknesses[i]`` thick and reaches ``width`` across. Things on a face stand
``along`` its edge from its first corner and ``across`` from the middle of the width, counted
towards the person who looks at the side view.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from jobs.drawings.pencil.svg import DrawingError, Point


@dataclass(frozen=True, kw_only=True)
class Round:
    """A driver or passive radiator: rim, cut-out, depth behind the face, magnet, bolts.

    ``depth`` is measured from the outer face to the rear of the magnet; ``proud`` is how far the
    rim stands out of the face. A magnet diameter of 0 draws a basket only.
    """

    name: str
    edge: int
    along: float
    across: float = 0.0
    rim: float
    cutout: float
    depth: float
    proud: float = 0.005
    magnet: float = 0.0
    magnet_depth: float = 0.0
    bolts: int = 0
    bolt_circle: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Tube:
    """A round port: inside diameter, wall, and length from the outer face inwards."""

    name: str
    edge: int
    along: float
    across: float = 0.0
    diameter: float
    wall: float = 0.003
    length: float
    # The piece after a bend, along the edge or against it.
    turn: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Slot:
    """A rectangular opening: ``height`` along the edge, ``breadth`` across, walls, length.

    A terminal plate is a slot as long as the panel is thick.
    """

    name: str
    edge: int
    along: float
    across: float = 0.0
    height: float
    breadth: float
    wall: float = 0.0
    length: float
    turn: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Brace:
    """Wood inside in the side view: the window of a plate, or wood that is seen end on."""

    name: str
    outline: Sequence[Point]
    wood: bool = False


OnFace = Round | Tube | Slot


@dataclass(frozen=True, kw_only=True)
class OnCheek:
    """A thing in a side panel: where its middle is in the side view, and whether it is near."""

    thing: OnFace
    at: Point
    near: bool


@dataclass(frozen=True, kw_only=True)
class Face:
    """One panel seen from outside: where its edge starts, along it, and out of the box."""

    start: Point
    along: Point
    out: Point
    length: float
    thickness: float

    def at(self, along: float, inwards: float = 0.0) -> Point:
        """A point of the side view, so far along the face and so far into the box."""
        return (
            self.start[0] + self.along[0] * along - self.out[0] * inwards,
            self.start[1] + self.along[1] * along - self.out[1] * inwards,
        )


@dataclass(frozen=True, kw_only=True)
class Box:
    """A carcass to draw: profile, width over all, panels and contents; the cavity it goes in."""

    profile: Sequence[Point]
    thicknesses: Sequence[float]
    width: float
    side_thickness: float
    contents: Sequence[OnFace] = ()
    in_cheeks: Sequence[OnCheek] = ()
    braces: Sequence[Brace] = ()
    cavity: Sequence[Point] = ()
    obstacles: Sequence[Sequence[Point]] = ()

    def __post_init__(self) -> None:
        corners = list(self.profile)
        if len(corners) < 3 or len(self.thicknesses) != len(corners):
            message = (
                f"a profile needs 3 corners or more and a thickness per edge, "
                f"got {len(corners)} corners and {len(self.thicknesses)} thicknesses"
            )
            raise DrawingError(message)
        numbers = [v for corner in corners for v in corner]
        sizes = [*self.thicknesses, self.width, self.side_thickness]
        if not all(math.isfinite(v) for v in (*numbers, *sizes)) or min(sizes) <= 0:
            message = f"a box needs finite corners and sizes above 0 m, got {sizes}"
            raise DrawingError(message)
        if abs(area(corners)) < 1e-9:
            message = "the profile of the box encloses nothing"
            raise DrawingError(message)
        for thing in self.contents:
            if not 0 <= thing.edge < len(corners):
                message = f"{thing.name} sits on edge {thing.edge}, the profile has {len(corners)}"
                raise DrawingError(message)

    def faces(self) -> list[Face]:
        """The panels round the profile, in the order of its edges."""
        turn = 1.0 if area(self.profile) > 0 else -1.0
        result = []
        for i, start in enumerate(self.profile):
            end = self.profile[(i + 1) % len(self.profile)]
            length = math.dist(start, end)
            if length < 1e-6:
                message = f"edge {i} of the profile has no length"
                raise DrawingError(message)
            ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
            result.append(
                Face(
                    start=start,
                    along=(ux, uy),
                    out=(uy * turn, -ux * turn),
                    length=length,
                    thickness=self.thicknesses[i],
                )
            )
        return result

    def inside(self) -> list[Point]:
        """The inner profile: every edge moved inwards by its thickness."""
        faces = self.faces()
        corners = [_meet(faces[i - 1], face) for i, face in enumerate(faces)]
        # A box with no inside turns over: its inner edges run against the outer ones.
        over = 0
        for face, a, b in zip(faces, corners, [*corners[1:], corners[0]], strict=True):
            over += (b[0] - a[0]) * face.along[0] + (b[1] - a[1]) * face.along[1] <= 0
        if 2 * over >= len(faces) or area(corners) * area(self.profile) <= 0:
            message = "the panels are thicker than the box is deep: nothing is left inside"
            raise DrawingError(message)
        return corners


def area(corners: Sequence[Point]) -> float:
    """The signed area of a polygon, above 0 when its corners run counter-clockwise."""
    total = 0.0
    for (x0, y0), (x1, y1) in zip(corners, [*corners[1:], corners[0]], strict=True):
        total += x0 * y1 - x1 * y0
    return total / 2


def _meet(before: Face, after: Face) -> Point:
    """Where the inner sides of two neighbouring panels meet."""
    p, q = before.at(0, before.thickness), after.at(0, after.thickness)
    (ux, uy), (vx, vy) = before.along, after.along
    cross = ux * vy - uy * vx
    if abs(cross) < 1e-9:  # two panels in one line
        return q
    share = ((q[0] - p[0]) * vy - (q[1] - p[1]) * vx) / cross
    return (p[0] + share * ux, p[1] + share * uy)
