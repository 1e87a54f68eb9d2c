"""The side view of a box: a polygon whose every edge is one panel seen end on."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from shapely.geometry import LineString, Polygon

from acoustics.carcass.shape.errors import NoInsideError, ProfileError, metres
from acoustics.errors import COUNT, Id, Quantity
from acoustics.names import Name

Point = tuple[float, float]

# Two edges closer to one line than this are one panel, not two.
STRAIGHT = math.radians(0.1)


def positive(measure: Name, value: float, *, of: str = "") -> float:
    """Return a length that is finite and greater than zero, or say why it is not.

    Args:
        measure: what the length is called.
        value: the length [m].
        of: what it is a measure of, where that is not the whole.

    Returns:
        The same length [m].

    Raises:
        ProfileError: when it is zero, negative, infinite or not a number.

    Source: definition.
    """
    if not (math.isfinite(value) and value > 0):
        if not of:
            raise ProfileError(code="measure-not-positive", measure=measure, value=metres(value))
        code = "measure-of-part-not-positive"
        raise ProfileError(code=code, measure=measure, of=Id(of), value=metres(value))
    return value


@dataclass(frozen=True, kw_only=True)
class Profile:
    """A simple polygon in the side view, counter-clockwise, one panel per edge.

    x runs from the front to the rear, y upwards. Edge i runs from corner i to corner i + 1;
    corner i is where edge i begins.

    Attributes:
        points: the corners (x, y), counter-clockwise [m].
        names: one name per edge; "side 1", "side 2" … when left empty.

    Raises:
        ProfileError: fewer than three corners, clockwise, self-crossing, a corner that is
            straight, or names that do not match the edges.

    Valid: any simple polygon, convex or not.
    """

    points: tuple[Point, ...]
    names: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        points = tuple((float(x), float(y)) for x, y in self.points)
        object.__setattr__(self, "points", points)
        if len(points) < 3:
            raise ProfileError(code="too-few-corners", corners=Quantity(len(points), COUNT))
        if not all(math.isfinite(c) for p in points for c in p):
            raise ProfileError(code="corner-not-finite")
        if not self.names:
            object.__setattr__(self, "names", tuple(f"side {i + 1}" for i in range(len(points))))
        if len(self.names) != len(points) or len(set(self.names)) != len(points):
            raise ProfileError(
                code="edge-names-wrong",
                corners=Quantity(len(points), COUNT),
                names=tuple(map(Id, self.names)),
            )
        if not self.polygon.is_valid or self.polygon.area == 0:
            raise ProfileError(code="outline-crosses-itself")
        if not self.polygon.exterior.is_ccw:
            raise ProfileError(code="outline-runs-clockwise")
        for i, name in enumerate(self.names):
            if abs(self.interior_angle(i) - math.pi) < STRAIGHT:
                raise ProfileError(code="corner-straight", name=Id(name))

    def __len__(self) -> int:
        return len(self.points)

    @cached_property
    def polygon(self) -> Polygon:
        """The outline as a shapely polygon [m]."""
        return Polygon(self.points)

    @cached_property
    def lines(self) -> dict[str, LineString]:
        """Each edge as a shapely line, by its name [m]."""
        ring = [*self.points, self.points[0]]
        return {name: LineString(ring[i : i + 2]) for i, name in enumerate(self.names)}

    @property
    def area(self) -> float:
        """The area inside the outline [m²]."""
        return float(self.polygon.area)

    def index(self, name: str) -> int:
        """Find an edge by its name.

        Args:
            name: the name of the edge.

        Returns:
            Its index [-].

        Raises:
            ProfileError: when no edge is called so.
        """
        if name not in self.names:
            raise ProfileError(code="no-such-edge", name=Id(name), names=tuple(map(Id, self.names)))
        return self.names.index(name)

    def direction(self, edge: int) -> Point:
        """Return the unit vector along an edge.

        Args:
            edge: index of the edge [-].

        Returns:
            The direction from its first corner to its second [-].
        """
        return self._directions[edge % len(self._directions)]

    @cached_property
    def _directions(self) -> tuple[Point, ...]:
        ends = zip(self.points, (*self.points[1:], self.points[0]), strict=True)
        return tuple(
            ((x1 - x0) / length, (y1 - y0) / length)
            for (x0, y0), (x1, y1) in ends
            for length in (math.hypot(x1 - x0, y1 - y0),)
        )

    def normal(self, edge: int) -> Point:
        """Return the unit vector that points out of the box at an edge.

        Args:
            edge: index of the edge [-].

        Returns:
            The outward normal [-].
        """
        ex, ey = self.direction(edge)
        return (ey, -ex)

    def length(self, edge: int) -> float:
        """Return the length of an edge.

        Args:
            edge: index of the edge [-].

        Returns:
            The length [m].
        """
        return math.dist(self.points[edge % len(self)], self.points[(edge + 1) % len(self)])

    def interior_angle(self, corner: int) -> float:
        """Return the angle inside the box at a corner.

        Args:
            corner: index of the corner, where the edge of the same index begins [-].

        Returns:
            The angle, between 0 and 2π; more than π where the outline turns inward [rad].
        """
        ax, ay = self.direction(corner - 1)
        bx, by = self.direction(corner)
        return math.pi - math.atan2(ax * by - ay * bx, ax * bx + ay * by)

    def meeting_point(self, edge: int, depth: float, other: int, other_depth: float) -> Point:
        """Return where two edges meet after each is moved inward by its own depth.

        Args:
            edge: index of one edge [-].
            depth: how far it is moved inward [m].
            other: index of the other edge, not parallel to the first [-].
            other_depth: how far that one is moved inward [m].

        Returns:
            The point (x, y) [m].

        Source: definition (two straight lines).
        """
        (a, b), (c, d) = self.normal(edge), self.normal(other)
        (x0, y0), (x1, y1) = self.points[edge % len(self)], self.points[other % len(self)]
        right, right_other = a * x0 + b * y0 - depth, c * x1 + d * y1 - other_depth
        det = a * d - b * c
        return ((right * d - b * right_other) / det, (a * right_other - right * c) / det)

    def inset(self, depths: float | Sequence[float]) -> Profile:
        """Move every edge inward by its own depth and return the outline that is left.

        Each edge stays parallel to itself; new corners are where neighbours meet, so a box with
        a thick baffle and thin sides comes out true. A negative depth moves the edge outward.

        Args:
            depths: one depth for all, or one per edge [m].

        Returns:
            A profile with the same edges and names, measured in metres [m].

        Raises:
            NoInsideError: when an edge or the whole inside vanishes.
            ProfileError: when the number of depths is wrong.

        Source: definition (parallel lines at given distance).
        """
        depth = per_edge(depths, len(self), Name.DEPTH)
        points = tuple(
            self.meeting_point(i - 1, depth[i - 1], i, depth[i]) for i in range(len(self))
        )
        for i, name in enumerate(self.names):
            (x0, y0), (x1, y1) = points[i], points[(i + 1) % len(self)]
            ex, ey = self.direction(i)
            left = (x1 - x0) * ex + (y1 - y0) * ey
            if left <= 0:
                raise NoInsideError(
                    code="edge-has-no-inside",
                    thinnest=metres(min(depth)),
                    thickest=metres(max(depth)),
                    name=Id(name),
                    length=metres(self.length(i)),
                )
        if not Polygon(points).is_valid:
            raise NoInsideError(
                code="panels-cross", thinnest=metres(min(depth)), thickest=metres(max(depth))
            )
        return Profile(points=points, names=self.names)


def per_edge(value: float | Sequence[float], count: int, what: Name) -> tuple[float, ...]:
    """Spread one value over all edges, or check that there is one per edge.

    Args:
        value: one value or one per edge [m].
        count: number of edges [-].
        what: name of the value.

    Returns:
        One value per edge [m].

    Raises:
        ProfileError: when the number of values is not the number of edges.

    Source: definition.
    """
    if isinstance(value, (int, float)):
        return (float(value),) * count
    values = tuple(float(v) for v in value)
    if len(values) != count:
        raise ProfileError(
            code="values-not-one-per-edge",
            values=Quantity(len(values), COUNT),
            measure=what,
            edges=Quantity(count, COUNT),
        )
    return values
