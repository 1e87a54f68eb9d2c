"""From a wanted shape, frequency or volume to a vented box, its passband bounded both ways.

Chosen with leakage and the source's resistance, exactly; coil inductance and the losses of
absorption and port play no part in choosing a box, only in what it costs (`targets.cost_of`).
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import cast

import numpy as np

from acoustics.air.air import STANDARD, Air
from acoustics.circuit.solver import HALF_POWER
from acoustics.driver.driver import Driver
from acoustics.enclosure.alignments import Shape, align_shape
from acoustics.enclosure.boxes import Vented
from acoustics.enclosure.closed_box import total_damping
from acoustics.enclosure.vented_response import VentedResponse, alphas_for
from acoustics.errors import NoSolutionError, Quantity
from acoustics.names import Name
from acoustics.values import Floats, require_positive

# Volumes looked at, over Vas, and tunings looked at, over fs.
VOLUMES = (0.02, 50.0)
TUNINGS = (0.25, 4.0)
_CLOSE = 700  # tunings of the first look: steps of 0.4 %
_AGAIN = 60  # and of each closer one
_LOOKS = 3
_NEAREST = 6  # places looked at closer where none is good yet
# Tunings -> what is to be least, and the unevenness [dB].
_Look = Callable[[Floats], tuple[Floats, Floats]]


def vented_for_shape(
    driver: Driver,
    shape: Shape,
    *,
    area: float,
    ql: float = math.inf,
    series_resistance: float = 0.0,
    air: Air = STANDARD,
) -> Vented:
    """Vented box that gives a driver a named shape, leakage included exactly.

    Args:
        driver: driver in the box
        shape: the shape wanted
        area: area of all ports together [m²]
        ql: Q of leakage at the box resonance [-]
        series_resistance: resistance of cable and source [Ω]
        air: air in the box

    Returns: the box

    Raises:
        OutOfRangeError: a value is not positive.
        NoSolutionError: the driver's Q does not allow this shape; the nearest Q is named.

    Source: Thiele 1971; Small, JAES 21 (1973) 363-372.
    """
    qts = 1 / float(total_damping(driver, series_resistance))
    alignment = align_shape(shape, qts=qts, ql=ql)
    volume = _vas(driver, air) / alignment.alpha
    return _tuned(driver, volume, alignment.h, area=area, ql=ql, air=air)


def vented_for_volume(
    driver: Driver,
    volume: float,
    *,
    area: float,
    ql: float = math.inf,
    ripple: float = 0.5,
    series_resistance: float = 0.0,
    air: Air = STANDARD,
) -> Vented:
    """Tuning that takes a vented box of given litres lowest, its passband even within a ripple.

    Args:
        driver: driver in the box
        volume: net volume at hand [m³]
        area: area of all ports together [m²]
        ql: Q of leakage at the box resonance [-]
        ripple: rise above the passband, and sag below it before the response falls for good,
            each of which is accepted [dB]
        series_resistance: resistance of cable and source [Ω]
        air: air in the box

    Returns: the box

    Raises:
        OutOfRangeError: a value is not positive.
        NoSolutionError: every tuning is less even; the evenest is named.

    Valid: tunings from fs/4 to 4 fs.

    Source: the response's polynomial; the accepted ripple: common practice, no source.
    """
    require_positive(Name.RIPPLE, ripple, "dB")
    require_positive(Name.VOLUME, volume, "m³")
    losses = _Losses.of(driver, ql, series_resistance)
    alpha = _vas(driver, air) / volume

    def look(tunings: Floats) -> tuple[Floats, Floats]:
        response = losses.response(tunings, np.full_like(tunings, alpha))
        rise, sag, _ = response.extremes()
        return response.half_power(), np.maximum(rise, sag)

    tuning, _, least = _least(look, ripple)
    if tuning is None:
        value, limit = Quantity(ripple, "dB"), Quantity(least, "dB")
        raise NoSolutionError(code="ripple-out-of-reach", value=value, limit=limit)
    return _tuned(driver, volume, tuning, area=area, ql=ql, air=air)


def vented_for_f3(
    driver: Driver,
    f3: float,
    *,
    area: float,
    ql: float = math.inf,
    ripple: float = 0.5,
    series_resistance: float = 0.0,
    air: Air = STANDARD,
) -> Vented:
    """Smallest vented box that is half power down at a frequency, even above it within a ripple.

    Half power is counted where it is first met coming down from the passband. Where every box
    that falls exactly there is less even, the smallest one that reaches lower is taken.

    Args:
        driver: driver in the box
        f3: half-power frequency wanted [Hz]
        area: area of all ports together [m²]
        ql: Q of leakage at the box resonance [-]
        ripple: rise above the passband, and sag below it before the response falls for good,
            each of which is accepted [dB]
        series_resistance: resistance of cable and source [Ω]
        air: air in the box

    Returns: the box, its volume within 0.1 %

    Raises:
        OutOfRangeError: a value is not positive.
        NoSolutionError: no box does both; the lowest f3 that keeps the ripple is named.

    Valid: volumes from Vas/50 to 50 Vas, tunings from fs/4 to 4 fs.

    Source: the response's polynomial; the accepted ripple: common practice, no source.
    """
    require_positive(Name.F3, f3, "Hz")
    require_positive(Name.RIPPLE, ripple, "dB")
    losses = _Losses.of(driver, ql, series_resistance)
    fs = float(driver.fs)
    solution = losses.smallest(f3 / fs, ripple) or losses.smallest_below(f3 / fs, ripple)
    if solution is None:
        lowest = losses.lowest(ripple)
        value = Quantity(f3, "Hz")
        if lowest is None:
            raise NoSolutionError(code="no-even-box", value=value, limit=Quantity(ripple, "dB"))
        limit = Quantity(lowest * fs, "Hz")
        raise NoSolutionError(code="vented-f3-out-of-reach", value=value, limit=limit)
    h, over_vas = solution
    return _tuned(driver, over_vas * _vas(driver, air), h, area=area, ql=ql, air=air)


@dataclass(frozen=True)
class _Losses:
    """What damps the response beside the box: 1/Qts with its source, 1/QL."""

    damping: float
    leak: float

    @classmethod
    def of(cls, driver: Driver, ql: float, resistance: float) -> "_Losses":
        require_positive(Name.QL, ql, "-", infinite=True)
        return cls(float(total_damping(driver, resistance)), 1 / ql)

    def response(self, tunings: Floats, alphas: Floats) -> VentedResponse:
        return VentedResponse(h=tunings, alpha=alphas, damping=self.damping, leak=self.leak)

    def smallest(self, f3: float, ripple: float) -> tuple[float, float] | None:
        """Tuning and volume over Vas of the smallest even box that falls exactly at f3 / fs."""
        best: tuple[float, float] | None = None
        for branch in (0, 1):

            def look(tunings: Floats, branch: int = branch) -> tuple[Floats, Floats]:
                place = tunings / f3**2
                alphas = alphas_for(tunings, place, self.damping, self.leak)[branch]
                volumes = _within(alphas)
                rise, sag, uneven = self._judged(tunings, volumes, place)
                return volumes, np.where(uneven, np.inf, np.maximum(rise, sag))

            tuning, volume, _ = _least(look, ripple)
            if tuning is not None and (best is None or volume < best[1]):
                best = tuning, volume
        return best

    def smallest_below(self, f3: float, ripple: float) -> tuple[float, float] | None:
        """Tuning and volume of the smallest even box that holds half the power at f3 / fs."""
        answer = self._searched(
            lambda volumes, reached: np.where(reached <= f3, volumes, np.inf), ripple
        )
        return None if answer is None else answer[:2]

    def lowest(self, ripple: float) -> float | None:
        """Lowest f3 / fs an even box has; None where none is even."""
        answer = self._searched(lambda volumes, reached: reached, ripple)
        return None if answer is None else answer[2]

    def _searched(
        self, wanted: Callable[[Floats, Floats], Floats], ripple: float
    ) -> tuple[float, float, float] | None:
        """Tuning, volume and f3 of the even box with the least of what is wanted, looked closer."""
        low, high = TUNINGS
        small, large = VOLUMES
        best: tuple[float, float, float] | None = None
        least = math.inf
        for number in (130, 40, 40, 40, 40):
            volumes, tunings = np.meshgrid(
                np.geomspace(small, large, number), np.geomspace(low, high, number)
            )
            response = self.response(tunings, 1 / volumes)
            rise, sag, _ = response.extremes()
            reached = response.half_power()
            even = np.maximum(rise, sag) <= ripple
            values = np.where(even, wanted(volumes, reached), np.inf)
            place = np.unravel_index(values.argmin(), values.shape)
            if values[place] < least:
                least = float(values[place])
                best = float(tunings[place]), float(volumes[place]), float(reached[place])
            if best is None or not even.any():
                break
            # Between two volumes of the grid any of these tunings may have the least.
            step, wide = tunings[1, 0] / tunings[0, 0], volumes[0, 1] / volumes[0, 0]
            near = values.min(axis=1) <= values.min() * wide
            at, litres = tunings[near, 0], volumes[0, values.argmin(axis=1)[near]]
            low, high = max(at[0] / step**2, TUNINGS[0]), min(at[-1] * step**2, TUNINGS[1])
            small = max(litres.min() / wide**2, VOLUMES[0])
            large = min(litres.max() * wide**2, VOLUMES[1])
        return best

    def _judged(
        self, tunings: Floats, volumes: Floats, place: Floats
    ) -> tuple[Floats, Floats, Floats]:
        """Rise, sag, and whether the response has fallen before this place."""
        known = np.isfinite(volumes)
        response = self.response(tunings, np.where(known, 1 / np.where(known, volumes, 1.0), 1.0))
        rise, sag, largest = response.extremes()
        # It has sagged to half the power before this place: this is the second time.
        before = (largest < place) & (sag > HALF_POWER)
        return rise, sag, cast(Floats, ~known | before)


def _least(look: _Look, ripple: float) -> tuple[float | None, float, float]:
    """Tuning at which something is least among the even ones, that, and the least unevenness."""
    tunings = np.geomspace(*TUNINGS, _CLOSE)
    step = float(tunings[1] / tunings[0])
    values, unevenness = look(tunings)
    least = float(unevenness.min())
    good = np.where(unevenness <= ripple, values, np.inf)
    if np.isfinite(good).any():
        centres = [float(tunings[good.argmin()])]
    else:
        centres = [float(t) for t in _dips(tunings, unevenness)]
    best, best_value = None, math.inf
    for centre in centres:
        middle, width = centre, step
        for _ in range(_LOOKS):
            near = np.geomspace(middle / width, middle * width, _AGAIN + 1)
            values, unevenness = look(near)
            least = min(least, float(unevenness.min()))
            good = np.where(unevenness <= ripple, values, np.inf)
            if float(good.min()) < best_value:
                best, best_value = float(near[good.argmin()]), float(good.min())
            reached = np.isfinite(good).any()
            middle = float(near[good.argmin() if reached else unevenness.argmin()])
            width = float(near[1] / near[0])
    return best, best_value, least


def _dips(tunings: Floats, unevenness: Floats) -> Floats:
    """Where the unevenness is less than on both sides, the least first."""
    padded = np.concatenate([[np.inf], unevenness, [np.inf]])
    dips = np.flatnonzero(
        np.isfinite(unevenness) & (unevenness <= padded[:-2]) & (unevenness <= padded[2:])
    )
    return tunings[dips[np.argsort(unevenness[dips])][:_NEAREST]]


def _within(alphas: Floats) -> Floats:
    """Volumes over Vas of those that are looked at, inf for the others."""
    small, large = VOLUMES
    inside = (alphas >= 1 / large) & (alphas <= 1 / small)
    return np.where(inside, 1 / np.where(inside, alphas, 1.0), np.inf)


def _vas(driver: Driver, air: Air) -> float:
    """Volume whose air is as stiff as the driver's suspension."""
    return float(driver.cms * driver.sd**2 * air.bulk_modulus)


def _tuned(driver: Driver, volume: float, h: float, *, area: float, ql: float, air: Air) -> Vented:
    frequency = float(driver.fs) * h
    return Vented.tuned(volume=volume, frequency=frequency, area=area, ql=ql, air=air)
