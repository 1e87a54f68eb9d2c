"""What panels look like to a drawing: outlines, holes and grain, in metres on the sheet."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from jobs.drawings.svg import DrawingError, Point


@dataclass(frozen=True, kw_only=True)
class Hole:
    """A round hole, true to its centre and diameter."""

    centre: Point
    diameter: float

    def ring(self, steps: int = 72) -> list[Point]:
        """The hole as a closed row of points on its circle."""
        x, y = self.centre
        radius = self.diameter / 2
        turns = [math.tau * k / steps for k in range(steps + 1)]
        return [(x + radius * math.cos(t), y + radius * math.sin(t)) for t in turns]


@dataclass(frozen=True, kw_only=True)
class Part:
    """A panel laid flat: number and name of the cut list, outline, holes, windows, grain.

    ``grain`` is the way the grain runs: along x, along y, or ``""`` when it does not matter.
    """

    number: str
    name: str
    outline: Sequence[Point]
    holes: Sequence[Hole] = ()
    windows: Sequence[Sequence[Point]] = ()
    # Circles to mark screws on; nothing is cut along them.
    marks: Sequence[Hole] = ()
    grain: Literal["x", "y", ""] = ""

    def __post_init__(self) -> None:
        numbers = [v for p in self.outline for v in p]
        if len(self.outline) < 3 or not all(math.isfinite(v) for v in numbers):
            message = f"part {self.number} needs three finite corners or more"
            raise DrawingError(message)
        left, low, right, high = self.bounds()
        if right - left < 1e-4 or high - low < 1e-4:
            message = f"part {self.number} is less than 0.0001 m across"
            raise DrawingError(message)

    def bounds(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top."""
        xs, ys = [x for x, _ in self.outline], [y for _, y in self.outline]
        return min(xs), min(ys), max(xs), max(ys)

    def rings(self, steps: int = 72) -> list[list[Point]]:
        """Every line to cut as a closed row of points, holes in so many steps."""
        loops = [[*loop, loop[0]] for loop in (self.outline, *self.windows)]
        return loops + [hole.ring(steps) for hole in self.holes]

    def clear_spot(self) -> tuple[Point, float]:
        """A place for words: the spot of a coarse grid farthest from every cut, and how far."""
        left, low, right, high = self.bounds()
        rings = self.rings(24)
        best = ((left + right) / 2, (low + high) / 2), 0.0
        for i in (6, 5, 7, 4, 8, 3, 9, 2, 10):
            for j in (6, 5, 7, 4, 8, 3, 9, 2, 10):
                spot = (left + (right - left) * i / 12, low + (high - low) * j / 12)
                if not _holds(self.outline, spot):
                    continue
                room = min(_away(spot, a, b) for ring in rings for a, b in pairwise(ring))
                if room > best[1] * 1.02:
                    best = spot, room
        return best


def _holds(ring: Sequence[Point], spot: Point) -> bool:
    """Whether a polygon holds a point, by even and odd crossings."""
    inside = False
    for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
        if (a[1] > spot[1]) != (b[1] > spot[1]):
            across = a[0] + (spot[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
            inside ^= spot[0] < across
    return inside


def _away(spot: Point, a: Point, b: Point) -> float:
    """The distance of a point from a line between two."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    size = dx * dx + dy * dy
    share = ((spot[0] - a[0]) * dx + (spot[1] - a[1]) * dy) / size if size else 0.0
    share = min(max(share, 0.0), 1.0)
    return math.hypot(spot[0] - a[0] - share * dx, spot[1] - a[1] - share * dy)
