"""Curves that have the form of a sweep and tell nothing of a driver."""

from __future__ import annotations

import numpy as np

from acoustics.driver.impedance_fit import driver_impedance, fit_impedance
from acoustics.driver.impedance_sweep import ImpedanceSweep


def measured(z):
    """Fit a driver to an invented sweep."""
    frequency = np.geomspace(10.0, 1000.0, len(z))
    return fit_impedance(ImpedanceSweep(frequency=frequency, magnitude=np.array(z)))


def in_other_units(*, decibels=False, radians=False, hertz=1.0, phase=True):
    """Fit a driver to a sweep that is not in hertz, ohms and degrees."""
    frequency = np.geomspace(10.0, 2000.0, 200)
    exact = driver_impedance(frequency, fs=30.0, re=3.5, qms=5.0, qes=0.45, le=5e-4)
    magnitude = 20 * np.log10(np.abs(exact)) if decibels else np.abs(exact)
    angle = np.angle(exact)
    written = angle if radians else np.rad2deg(angle)
    return fit_impedance(
        ImpedanceSweep(
            frequency=frequency * hertz, magnitude=magnitude, phase=written if phase else None
        )
    )
