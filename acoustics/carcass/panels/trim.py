"""Rings between a driver and a door, and openings in the trim panel over a box."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from acoustics.carcass.shape.errors import CarcassError, PlacementError, at_most, metres
from acoustics.carcass.shape.outline import Circle, Figure, Loop
from acoustics.carcass.shape.profile import positive
from acoustics.errors import COUNT, Quantity
from acoustics.names import Name

MOST_SCREWS, MOST_LAYERS = 64, 20
# Less than this is a line [m].
TOUCH = 1e-6


@dataclass(frozen=True, kw_only=True)
class AdaptorRing:
    """A stack of rings that carries a driver on a door, flat or tilted.

    A tilted stack is a cylinder cut off slanting: its low side is `thickness`, its high side
    thickness + outer_diameter · tan(tilt), and its volume that of the mean thickness.

    Attributes:
        outer_diameter: outer diameter [m].
        inner_diameter: inner diameter [m].
        bolt_circle_diameter: diameter of the circle of screws [m].
        screws: number of screws [-].
        screw_diameter: diameter of a screw hole [m].
        layers: thickness of each sheet in the stack, at the low side [m].
        tilt: angle between driver and door [rad].

    Raises:
        ProfileError: when a length is not greater than 0 m.
        CarcassError: when the diameters do not nest with wood for the screws, there is no layer,
            or the tilt is not 0 to 45°; when there are more than 64 screws or 20 layers.

    Source: common practice, no source.
    """

    outer_diameter: float
    inner_diameter: float
    bolt_circle_diameter: float
    screws: int
    screw_diameter: float
    layers: tuple[float, ...]
    tilt: float = 0.0

    def __post_init__(self) -> None:
        positive(Name.OUTER_DIAMETER, self.outer_diameter)
        positive(Name.INNER_DIAMETER, self.inner_diameter)
        positive(Name.SCREW_CIRCLE_DIAMETER, self.bolt_circle_diameter)
        positive(Name.SCREW_DIAMETER, self.screw_diameter)
        at_most(self.screws, MOST_SCREWS, Name.SCREWS)
        at_most(len(self.layers), MOST_LAYERS, Name.LAYERS)
        for layer in self.layers:
            positive(Name.LAYER_THICKNESS, layer)
        low = self.inner_diameter + self.screw_diameter
        high = self.outer_diameter - self.screw_diameter
        if not low < self.bolt_circle_diameter < high:
            raise CarcassError(
                code="screw-circle-off-wood",
                circle=metres(self.bolt_circle_diameter),
                low=metres(low),
                high=metres(high),
            )
        if not self.layers or self.screws < 3 or not 0 <= self.tilt <= math.pi / 4:
            raise CarcassError(
                code="ring-incomplete",
                layers=Quantity(len(self.layers), COUNT),
                screws=Quantity(self.screws, COUNT),
                tilt=Quantity(self.tilt, "rad"),
            )

    @property
    def thickness(self) -> tuple[float, float]:
        """Thickness of the stack at its low and at its high side.

        Returns: two thicknesses [m]
        """
        low = sum(self.layers)
        return low, low + self.outer_diameter * math.tan(self.tilt)

    @property
    def wood_at_screw(self) -> float:
        """Least wood between a screw hole and the rim it is nearer to.

        Returns: distance [m]
        """
        inside = self.bolt_circle_diameter - self.inner_diameter
        outside = self.outer_diameter - self.bolt_circle_diameter
        return (min(inside, outside) - self.screw_diameter) / 2

    @property
    def volume(self) -> float:
        """Volume of its wood, screw holes not taken off.

        Returns: volume [m³]

        Source: definition (slant-cut cylinder: area times thickness at the axis).
        """
        area = math.pi / 4 * (self.outer_diameter**2 - self.inner_diameter**2)
        return area * sum(self.thickness) / 2

    @property
    def figures(self) -> tuple[Figure, ...]:
        """What to cut from a sheet for one layer: rim, opening and screw holes.

        Returns: circles around the middle of the ring [m]
        """
        middle = (0.0, 0.0)
        radius = self.bolt_circle_diameter / 2
        turns = (2 * math.pi * k / self.screws for k in range(self.screws))
        holes = (
            Circle(
                centre=(radius * math.cos(a), radius * math.sin(a)),
                radius=self.screw_diameter / 2,
            )
            for a in turns
        )
        return (
            Circle(centre=middle, radius=self.outer_diameter / 2),
            Circle(centre=middle, radius=self.inner_diameter / 2),
            *holes,
        )


@dataclass(frozen=True, kw_only=True)
class TrimPanel:
    """A trim panel over a box, with an opening round each part that shows.

    Attributes:
        outline: its outline (u, v) [m].
        shown: the parts that show, as circles or loops in the same coordinates [m].
        reveal: gap left all round each of them [m].
        cut: openings that are cut as they are, such as those of hatches [m].

    Raises:
        ProfileError: when the reveal is not greater than 0 m.
        PlacementError: when an opening reaches the rim or another opening.

    Source: common practice, no source.
    """

    outline: Loop
    shown: tuple[Figure, ...]
    reveal: float
    cut: tuple[Figure, ...] = ()

    def __post_init__(self) -> None:
        positive(Name.REVEAL, self.reveal)
        left = self.outline.polygon
        for opening in self.openings:
            if not left.buffer(-TOUCH).contains(opening.polygon):
                raise PlacementError(code="opening-reaches-rim", reveal=metres(self.reveal))
            left = left.difference(opening.polygon)

    @property
    def openings(self) -> tuple[Figure, ...]:
        """The openings to cut: what shows, larger by the reveal all round.

        A corner of a loop stays sharp; a circle stays a circle.

        Returns: figures [m]
        """
        return (*_grown(self.shown, self.reveal), *self.cut)

    @property
    def area(self) -> float:
        """Area of the trim panel, openings taken off.

        Returns: area [m²]
        """
        return self.outline.area - sum(o.area for o in self.openings)


def _grown(figures: Sequence[Figure], by: float) -> list[Figure]:
    grown: list[Figure] = []
    for figure in figures:
        if isinstance(figure, Circle):
            grown.append(Circle(centre=figure.centre, radius=figure.radius + by))
        else:
            ring = figure.polygon.buffer(by, join_style="mitre").exterior
            points = tuple((float(u), float(v)) for u, v in ring.coords[:-1])
            grown.append(Loop(points=points))
    return grown
