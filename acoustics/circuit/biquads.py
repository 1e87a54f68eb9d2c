"""Second-order digital filters of a processor: coefficients and response at its sample rate."""

from dataclasses import dataclass
from enum import StrEnum
from typing import cast

import numpy as np

from acoustics.errors import OutOfRangeError
from acoustics.names import Name
from acoustics.values import Complexes, Floats, require_between, require_positive


class BiquadKind(StrEnum):
    """What a second-order filter does.

    Attributes:
        LOW_PASS: passes below the frequency
        HIGH_PASS: passes above the frequency
        BAND_PASS: passes around the frequency, 0 dB at it
        NOTCH: takes the frequency out
        ALL_PASS: turns the phase alone
        PEAKING: lifts or lowers around the frequency
        LOW_SHELF: lifts or lowers below the frequency
        HIGH_SHELF: lifts or lowers above the frequency
    """

    LOW_PASS = "low-pass"  # noqa: S105 - a filter, no secret
    HIGH_PASS = "high-pass"  # noqa: S105
    BAND_PASS = "band-pass"  # noqa: S105
    NOTCH = "notch"
    ALL_PASS = "all-pass"  # noqa: S105
    PEAKING = "peaking"
    LOW_SHELF = "low-shelf"
    HIGH_SHELF = "high-shelf"


_WITH_GAIN = {BiquadKind.PEAKING, BiquadKind.LOW_SHELF, BiquadKind.HIGH_SHELF}


@dataclass(frozen=True, kw_only=True)
class Biquad:
    """One second-order digital filter, (b0 + b1 z⁻¹ + b2 z⁻²)/(1 + a1 z⁻¹ + a2 z⁻²).

    Attributes:
        b0: coefficient [-]
        b1: coefficient [-]
        b2: coefficient [-]
        a1: coefficient [-]
        a2: coefficient [-]
        sample_rate: rate the coefficients are for [Hz]

    Raises:
        OutOfRangeError: the filter is not stable, or the rate is not above zero.

    Source: stability triangle |a2| < 1, |a1| < 1 + a2: A. V. Oppenheim & R. W. Schafer,
        Discrete-Time Signal Processing, from memory.
    """

    b0: float
    b1: float
    b2: float
    a1: float
    a2: float
    sample_rate: float

    def __post_init__(self) -> None:
        """Refuse a filter that would run away."""
        require_positive(Name.SAMPLE_RATE, self.sample_rate, "Hz")
        if not (abs(self.a2) < 1.0 and abs(self.a1) < 1.0 + self.a2):
            raise OutOfRangeError(Name.FILTER_FEEDBACK, self.a2, to_be="stable")

    def response(self, frequency: Floats) -> Complexes:
        """Transfer function on the unit circle, z = exp(j 2πf/fs).

        Args:
            frequency: frequency, 0 to half the sample rate [Hz]

        Returns: complex gain [-]

        Raises:
            OutOfRangeError: a frequency lies outside 0 to half the sample rate.
        """
        require_between(Name.FREQUENCY, frequency, 0.0, self.sample_rate / 2.0, "Hz")
        back = np.exp(-2j * np.pi * np.asarray(frequency, dtype=float) / self.sample_rate)
        top = self.b0 + back * (self.b1 + back * self.b2)
        return cast("Complexes", top / (1.0 + back * (self.a1 + back * self.a2)))


