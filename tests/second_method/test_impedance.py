"""What a coil's inductance does to the peak and to the frequencies beside it, from `boxes.py`."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy import optimize

from acoustics.driver.impedance_fit import driver_impedance, fit_impedance
from acoustics.driver.impedance_sweep import ImpedanceSweep
from tests.second_method.boxes import elements, play

pytestmark = pytest.mark.second_method

DRIVER = elements(fs=30.0, qes=0.45, qms=5.0, vas=0.060, re=3.5, sd=0.0490)


def magnitude(frequency: float, le: float) -> float:
    """|Z| of the circuit with a coil in front of it [Ω]."""
    return abs(play(DRIVER, frequency, 1.0).impedance + 2j * math.pi * frequency * le)


def beside(le: float) -> tuple[float, float, float]:
    """The peak, and where |Z| is √(Re·Rmax) below and above it [Hz]."""
    top = optimize.minimize_scalar(lambda f: -magnitude(f, le), bounds=(25, 35), method="bounded")
    level = math.sqrt(3.5 * magnitude(top.x, le))
    ends = ((15.0, top.x), (top.x, 60.0))
    low, high = (optimize.brentq(lambda f: magnitude(f, le) - level, *end) for end in ends)
    return float(top.x), low, high


def test_impedance_is_the_circuit() -> None:
    """Magnitude and peak without a coil's inductance: Rmax = Re(1 + Qms/Qes) at fs."""
    f = np.geomspace(8, 300, 40)
    ours = np.abs(driver_impedance(f, fs=30.0, re=3.5, qms=5.0, qes=0.45))
    assert ours == pytest.approx([magnitude(x, 0.0) for x in f], rel=1e-9)
    assert magnitude(30.0, 0.0) == pytest.approx(3.5 * (1 + 5 / 0.45))


@pytest.mark.parametrize("le", [0.5e-3, 1.0e-3])
def test_inductance_misleads_three_frequencies_and_not_the_fit(le: float) -> None:
    """With Le the peak and f1, f2 move; the fit allows for it.

    sqrt(f1 f2) still lies within 1 % of fs, so it stays without a finding.
    """
    peak, low, high = beside(le)
    assert peak < 30.0
    frequency = np.geomspace(8.0, 300.0, 800)
    z = driver_impedance(frequency, fs=30.0, re=3.5, qms=5.0, qes=0.45, le=le)
    fit = fit_impedance(ImpedanceSweep(frequency=frequency, magnitude=np.abs(z)))
    assert fit.symmetric_fs == pytest.approx(math.sqrt(low * high), rel=1e-4)
    assert fit.fs == pytest.approx(30.0, rel=1e-4)
    assert fit.qms == pytest.approx(5.0, rel=1e-3)
    assert fit.qes == pytest.approx(0.45, rel=1e-3)
    assert fit.findings == ()
