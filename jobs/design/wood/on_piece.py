"""What lies on a piece of wood: lines, pockets, screw circles, openings, points to set out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from acoustics.carcass.shape.inside.fastener import Fastener
from acoustics.carcass.shape.outline import Circle, Figure
from acoustics.carcass.shape.profile import Point


@dataclass(frozen=True, kw_only=True)
class Line:
    """A straight line on a piece: where a bevel or a rebate ends, and what to set for it."""

    start: Point
    end: Point
    tilt: float = 0.0
    longer_face: str = "equal"


@dataclass(frozen=True, kw_only=True)
class Pocket:
    """A closed figure that is cut into one face of a piece, not through it."""

    figure: Figure
    depth: float
    face: Literal["inside", "outside"]
    # Of a rebate or groove: square to the way it runs.
    width: float | None = None

    @property
    def box(self) -> tuple[Point, tuple[float, float]]:
        """The middle and the size across and up of the upright rectangle round it."""
        left, low, right, high = (float(edge) for edge in self.figure.polygon.bounds)
        return ((left + right) / 2, (low + high) / 2), (right - left, high - low)


@dataclass(frozen=True, kw_only=True)
class Kerf(Line):
    """A saw cut into the inner face that closes when the board is bent, by its middle."""

    depth: float
    width: float


@dataclass(frozen=True, kw_only=True)
class ScrewCircle(Circle):
    """The circle that the screws of a part lie on, and what they hold by where that is chosen."""

    layer: str = "engrave"
    screws: int = 0
    fastener: Fastener | None = None


@dataclass(frozen=True, kw_only=True)
class SetOut:
    """A point of an outline with curves that a hand sets out; its kind as the calculator says."""

    kind: Literal["corner", "arc", "round", "station"]
    number: int
    at: Point
    radius: float | None = None


@dataclass(frozen=True, kw_only=True)
class Opening:
    """What is cut round a middle, as large as its outermost line, and where equal ones lie."""

    size: tuple[float, float]
    middles: tuple[Point, ...]
