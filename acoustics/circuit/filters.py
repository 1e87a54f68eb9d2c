"""Crossover filters of the channel plan as analogue transfer functions, and the sum of ways."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from math import factorial
from typing import cast

import numpy as np
from scipy.optimize import brentq

from acoustics.errors import COUNT, OutOfRangeError
from acoustics.names import Name
from acoustics.values import Complexes, Floats, require_positive

HIGHEST_ORDER = 8


class Family(StrEnum):
    """Family of a filter; it decides the shape around the corner.

    Attributes:
        BUTTERWORTH: flattest magnitude; -3 dB at the corner
        LINKWITZ_RILEY: two equal Butterworth filters in a row; -6 dB at the corner
        BESSEL: flattest delay of the low-pass; what its corner means is said by the norm
    """

    BUTTERWORTH = "butterworth"
    LINKWITZ_RILEY = "linkwitz-riley"
    BESSEL = "bessel"


class Norm(StrEnum):
    """What the corner of a Bessel filter means; the others know one meaning only.

    Attributes:
        MAGNITUDE: -3 dB there
        PHASE: both slopes, drawn on, meet there as those of a Butterworth filter do
        DELAY: the low-pass delays low frequencies by 1/(2π corner)
    """

    MAGNITUDE = "magnitude"
    PHASE = "phase"
    DELAY = "delay"


class Passes(StrEnum):
    """Which side of the corner a filter lets through.

    Attributes:
        LOW: frequencies below the corner
        HIGH: frequencies above the corner
    """

    LOW = "low"
    HIGH = "high"


@dataclass(frozen=True, kw_only=True)
class Filter:
    """One low-pass or high-pass filter.

    Attributes:
        family: family of the filter
        order: order, 6 dB per octave each; even for Linkwitz-Riley [-]
        corner: corner frequency: -3 dB, -6 dB for Linkwitz-Riley, by its norm for Bessel [Hz]
        passes: side that is let through
        norm: what the corner of a Bessel filter means

    Raises:
        OutOfRangeError: the order is not from 1 to 8, is odd for Linkwitz-Riley, or the corner is
            not above zero.

    Source: S. H. Linkwitz, "Active Crossover Networks for Noncoincident Drivers", JAES 24 (1976)
        2-8; W. E. Thomson, Proc. IEE 96 (1949) III 487 (Bessel), from memory.
    """

    family: Family
    order: int
    corner: float
    passes: Passes
    norm: Norm = Norm.MAGNITUDE

    def __post_init__(self) -> None:
        """Refuse an order or a corner that no such filter has."""
        require_positive(Name.CORNER_FREQUENCY, self.corner, "Hz")
        if self.order not in range(1, HIGHEST_ORDER + 1):
            raise OutOfRangeError(Name.FILTER_ORDER, self.order, COUNT, between=(1, HIGHEST_ORDER))
        if self.family is Family.LINKWITZ_RILEY and self.order % 2:
            even = tuple(range(2, HIGHEST_ORDER + 1, 2))
            raise OutOfRangeError(Name.LINKWITZ_RILEY_ORDER, self.order, COUNT, one_of=even)

    def response(self, frequency: Floats) -> Complexes:
        """Transfer function, 1/D(s/ω0) as low-pass and 1/D(ω0/s) as high-pass.

        Args:
            frequency: frequency [Hz]

        Returns: complex gain [-]

        Raises:
            OutOfRangeError: a frequency is not above zero.

        Source: as the class; low-pass to high-pass by s → 1/s.
        """
        require_positive(Name.FREQUENCY, frequency, "Hz")
        s = 1j * np.asarray(frequency, dtype=float) / self.corner
        return cast("Complexes", 1.0 / np.polyval(self.denominator, _turned(s, self.passes)))

    @property
    def denominator(self) -> Floats:
        """D(s) of the low-pass with its corner at 1, highest power first; D(0) = 1.

        Returns: coefficients [-]

        Source: as the class.
        """
        return _polynomial(self.family, self.order, self.norm)


@dataclass(frozen=True, kw_only=True)
class Way:
    """One way of a loudspeaker as the processor feeds it; a high- and a low-pass make a band-pass.

    Attributes:
        filters: filters in a row
        level: gain [dB]
        delay: delay [s]
        inverted: whether the polarity is turned

    Raises:
        OutOfRangeError: the level is not finite, or the delay is below zero.
    """

    filters: tuple[Filter, ...] = ()
    level: float = 0.0
    delay: float = 0.0
    inverted: bool = False

    def __post_init__(self) -> None:
        """Refuse a level that is none and a delay before its cause."""
        if not np.isfinite(self.level):
            raise OutOfRangeError(Name.LEVEL, self.level, "dB", to_be="finite")
        if not (np.isfinite(self.delay) and self.delay >= 0.0):
            raise OutOfRangeError(Name.DELAY, self.delay, "s", at_least=0)

    def response(self, frequency: Floats) -> Complexes:
        """Transfer function: product of the filters, the gain, the delay and the polarity.

        Args:
            frequency: frequency [Hz]

        Returns: complex gain [-]

        Raises:
            OutOfRangeError: a frequency is not above zero.
        """
        require_positive(Name.FREQUENCY, frequency, "Hz")
        f = np.asarray(frequency, dtype=float)
        gain = 10.0 ** (self.level / 20.0) * (-1.0 if self.inverted else 1.0)
        response = gain * np.exp(-2j * np.pi * f * self.delay)
        for each in self.filters:
            response = response * each.response(f)
        return cast("Complexes", response)


def sum_of_ways(ways: Sequence[Way], frequency: Floats) -> Complexes:
    """Electrical sum of ways, as heard where all arrive alike.

    Args:
        ways: the ways
        frequency: frequency [Hz]

    Returns: complex gain [-]

    Raises:
        OutOfRangeError: no way at all, or a frequency is not above zero.

    Valid: equal loudspeakers at equal distance; real ones add their own response.

    Source: definition.
    """
    if not ways:
        raise OutOfRangeError(Name.WAY_COUNT, 0, COUNT, at_least=1)
    total = np.sum([way.response(frequency) for way in ways], axis=0)
    return cast("Complexes", total)


def alignment_delays(distances: Floats, *, speed_of_sound: float = 343.2) -> Floats:
    """Delays that let all arrive with the farthest: Δt = (longest − d)/c; the nearer ones wait.

    Args:
        distances: distance of each loudspeaker from the listener [m]
        speed_of_sound: speed of sound [m/s]

    Returns: delay of each [s]

    Raises:
        OutOfRangeError: a distance or the speed is not above zero.

    Source: definition.
    """
    require_positive(Name.SPEED_OF_SOUND, speed_of_sound, "m/s")
    lengths = np.asarray(distances, dtype=float)
    require_positive(Name.DISTANCE, lengths, "m")
    delays: Floats = (lengths.max() - lengths) / speed_of_sound
    return delays


def _turned(s: Complexes, passes: Passes) -> Complexes:
    """The same variable for a low-pass, its inverse for a high-pass."""
    return s if passes is Passes.LOW else 1.0 / s


@cache
def _polynomial(family: Family, order: int, norm: Norm) -> Floats:
    """Denominator with its corner at 1 and its value at 0 equal to 1, highest power first."""
    if family is Family.BUTTERWORTH:
        return butterworth(order)
    if family is Family.LINKWITZ_RILEY:
        half = butterworth(order // 2)
        return np.convolve(half, half)
    return _bessel(order, norm)


def butterworth(order: int) -> Floats:
    """Product of s² + 2 sin θ s + 1 over the pole pairs, and s + 1 when the order is odd.

    Args:
        order: order [-]

    Returns: coefficients, highest power first [-]

    Source: S. Butterworth, Experimental Wireless 7 (1930) 536, from memory.
    """
    polynomial = np.array([1.0, 1.0]) if order % 2 else np.array([1.0])
    for damping in pair_dampings(order):
        polynomial = np.convolve(polynomial, np.array([1.0, damping, 1.0]))
    return polynomial


def pair_dampings(order: int) -> Floats:
    """1/Q of each pole pair of a Butterworth filter, 2 sin(π (2k + 1)/(2n)).

    Args:
        order: order n [-]

    Returns: damping of each pair [-]

    Source: as `butterworth`.
    """
    pairs = np.arange(order // 2)
    damping: Floats = 2.0 * np.sin(np.pi * (2 * pairs + 1) / (2 * order))
    return damping


def _bessel(order: int, norm: Norm) -> Floats:
    """Reverse Bessel polynomial, its frequency scaled as the norm asks.

    θ(s) = Σ (2n−k)!/((n−k)! k!) (s^k)/2^(n−k); unscaled it delays by 1.
    """
    rising = np.array(
        [
            factorial(2 * order - k) / (2 ** (order - k) * factorial(k) * factorial(order - k))
            for k in range(order + 1)
        ]
    )
    falling = rising[::-1] / rising[0]

    def above_half_power(w: float) -> float:
        return float(abs(np.polyval(falling, 1j * w)) ** 2 - 2.0)

    scale = 1.0
    if norm is Norm.PHASE:
        scale = float(falling[0] ** (-1.0 / order))
    if norm is Norm.MAGNITUDE:
        scale = float(brentq(above_half_power, 0.1, 10.0, xtol=1e-14))
    scaled: Floats = falling * scale ** np.arange(order, -1, -1)
    return scaled
