"""Fourth-order band-pass, sealed behind and vented in front.

The kind: E. R. Geddes, "An Introduction to Band-Pass Loudspeaker Systems", JAES 37 (1989) 308-342
(citation only). The equations are those of the lossless circuit with both chambers tuned alike:
H = 1/(p² + p/Qb + gamma), p = s/w0 + w0/s; numbers from them by hand.
"""

import math

import numpy as np
import pytest

from acoustics.circuit.band_pass_targets import deepest_sag
from acoustics.circuit.solver import HALF_POWER, sweep
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import Sealed, Vented
from tests.acoustics.drivers import REFERENCE, REFERENCE_VOLTAGE

QTS = float(REFERENCE.qts)


def band_pass(qb: float, s: float) -> tuple[BandPass, float]:
    f0 = 30 * qb / QTS
    rear = Sealed(volume=0.060 / ((qb / QTS) ** 2 - 1))
    front = Vented.tuned(volume=(2 * s * QTS) ** 2 * 0.060, frequency=f0, area=0.01)
    return BandPass(rear=rear, front=front), f0


# Qb, S: gain over the driver's passband [dB], both half-power frequencies over f0.
TABLE = [
    (0.5, 1 / math.sqrt(2), -6.021, 0.5176, 1.9319),
    (1 / math.sqrt(2), 1 / math.sqrt(2), 0.0, 0.6180, 1.6180),
    (1.0, 1 / math.sqrt(2), 6.021, 0.7071, 1.4142),
    (1 / math.sqrt(2), 0.5, -6.021, 0.4455, 2.2445),
    (1.0, 0.5, 0.0, 0.5491, 1.8211),
]


@pytest.mark.parametrize(("qb", "s", "gain", "low", "high"), TABLE)
def test_gain_and_band(qb: float, s: float, gain: float, low: float, high: float) -> None:
    """Centre level and band edges follow from Qb and S."""
    box, f0 = band_pass(qb, s)
    solved = sweep(driver=REFERENCE, box=box, frequencies=[f0 * low, f0, f0 * high])
    assert solved.spl[1] - solved.passband_level == pytest.approx(gain, abs=5e-4)
    assert solved.spl[[0, 2]] - solved.spl[1] == pytest.approx([-HALF_POWER] * 2, abs=4e-3)


def test_edges_are_found_on_both_sides() -> None:
    """The cut-off search goes down and up from the largest level of a Butterworth band-pass."""
    box, f0 = band_pass(1 / math.sqrt(2), 1 / math.sqrt(2))
    solved = sweep(driver=REFERENCE, box=box, frequencies=f0 * np.geomspace(0.1, 10, 801))
    assert float(solved.f3) / f0 == pytest.approx((math.sqrt(5) - 1) / 2, rel=1e-5)
    high = float(solved.cutoff(HALF_POWER, upper=True))
    assert high / f0 == pytest.approx((math.sqrt(5) + 1) / 2, rel=1e-5)


def test_reference_driver() -> None:
    """31.03 L behind, 20.45 L before: level at the centre and an octave out; cone at rest at f0."""
    box, f0 = band_pass(1 / math.sqrt(2), 1 / math.sqrt(2))
    assert isinstance(box.rear, Sealed)
    assert isinstance(box.front, Vented)
    assert (box.rear.volume, box.front.volume) == pytest.approx((31.03e-3, 20.45e-3), abs=5e-6)
    solved = sweep(
        driver=REFERENCE, box=box, frequencies=[f0 / 2, f0, 2 * f0], voltage=REFERENCE_VOLTAGE
    )
    assert solved.spl[1] == pytest.approx(107.619, abs=1.5e-3)
    # |H| an octave out with Qb = 1/√2, gamma = 1: p = ±1.5j, 10 log10((1 - 2.25)² + 2 * 2.25).
    octave = -10 * math.log10(1.25**2 + 4.5)
    assert solved.spl[[0, 2]] - solved.spl[1] == pytest.approx([octave] * 2, abs=1e-6)
    assert solved.excursion[1] == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(("s", "sag"), [(0.5, 1.2494), (0.4, 2.6954), (1 / math.sqrt(2), 0.0)])
def test_a_sag_is_the_valley_between_the_outer_tops(s: float, sag: float) -> None:
    """With p = jx, 1/|H|² = (gamma - x²)² + x²/Qb² and gamma = 1/(4 S² Qb²): by hand.

    The tops lie at x² = gamma - 1/(2 Qb²), the valley at x = 0: 10 log10(4/3) for S = 1/2.
    """
    box, f0 = band_pass(1.0, s)
    fine = sweep(driver=REFERENCE, box=box, frequencies=f0 * np.geomspace(0.1, 10, 2001))
    assert deepest_sag(fine) == pytest.approx(sag, abs=2e-4)
    coarse = fine.at(frequencies=np.geomspace(10, 500, 240))
    assert deepest_sag(coarse) == pytest.approx(sag, abs=0.02)