def biquad(
    kind: BiquadKind,
    *,
    frequency: float,
    sample_rate: float,
    q: float = float(np.sqrt(0.5)),
    gain: float = 0.0,
) -> Biquad:
    """Second-order digital filter by the usual equations.

    w0 = 2πf0/fs, α = sin w0/(2Q), A = 10^(gain/40).

    Args:
        kind: what the filter does
        frequency: corner or centre f0 [Hz]
        sample_rate: sample rate fs [Hz]
        q: quality factor [-]
        gain: lift or cut, of peaking and shelves only [dB]

    Returns: the filter

    Raises:
        OutOfRangeError: the frequency is not inside 0 to half the sample rate, q is not above
            zero, the gain is not finite, or a kind without gain is given one.

    Source: R. Bristow-Johnson, Audio EQ Cookbook, W3C Working Group Note, 8 June 2021.
    """
    require_positive(Name.SAMPLE_RATE, sample_rate, "Hz")
    require_positive(Name.FILTER_FREQUENCY, frequency, "Hz")
    require_positive(Name.FILTER_Q, q, "-")
    if frequency >= sample_rate / 2.0:
        raise OutOfRangeError(Name.FILTER_FREQUENCY, frequency, "Hz", below=sample_rate / 2.0)
    if gain and kind not in _WITH_GAIN:
        raise OutOfRangeError(Name.GAIN, gain, "dB", between=(0.0, 0.0))
    if not np.isfinite(gain):
        raise OutOfRangeError(Name.GAIN, gain, "dB", to_be="finite")
    w0 = 2.0 * np.pi * frequency / sample_rate
    cos, alpha = float(np.cos(w0)), float(np.sin(w0)) / (2.0 * q)
    amplitude = 10.0 ** (gain / 40.0)
    if kind in (BiquadKind.LOW_SHELF, BiquadKind.HIGH_SHELF):
        side = 1.0 if kind is BiquadKind.LOW_SHELF else -1.0
        b, a = _shelf(side, cos, alpha, amplitude)
    elif kind is BiquadKind.PEAKING:
        b = (1.0 + alpha * amplitude, -2.0 * cos, 1.0 - alpha * amplitude)
        a = (1.0 + alpha / amplitude, -2.0 * cos, 1.0 - alpha / amplitude)
    else:
        a = (1.0 + alpha, -2.0 * cos, 1.0 - alpha)
        b = _plain(kind, cos, alpha)
    b0, b1, b2 = (value / a[0] for value in b)
    return Biquad(b0=b0, b1=b1, b2=b2, a1=a[1] / a[0], a2=a[2] / a[0], sample_rate=sample_rate)


def shelf_q(*, gain: float, slope: float) -> float:
    """Quality factor of a shelf by its slope, 1/Q = sqrt((A + 1/A)(1/S − 1) + 2).

    Args:
        gain: lift or cut of the shelf [dB]
        slope: slope S; 1 is the steepest that stays monotonic [-]

    Returns: quality factor [-]

    Raises:
        OutOfRangeError: the slope is not above zero, or too steep for the gain.

    Source: R. Bristow-Johnson, Audio EQ Cookbook, W3C Working Group Note, 8 June 2021.
    """
    require_positive(Name.SHELF_SLOPE, slope, "-")
    amplitude = 10.0 ** (gain / 40.0)
    square = (amplitude + 1.0 / amplitude) * (1.0 / slope - 1.0) + 2.0
    if not square > 0.0:
        raise OutOfRangeError(Name.SHELF_SLOPE, slope, to_be="less-steep")
    return float(1.0 / np.sqrt(square))


def _plain(kind: BiquadKind, cos: float, alpha: float) -> tuple[float, float, float]:
    """Numerator of the kinds without gain."""
    numerators = {
        BiquadKind.LOW_PASS: ((1.0 - cos) / 2.0, 1.0 - cos, (1.0 - cos) / 2.0),
        BiquadKind.HIGH_PASS: ((1.0 + cos) / 2.0, -1.0 - cos, (1.0 + cos) / 2.0),
        BiquadKind.BAND_PASS: (alpha, 0.0, -alpha),
        BiquadKind.NOTCH: (1.0, -2.0 * cos, 1.0),
        BiquadKind.ALL_PASS: (1.0 - alpha, -2.0 * cos, 1.0 + alpha),
    }
    return numerators[kind]


def _shelf(
    side: float, cos: float, alpha: float, amplitude: float
) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    """Numerator and denominator of a low (side 1) or high (side -1) shelf."""
    up, down = amplitude + 1.0, (amplitude - 1.0) * side
    root = 2.0 * np.sqrt(amplitude) * alpha
    numerator = (
        amplitude * (up - down * cos + root),
        2.0 * amplitude * side * ((amplitude - 1.0) - side * up * cos),
        amplitude * (up - down * cos - root),
    )
    denominator = (
        up + down * cos + root,
        -2.0 * side * ((amplitude - 1.0) + side * up * cos),
        up + down * cos - root,
    )
    return numerator, denominator
