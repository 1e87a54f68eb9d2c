"""R. H. Small, "Vented-Box Loudspeaker Systems", JAES 21 (1973), parts I to IV.

Part I's circuit and its alignments with leakage are held in `tests/second_method/`.
"""

import math

import numpy as np
import pytest

from acoustics.circuit.solver import sweep
from acoustics.enclosure.alignments import Shape, align_shape
from acoustics.enclosure.boxes import Vented
from tests.acoustics.drivers import REFERENCE, REFERENCE_VOLTAGE


def test_port_speed_and_reynolds_number() -> None:
    """A 100 mm port carries 18.75, 17.81 and 9.97 m/s at 25, 30 and 40 Hz; 1.13e5 at 17 m/s."""
    box = Vented.tuned(volume=0.060, frequency=30.0, area=math.pi / 4 * 0.1**2, ql=7.0)
    solved = sweep(driver=REFERENCE, box=box, frequencies=[25, 30, 40], voltage=REFERENCE_VOLTAGE)
    assert solved.port_speed == pytest.approx([18.75, 17.81, 9.97], abs=0.005)
    assert solved.port_speed is not None
    assert solved.reynolds_number is not None
    # Definition: rho v d / viscosity, with 1.81e-5 Pa·s (from memory).
    assert solved.reynolds_number / solved.port_speed * 17 == pytest.approx(1.13e5, rel=2e-3)


def test_impedance_peaks_of_a_lossless_box() -> None:
    """Peaks at fL and fH lie so that fs = fL fH / fb and alpha follows from the three."""
    box = Vented.tuned(volume=0.060, frequency=30.0, area=0.01)
    f = np.linspace(15, 55, 40001)
    z = abs(sweep(driver=REFERENCE, box=box, frequencies=f).impedance)
    peaks = f[1:-1][(z[1:-1] > z[:-2]) & (z[1:-1] > z[2:])]
    low, high = peaks
    # The formulas are Thiele's; 18.54102 and 48.54102 Hz are the roots of (f² - fb²)² = f² fs²/1.
    assert (low, high) == pytest.approx((18.54102, 48.54102), abs=2e-3)
    assert low * high / 30 == pytest.approx(30.0, rel=1e-4)
    alpha = (high**2 - 900) * (900 - low**2) / (high * low) ** 2
    assert alpha == pytest.approx(1.0, rel=1e-3)


@pytest.mark.parametrize(("qts", "off"), [(0.30, 0.08), (0.40, 0.08), (0.50, 0.07)])
def test_regression_formulas_are_near_the_exact_solution(qts: float, off: float) -> None:
    """Vb = 20 QT^3.3 Vas and fb = 0.42 QT^-0.96 fs stay near the exact families, QL = 7.

    D. B. Margolis & R. H. Small, JAES 29 (1981) 421 (from memory); a sanity check only.
    """
    shape = Shape.CHEBYSHEV if qts > 0.40481 else Shape.QUASI_BUTTERWORTH
    found = align_shape(shape, qts=qts, ql=7.0)
    assert 1 / (20 * qts**3.3) == pytest.approx(found.alpha, rel=off)
    assert 0.42 * qts**-0.96 == pytest.approx(found.h, rel=0.02)
