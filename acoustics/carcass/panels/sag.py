"""How far a floor bends between its supports under a load in one place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely

from acoustics.carcass.panels.floor import Floor
from acoustics.carcass.shape.profile import positive
from acoustics.findings import Finding
from acoustics.names import Name
from acoustics.values import Floats, require_positive

# A floor may bend by this share of its span: common practice, no source [-].
USUAL_SAG = 1 / 200
# Standard acceleration of gravity, exact (ISO 80000-3) [m/s²].
GRAVITY = 9.80665
# Points along the longer side of what is looked over, and how often round the best of them.
POINTS, ROUNDS = 41, 4


def widest_span(floor: Floor) -> float:
    """Return the widest free span: across the largest circle between supports with none in it.

    Its middle lies on the floor, between its supports; what stands out beyond them is not looked
    at here.

    Args:
        floor: the floor.

    Returns: diameter of that circle [m]

    Source: definition.
    """
    between = floor.outline.polygon.intersection(floor.carried)
    if between.is_empty:
        return 0.0
    stands = shapely.union_all([support.polygon for _name, support in floor.supports])
    low_u, low_v, high_u, high_v = between.bounds
    step = max(high_u - low_u, high_v - low_v) / (POINTS - 1)
    widest = 0.0
    for _ in range(ROUNDS):
        u, v = np.meshgrid(_along(low_u, high_u, step), _along(low_v, high_v, step))
        points = shapely.points(u.ravel(), v.ravel())
        away = np.where(shapely.covers(between, points), shapely.distance(stands, points), 0.0)
        best = int(away.argmax())
        widest = max(widest, float(away[best]))
        u0, v0 = float(u.ravel()[best]), float(v.ravel()[best])
        low_u, high_u, low_v, high_v = u0 - step, u0 + step, v0 - step, v0 + step
        step /= 8
    return 2 * widest


def _along(low: float, high: float, step: float) -> Floats:
    return np.linspace(low, high, max(round((high - low) / step), 1) + 1)


def sag(*, span: float, thickness: float, modulus: float, load: float) -> float:
    """Return how far a board bends in the middle of its span under a load there.

    δ = F L³ / (48 E I) with I = L t³ / 12: a strip as broad as its span, F = m g.

    Args:
        span: free span [m].
        thickness: thickness of the board [m].
        modulus: Young's modulus [Pa].
        load: mass in one place [kg].

    Returns: deflection [m]

    Raises:
        ProfileError: a length that is not above zero.
        OutOfRangeError: a modulus or a load that is not.

    Valid: away from a free edge; there it bends further. Whether it breaks is not asked.

    Source: beam on two supports, from memory of any text on the strength of materials; that a
        strip as broad as the span carries along is common practice, no source. An endless plate
        bends by 0.0170 F L² / D, three quarters of it (Timoshenko, Theory of Plates, from memory).
    """
    positive(Name.SPAN, span)
    positive(Name.THICKNESS, thickness)
    require_positive(Name.MODULUS, modulus, "Pa")
    require_positive(Name.LOAD, load, "kg")
    return load * GRAVITY * span**2 / (4 * modulus * thickness**3)


@dataclass(frozen=True, kw_only=True)
class Bending:
    """How a floor bears its load.

    Attributes:
        span: its widest free span [m].
        load: what it has to bear in one place, None where nobody said [kg].
        sag: how far it bends under that in the middle of the span, None where the load or the
            stiffness of the sheet is not known [m].

    Source: definition.
    """

    span: float
    load: float | None
    sag: float | None


def bending(
    floor: Floor, *, thickness: float, modulus: float | None, load: float | None
) -> Bending | None:
    """Return how a floor bends in its widest span; None where no span is wider than its board.

    Args:
        floor: the floor.
        thickness: thickness of its board [m].
        modulus: Young's modulus of its sheet, None where nobody knows [Pa].
        load: what it has to bear in one place, None where nobody said [kg].

    Returns: span, load and sag

    Source: as `sag`.
    """
    span = widest_span(floor)
    if span <= thickness:
        return None
    bends = None
    if modulus is not None and load is not None:
        bends = sag(span=span, thickness=thickness, modulus=modulus, load=load)
    return Bending(span=span, load=load, sag=bends)


def check_bending(of: Bending) -> Iterator[Finding]:
    """Find a floor that bends further than usual, or say what is not known of it.

    Args:
        of: how it bends.

    Yields: one finding at most

    Source: how far a floor may bend is common practice, no source.
    """
    if of.load is None:
        yield Finding(code="floor-load-unknown", value=of.span, unit="m")
    elif of.sag is None:
        yield Finding(code="floor-stiffness-unknown", value=of.span, unit="m")
    elif of.sag > USUAL_SAG * of.span:
        yield Finding(code="floor-sags", value=of.sag, limit=USUAL_SAG * of.span, unit="m")
