"""Plain figures on a panel: circles and closed loops, for holes, windows and templates."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import Polygon

from acoustics.carcass.shape.errors import ProfileError, metres
from acoustics.carcass.shape.profile import Point, positive
from acoustics.errors import COUNT, Quantity
from acoustics.names import Name

# Segments per quarter turn where a circle must become a polygon: 0.01 % of its area.
QUARTER = 32


@dataclass(frozen=True, kw_only=True)
class Circle:
    """A round hole or outline; kept round so that a machine cuts a true circle.

    Attributes:
        centre: its centre (u, v) [m].
        radius: its radius [m].
        layer: what is done along it: cut, engrave or note.

    Raises:
        ProfileError: when the radius is not greater than 0 m.
    """

    centre: Point
    radius: float
    layer: str = "cut"

    def __post_init__(self) -> None:
        positive(Name.RADIUS, self.radius)

    @property
    def area(self) -> float:
        """Area it encloses, π r².

        Returns: area [m²]
        """
        return math.pi * self.radius**2

    @property
    def polygon(self) -> Polygon:
        """The circle as a polygon, for distances and drawing.

        Returns: polygon with its corners on the circle, coordinates in [m]
        """
        return ShapelyPoint(self.centre).buffer(self.radius, quad_segs=QUARTER)


@dataclass(frozen=True, kw_only=True)
class Loop:
    """A closed outline of straight lines.

    Attributes:
        points: its corners (u, v) [m].
        layer: what is done along it: cut, bevel, engrave or note.

    Raises:
        ProfileError: when it encloses nothing or crosses itself.
    """

    points: tuple[Point, ...]
    layer: str = "cut"

    def __post_init__(self) -> None:
        if len(self.points) < 3 or not self.polygon.is_valid or self.polygon.area <= 0:
            raise ProfileError(
                code="loop-encloses-nothing", corners=Quantity(len(self.points), COUNT)
            )

    @property
    def area(self) -> float:
        """Area it encloses.

        Returns: area [m²]
        """
        return float(self.polygon.area)

    @property
    def polygon(self) -> Polygon:
        """The loop as a shapely polygon.

        Returns: polygon, coordinates in [m]
        """
        return Polygon(self.points)


Figure = Circle | Loop


def rectangle(u0: float, v0: float, u1: float, v1: float, *, layer: str = "cut") -> Loop:
    """Return an upright rectangle as a loop, counter-clockwise.

    Args:
        u0: left side [m].
        v0: lower side [m].
        u1: right side [m].
        v1: upper side [m].
        layer: what is done along it.

    Returns: loop of four corners [m]

    Raises:
        ProfileError: when it encloses nothing.

    Source: definition.
    """
    if u1 <= u0 or v1 <= v0:
        raise ProfileError(
            code="rectangle-encloses-nothing", width=metres(u1 - u0), height=metres(v1 - v0)
        )
    return Loop(points=((u0, v0), (u1, v0), (u1, v1), (u0, v1)), layer=layer)
