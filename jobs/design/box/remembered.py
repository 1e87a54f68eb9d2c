"""Where nine in ten builds of a box lie, and the waves between its walls.

Both are worth some tens of milliseconds and depend on nothing but what they are given, so each is
worked out once for the same figures and then remembered by the process.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from functools import lru_cache
from typing import cast

import numpy as np

from acoustics.air.hexahedron import Corners, judge_hexahedron
from acoustics.air.modes import ModeVerdict, judge_modes
from acoustics.circuit.filters import Way
from acoustics.circuit.tolerance_bands import SpreadBands, Tolerances, spread
from acoustics.driver.driver import Driver
from acoustics.enclosure.boxes import Box as Enclosure
from jobs.design.carcass.carcass import Taper, Wood

# Enough for a smooth band; two thousand systems are solved at each.
SPREAD_FREQUENCIES = np.geomspace(10.0, 500.0, 48)
# Where a box is used up to when no low-pass says otherwise: common practice, no source.
# Walls of a box whose waves are worked out between planes that lean any way.
FOUR = 4
USED_UP_TO = 120.0
REMEMBERED = 128


def bands(
    *,
    driver: Driver,
    load: Enclosure,
    voltage: float,
    series_resistance: float,
    filters: Way | None,
    tolerances: Tolerances | None = None,
) -> SpreadBands:
    """Solve two thousand builds of a box and say where nine in ten lie."""
    return _bands(driver, cast(Hashable, load), voltage, series_resistance, filters, tolerances)


@lru_cache(maxsize=REMEMBERED)
def _bands(
    driver: Driver,
    load: Hashable,
    voltage: float,
    series_resistance: float,
    filters: Way | None,
    tolerances: Tolerances | None,
) -> SpreadBands:
    return spread(
        driver=driver,
        box=cast(Enclosure, load),
        frequencies=SPREAD_FREQUENCIES,
        voltage=voltage,
        series_resistance=series_resistance,
        filters=filters,
        tolerances=tolerances,
    )


def standing_waves(wood: Wood, *, highest_used: float) -> ModeVerdict:
    """Look for standing waves between the real inner walls.

    Over a plan of its own the box counts as upright, with its plan at half its height.
    """
    if isinstance(wood.carcass, Taper) and len(wood.carcass.plan) != FOUR:
        low, high = wood.carcass.air_span
        section = wood.carcass.section((low + high) / 2, depth=wood.carcass.lining)
        return _verdict(tuple(section.points), high - low, highest_used)
    if isinstance(wood.carcass, Taper):
        eight = tuple(tuple(float(c) for c in corner) for corner in wood.carcass.air_corners)
        return _leaning_verdict(cast(Corners, eight), highest_used)
    left, right = wood.carcass.air_span
    points: Sequence[tuple[float, float]] = wood.carcass.air_profile.points
    corners = tuple((float(x), float(y)) for x, y in points)
    return _verdict(corners, right - left, highest_used)


@lru_cache(maxsize=REMEMBERED)
def _leaning_verdict(corners: Corners, highest_used: float) -> ModeVerdict:
    return judge_hexahedron(corners=corners, highest_used=highest_used)


@lru_cache(maxsize=REMEMBERED)
def _verdict(
    profile: tuple[tuple[float, float], ...], width: float, highest_used: float
) -> ModeVerdict:
    return judge_modes(profile=profile, width=width, highest_used=highest_used)
