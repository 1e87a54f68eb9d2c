"""Wood inside the box: plates across it, shelves along it, sticks, and stacked layers."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shapely.geometry import LineString, Polygon, box

from acoustics.carcass.shape.errors import PlacementError
from acoustics.carcass.shape.outline import Figure, Loop
from acoustics.carcass.shape.profile import Point, positive
from acoustics.carcass.shape.seen import SeenBrace
from acoustics.carcass.shape.slab import Slab
from acoustics.errors import Id
from acoustics.names import Name

# Two lines closer than this are one line [m].
SAME = 1e-8
Span = tuple[float, float]


@dataclass(frozen=True, kw_only=True)
class Layer:
    """One more sheet glued flat on a face, inside or outside: a stacked baffle.

    Attributes:
        face: name of the face it lies on.
        thickness: measured thickness [m].
        outside: whether it lies on the outside; then it takes no air.

    Raises:
        ProfileError: when the thickness is not greater than 0 m.

    Source: common practice, no source.
    """

    face: str
    thickness: float
    outside: bool = False

    def __post_init__(self) -> None:
        positive(Name.LAYER_THICKNESS, self.thickness, of=self.face)


@dataclass(frozen=True, kw_only=True)
class CrossBrace:
    """A plate from wall to wall all round, plain or with windows: across a prism, level in a taper.

    Attributes:
        name: what it is called.
        at: distance from the outside of the left cheek, of the bottom of a taper, to its nearer
            face [m].
        thickness: measured thickness [m].
        windows: openings in it, in the coordinates of the section it lies in [m].

    Raises:
        ProfileError: when the thickness is not greater than 0 m.

    Source: common practice, no source.
    """

    name: str
    at: float
    thickness: float
    windows: tuple[Figure, ...] = ()

    def __post_init__(self) -> None:
        positive(Name.THICKNESS, self.thickness, of=self.name)

    def reach(self, start: float, end: float) -> tuple[float, float]:
        """Return where it begins and ends, counted as `at` is.

        Args:
            start: where the air begins, without meaning here [m].
            end: where it ends, without meaning here [m].

        Returns: two places [m]
        """
        return self.at, self.at + self.thickness

    def section(self, air: Polygon) -> Polygon:
        """Return the plate seen from the side, windows cut out.

        Args:
            air: section of the air in the box, coordinates in [m].

        Returns: polygon with holes, coordinates in [m]

        Raises:
            PlacementError: when a window reaches a wall or another window.
        """
        plate = air
        for window in self.windows:
            if not plate.contains(window.polygon):
                raise PlacementError(code="window-reaches-wall", name=Id(self.name))
            plate = plate.difference(window.polygon)
        return plate

    def seen(self, air: Polygon) -> list[SeenBrace]:
        """Return what the side view shows of it across a prism: the rims of its windows.

        Args:
            air: section of the air in the box, without meaning here, coordinates in [m].

        Returns: outlines (x, y) [m]
        """
        return [
            SeenBrace(outline=window.points, cut=False)
            for window in self.windows
            if isinstance(window, Loop)
        ]

    def volume(self, air: Polygon, width: float) -> float:
        """Return the volume of its wood.

        Args:
            air: section of the air in the box, coordinates in [m].
            width: width of the air, without meaning here [m].

        Returns: volume [m³]

        Raises:
            PlacementError: when a window reaches a wall or another window.
        """
        self.section(air)
        return float((air.area - sum(w.area for w in self.windows)) * self.thickness)


@dataclass(frozen=True, kw_only=True)
class Shelf:
    """A plate from wall to wall of the profile, over the inner width or a strut's share of it.

    Attributes:
        name: what it is called.
        start: a point of its middle line (x, y) [m].
        end: another point of its middle line (x, y) [m].
        thickness: measured thickness [m].
        windows: openings in it: u along the width from its right end, v from the wall that is
            nearer to start [m].
        span: where it begins and ends across the width, from the outside of the left cheek, when
            it is a strut; None over the whole inner width [m].

    Raises:
        ProfileError: when thickness or breadth is not greater than 0 m.
        PlacementError: when start and end are one point.

    Source: common practice, no source.
    """

    name: str
    start: Point
    end: Point
    thickness: float
    windows: tuple[Figure, ...] = ()
    span: tuple[float, float] | None = None

    def __post_init__(self) -> None:
        positive(Name.THICKNESS, self.thickness, of=self.name)
        if self.span is not None:
            positive(Name.BREADTH, self.span[1] - self.span[0], of=self.name)
        if math.dist(self.start, self.end) == 0:
            raise PlacementError(code="brace-without-length", name=Id(self.name))

    def reach(self, start: float, end: float) -> tuple[float, float]:
        """Return where it begins and ends across the width, from the outside of the left cheek.

        Args:
            start: where the air begins [m].
            end: where it ends [m].

        Returns: two places [m]
        """
        return (start, end) if self.span is None else self.span

    def section(self, air: Polygon) -> Polygon:
        """Return the shelf seen end on, from wall to wall.

        Args:
            air: section of the air in the box, coordinates in [m].

        Returns: polygon of four corners, its ends cut straight; coordinates in [m]

        Raises:
            PlacementError: when its middle line or one of its faces does not lie in the air.
        """
        return self._board(self.faces(air))

    def faces(self, air: Polygon) -> tuple[Span, Span]:
        """Return where its two faces begin and end, counted from `start` towards `end`.

        Args:
            air: section of the air in the box, coordinates in [m].

        Returns: face on the right of that way, then face on the left [m]

        Raises:
            PlacementError: as `section`.
        """
        x0, y0, x1, y1 = air.bounds
        length = math.dist(self.start, self.end)
        reach = (math.dist((x0, y0), (x1, y1)) + length) / length
        (ax, ay), (bx, by) = self.start, self.end
        line = LineString(
            [
                (ax - (bx - ax) * reach, ay - (by - ay) * reach),
                (bx + (bx - ax) * reach, by + (by - ay) * reach),
            ]
        )
        strip = line.buffer(self.thickness / 2, cap_style="flat").intersection(air)
        middle = LineString([self.start, self.end]).interpolate(0.5, normalized=True)
        pieces = [p for p in getattr(strip, "geoms", [strip]) if p.intersects(middle)]
        ends = self._ends(pieces[0]) if pieces else None
        if ends is None:
            raise PlacementError(code="brace-outside", name=Id(self.name))
        return ends

    @property
    def _way(self) -> Point:
        (ax, ay), (bx, by) = self.start, self.end
        length = math.dist(self.start, self.end)
        return (bx - ax) / length, (by - ay) / length

    def _ends(self, piece: Polygon) -> tuple[Span, Span] | None:
        """The faces in its part of the air: where a corner points into an end, square before it."""
        (ax, ay), (vx, vy) = self.start, self._way
        length, half = math.dist(self.start, self.end), self.thickness / 2
        corners = [
            ((x - ax) * vx + (y - ay) * vy, (x - ax) * vy - (y - ay) * vx)
            for x, y in piece.exterior.coords
        ]
        right, left = (
            [s for s, off in corners if abs(off - side) < SAME] for side in (half, -half)
        )
        before = max((s for s, _ in corners if s < length / 2), default=length / 2)
        after = min((s for s, _ in corners if s >= length / 2), default=length / 2)
        tried = [((before, after), (before, after))]
        if right and left:
            tried.insert(0, ((min(right), max(right)), (min(left), max(left))))
        for faces in tried:
            board = self._board(faces)
            if board.area > 0 and piece.buffer(SAME, join_style="mitre").covers(board):
                return faces
        return None

    def _board(self, faces: tuple[Span, Span]) -> Polygon:
        (ax, ay), (vx, vy), half = self.start, self._way, self.thickness / 2
        (a, b), (c, d) = faces
        return Polygon(
            [
                (ax + s * vx + off * vy, ay + s * vy - off * vx)
                for s, off in ((a, half), (b, half), (d, -half), (c, -half))
            ]
        )

    def seen(self, air: Polygon) -> list[SeenBrace]:
        """Return what the side view shows of it: its wood, end on.

        Args:
            air: section of the air in the box, coordinates in [m].

        Returns: outline (x, y) [m]

        Raises:
            PlacementError: as `section`.
        """
        corners = tuple(self.section(air).exterior.coords)[:-1]
        return [SeenBrace(outline=corners, cut=True)]

    def volume(self, air: Polygon, width: float) -> float:
        """Return the volume of its wood.

        Args:
            air: section of the air in the box, coordinates in [m].
            width: width of the air [m].

        Returns: volume [m³]

        Raises:
            PlacementError: when it does not lie inside, or its windows are larger than it is.
        """
        low, high = self.reach(0.0, width)
        windows = sum(w.area for w in self.windows) * self.thickness
        wood = self.section(air).area * (high - low) - windows
        if wood <= 0:
            raise PlacementError(code="windows-leave-no-wood", name=Id(self.name))
        return float(wood)


@dataclass(frozen=True, kw_only=True)
class Strut:
    """A stick from cheek to cheek.

    Attributes:
        name: what it is called.
        at: middle of its section in the side view (x, y) [m].
        breadth: extent of its section along x [m].
        thickness: extent of its section along y [m].

    Raises:
        ProfileError: when a dimension is not greater than 0 m.

    Source: common practice, no source.
    """

    name: str
    at: Point
    breadth: float
    thickness: float

    def __post_init__(self) -> None:
        for what in ("breadth", "thickness"):
            positive(Name(what), getattr(self, what), of=self.name)

    def reach(self, start: float, end: float) -> tuple[float, float]:
        """Return where it begins and ends across the width: with the air.

        Args:
            start: where the air begins [m].
            end: where it ends [m].

        Returns: two places [m]
        """
        return start, end

    def section(self, air: Polygon) -> Polygon:
        """Return the stick seen end on.

        Args:
            air: section of the air in the box, coordinates in [m].

        Returns: polygon, coordinates in [m]

        Raises:
            PlacementError: when it does not lie in the air.
        """
        (x, y), u, v = self.at, self.breadth / 2, self.thickness / 2
        stick: Polygon = box(x - u, y - v, x + u, y + v)
        if not air.covers(stick):
            raise PlacementError(code="brace-outside", name=Id(self.name))
        return stick

    def seen(self, air: Polygon) -> list[SeenBrace]:
        """Return what the side view shows of it: its wood, end on.

        Args:
            air: section of the air in the box, coordinates in [m].

        Returns: outline (x, y) [m]

        Raises:
            PlacementError: as `section`.
        """
        corners = tuple(self.section(air).exterior.coords)[:-1]
        return [SeenBrace(outline=corners, cut=True)]

    def volume(self, air: Polygon, width: float) -> float:
        """Return the volume of its wood.

        Args:
            air: section of the air in the box, coordinates in [m].
            width: width of the air [m].

        Returns: volume [m³]

        Raises:
            PlacementError: when it does not lie in the air.
        """
        return float(self.section(air).area * width)


Brace = CrossBrace | Shelf | Strut | Slab
