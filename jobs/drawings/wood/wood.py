"""What panels look like to a drawing: outlines, holes and grain, in metres on the sheet."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt

from jobs.drawings.pencil.svg import DrawingError, Point

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Hole:
    """A round hole, true to its centre and diameter."""

    centre: Point
    diameter: float
    # Of a screw circle: what its screws hold by.
    words: str = ""

    def ring(self, steps: int = 72) -> list[Point]:
        """The hole as a closed row of points on its circle."""
        x, y = self.centre
        radius = self.diameter / 2
        turns = [math.tau * k / steps for k in range(steps + 1)]
        return [(x + radius * math.cos(t), y + radius * math.sin(t)) for t in turns]


@dataclass(frozen=True, kw_only=True)
class Milled:
    """What is cut into one face and not through: its outline, and what is written beside it."""

    outline: Sequence[Point]
    words: str
    # In the face that lies down, so that its lines are hidden.
    hidden: bool


@dataclass(frozen=True, kw_only=True)
class Part:
    """A panel laid flat: number and name of the cut list, outline, holes, windows, grain.

    ``grain`` is the way the grain runs: along x, along y, or ``""`` when it does not matter.
    """

    number: str
    name: str
    outline: Sequence[Point]
    # Whether the outline is a circle, drawn as points.
    round: bool = False
    holes: Sequence[Hole] = ()
    windows: Sequence[Sequence[Point]] = ()
    # Circles to mark screws on; nothing is cut along them.
    marks: Sequence[Hole] = ()
    # Rebates and grooves.
    milled: Sequence[Milled] = ()
    # Saw cuts for a bend, in the face that lies down, and what is written beside them.
    kerfs: Sequence[tuple[Point, Point]] = ()
    kerf_words: Sequence[str] = ()
    # Of an outline with curves: which of its points are numbered, and how.
    spots: Sequence[tuple[int, str]] = ()
    # What stands on it or what it rests on, seen through it: (number, outline).
    seats: Sequence[tuple[str, Sequence[Point]]] = ()
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

    @property
    def upright(self) -> bool:
        """Whether its outline is a rectangle, so that its size says all of it, or round."""
        left, low, right, high = self.bounds()
        return self.round or all(
            min(x - left, right - x) < 1e-7 and min(y - low, high - y) < 1e-7
            for x, y in self.outline
        )

    @property
    def middles(self) -> list[Point]:
        """The middle of every hole, opening and screw circle, and of a round outline."""
        loops = [*self.windows, *([self.outline] if self.round else [])]
        boxes = [(min(x), max(x), min(y), max(y)) for x, y in (zip(*p, strict=True) for p in loops)]
        middles = [((x0 + x1) / 2, (y0 + y1) / 2) for x0, x1, y0, y1 in boxes]
        middles += [hole.centre for hole in (*self.holes, *self.marks)]
        return list({(round(x, 6), round(y, 6)): (x, y) for x, y in middles}.values())

    def rings(self, steps: int = 72) -> list[list[Point]]:
        """Every line to cut as a closed row of points, holes in so many steps."""
        loops = [[*loop, loop[0]] for loop in (self.outline, *self.windows)]
        return loops + [hole.ring(steps) for hole in self.holes]

    def clear_spot(self) -> tuple[Point, float]:
        """A place for words: the spot of a coarse grid farthest from every cut, and how far."""
        left, low, right, high = self.bounds()
        steps = (6, 5, 7, 4, 8, 3, 9, 2, 10)
        spots = np.array(
            [
                (left + (right - left) * i / 12, low + (high - low) * j / 12)
                for i in steps
                for j in steps
            ]
        )
        rings = [np.asarray(ring, dtype=float) for ring in self.rings(24)]
        starts = np.concatenate([ring[:-1] for ring in rings])
        ends = np.concatenate([ring[1:] for ring in rings])
        rooms = np.where(_held(rings[0], spots), _away(spots, starts, ends).min(axis=1), 0.0)
        best = ((left + right) / 2, (low + high) / 2), 0.0
        # The first of the grid's spots is its middle: another must be clearly better.
        for (x, y), room in zip(spots.tolist(), rooms.tolist(), strict=True):
            if room > best[1] * 1.02:
                best = (x, y), room
        return best


def _held(ring: Floats, spots: Floats) -> npt.NDArray[np.bool_]:
    """Which points a closed ring holds, by even and odd crossings."""
    (ax, ay), (bx, by) = ring[:-1].T[:, None], ring[1:].T[:, None]
    x, y = spots.T[..., None]
    crossed = (ay > y) != (by > y)
    with np.errstate(divide="ignore", invalid="ignore"):
        beyond = x < ax + (y - ay) / (by - ay) * (bx - ax)
    held: npt.NDArray[np.bool_] = (crossed & beyond).sum(axis=1) % 2 == 1
    return held


def _away(spots: Floats, starts: Floats, ends: Floats) -> Floats:
    """The distance of every point from every line between two others, a row per point."""
    along = ends - starts
    size = np.maximum((along**2).sum(axis=1), 1e-30)
    gap = spots[:, None] - starts
    share = np.clip((gap * along).sum(axis=2) / size, 0.0, 1.0)
    rest = gap - share[..., None] * along
    away: Floats = np.sqrt((rest**2).sum(axis=2))
    return away
