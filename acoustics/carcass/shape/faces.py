"""The faces of a prism: where each lies, and what is left and up on it seen from outside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from acoustics.carcass.shape.errors import PlacementError
from acoustics.carcass.shape.panel import Frame
from acoustics.carcass.shape.profile import Point, Profile
from acoustics.errors import Id

CHEEKS = ("left", "right")
# Front, rear, left and right end of a box at one height: x least and most, z least and most [m].
Extent = tuple[float, float, float, float]


@dataclass(frozen=True, kw_only=True)
class Face:
    """One face of a carcass as seen from outside.

    Attributes:
        name: name of the face.
        frame: where it lies; u to the right, v up, from its lower left corner.
        size: outer size along u and v [m].
        wood: thickness of the panel [m].
        inner: thickness of the layers inside [m].
        outer: thickness of the layers outside [m].
    """

    name: str
    frame: Frame
    size: tuple[float, float]
    wood: float
    inner: float
    outer: float

    @property
    def thickness(self) -> float:
        """Thickness from the outermost surface to the air.

        Returns: thickness [m]
        """
        return self.wood + self.inner + self.outer


def check_face(name: str, faces: Sequence[str]) -> None:
    """Refuse a face that a box does not have.

    Args:
        name: name of the face.
        faces: names of the faces there are.

    Raises:
        PlacementError: when there is no such face.

    Source: definition.
    """
    if name not in faces:
        raise PlacementError(code="no-such-face", face=Id(name), faces=tuple(map(Id, tuple(faces))))


def runs_upward(profile: Profile, edge: int) -> bool:
    """Say whether v on an edge's face runs the way the edge does.

    v rises; on a level edge it runs towards the rear.

    Args:
        profile: the outline.
        edge: index of the edge [-].

    Returns: True when v runs from the edge's first corner to its second

    Source: definition.
    """
    ex, ey = profile.direction(edge)
    return ey > 1e-9 or (abs(ey) <= 1e-9 and ex > 0)


def wall_frame(profile: Profile, edge: int, width: float) -> Frame:
    """Return the frame of the face on an edge of a profile drawn out over a width.

    Args:
        profile: the outline.
        edge: index of the edge [-].
        width: outer width [m].

    Returns: frame

    Source: definition.
    """
    ex, ey = profile.direction(edge)
    if runs_upward(profile, edge):
        x, y = profile.points[edge]
        return Frame(origin=(x, y, width), u=(0, 0, -1), v=(ex, ey, 0))
    x, y = profile.points[(edge + 1) % len(profile)]
    return Frame(origin=(x, y, 0), u=(0, 0, 1), v=(-ex, -ey, 0))


def rectangle_points(u0: float, v0: float, u1: float, v1: float) -> tuple[Point, ...]:
    """Return the corners of a rectangle, counter-clockwise from its lower left.

    Args:
        u0: left [m].
        v0: bottom [m].
        u1: right [m].
        v1: top [m].

    Returns: four points [m]

    Source: definition.
    """
    return ((u0, v0), (u1, v0), (u1, v1), (u0, v1))


def on_cheek(name: str, frame: Frame, profile: Profile) -> tuple[tuple[Point, ...], list[int]]:
    """Return a profile as seen on a cheek, counter-clockwise, and the edge behind each side.

    Args:
        name: left or right.
        frame: frame of the cheek.
        profile: the outline.

    Returns: points (u, v) [m], and one index of an edge per side [-]

    Source: definition.
    """
    sign = frame.u[0]
    points = tuple((sign * (x - frame.origin[0]), y - frame.origin[1]) for x, y in profile.points)
    edges = list(range(len(profile)))
    if name == "right":
        return points, edges
    return points[::-1], [(i - 1) % len(profile) for i in edges[::-1]]
