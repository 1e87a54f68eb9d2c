"""False floors: what they stand on, and lids cut from their openings."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely.geometry import MultiPolygon, Polygon
from shapely.geometry import Point as Spot
from shapely.ops import unary_union

from acoustics.carcass.panels.round_over import saved_cover
from acoustics.carcass.shape.errors import CarcassError, PlacementError, metres
from acoustics.carcass.shape.outline import Figure, Loop, rectangle
from acoustics.carcass.shape.profile import Point, positive
from acoustics.findings import Finding
from acoustics.names import Name
from acoustics.sources import Source

# Common practice, no source [m]: how far a floor may reach beyond what carries it, how much of a
# lid lies on its ledge, what a hand needs, how broad a ledge is glued under the floor.
OVERHANG, BEARING, HAND, GLUED = 0.15, 0.01, 0.1, 0.03
# Less than this lies on a line [m].
TOUCH = 1e-6


@dataclass(frozen=True, kw_only=True)
class Hatch:
    """A lid cut for an opening of a floor, lying on a ledge glued under its rim.

    Floor and lid are covered round the edge: lid = opening - 2 (gap + floor's cover + lid's cover).

    Attributes:
        middle: middle of the opening (u, v) [m].
        width: width of the opening in the bare wood [m].
        height: height of the opening in the bare wood [m].
        gap: gap that shows round the covered lid [m].
        finish: thickness of the cover, on the floor's edge and on the lid's [m].
        ledge: how far the ledge reaches into the opening [m].

    Raises:
        ProfileError: when a length is not greater than 0 m.
        CarcassError: when nothing is left of the lid, the ledge closes the opening, or the lid
            falls between the ledges.

    Source: definition; the breadth a ledge is glued on is common practice, no source.
    """

    middle: Point
    width: float
    height: float
    gap: float
    finish: float
    ledge: float

    def __post_init__(self) -> None:
        positive(Name.WIDTH, self.width)
        positive(Name.HEIGHT, self.height)
        positive(Name.LID_GAP, self.gap)
        positive(Name.LEDGE, self.ledge)
        if min(self.lid) <= 0:
            raise CarcassError(
                code="lid-vanishes",
                width=metres(self.width),
                height=metres(self.height),
                taken=metres(2 * self._inset),
            )
        if min(self.clear) <= 0:
            raise CarcassError(code="ledge-closes-hatch", ledge=metres(self.ledge))
        if self.bearing <= 0:
            raise CarcassError(
                code="lid-falls-through",
                ledge=metres(self.ledge),
                wanted=metres(self._inset + BEARING),
            )

    @property
    def _inset(self) -> float:
        return self.gap + 2 * self.finish

    @property
    def opening(self) -> Loop:
        """The opening in the bare floor.

        Returns: rectangle [m]
        """
        return self._round(0.0)

    @property
    def frame(self) -> Loop:
        """The opening and what of its rim the ledge is glued under.

        Returns: rectangle [m]
        """
        return self._round(GLUED)

    def _round(self, by: float) -> Loop:
        (u, v), across, up = self.middle, self.width / 2 + by, self.height / 2 + by
        return rectangle(u - across, v - up, u + across, v + up)

    @property
    def lid(self) -> tuple[float, float]:
        """Width and height of the bare lid.

        Returns: two lengths [m]
        """
        return self.width - 2 * self._inset, self.height - 2 * self._inset

    @property
    def clear(self) -> tuple[float, float]:
        """Width and height a hand passes with the lid off.

        Returns: two lengths [m]
        """
        inside = 2 * max(self.ledge, self.finish)
        return self.width - inside, self.height - inside

    @property
    def bearing(self) -> float:
        """How much of the bare lid lies on the ledge, on each side.

        Returns: length [m]
        """
        return self.ledge - self._inset

    @property
    def ledges(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """The strips of the ledge, two of each: those across, and those between them.

        Returns: length and breadth of each [m]
        """
        breadth = self.ledge + GLUED
        return (self.width + 2 * GLUED, breadth), (self.height - 2 * self.ledge, breadth)


def support_height(*, level: float, thickness: float, finish: float) -> float:
    """Return how high a batten or block is cut, so that the covered floor lies at its level.

    height = level - thickness - finish

    Args:
        level: top of the covered floor above what the support stands on [m].
        thickness: thickness of the floor [m].
        finish: thickness of what covers its top [m].

    Returns: height [m]

    Raises:
        CarcassError: when nothing is left of it.

    Source: definition.
    """
    height = level - thickness - finish
    if height <= TOUCH:
        raise CarcassError(
            code="floor-thicker-than-level", level=metres(level), taken=metres(thickness + finish)
        )
    return height


def cover_size(
    *, width: float, height: float, thickness: float, turned: float, rounded: float = 0.0
) -> tuple[float, float]:
    """Return the rectangle of cover for a panel that is covered round its edges.

    each side = side of the panel + 2 (thickness + what is turned over behind) − (4 − π) r

    Args:
        width: width of the bare panel [m].
        height: its height [m].
        thickness: its thickness [m].
        turned: how much is glued down behind, all round [m].
        rounded: radius its upper edge is rounded over by, all round [m].

    Returns: width and height of the cover [m]

    Source: definition.
    """
    more = 2 * (thickness + turned) - saved_cover(rounded)
    return width + more, height + more


@dataclass(frozen=True, kw_only=True)
class Floor:
    """A floor on its supports.

    Attributes:
        outline: its outline (u, v) [m].
        openings: what is cut out of it [m].
        supports: name of each batten or block, and where it stands [m].
        hatches: name of each hatch, and the hatch.

    Raises:
        PlacementError: when it stands on nothing.

    Source: statics: a plate tips where its middle of mass lies outside the hull of its supports.
    """

    outline: Figure
    openings: tuple[Figure, ...]
    supports: tuple[tuple[str, Loop], ...]
    hatches: tuple[tuple[str, Hatch], ...] = ()

    def __post_init__(self) -> None:
        if not self.supports:
            raise PlacementError(code="floor-on-no-support")

    @property
    def wood(self) -> Polygon | MultiPolygon:
        """The floor without its openings, seen from above.

        Returns: area, coordinates in [m]
        """
        return self.outline.polygon.difference(
            unary_union([opening.polygon for opening in self.openings])
        )

    @property
    def carried(self) -> Polygon:
        """What a load may stand on without tipping the floor: the hull of its supports.

        Returns: area, coordinates in [m]
        """
        return unary_union([support.polygon for _name, support in self.supports]).convex_hull

    @property
    def overhang(self) -> float:
        """How far its outline reaches beyond that hull at most.

        Returns: length [m]
        """
        rim = self.outline.polygon.exterior.coords
        return max(float(self.carried.distance(Spot(at))) for at in rim)


def check_floor(floor: Floor) -> Iterator[Finding]:
    """Find supports that carry nothing or stand in a hatch, and a floor that tips or reaches out.

    Args:
        floor: the floor.

    Yields: findings, with the name of the support or the hatch

    Source: statics; how far a floor may reach out is common practice, no source.
    """
    around = floor.outline.polygon.buffer(TOUCH)
    for name, support in floor.supports:
        if not around.covers(support.polygon):
            out = support.polygon.difference(floor.outline.polygon)
            beyond = max(float(floor.outline.polygon.distance(Spot(at))) for at in _corners(out))
            yield Finding(code="support-beyond-floor", detail=(name,), value=beyond, unit="m")
        lids = [
            number
            for number, hatch in floor.hatches
            if support.polygon.intersection(hatch.frame.polygon).area > TOUCH**2
        ]
        for number in lids:
            yield Finding(code="support-under-hatch", detail=(name, number))
        within = support.polygon.intersection(floor.outline.polygon)
        if not lids and within.area > TOUCH**2 >= within.intersection(floor.wood).area:
            yield Finding(code="support-under-opening", detail=(name,))
    middle = floor.wood.centroid
    away = float(floor.carried.distance(middle))
    if away > TOUCH:
        yield Finding(code="floor-tips", value=away, limit=0.0, unit="m")
    elif floor.overhang > OVERHANG + TOUCH:
        yield Finding(
            code="floor-overhangs",
            value=floor.overhang,
            limit=OVERHANG,
            unit="m",
            source=(Source.COMMON_PRACTICE,),
        )


def check_hatches(hatches: Sequence[tuple[str, Hatch]]) -> Iterator[Finding]:
    """Find lids that hardly lie on their ledge, and hatches no hand passes.

    Args:
        hatches: name of each hatch, and the hatch.

    Yields: findings, with the name of the hatch

    Source: common practice, no source.
    """
    for name, hatch in hatches:
        for code, value, limit in (
            ("lid-hardly-lies", hatch.bearing, BEARING),
            ("hatch-narrow", min(hatch.clear), HAND),
        ):
            if value < limit - TOUCH:
                yield Finding(
                    code=code,
                    detail=(name,),
                    value=value,
                    limit=limit,
                    unit="m",
                    source=(Source.COMMON_PRACTICE,),
                )


def _corners(area: Polygon | MultiPolygon) -> Sequence[Point]:
    parts = getattr(area, "geoms", [area])
    return [(float(u), float(v)) for part in parts for u, v in part.exterior.coords]


def reached(hatch: Hatch, at: Point) -> bool:
    """Return whether a thing under a floor lies under what a hand passes of a hatch.

    Args:
        hatch: the hatch.
        at: middle of the thing, in the coordinates of the hatch [m].

    Returns: whether its middle does

    Source: definition.
    """
    (u, v), (width, height) = hatch.middle, hatch.clear
    return abs(at[0] - u) <= width / 2 + TOUCH and abs(at[1] - v) <= height / 2 + TOUCH


def hole_in_lid(hatch: Hatch, *, diameter: float) -> Point:
    """Return where the finger hole of a lid is drilled, from the lid's own lower left corner.

    It lies in the middle across, its rim one diameter below the upper edge.

    Args:
        hatch: the hatch.
        diameter: diameter of the hole in the bare wood [m].

    Returns: middle of the hole [m]

    Raises:
        ProfileError: when the diameter is not greater than 0 m.
        CarcassError: when the hole does not fit, or the cover turned into it closes it.

    Source: common practice, no source.
    """
    positive(Name.FINGER_HOLE, diameter)
    width, height = hatch.lid
    room = min(width, height) - 2 * max(hatch.bearing, 0.0)
    if diameter > room or diameter <= 2 * hatch.finish or not math.isfinite(diameter):
        raise CarcassError(
            code="finger-hole-off-lid",
            diameter=metres(diameter),
            low=metres(2 * hatch.finish),
            high=metres(room),
        )
    down = min(1.5 * diameter, height / 2)
    return width / 2, height - max(down, hatch.bearing + diameter / 2)
