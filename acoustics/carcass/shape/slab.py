"""A board that stands free in a box: a figure of the side view over a stretch of the width."""

from __future__ import annotations

from dataclasses import dataclass

from shapely.geometry import Polygon

from acoustics.carcass.shape.errors import PlacementError
from acoustics.carcass.shape.profile import Point, positive
from acoustics.carcass.shape.seen import SeenBrace
from acoustics.errors import Id
from acoustics.names import Name

# A figure may stand out of the air by so much before it is cut by a wall [m²].
CRUMB = 1e-9


@dataclass(frozen=True, kw_only=True)
class Slab:
    """A board of a port: drawn out over a stretch of the width, or a sheet along the side view.

    Attributes:
        name: what it is called.
        outline: its figure in the side view, counter-clockwise (x, y) [m].
        span: where it begins and ends across the width, from the outside of the left cheek [m].
        thickness: measured thickness [m].
        way: unit vector along its faces in the side view; None where it is a sheet along the side
            view, as thick as its span is long [-].

    Raises:
        ProfileError: when a dimension is not greater than 0 m.

    Source: common practice, no source.
    """

    name: str
    outline: tuple[Point, ...]
    span: tuple[float, float]
    thickness: float
    way: Point | None = None

    def __post_init__(self) -> None:
        positive(Name.THICKNESS, self.thickness, of=self.name)
        positive(Name.BREADTH, self.span[1] - self.span[0], of=self.name)

    def reach(self, start: float, end: float) -> tuple[float, float]:
        """Return where it begins and ends across the width.

        Args:
            start: where the air begins, without meaning here [m].
            end: where it ends, without meaning here [m].

        Returns: two places [m]
        """
        return self.span

    def section(self, air: Polygon) -> Polygon:
        """Return the board seen end on from the side.

        Args:
            air: section of the air in the box, coordinates in [m].

        Returns: polygon, coordinates in [m]

        Raises:
            PlacementError: when it does not lie in the air.
        """
        board = Polygon(self.outline)
        if board.difference(air).area > CRUMB:
            raise PlacementError(code="brace-outside", name=Id(self.name))
        return board

    def seen(self, air: Polygon) -> list[SeenBrace]:
        """Return what the side view shows of it: its wood end on, or its rim.

        Args:
            air: section of the air in the box, without meaning here, coordinates in [m].

        Returns: outline (x, y) [m]
        """
        return [SeenBrace(outline=self.outline, cut=self.way is not None)]

    def volume(self, air: Polygon, width: float) -> float:
        """Return the volume of its wood.

        Args:
            air: section of the air in the box, coordinates in [m].
            width: width of the air, without meaning here [m].

        Returns: volume [m³]

        Raises:
            PlacementError: when it does not lie in the air.
        """
        return float(self.section(air).area) * (self.span[1] - self.span[0])
