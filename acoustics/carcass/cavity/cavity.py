"""The space in the car that a box must go in, and the way it must go there."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from scipy.optimize import nnls
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.errors import CavityError, metres
from acoustics.carcass.shape.leaning import Leaning
from acoustics.carcass.shape.planes import Array
from acoustics.carcass.shape.profile import Point, Profile, positive
from acoustics.errors import Id
from acoustics.findings import Finding
from acoustics.names import Name

# Less than this is rounding [m].
TOUCH = 1e-6


@dataclass(frozen=True, kw_only=True)
class Obstacle:
    """Something in the cavity that the box must go round: a hinge, a harness, a wheel arch.

    Attributes:
        name: what it is.
        points: its outline in the side view (x, y) [m].
        start: where it begins across the width [m].
        end: where it ends; the far side of the cavity when None [m].

    Raises:
        CavityError: when its outline encloses nothing, or it ends before it starts.
    """

    name: str
    points: tuple[Point, ...]
    start: float = 0.0
    end: float | None = None

    def __post_init__(self) -> None:
        if len(self.points) < 3 or not self.polygon.is_valid or self.polygon.area == 0:
            raise CavityError(code="obstacle-encloses-nothing", name=Id(self.name))
        if self.end is not None and not self.start < self.end:
            raise CavityError(
                code="obstacle-ends-before-it-begins",
                name=Id(self.name),
                end=metres(self.end),
                start=metres(self.start),
            )

    @property
    def polygon(self) -> Polygon:
        """Its outline as a polygon.

        Returns: polygon, coordinates in [m]
        """
        return Polygon(self.points)


@dataclass(frozen=True, kw_only=True)
class Opening:
    """The opening a box must pass through, as an upright rectangle.

    Attributes:
        width: clear width [m].
        height: clear height [m].

    Raises:
        ProfileError: when a dimension is not greater than 0 m.
    """

    width: float
    height: float

    def __post_init__(self) -> None:
        positive(Name.OPENING_WIDTH, self.width)
        positive(Name.OPENING_HEIGHT, self.height)

    def passes(self, depth: float, height: float, width: float) -> bool:
        """Say whether a box goes through, square on, whichever side leads.

        Args:
            depth: outer depth [m].
            height: outer height [m].
            width: outer width [m].

        Returns: True when two of its dimensions fit

        Valid: a box that is not tilted in the opening; tilting may pass a larger one.

        Source: common practice, no source.
        """
        small, large = sorted((self.width, self.height))
        a, b, _ = sorted((depth, height, width))
        return a <= small + TOUCH and b <= large + TOUCH

    def passes_turned(self, depth: float, height: float, width: float) -> bool:
        """Say whether a box goes through when it is turned in the opening about its way through.

        A rectangle p by q, p ≥ q, lies in one of a by b, a ≥ b, turned, when p > a, q ≤ b and
        b ≥ (2 p q a + (p² − q²) √(p² + q² − a²)) / (p² + q²).

        Args:
            depth: outer depth [m].
            height: outer height [m].
            width: outer width [m].

        Returns: True when its two smaller dimensions fit turned

        Valid: a box that goes straight through; one swung round a corner may be larger.

        Source: W. B. Carver, American Mathematical Monthly 64 (1957); J. E. Wetzel, Mathematics
            Magazine 73 (2000); both from memory.
        """
        b, a = sorted((self.width, self.height))
        q, p, _ = sorted((depth, height, width))
        if p <= a or q > b:
            return False
        diagonal = p**2 + q**2
        needed = 2 * p * q * a + (p**2 - q**2) * math.sqrt(diagonal - a**2)
        return b >= needed / diagonal - TOUCH


@dataclass(frozen=True, kw_only=True)
class Room:
    """A part of a cavity with nothing in it.

    Attributes:
        region: its outline in the side view, gap taken off, coordinates in [m].
        start: where it begins across the width [m].
        end: where it ends [m].
    """

    region: Polygon
    start: float
    end: float

    @property
    def width(self) -> float:
        """Extent across the width.

        Returns: width [m]
        """
        return self.end - self.start


@dataclass(frozen=True, kw_only=True)
class Cavity:
    """The space in the car, its side view drawn out over a width.

    Attributes:
        profile: outline of the side view, x from the front to the rear, y up [m].
        width: width [m].
        obstacles: what is in it.
        gap: distance the box keeps from everything [m].
        opening: what the box must pass through, or None.

    Raises:
        CavityError: when the gap is negative or leaves nothing.
        ProfileError: when the width is not greater than 0 m.
    """

    profile: Profile
    width: float
    obstacles: tuple[Obstacle, ...] = ()
    gap: float = 0.0
    opening: Opening | None = None

    def __post_init__(self) -> None:
        positive(Name.CAVITY_WIDTH, self.width)
        if not (math.isfinite(self.gap) and self.gap >= 0):
            raise CavityError(code="gap-negative", gap=metres(self.gap))
        if self.width - 2 * self.gap <= 0 or self.inside.is_empty:
            raise CavityError(code="gap-fills-cavity", gap=metres(self.gap))

    @cached_property
    def inside(self) -> BaseGeometry:
        """The side view with the gap taken off, whatever stands in it.

        Returns: polygon or polygons, coordinates in [m]
        """
        return self.profile.polygon.buffer(-self.gap, join_style="mitre")

    def rooms(self) -> tuple[Room, ...]:
        """Return the parts of the cavity that are free over their whole width, widest first.

        An obstacle that does not reach across can be gone round in the side view, or stayed
        clear of in the width; each way is a room.

        Returns: rooms
        """
        low, high = self.gap, self.width - self.gap
        starts, ends = {low}, {high}
        for obstacle in self.obstacles:
            ends.add(obstacle.start - self.gap)
            starts.add((self.width if obstacle.end is None else obstacle.end) + self.gap)
        spans = [(a, b) for a in starts for b in ends if low <= a < b <= high]
        widest: dict[tuple[str, ...], tuple[float, float]] = {}
        rooms = []
        for start, end in sorted(spans, key=lambda s: s[0] - s[1]):
            met = tuple(o for o in self.obstacles if self._meets(o, start, end))
            key = tuple(o.name for o in met)
            inside_another = key in widest and widest[key][0] <= start and end <= widest[key][1]
            if inside_another:
                continue
            widest.setdefault(key, (start, end))
            taken = unary_union([o.polygon.buffer(self.gap, join_style="mitre") for o in met])
            rooms += [Room(region=r, start=start, end=end) for r in _solid(self.inside - taken)]
        return tuple(rooms)

    def _meets(self, obstacle: Obstacle, start: float, end: float) -> bool:
        far = self.width if obstacle.end is None else obstacle.end
        return obstacle.start - self.gap < end - TOUCH and far + self.gap > start + TOUCH


def _solid(shape: BaseGeometry) -> Iterator[Polygon]:
    """The polygons of a shape; one with a hole is cut in two beside the hole."""
    for piece in getattr(shape, "geoms", [shape]):
        if not isinstance(piece, Polygon) or piece.is_empty:
            continue
        if not piece.interiors:
            yield piece
            continue
        x0, y0, x1, y1 = piece.bounds
        a, b, c, d = Polygon(piece.interiors[0]).bounds
        for left, low, right, high in (
            (x0, y0, a, y1),
            (c, y0, x1, y1),
            (x0, y0, x1, b),
            (x0, d, x1, y1),
        ):
            if right > left and high > low:
                yield from _solid(
                    piece & Polygon(((left, low), (right, low), (right, high), (left, high)))
                )


def _corners(obstacle: Obstacle, far: float) -> Array:
    hull = np.asarray(obstacle.polygon.convex_hull.exterior.coords)[:-1]
    return np.array([(x, y, z) for z in (obstacle.start, far) for x, y in hull])


def apart(first: Array, second: Array) -> float:
    """Return the distance between two solids that turn inward nowhere, from their corners.

    The nearest points are convex sums of corners: min |P a - Q b| with a, b >= 0 of sum 1.

    Args:
        first: corners of one, rows (x, y, z) [m].
        second: corners of the other [m].

    Returns: distance, 0 where they meet [m]

    Source: C. L. Lawson, R. J. Hanson, Solving Least Squares Problems (1974), non-negative least
        squares with the sums as heavily weighted rows; from memory.
    """
    heavy = 1e4
    sums = np.zeros((2, len(first) + len(second)))
    sums[0, : len(first)] = sums[1, len(first) :] = heavy
    system = np.vstack((np.hstack((first.T, -second.T)), sums))
    shares, _rest = nnls(system, np.array([0.0, 0.0, 0.0, heavy, heavy]))
    a, b = shares[: len(first)], shares[len(first) :]
    return float(np.linalg.norm(a @ first / a.sum() - b @ second / b.sum()))


def check_cavity(
    carcass: Body, cavity: Cavity, *, x: float, y: float, z: float
) -> tuple[Finding, ...]:
    """Check that a box stands in its cavity with the gap all round and goes through the opening.

    Args:
        carcass: the box.
        cavity: the cavity.
        x: where the origin of the box's profile is in the cavity [m].
        y: the same, upwards [m].
        z: where the left of the box is across the width [m].

    Returns: findings, none when all is well

    Valid: a thing in the cavity that turns inward counts as filled up where walls may lean.

    Source: common practice, no source.
    """
    findings = []
    outline = Polygon([(px + x, py + y) for px, py in carcass.profile.points])
    whole = cavity.profile.polygon
    outside = shapely.get_coordinates(outline.difference(whole.buffer(TOUCH)))
    if len(outside):
        distance = -max(float(whole.exterior.distance(shapely.Point(c))) for c in outside)
    else:
        distance = float(whole.exterior.distance(outline))
    distance = min(distance, z, cavity.width - z - carcass.width)
    clear = [("cavity", distance)]
    for number, obstacle in enumerate(cavity.obstacles, start=1):
        far = cavity.width if obstacle.end is None else obstacle.end
        across = max(obstacle.start - z - carcass.width, z - far)
        beside = max(across, float(obstacle.polygon.distance(outline)))
        if beside < cavity.gap and isinstance(carcass, Leaning):
            beside = apart(carcass.corners + np.array((x, y, z)), _corners(obstacle, far))
        clear.append((f"obstacle {number}", beside))
    for what, value in clear:
        if value < cavity.gap - TOUCH:
            findings.append(
                Finding(
                    code="box-too-near", detail=(what,), value=value, limit=cavity.gap, unit="m"
                )
            )
    x0, y0, x1, y1 = outline.bounds
    opening = cavity.opening
    size = (x1 - x0, y1 - y0, carcass.width)
    if opening is not None and not opening.passes(*size):
        least, middle, _ = sorted(size)
        small, large = sorted((opening.width, opening.height))
        value, limit = (least, small) if least > small + TOUCH else (middle, large)
        turned = opening.passes_turned(*size)
        findings.append(
            Finding(
                code="box-passes-turned" if turned else "box-does-not-pass-opening",
                detail=("opening",),
                value=value,
                limit=limit,
                unit="m",
            )
        )
    return tuple(findings)
