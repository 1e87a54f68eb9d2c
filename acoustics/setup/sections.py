"""A crossover filter as the second-order digital filters a processor runs one after the other."""

import math

import numpy as np

from acoustics.circuit.biquads import Biquad, BiquadKind, biquad
from acoustics.circuit.filters import Family, Filter, Passes, pair_dampings
from acoustics.errors import OutOfRangeError
from acoustics.names import Name
from acoustics.values import require_positive


def sections(cut: Filter, sample_rate: float) -> tuple[Biquad, ...]:
    """Digital filters that together are a crossover filter, by the bilinear transform.

    The corner is met exactly; above a quarter of the sample rate a low-pass falls sooner than the
    analogue one. An odd order ends with a section of the first order (b2 = a2 = 0).

    Args:
        cut: the crossover filter
        sample_rate: sample rate of the processor [Hz]

    Returns: the sections, lowest Q first

    Raises:
        OutOfRangeError: the corner is not below half the sample rate.

    Source: sections of the second order: R. Bristow-Johnson, Audio EQ Cookbook, W3C Working Group
        Note, 8 June 2021; of the first: bilinear transform with its corner kept, from memory.
    """
    require_positive(Name.SAMPLE_RATE, sample_rate, "Hz")
    if cut.corner >= sample_rate / 2.0:
        raise OutOfRangeError(Name.CORNER_FREQUENCY, cut.corner, "Hz", below=sample_rate / 2.0)
    warped = math.tan(math.pi * cut.corner / sample_rate)
    kind = BiquadKind.LOW_PASS if cut.passes is Passes.LOW else BiquadKind.HIGH_PASS
    digital = []
    for ratio, q in _poles(cut):
        place = ratio if cut.passes is Passes.LOW else 1.0 / ratio
        if q is None:
            digital.append(_first_order(place * warped, cut.passes, sample_rate))
            continue
        at = sample_rate / math.pi * math.atan(place * warped)
        digital.append(biquad(kind, frequency=at, sample_rate=sample_rate, q=q))
    return tuple(digital)


def _poles(cut: Filter) -> list[tuple[float, float | None]]:
    """Each section of the low-pass: its frequency over the corner, and its Q; none of a real pole.

    The double poles of Linkwitz and Riley are taken from their halves: as roots of the whole they
    would be known to half the digits.
    """
    if cut.family is Family.BUTTERWORTH:
        return _butterworth(cut.order)
    if cut.family is Family.LINKWITZ_RILEY:
        half = _butterworth(cut.order // 2)
        pairs = [section for section in half if section[1] is not None]
        # Two equal real poles are one section of Q 0.5.
        real = [(1.0, 0.5)] if cut.order // 2 % 2 else []
        return [*real, *pairs, *pairs]
    poles = np.roots(cut.denominator)
    complex_poles = sorted(poles[poles.imag > 1e-9], key=lambda pole: abs(pole.real), reverse=True)
    real_poles = poles[np.abs(poles.imag) <= 1e-9]
    single: list[tuple[float, float | None]] = [(float(abs(pole)), None) for pole in real_poles]
    return single + [
        (float(abs(pole)), float(abs(pole) / (-2.0 * pole.real))) for pole in complex_poles
    ]


def _butterworth(order: int) -> list[tuple[float, float | None]]:
    real: list[tuple[float, float | None]] = [(1.0, None)] if order % 2 else []
    return real + [(1.0, 1.0 / float(d)) for d in pair_dampings(order)[::-1]]


def _first_order(warped: float, passes: Passes, sample_rate: float) -> Biquad:
    """(s → (1 − z⁻¹)/(1 + z⁻¹)) of 1/(1 + s/K), or of its mirror."""
    a1 = (warped - 1.0) / (warped + 1.0)
    gain = warped / (1.0 + warped) if passes is Passes.LOW else 1.0 / (1.0 + warped)
    sign = 1.0 if passes is Passes.LOW else -1.0
    return Biquad(b0=gain, b1=sign * gain, b2=0.0, a1=a1, a2=0.0, sample_rate=sample_rate)
