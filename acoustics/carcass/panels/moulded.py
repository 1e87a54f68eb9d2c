"""A moulded shape: its litres from fills or from areas at heights, less its skin, and how sure."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from scipy.integrate import simpson, trapezoid
from scipy.special import stdtrit

from acoustics.carcass.shape.errors import CarcassError, metres
from acoustics.carcass.shape.profile import positive
from acoustics.errors import MissingError, Quantity
from acoustics.findings import Finding
from acoustics.names import Name
from acoustics.sources import Source
from acoustics.values import require_between, require_positive

# Granules lie now looser, now denser: by so much of their litres. Common practice, no source [-].
PACKING = 0.02
# Litres that may be off by more than this are worth another measurement [-].
UNSURE = 0.05
# Of the values a measurement may have, so many lie within its error [-].
SURE = 0.95
MOST_FILLS, MOST_SECTIONS = 30, 60
# So many sections tell how far off their volume is.
TOLD = 5
# Two heights nearer than this are one [m].
SAME = 1e-6


@dataclass(frozen=True, kw_only=True)
class Litres:
    """A volume as it was measured.

    Attributes:
        value: the volume [m³].
        error: how far off it may be, either way, at 95 %; None where nothing tells [m³].

    Source: definition.
    """

    value: float
    error: float | None

    @property
    def share(self) -> float | None:
        """How far off it may be of itself; None where nothing tells [-]."""
        return None if self.error is None else self.error / self.value


def filled(fills: Sequence[float], *, packing: float = 0.0) -> Litres:
    """Return the mean of what went in, and how far it may be off.

    V = mean; error = √((t₀.₉₇₅, n-1 · s / √n)² + (packing · V)²); unknown after a single fill.

    Args:
        fills: what each fill took [m³].
        packing: how far what was filled in may be off as it lies, of the volume [-].

    Returns: the volume with its error

    Valid: the fills are made one after the other by the same hand and vessel: what both have in
        common, such as a vessel that reads wrong, no spread tells.

    Raises:
        MissingError: no fill.
        OutOfRangeError: a fill that is not above zero, packing not between 0 and 1, more than 30
            fills.

    Source: Student's t, as in JCGM 100:2008 (GUM), G.3.
    """
    if not fills:
        raise MissingError(Name.FILL_VOLUME)
    require_between(Name.FILL_COUNT, float(len(fills)), 1, MOST_FILLS, "")
    require_between(Name.PACKING, packing, 0.0, 1.0, "-")
    for volume in fills:
        require_positive(Name.FILL_VOLUME, volume, "m³")
    mean, count = float(np.mean(fills)), len(fills)
    if count < 2:
        return Litres(value=mean, error=None)
    beyond = stdtrit(count - 1, (1 + SURE) / 2)
    error = float(beyond * np.std(fills, ddof=1) / math.sqrt(count))
    return Litres(value=mean, error=math.hypot(error, packing * mean))


def stacked(sections: Sequence[tuple[float, float]]) -> Litres:
    """Return the volume between the lowest and the highest of sections whose areas are known.

    By Simpson's rule. Its error is the largest of how far the trapezoid rule, and either rule over
    every second section, comes out otherwise; of fewer than five sections nothing tells.

    Args:
        sections: height and area of each, in any order [m, m²].

    Returns: the volume with its error

    Valid: the lowest and the highest are floor and top of the shape, of area 0 where it ends in a
        point. Of 2800 invented shapes, smooth and kinked, cut at 5 to 12 heights, the error held
        the true volume of 91 to 98 in 100.

    Raises:
        MissingError: fewer than two sections.
        CarcassError: two sections at one height, or nothing between them.
        OutOfRangeError: an area below zero, more than 60 sections.

    Source: composite Simpson's rule for uneven steps with the correction of the last step for an
        even number of sections, as in `scipy.integrate.simpson` (Cartwright 2017).
    """
    if len(sections) < 2:
        raise MissingError(Name.SECTION_AREA)
    require_between(Name.SECTION_COUNT, float(len(sections)), 2, MOST_SECTIONS, "")
    heights, areas = (np.array(column) for column in zip(*sorted(sections), strict=True))
    require_between(Name.SECTION_AREA, areas, 0.0, math.inf, "m²")
    for low, high in pairwise(heights):
        if high - low < SAME:
            raise CarcassError(code="sections-coincide", height=metres(float(high)))
    volume = float(simpson(areas, x=heights))
    if volume <= 0:
        raise CarcassError(code="sections-enclose-nothing")
    if len(sections) < TOLD:
        return Litres(value=volume, error=None)
    plain, last = float(trapezoid(areas, heights)), len(sections) - 1
    off = [abs(volume - plain)]
    for start in (0, 1):
        few = sorted({0, *range(start, last, 2), last})
        off.append(abs(volume - float(simpson(areas[few], x=heights[few]))))
        if not start:
            off.append(abs(plain - float(trapezoid(areas[few], heights[few]))))
    return Litres(value=volume, error=max(off))


def lined(outside: Litres, *, surface: float, thickness: float, stray: float | None) -> Litres:
    """Return what a skin leaves of a volume it is laid into.

    V_in = V - A t + √(4π A) t², where the last term, exact to this order in a ball, is as much as
    the error it brings: nothing where the skin is flat, twice that where it bends sharply.

    Args:
        outside: the volume inside the mould [m³].
        surface: surface of the mould that the skin lies on, the floor with it [m²].
        thickness: thickness of the skin [m].
        stray: how far the thickness may be off at 95 %; None where nobody knows [m].

    Returns: the volume inside the skin with its error

    Valid: a skin that is thin against the shape.

    Raises:
        ProfileError: a surface or a thickness that is not above zero.
        CarcassError: a surface smaller than that of a ball of this volume, or a skin that takes
            all of it.
        OutOfRangeError: a stray below zero or above the thickness.

    Source: Steiner's formula of parallel bodies, and the isoperimetric inequality, from memory of
        any text on convex bodies.
    """
    positive(Name.SKIN_SURFACE, surface)
    positive(Name.SKIN_THICKNESS, thickness)
    least = (36 * math.pi * outside.value**2) ** (1 / 3)
    if surface < least * (1 - 1e-9):
        raise CarcassError(
            code="skin-too-small", area=Quantity(surface, "m²"), least=Quantity(least, "m²")
        )
    bend = math.sqrt(4 * math.pi * surface) * thickness**2
    taken = surface * thickness - bend
    if taken >= outside.value:
        raise CarcassError(
            code="skin-fills-shape",
            taken=Quantity(taken, "m³"),
            volume=Quantity(outside.value, "m³"),
        )
    if stray is not None:
        require_between(Name.SKIN_STRAY, stray, 0.0, thickness, "m")
    unknown = outside.error is None or stray is None
    error = None if unknown else math.hypot(outside.error or 0.0, bend, surface * (stray or 0.0))
    return Litres(value=outside.value - taken, error=error)


def check_litres(litres: Litres, net: float) -> tuple[Finding, ...]:
    """Say that nothing tells how sure the litres are, or that they are not sure enough.

    Args:
        litres: the volume inside the skin.
        net: what is left of it for the air [m³].

    Returns: one finding at most

    Source: common practice, no source.
    """
    if litres.error is None:
        return (Finding(code="litres-error-unknown", value=litres.value, unit="m³"),)
    share = litres.error / net
    if share <= UNSURE:
        return ()
    return (
        Finding(
            code="litres-unsure",
            value=share,
            limit=UNSURE,
            unit="-",
            source=(Source.COMMON_PRACTICE,),
        ),
    )
