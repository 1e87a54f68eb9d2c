"""Parallel projection of solids made of flat sides: where a point falls, and what is hidden."""

import math
from collections.abc import Callable, Sequence

from jobs.drawings.pencil.svg import Point

Point3 = tuple[float, float, float]

# Towards the eye: from the front (-x), above (+y) and the near side (+z).
_EYE: Point3 = (-0.56, 0.44, 0.702)
_SAMPLES = 24


def dot(a: Point3, b: Point3) -> float:
    """The scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Point3, b: Point3) -> Point3:
    """The vector product."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def unit(a: Point3) -> Point3:
    """The same direction, one long."""
    size = math.sqrt(dot(a, a))
    return (a[0] / size, a[1] / size, a[2] / size)


def facing(corners: Sequence[Point3]) -> Point3:
    """The direction a flat polygon looks in, its corners counter-clockwise."""
    total = (0.0, 0.0, 0.0)
    for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
        n = cross(a, b)
        total = (total[0] + n[0], total[1] + n[1], total[2] + n[2])
    return unit(total)


TO_EYE = unit(_EYE)
_RIGHT = unit(cross((0.0, 1.0, 0.0), TO_EYE))
_UP = cross(TO_EYE, _RIGHT)


def flat(point: Point3) -> Point:
    """Where a point falls on the picture plane, in metres, y upwards."""
    return (dot(point, _RIGHT), dot(point, _UP))


def on_page(
    points: Sequence[Point3], *, width: float, most: Point, top: float
) -> tuple[Callable[[Point3], Point], float]:
    """Where points fall on a page, centred and as large as `most` lets them be, and their foot.

    `most` is the room across and upwards, `top` what stays free above.
    """
    spots = [flat(point) for point in points]
    left, right = min(x for x, _ in spots), max(x for x, _ in spots)
    low, high = min(y for _, y in spots), max(y for _, y in spots)
    scale = min(most[0] / (right - left), most[1] / (high - low))
    x0, y0 = (width - (left + right) * scale) / 2, top + high * scale

    def page(point: Point3) -> Point:
        x, y = flat(point)
        return (x0 + x * scale, y0 - y * scale)

    return page, y0 - low * scale


class Facet:
    """A flat side turned towards the eye, which may cover what lies behind it but for its holes."""

    def __init__(
        self, corners: Sequence[Point3], normal: Point3, holes: Sequence[Sequence[Point3]] = ()
    ) -> None:
        self.origin, self.normal = corners[0], normal
        self.towards = dot(normal, TO_EYE)
        self.corners = [flat(c) for c in corners]
        self.holes = [[flat(c) for c in hole] for hole in holes]
        self.left, self.right = min(x for x, _ in self.corners), max(x for x, _ in self.corners)
        self.low, self.high = min(y for _, y in self.corners), max(y for _, y in self.corners)

    def covers(self, point: Point3, spot: Point) -> bool:
        """Whether the way from a point to the eye goes through this side."""
        if not (self.left < spot[0] < self.right and self.low < spot[1] < self.high):
            return False
        gap = (self.origin[0] - point[0], self.origin[1] - point[1], self.origin[2] - point[2])
        if dot(gap, self.normal) / self.towards < 1e-5:
            return False
        return _holds(self.corners, spot) and not any(_holds(hole, spot) for hole in self.holes)


def _holds(ring: Sequence[Point], spot: Point) -> bool:
    inside = False
    x, y = spot
    before = ring[-1]
    for here in ring:
        if (before[1] > y) != (here[1] > y):
            share = (y - before[1]) / (here[1] - before[1])
            if x < before[0] + share * (here[0] - before[0]):
                inside = not inside
        before = here
    return inside


def hidden(point: Point3, facets: Sequence[Facet]) -> bool:
    """Whether any side stands between a point and the eye."""
    spot = flat(point)
    return any(facet.covers(point, spot) for facet in facets)


def pieces(
    start: Point3, end: Point3, facets: Sequence[Facet]
) -> list[tuple[Point3, Point3, bool]]:
    """An edge in pieces, each wholly seen or wholly hidden, their ends found by halving."""

    def at(t: float) -> Point3:
        a, b = start, end
        return (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2]))

    # Samples avoid both ends: a corner belongs to several faces at once.
    ts = [(k + 0.5) / _SAMPLES for k in range(_SAMPLES)]
    states = [hidden(at(t), facets) for t in ts]
    cuts = [0.0]
    shown = [not states[0]]
    for k in range(1, _SAMPLES):
        if states[k] == states[k - 1]:
            continue
        low, high = ts[k - 1], ts[k]
        for _ in range(10):
            middle = (low + high) / 2
            low, high = (
                (middle, high) if hidden(at(middle), facets) == states[k - 1] else (low, middle)
            )
        cuts.append(high)
        shown.append(not states[k])
    ends = [*cuts[1:], 1.0]
    return [(at(a), at(b), s) for a, b, s in zip(cuts, ends, shown, strict=True)]


def seen(
    rings: Sequence[Sequence[Point3]],
    facets: Sequence[Facet],
    page: Callable[[Point3], Point],
) -> str:
    """Lines through points as one path, lifted off the paper where something covers them."""
    d = ""
    for ring in rings:
        pen = False
        for point in ring:
            if hidden(point, facets):
                pen = False
                continue
            x, y = page(point)
            d += f"{'L' if pen else 'M'}{x:.1f} {y:.1f}"
            pen = True
    return d
