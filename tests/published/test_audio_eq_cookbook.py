"""Biquads against R. Bristow-Johnson, Audio EQ Cookbook, W3C Working Group Note, 8 June 2021.

https://www.w3.org/TR/audio-eq-cookbook/; the coefficients are held in `tests/second_method/`.
"""

import numpy as np
import pytest

from acoustics.circuit.biquads import BiquadKind, biquad, shelf_q

RATE = 48_000.0
HALF = float(np.sqrt(0.5))

# kind, Q, gain, level at the frequency: the note's own words for each kind.
LEVELS = [
    (BiquadKind.LOW_PASS, HALF, 0.0, -3.0103),
    (BiquadKind.HIGH_PASS, HALF, 0.0, -3.0103),
    (BiquadKind.PEAKING, 2.0, -6.0, -6.0),
    (BiquadKind.LOW_SHELF, shelf_q(gain=6.0, slope=1.0), 6.0, 3.0),
    (BiquadKind.HIGH_SHELF, shelf_q(gain=-4.0, slope=1.0), -4.0, -2.0),
    (BiquadKind.BAND_PASS, 2.0, 0.0, 0.0),
    (BiquadKind.ALL_PASS, 0.7071, 0.0, 0.0),
]


@pytest.mark.parametrize(("kind", "q", "gain", "level"), LEVELS)
def test_level_at_the_frequency(kind: BiquadKind, q: float, gain: float, level: float) -> None:
    """A shelf has half its gain there, a peak all of it, a pass at 1/√2 half the power."""
    found = biquad(kind, frequency=100.0, sample_rate=RATE, q=q, gain=gain)
    response = abs(found.response(np.array([100.0]))[0])
    assert 20 * np.log10(response) == pytest.approx(level, abs=5e-5)


def test_nothing_is_left_in_a_notch() -> None:
    """The frequency itself is taken out."""
    found = biquad(BiquadKind.NOTCH, frequency=60.0, sample_rate=RATE, q=10.0)
    assert abs(found.response(np.array([60.0]))[0]) < 1e-9


@pytest.mark.parametrize(
    ("kind", "gain", "at_zero", "at_half"),
    [
        (BiquadKind.LOW_SHELF, 6.0, 6.0, 0.0),
        (BiquadKind.HIGH_SHELF, -4.0, 0.0, -4.0),
        (BiquadKind.PEAKING, 9.0, 0.0, 0.0),
        (BiquadKind.ALL_PASS, 0.0, 0.0, 0.0),
    ],
)
def test_both_ends(kind: BiquadKind, gain: float, at_zero: float, at_half: float) -> None:
    """A shelf has its gain at its own end and none at the other."""
    found = biquad(kind, frequency=500.0, sample_rate=RATE, gain=gain)
    levels = 20 * np.log10(np.abs(found.response(np.array([0.0, RATE / 2]))))
    assert levels == pytest.approx([at_zero, at_half], abs=1e-6)
