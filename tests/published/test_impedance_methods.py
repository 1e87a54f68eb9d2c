"""Impedance of one worked driver, and the three-frequency, added-mass and box methods on it.

Formulas: R. H. Small, "Direct-Radiator Loudspeaker System Analysis", JAES 20 (1972) 383-395, and
"Closed-Box Loudspeaker Systems", JAES 20 (1972) 798-808. The driver is invented: fs 30 Hz,
Qes 0.45, Qms 5, Vas 60 L, Re 3.5 Ω, Sd 0.0490 m²; each number follows from the formula beside it.
"""

import numpy as np
import pytest

from acoustics.driver.impedance_fit import ImpedanceFit, driver_impedance, fit_impedance
from acoustics.driver.impedance_sweep import ImpedanceSweep
from acoustics.driver.measurement import moving_parts_from_mass, moving_parts_from_volume


def swept(*, fs: float = 30.0, qms: float = 5.0, qes: float = 0.45) -> ImpedanceFit:
    """Fit of a fine sweep without noise."""
    frequency = np.geomspace(8.0, 300.0, 800)
    z = driver_impedance(frequency, fs=fs, re=3.5, qms=qms, qes=qes)
    return fit_impedance(ImpedanceSweep(frequency=frequency, magnitude=np.abs(z)))


def test_peak_and_the_two_frequencies_beside_it() -> None:
    """Rmax = Re(1 + Qms/Qes) = 42.3889 Ω; |Z| = sqrt(Re Rmax) at 21.32445 and 42.20507 Hz."""
    at = np.array([30.0, 21.32445, 42.20507])
    magnitude = np.abs(driver_impedance(at, fs=30.0, re=3.5, qms=5.0, qes=0.45))
    assert magnitude == pytest.approx([42.38889, 12.18036, 12.18036], rel=1e-6)
    assert swept().symmetric_fs == pytest.approx(30.0, rel=1e-4)


def test_added_mass() -> None:
    """100 g lower fs by √(Mms/(Mms + m)): Mms 159.720 g, Vas 60.000 L, Bl 15.30235 T·m."""
    ratio = 23.52601 / 30.0
    loaded = swept(fs=23.52601, qms=5.0 / ratio, qes=0.45 / ratio)
    parts = moving_parts_from_mass(swept(), loaded, mass=0.100, sd=0.0490)
    assert parts.mms == pytest.approx(0.159720, rel=5e-4)
    assert parts.cms == pytest.approx(1.762130e-4, rel=5e-4)
    assert parts.rms == pytest.approx(6.02131, rel=1e-3)
    assert parts.bl == pytest.approx(15.30235, rel=5e-4)
    assert parts.vas == pytest.approx(0.060, rel=5e-4)


def test_known_volume() -> None:
    """In 40 L all three rise by √(1 + Vas/Vb): fc 47.43417 Hz, Qmc 7.90569, Qec 0.71151."""
    boxed = swept(fs=47.43417, qms=7.90569, qes=0.71151)
    parts = moving_parts_from_volume(swept(), boxed, volume=0.040, sd=0.0490)
    assert parts.vas == pytest.approx(0.060, rel=5e-4)
    assert parts.mms == pytest.approx(0.159720, rel=5e-4)
