"""Boxes over a plan, where something stands in the way on one side: walls upright, or leaning."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from scipy.optimize import brentq
from shapely.geometry import LineString, Polygon, box

from acoustics.carcass.cavity.cavity import Cavity, Obstacle, check_cavity
from acoustics.carcass.cavity.fit_bases import CORNER, FAR, LEAST_INSIDE, TAPER
from acoustics.carcass.cavity.fit_build import Facing
from acoustics.carcass.cavity.fit_terms import Answer, Wanted
from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.room.arrange import RIGHT
from acoustics.carcass.room.clearance import check_contents
from acoustics.carcass.shape.braces import Layer
from acoustics.carcass.shape.errors import CarcassError
from acoustics.carcass.shape.leaning import Leaning, usual_corner
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.taper import Taper
from acoustics.errors import AcousticsError

# Floors and heights that are tried; directions of a wall past something; shares of the depth left
# free behind the box.
FLOORS, HEIGHTS, WAYS = 2, 6, 16
FREE = (0.0, 0.2, 0.4)
# Shares of the width left free to the left and to the right.
ASIDE = ((0.0, 0.0), (0.3, 0.0), (0.0, 0.3), (0.6, 0.0), (0.0, 0.6))
# How near a height is found [m], and how near the litres have to come [-].
CLOSE, CLOSE_TO = 1e-12, 1e-6
# Less than this is nothing [m, m²].
TOUCH = 1e-6
# A wall shorter than so many thicknesses of its wood is left out.
LEAST_WALL = 3.0
Span = tuple[float, float]
# Shares left free behind the box, to its left and to its right.
Free = tuple[float, float, float]
NONE: Free = (0.0, 0.0, 0.0)
Rectangle = tuple[float, float, float, float]


@dataclass(frozen=True, kw_only=True)
class _Standing:
    """Where front and rear may stand between a floor and a top."""

    # Ends along the depth at the floor and at the top [m].
    low: Span
    high: Span

    def span(self, lean: bool) -> tuple[Span, Span]:
        """Ends at floor and top; without leaning walls what both have."""
        if lean:
            return self.low, self.high
        both = max(self.low[0], self.high[0]), min(self.low[1], self.high[1])
        return both, both


def over_plan(cavity: Cavity, wanted: Wanted, *, always: bool = False) -> Iterator[Answer]:
    """Yield a box over a plan with upright walls and one whose walls lean, where either goes.

    The plan is what is free of the cavity seen from above, a wall laid past each thing that does
    not reach across, some of the depth left free too; the height follows from the litres. Of the
    boxes that go the one with the least wood is yielded.

    Args:
        cavity: the cavity.
        wanted: what the box is to be.
        always: whether boxes are looked for where nothing stands in the way.

    Yields: answers of the kinds corner and taper, checked as any other box

    Raises:
        CarcassError: when cavity and wood leave no inside at all.

    Valid: plans that turn inward nowhere, on a level floor of the cavity.

    Source: definition.
    """
    partly = [o for o in cavity.obstacles if not _reaches_across(o, cavity)]
    if not partly and not always:
        return
    for kind in (CORNER, TAPER):
        tried = list(_boxes(cavity, wanted, kind, ASIDE[:1]))
        going = [answer for answer in tried if answer is not None]
        if not going and tried and always:  # the litres go, but what is to be in them does not
            more = (box for box in _boxes(cavity, wanted, kind, ASIDE[1:]) if box is not None)
            going = list(itertools.islice(more, 1))
        if going:
            yield min(going, key=lambda answer: answer.wood)


def largest_over_plan(cavity: Cavity, wanted: Wanted) -> Answer | None:
    """Return the box over a plan with the most litres that goes, of a few heights.

    Args:
        cavity: the cavity.
        wanted: what the box is to be, but for its litres.

    Returns: answer, or None

    Source: definition.
    """
    best: Answer | None = None
    for kind in (CORNER, TAPER):
        for piece, floor in _floors(cavity):
            for height in _heights(piece, floor):
                outline = _leaning(cavity, wanted, piece, kind, (floor, floor + height), NONE)
                bare = None if outline is None else _walled(wanted, outline, height)
                have = 0.0 if best is None else best.net_volume
                if bare is None or bare.net_volume <= have:
                    continue
                answer = _filled(cavity, wanted, bare, kind, floor)
                if answer is not None and answer.net_volume > have:
                    best = answer
    return best


def _floors(cavity: Cavity) -> Iterator[tuple[Polygon, float]]:
    region = cavity.inside
    for piece in getattr(region, "geoms", [region]):
        for floor in sorted({round(float(y), 9) for _x, y in piece.exterior.coords})[:FLOORS]:
            yield piece, floor


def _heights(piece: Polygon, floor: float) -> list[float]:
    """Heights that are tried above a floor."""
    room = float(piece.bounds[3]) - floor - TOUCH
    return [float(height) for height in np.linspace(0.0, room, HEIGHTS)[1:]]


def _reaches_across(obstacle: Obstacle, cavity: Cavity) -> bool:
    far = cavity.width if obstacle.end is None else obstacle.end
    return obstacle.start <= cavity.gap + TOUCH and far >= cavity.width - cavity.gap - TOUCH


def _boxes(
    cavity: Cavity, wanted: Wanted, kind: str, asides: Sequence[Span]
) -> Iterator[Answer | None]:
    """Every box of a kind that has the litres; None for one that does not pass."""
    for piece, floor in _floors(cavity):
        for free, aside in itertools.product(FREE, asides):
            bare = _bare(cavity, wanted, piece, kind, floor=floor, left=(free, *aside))
            if bare is None:
                continue
            answer = _filled(cavity, wanted, bare, kind, floor)
            near = answer and abs(answer.net_volume / wanted.net_volume - 1) < CLOSE_TO
            yield answer if near else None


def _bare(
    cavity: Cavity, wanted: Wanted, piece: Polygon, kind: str, *, floor: float, left: Free
) -> Taper | None:
    """The empty box on a floor that has the litres, at the least height of a few that has room."""
    stock = wanted.stock
    baffle = stock.thickness * stock.layers
    litres = wanted.net_volume + wanted.load.taken(baffle=baffle, thickness=stock.thickness)
    for height in _heights(piece, floor):
        outline = _leaning(cavity, wanted, piece, kind, (floor, floor + height), left)
        highest = None if outline is None else _walled(wanted, outline, height)
        if outline is None or highest is None or highest.net_volume < litres:
            continue
        # What goes at this height goes below it too.
        least = 2 * stock.thickness + LEAST_INSIDE

        def short(tall: float, outline: Leaning = outline) -> float:
            body = _walled(wanted, outline, tall)
            return -litres if body is None else body.net_volume - litres

        if short(least) >= 0:
            return None
        return _walled(wanted, outline, float(brentq(short, least, height, xtol=CLOSE)))
    return None


def _leaning(
    cavity: Cavity,
    wanted: Wanted,
    piece: Polygon,
    kind: str,
    between: Span,
    left: Free,
) -> Leaning | None:
    """The outline of a box between a floor and a top, or None where nothing of this kind goes."""
    (floor, top), (free, aside, beyond) = between, left
    standing = _standing(piece, floor, top)
    if standing is None:
        return None
    low, high = standing.span(kind == TAPER)
    if kind == TAPER and max(abs(low[0] - high[0]), abs(low[1] - high[1])) < TOUCH:
        return None
    depth = free * min(low[1] - low[0], high[1] - high[0])
    front, rear = (depth, 0.0) if wanted.facing == "rear" else (0.0, depth)
    low, high = ((a + front, b - rear) for a, b in (low, high))
    if min(low[1] - low[0], high[1] - high[0]) < LEAST_INSIDE:
        return None
    wide = cavity.width - 2 * cavity.gap
    start, end = cavity.gap + aside * wide, cavity.width - cavity.gap - beyond * wide
    whole = box(low[0], start, low[1], end)
    plan = _past(whole.bounds, _footprints(cavity, floor, top))
    if plan is None or (kind == CORNER and plan.area > whole.area - TOUCH):
        return None  # a plain box: a prism is looked for elsewhere
    points = _sturdy(plan, LEAST_WALL * wanted.stock.thickness)
    if points is None:
        return None
    # Seen from above z runs down the page.
    outline = Profile(points=tuple((x, -z) for x, z in points))
    leans = []
    for i in range(len(outline)):
        nx, inwards = outline.normal(i)[0], 0.0
        if nx < -1 + TOUCH:
            inwards = high[0] - low[0]
        elif nx > 1 - TOUCH:
            inwards = low[1] - high[1]
        leans.append(math.atan2(inwards, top - floor))
    try:
        return Leaning(plan=outline, height=top - floor, leans=tuple(leans))
    except AcousticsError:
        return None


def _standing(piece: Polygon, floor: float, top: float) -> _Standing | None:
    """What is free from floor to top between the longest front and rear, or None."""
    levels = [floor, top, *(y for _x, y in piece.exterior.coords if floor < y < top)]
    spans = [_longest(piece, min(max(y, floor + TOUCH), top - TOUCH)) for y in levels]
    if any(span is None for span in spans):
        return None
    low, high = spans[0], spans[1]
    assert low is not None
    assert high is not None
    trapezium = Polygon(((low[0], floor), (low[1], floor), (high[1], top), (high[0], top)))
    if trapezium.is_valid and piece.buffer(10 * TOUCH, join_style="mitre").covers(trapezium):
        return _Standing(low=low, high=high)
    both = max(s[0] for s in spans if s), min(s[1] for s in spans if s)
    if both[0] >= both[1]:
        return None
    return _Standing(low=both, high=both)


def _longest(piece: Polygon, level: float) -> Span | None:
    cut = piece & LineString(((-FAR, level), (FAR, level)))
    lines = [line for line in getattr(cut, "geoms", [cut]) if line.length > 0]
    if not lines:
        return None
    x0, _y0, x1, _y1 = max(lines, key=lambda line: line.length).bounds
    return float(x0), float(x1)


def _footprints(cavity: Cavity, floor: float, top: float) -> tuple[Rectangle, ...]:
    """What stands in the way between two heights, seen from above (x, z), with its gap."""
    gap, prints = cavity.gap, []
    for obstacle in cavity.obstacles:
        beside = obstacle.polygon & box(-FAR, floor - gap, FAR, top + gap)
        if not beside.area > 0:
            continue
        x0, _y0, x1, _y1 = beside.bounds
        far = cavity.width if obstacle.end is None else obstacle.end
        prints.append((x0 - gap, obstacle.start - gap, x1 + gap, far + gap))
    return tuple(prints)


# Most heights and litres that are tried have the same plan.
@lru_cache(maxsize=256)
def _past(whole: Rectangle, prints: tuple[Rectangle, ...]) -> Polygon | None:
    """The plan with a wall laid past each footprint so that most of it is left; None for none."""
    plan = box(*whole)
    for footprint in sorted((box(*f) for f in prints), key=lambda f: -float((f & plan).area)):
        if (footprint & plan).area <= TOUCH**2:
            continue
        halves = (
            plan & _half(corner, angle)
            for corner in list(footprint.exterior.coords)[:-1]
            for angle in np.arange(WAYS) * (math.tau / WAYS)
            if not (_half(corner, angle).buffer(-TOUCH) & footprint).area > TOUCH**2
        )
        left = max(halves, key=lambda part: float(part.area), default=None)
        if not isinstance(left, Polygon) or left.is_empty:
            return None
        plan = left
    return plan


def _half(at: tuple[float, ...], angle: float) -> Polygon:
    """Everything to the left of a line through a point."""
    ux, uy = FAR * math.cos(angle), FAR * math.sin(angle)
    x, y = at[0], at[1]
    return Polygon(
        ((x - ux, y - uy), (x + ux, y + uy), (x + ux - uy, y + uy + ux), (x - ux - uy, y - uy + ux))
    )


def _walled(wanted: Wanted, outline: Leaning, height: float) -> Taper | None:
    """The empty box of an outline cut off at a height; None where its wood leaves no inside."""
    wood = wanted.stock.thickness
    try:
        return Taper(
            plan=outline.plan,
            height=height,
            leans=outline.leans,
            thickness=wood,
            corner=usual_corner(outline),
            layers=(Layer(face=_face(outline, wanted.facing), thickness=wood),)
            * (wanted.stock.layers - 1),
            density=wanted.stock.density,
            grain=wanted.stock.grain,
        )
    except AcousticsError:
        return None


def _sturdy(plan: Polygon, least: float) -> list[tuple[float, float]] | None:
    """Its corners clockwise, without walls too short to cut; None where too few are left."""
    ring = plan.simplify(TOUCH).exterior
    points = [(float(x), float(z)) for x, z in ring.coords[:-1]]
    points = points[::-1] if ring.is_ccw else points
    for n, here in reversed(list(enumerate(points))):
        if math.dist(here, points[n - 1]) < least:
            points.pop(n)  # what is left of a plan that turns inward nowhere lies within it
    return points if len(points) >= 4 else None


def _face(body: Leaning, facing: Facing) -> str:
    """The face that looks most the way the driver is to look."""
    if facing == "top":
        return "top"
    axis, sign = {"front": (0, -1.0), "rear": (0, 1.0), "side": (2, 1.0)}[facing]
    return max(body.plan.names, key=lambda name: sign * body.outer[name].normal[axis])


def _filled(cavity: Cavity, wanted: Wanted, bare: Taper, kind: str, floor: float) -> Answer | None:
    """The box with everything in it where it stands; None where anything is wrong with it."""
    face, right = _face(bare, wanted.facing), _face(bare, "side")
    load = wanted.load
    if load.port_face == RIGHT:
        load = replace(load, port_face=right)
    if load.second_face == RIGHT:
        load = replace(load, second_face=right)
    z = -bare.left
    try:
        full = replace(bare, contents=load.arrange(bare, face))
        panels(full)
    except CarcassError:
        return None
    faults = [f for f in check_contents(full, wanted.clearances) if f.severity != "note"]
    if faults or check_cavity(full, cavity, x=0.0, y=floor, z=z):
        return None
    return Answer(
        best_at=(),
        carcass=full,
        face=face,
        z=z,
        kind=kind,
        space=_lost(cavity, wanted.facing, full, floor),
    )


def _lost(cavity: Cavity, facing: Facing, body: Taper, floor: float) -> float:
    """The box and all behind and below it, as seen from the driver's side, over its width."""
    x0, _y0, x1, y1 = body.profile.polygon.bounds
    left, right = {"rear": (-FAR, x1), "top": (x0, x1)}.get(facing, (x0, FAR))
    return float((cavity.profile.polygon & box(left, -FAR, right, floor + y1)).area) * body.width
