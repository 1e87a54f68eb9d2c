"""How far a floor bends under a load in one place, inside and at a free edge; does it break."""

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
# Of the strength of a sheet so much is used up at most: who kneels drops down, and wood has knots.
# Common practice, no source [-].
USED = 1 / 3
# At a free edge the strip that bears is so much narrower than inside the board: finite elements say
# 2.6 (`tests/acoustics/carcass/panels/test_sag.py`) [-].
NARROWER = 3
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


def free_edge(floor: Floor) -> float:
    """Return the widest span along a rim that nothing carries: twice the way to the next support.

    The same length stands for a rim that reaches out half as far: a strip twice as broad as it
    reaches out bends by 2/3 of what is reckoned so, which is the safe side.

    Args:
        floor: the floor.

    Returns: the span [m]

    Source: definition.
    """
    stands = shapely.union_all([support.polygon for _name, support in floor.supports])
    rim = floor.outline.polygon.exterior
    points = shapely.line_interpolate_point(rim, np.linspace(0.0, rim.length, 40 * POINTS))
    return 2 * float(shapely.distance(stands, points).max())


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

    Valid: away from a free edge; there a third of the strip bears, and it bends three times as far.

    Source: beam on two supports, from memory of any text on the strength of materials; that a
        strip as broad as the span carries along is common practice, no source. An endless plate
        bends by 0.0170 F L² / D, three quarters of it (Timoshenko, Theory of Plates, from memory).
    """
    positive(Name.SPAN, span)
    positive(Name.THICKNESS, thickness)
    require_positive(Name.MODULUS, modulus, "Pa")
    require_positive(Name.LOAD, load, "kg")
    return load * GRAVITY * span**2 / (4 * modulus * thickness**3)


def stress(*, thickness: float, load: float) -> float:
    """Return the bending stress in a board under a load in the middle of its span.

    σ = M / W with M = F L / 4 and W = L t² / 6, a strip as broad as its span: 3 F / (2 t²), however
    far it spans; at a free edge the strip is half as broad and the stress twice as high.

    Args:
        thickness: thickness of the board [m].
        load: mass in one place [kg].

    Returns: stress [Pa]

    Raises:
        ProfileError: a thickness that is not above zero.
        OutOfRangeError: a load that is not.

    Valid: away from a free edge; what presses on a few millimetres, such as a foot of metal, dents
        the wood besides.

    Source: beam on two supports, as `sag`.
    """
    positive(Name.THICKNESS, thickness)
    require_positive(Name.LOAD, load, "kg")
    return 1.5 * load * GRAVITY / thickness**2


@dataclass(frozen=True, kw_only=True)
class Bending:
    """How a floor bears its load.

    Attributes:
        span: its widest free span [m].
        edge: its widest span along a rim that nothing carries [m].
        load: what it has to bear in one place, None where nobody said [kg].
        sag: how far it bends under that in the middle of the span, None where the load or the
            stiffness of the sheet is not known [m].
        edge_sag: likewise in the middle of that rim [m].
        stress: bending stress at the rim, which is the most there is; None without a load [Pa].
        strength: bending strength of the sheet, None where nobody knows [Pa].

    Source: definition.
    """

    span: float
    edge: float
    load: float | None
    sag: float | None
    edge_sag: float | None
    stress: float | None
    strength: float | None


def bending(
    floor: Floor,
    *,
    thickness: float,
    modulus: float | None,
    load: float | None,
    strength: float | None,
) -> Bending | None:
    """Return how a floor bears its load; None where no span is wider than its board.

    Args:
        floor: the floor.
        thickness: thickness of its board [m].
        modulus: Young's modulus of its sheet, None where nobody knows [Pa].
        load: what it has to bear in one place, None where nobody said [kg].
        strength: bending strength of its sheet, None where nobody knows [Pa].

    Returns: spans, load, how far it bends and how it is strained

    Source: as `sag` and `stress`.
    """
    span, edge = widest_span(floor), free_edge(floor)
    if max(span, edge) <= thickness:
        return None

    def bends(over: float) -> float | None:
        if modulus is None or load is None:
            return None
        if over <= thickness:
            return 0.0
        return sag(span=over, thickness=thickness, modulus=modulus, load=load)

    at_edge, strip = bends(edge), NARROWER if edge > thickness else 1
    return Bending(
        span=span,
        edge=edge,
        load=load,
        sag=bends(span),
        edge_sag=None if at_edge is None else NARROWER * at_edge,
        stress=None if load is None else strip * stress(thickness=thickness, load=load),
        strength=strength,
    )


def check_bending(of: Bending) -> Iterator[Finding]:
    """Find a floor that bends further than usual or may break, or say what is not known of it.

    Args:
        of: how it bends.

    Yields: what is found, where it bends furthest

    Source: how far a floor may bend, and how much of its strength is used, are common practice, no
        source.
    """
    if of.load is None:
        yield Finding(code="floor-load-unknown", value=max(of.span, of.edge), unit="m")
        return
    if of.sag is None or of.edge_sag is None:
        yield Finding(code="floor-stiffness-unknown", value=max(of.span, of.edge), unit="m")
    elif of.edge_sag > USUAL_SAG * of.edge:
        yield Finding(
            code="floor-edge-sags", value=of.edge_sag, limit=USUAL_SAG * of.edge, unit="m"
        )
    elif of.sag > USUAL_SAG * of.span:
        yield Finding(code="floor-sags", value=of.sag, limit=USUAL_SAG * of.span, unit="m")
    if of.strength is None:
        yield Finding(code="floor-strength-unknown", value=of.stress, unit="Pa")
    elif of.stress is not None and of.stress > USED * of.strength:
        yield Finding(code="floor-may-break", value=of.stress, limit=USED * of.strength, unit="Pa")
