"""Biquads against R. Bristow-Johnson, Audio EQ Cookbook, W3C Working Group Note, 8 June 2021.

The coefficients were computed apart from this project from the note's equations at 48 kHz.
"""

import numpy as np
import pytest

from acoustics.circuit.biquads import BiquadKind, biquad, shelf_q

RATE = 48_000.0
HALF = float(np.sqrt(0.5))

# kind, frequency, Q, gain, b0, b1, b2, a1, a2, level at the frequency
CASES = [
    (BiquadKind.LOW_PASS, 80.0, HALF, 0.0,
     2.72138079883e-5, 5.44276159766e-5, 2.72138079883e-5, -1.9851906579, 0.985299513128, -3.0103),
    (BiquadKind.HIGH_PASS, 80.0, HALF, 0.0,
     0.992622542756, -1.98524508551, 0.992622542756, -1.9851906579, 0.985299513128, -3.0103),
    (BiquadKind.PEAKING, 50.0, 2.0, -6.0,
     0.998849781094, -1.99534543585, 0.996538392652, -1.99534543585, 0.995388173746, -6.0),
    (BiquadKind.PEAKING, 1000.0, 1.41, 6.0,
     1.03157791062, -1.9199761436, 0.904965631439, -1.9199761436, 0.936543542056, 6.0),
    (BiquadKind.LOW_SHELF, 100.0, shelf_q(gain=6.0, slope=1.0), 6.0,
     1.00321789574, -1.98436443078, 0.981386698749, -1.98442432914, 0.984544696124, 3.0),
    (BiquadKind.HIGH_SHELF, 8000.0, shelf_q(gain=-4.0, slope=1.0), -4.0,
     0.739665724473, -0.367563410894, 0.159448628069, -0.737999011332, 0.26954995298, -2.0),
    (BiquadKind.NOTCH, 60.0, 10.0, 0.0,
     0.999607459104, -1.99915325771, 0.999607459104, -1.99915325771, 0.999214918209, None),
    (BiquadKind.BAND_PASS, 100.0, 2.0, 0.0,
     0.00326172522682, 0.0, -0.00326172522682, -1.99330576357, 0.993476549546, 0.0),
    (BiquadKind.ALL_PASS, 100.0, 0.7071, 0.0,
     0.981658108331, -1.98148833487, 1.0, -1.98148833487, 0.981658108331, 0.0),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=[f"{c[0].value} {c[1]:g}" for c in CASES])
def test_coefficients(case: tuple) -> None:
    """All five coefficients to eleven digits, and the level at the frequency."""
    kind, frequency, q, gain, b0, b1, b2, a1, a2, level = case
    found = biquad(kind, frequency=frequency, sample_rate=RATE, q=q, gain=gain)
    assert (found.b0, found.b1, found.b2) == pytest.approx((b0, b1, b2), rel=2e-11, abs=1e-15)
    assert (found.a1, found.a2) == pytest.approx((a1, a2), rel=2e-11)
    response = abs(found.response(np.array([frequency]))[0])
    if level is None:
        assert response < 1e-9
    else:
        assert 20 * np.log10(response) == pytest.approx(level, abs=5e-5)


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
