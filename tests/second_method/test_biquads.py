"""Biquads against scipy's bilinear transform of their analogue prototypes, from `biquads.py`."""

from __future__ import annotations

import math

import numpy as np
import pytest

from acoustics.circuit.biquads import BiquadKind, biquad, shelf_q
from tests.second_method.biquads import coefficients, prototype

pytestmark = pytest.mark.second_method

RATE = 48_000.0
CASES = [
    (BiquadKind.LOW_PASS, 80.0, math.sqrt(0.5), 0.0),
    (BiquadKind.HIGH_PASS, 80.0, math.sqrt(0.5), 0.0),
    (BiquadKind.PEAKING, 50.0, 2.0, -6.0),
    (BiquadKind.PEAKING, 1000.0, 1.41, 6.0),
    (BiquadKind.LOW_SHELF, 100.0, 0.9, 6.0),
    (BiquadKind.HIGH_SHELF, 8000.0, 0.6, -4.0),
    (BiquadKind.NOTCH, 60.0, 10.0, 0.0),
    (BiquadKind.BAND_PASS, 100.0, 2.0, 0.0),
    (BiquadKind.ALL_PASS, 100.0, 0.7071, 0.0),
]


@pytest.mark.parametrize(("kind", "frequency", "q", "gain"), CASES)
def test_coefficients(kind: BiquadKind, frequency: float, q: float, gain: float) -> None:
    """All five coefficients of every kind are those of the transformed prototype."""
    found = biquad(kind, frequency=frequency, sample_rate=RATE, q=q, gain=gain)
    b, a = coefficients(kind.value, frequency=frequency, rate=RATE, q=q, gain=gain)
    assert (found.b0, found.b1, found.b2) == pytest.approx(b, rel=1e-9, abs=1e-14)
    assert (1.0, found.a1, found.a2) == pytest.approx(a, rel=1e-11)


def test_every_kind_is_held() -> None:
    """No kind is left out above."""
    assert {case[0] for case in CASES} == set(BiquadKind)


@pytest.mark.parametrize("gain", [6.0, -4.0])
def test_a_shelf_of_slope_one_is_the_steepest_that_stays_monotone(gain: float) -> None:
    """The prototype with that Q never overshoots; one a twentieth steeper does."""

    def overshoot(q: float) -> float:
        b, a = prototype("low-shelf", q=q, gain=gain)
        s = 1j * np.geomspace(1e-3, 1e3, 20_001)
        levels = 20 * np.log10(abs(np.polyval(b, s) / np.polyval(a, s)))
        return float(max(levels.max() - max(gain, 0.0), min(gain, 0.0) - levels.min()))

    q = shelf_q(gain=gain, slope=1.0)
    assert overshoot(q) < 1e-9
    assert overshoot(q * 1.05) > 1e-4
