"""Invented drivers shared by the acoustics tests."""

import math

from acoustics.air.air import STANDARD
from acoustics.driver.driver import Driver
from acoustics.enclosure.openings import Radiator

# Invented. Round values that make every derived number easy to follow by hand.
REFERENCE = Driver(
    fs=30.0, qes=0.45, qms=5.0, vas=0.060, re=3.5, sd=0.0490, xmax=0.010, power_rating=300.0
)
# 100 W into the reference driver's 3.5 Ω.
REFERENCE_VOLTAGE = 350.0**0.5


def driver_with_qts(qts: float, *, qms: float = 5.0, **changes: float) -> Driver:
    """Reference driver with another total Q."""
    values = {"fs": 30.0, "vas": 0.060, "re": 3.5, "sd": 0.0490} | changes
    return Driver(qms=qms, qes=qts * qms / (qms - qts), **values)


def passive_cone(
    *,
    fp: float,
    qmp: float,
    vap: float,
    sd: float,
    added_mass: float = 0.0,
    xmax: float | None = None,
) -> Radiator:
    """Cone from its figures in free air: Small, JAES 22 (1974) 592-601."""
    wp = 2 * math.pi * fp
    cms = vap / (STANDARD.bulk_modulus * sd**2)
    mms = 1 / (wp**2 * cms)
    rms = wp * mms / qmp
    return Radiator(sd=sd, mms=mms, cms=cms, rms=rms, added_mass=added_mass, xmax=xmax)
