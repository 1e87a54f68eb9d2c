"""What panels look like to a drawing: outlines, holes and grain, in metres on the sheet."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
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

    def rings(self) -> list[list[Point]]:
        """Every line to cut as a closed row of points."""
        loops = [[*loop, loop[0]] for loop in (self.outline, *self.windows)]
        return loops + [hole.ring() for hole in self.holes]
