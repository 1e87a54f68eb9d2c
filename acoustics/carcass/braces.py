"""Wood inside the box: plates across it, shelves along it, sticks, and stacked layers."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shapely.geometry import LineString, Polygon

from acoustics.carcass.errors import PlacementError
from acoustics.carcass.outline import Figure
from acoustics.carcass.profile import Point, positive


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
        positive(f"thickness of the layer on '{self.face}'", self.thickness)


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
        positive(f"thickness of brace '{self.name}'", self.thickness)

    def section(self, air: Polygon) -> Polygon:
        """Return the plate seen from the side, windows cut out.

        Args:
            air: section of the air in the box, coordinates in [m].

        Returns: polygon with holes, coordinates in [m]

        Raises:
            PlacementError: when a window reaches a wall or another window.

        Source: definition.
        """
        plate = air
        for window in self.windows:
            if not plate.contains(window.polygon):
                message = f"a window of brace '{self.name}' reaches a wall or another window"
                raise PlacementError(message)
            plate = plate.difference(window.polygon)
        return plate

    def volume(self, air: Polygon, width: float) -> float:
        """Return the volume of its wood.

        Args:
            air: section of the air in the box, coordinates in [m].
            width: width of the air, without meaning here [m].

        Returns: volume [m³]

        Raises:
            PlacementError: when a window reaches a wall or another window.

        Source: definition.
        """
        self.section(air)
        return float((air.area - sum(w.area for w in self.windows)) * self.thickness)


@dataclass(frozen=True, kw_only=True)
class Shelf:
    """A plate over the whole inner width, from wall to wall of the profile.

    Attributes:
        name: what it is called.
        start: a point of its middle line (x, y) [m].
        end: another point of its middle line (x, y) [m].
        thickness: measured thickness [m].
        windows: openings in it: u along the width from the left inside, v from the wall that is
            nearer to start [m].

    Raises:
        ProfileError: when the thickness is not greater than 0 m.
        PlacementError: when start and end are one point.

    Source: common practice, no source.
    """

    name: str
    start: Point
    end: Point
    thickness: float
    windows: tuple[Figure, ...] = ()

    def __post_init__(self) -> None:
        positive(f"thickness of brace '{self.name}'", self.thickness)
        if math.dist(self.start, self.end) == 0:
            message = f"brace '{self.name}' starts and ends at one point"
            raise PlacementError(message)

    def section(self, air: Polygon) -> Polygon:
        """Return the shelf seen end on, from wall to wall.

        Args:
            air: section of the air in the box, coordinates in [m].

        Returns: polygon, coordinates in [m]

        Raises:
            PlacementError: when its middle line does not lie in the air.

        Source: definition.
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
        if not pieces:
            message = f"brace '{self.name}' does not lie inside the box"
            raise PlacementError(message)
        piece: Polygon = pieces[0]
        return piece

    def volume(self, air: Polygon, width: float) -> float:
        """Return the volume of its wood.

        Args:
            air: section of the air in the box, coordinates in [m].
            width: width of the air [m].

        Returns: volume [m³]

        Raises:
            PlacementError: when it does not lie inside, or its windows are larger than it is.

        Source: definition.
        """
        wood = self.section(air).area * width - sum(w.area for w in self.windows) * self.thickness
        if wood <= 0:
            message = f"the windows of brace '{self.name}' leave no wood: {wood:g} m³"
            raise PlacementError(message)
        return float(wood)


@dataclass(frozen=True, kw_only=True)
class Strut:
    """A stick from wall to wall.

    Attributes:
        name: what it is called.
        length: length [m].
        breadth: breadth of its section [m].
        thickness: thickness of its section [m].

    Raises:
        ProfileError: when a dimension is not greater than 0 m.

    Source: common practice, no source.
    """

    name: str
    length: float
    breadth: float
    thickness: float

    def __post_init__(self) -> None:
        for what in ("length", "breadth", "thickness"):
            positive(f"{what} of brace '{self.name}'", getattr(self, what))

    def volume(self, air: Polygon, width: float) -> float:
        """Return the volume of its wood.

        Args:
            air: section of the air in the box, coordinates in [m].
            width: width of the air, without meaning here [m].

        Returns: volume [m³]

        Raises:
            PlacementError: when it is longer than the box is across corners.

        Source: definition.
        """
        x0, y0, x1, y1 = air.bounds
        longest = math.hypot(x1 - x0, y1 - y0, width)
        if self.length > longest:
            message = f"brace '{self.name}' is {self.length:g} m long; the box holds {longest:g} m"
            raise PlacementError(message)
        return self.length * self.breadth * self.thickness


Brace = CrossBrace | Shelf | Strut
