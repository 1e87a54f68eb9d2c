"""Complete a driver's parameter set from whatever is on its data sheet.

Every relation but the one for Qts is a product of powers, hence linear in logarithms of six basic
quantities. A quantity follows from the given ones when its row lies in their row space.
"""

import math
from dataclasses import dataclass

import numpy as np

from acoustics.air.air import STANDARD, Air
from acoustics.driver.driver import Driver
from acoustics.errors import ContradictionError, MissingError, Quantity
from acoustics.findings import Finding
from acoustics.names import Name
from acoustics.sources import Source
from acoustics.values import Floats, require_between, require_positive

# Rows over ln(Re), ln(Sd), ln(Mms), ln(Cms), ln(Rms), ln(Bl); constants are added in _constants.
# The order is the order of trust: what is redundant is held against what came before it.
_ROWS: dict[str, tuple[float, float, float, float, float, float]] = {
    "fs": (0, 0, -0.5, -0.5, 0, 0),
    "qes": (1, 0, 0.5, -0.5, 0, -2),
    "qms": (0, 0, 0.5, -0.5, -1, 0),
    "re": (1, 0, 0, 0, 0, 0),
    "sd": (0, 1, 0, 0, 0, 0),
    "diameter": (0, 0.5, 0, 0, 0, 0),
    "vas": (0, 2, 0, 1, 0, 0),
    "mms": (0, 0, 1, 0, 0, 0),
    "cms": (0, 0, 0, 1, 0, 0),
    "bl": (0, 0, 0, 0, 0, 1),
    "rms": (0, 0, 0, 0, 1, 0),
    "efficiency": (-1, 2, -2, 0, 0, 2),
}
TOLERANCE = 0.05  # of a redundant value; common practice, no source
_UNITS = {
    "fs": "Hz",
    "qes": "-",
    "qms": "-",
    "qts": "-",
    "re": "Ω",
    "sd": "m²",
    "diameter": "m",
    "vas": "m³",
    "mms": "kg",
    "cms": "m/N",
    "bl": "T·m",
    "rms": "kg/s",
    "efficiency": "-",
}
_WANTED = ("fs", "qms", "qes", "re", "vas", "sd")


@dataclass(frozen=True, kw_only=True)
class CompletedDriver:
    """A driver with a full parameter set, and what the given values disagreed on.

    Attributes:
        driver: the complete driver
        findings: contradictions beyond the tolerance
    """

    driver: Driver
    findings: tuple[Finding, ...]


def complete_driver(
    *,
    fs: float | None = None,
    qts: float | None = None,
    qes: float | None = None,
    qms: float | None = None,
    vas: float | None = None,
    cms: float | None = None,
    mms: float | None = None,
    rms: float | None = None,
    bl: float | None = None,
    re: float | None = None,
    sd: float | None = None,
    diameter: float | None = None,
    efficiency: float | None = None,
    le: float = 0.0,
    semi_inductance: float = 0.0,
    xmax: float | None = None,
    xmech: float | None = None,
    power_rating: float | None = None,
    air: Air = STANDARD,
    tolerance: float = TOLERANCE,
) -> CompletedDriver:
    """Work out a driver from any sufficient subset of its parameters.

    fs = 1 / (2 pi sqrt(Mms Cms)), Qes = ws Mms Re / Bl², Qms = ws Mms / Rms,
    1/Qts = 1/Qes + 1/Qms, Vas = rho c² Sd² Cms, Sd = pi d²/4,
    eta0 = rho Bl² Sd² / (2 pi c Re Mms²).

    Args:
        fs: resonance in free air [Hz]
        qts: total Q at fs [-]
        qes: electrical Q at fs [-]
        qms: mechanical Q at fs [-]
        vas: equivalent volume of the suspension [m³]
        cms: suspension compliance [m/N]
        mms: moving mass with its air load [kg]
        rms: mechanical resistance [kg/s]
        bl: force factor [T·m]
        re: voice-coil resistance [Ω]
        sd: effective diaphragm area [m²]
        diameter: effective diameter, the cone and half the surround on each side [m]
        efficiency: reference efficiency into a half space [-]
        le: voice-coil inductance [H]
        semi_inductance: semi-inductance of the voice coil [Ω·√s]
        xmax: linear excursion, one way, peak [m]
        xmech: excursion at which something strikes, one way, peak [m]
        power_rating: continuous power the voice coil bears [W]
        air: air in which the parameters are stated
        tolerance: relative difference above which a redundant value contradicts [-]

    Returns: the driver and a finding per contradiction

    Raises:
        OutOfRangeError: a given value is not positive.
        MissingError: too little is given; what would complete it is named.
        ContradictionError: Qts is not below Qes and Qms, which no driver can be.

    Valid: one driver, plain numbers.

    Source: Small 1972, JAES 20, 383-395; tolerance: common practice, no source.
    """
    require_between(Name.TOLERANCE, tolerance, 0.0, 1.0, "-")
    values = {
        "fs": fs, "qes": qes, "qms": qms, "re": re, "sd": sd, "diameter": diameter, "vas": vas,
        "mms": mms, "cms": cms, "bl": bl, "rms": rms, "efficiency": efficiency,
    }  # fmt: skip
    entered = {name: value for name, value in values.items() if value is not None}
    for name, value in entered.items():
        require_positive(Name(name), value, _UNITS[name])
    if qts is not None:
        require_positive(Name.QTS, qts, "-")
        _refuse_impossible_qts(qts, entered)

    known = _Known(_constants(air))
    deviations = [(name, value, known.take(name, value)) for name, value in entered.items()]
    if qts is not None:
        deviations.append(("qts", qts, _take_qts(known, qts)))
    missing = tuple(Name(name) for name in _WANTED if known.find(name) is None)
    if missing:
        raise MissingError(*missing)
    fs_, qms_, qes_, re_, vas_, sd_ = (known.find(name) or 0.0 for name in _WANTED)
    driver = Driver(
        fs=fs_, qms=qms_, qes=qes_, re=re_, vas=vas_, sd=sd_, le=le,
        semi_inductance=semi_inductance, xmax=xmax, xmech=xmech, power_rating=power_rating, air=air,
    )  # fmt: skip
    usual = Source.WITHIN_FIVE_PERCENT if tolerance == TOLERANCE else Source.TOLERANCE_ASKED
    findings = tuple(
        Finding(
            code="driver-parameters-contradict",
            detail=(name,),
            value=value,
            limit=derived,
            unit=_UNITS[name],
            source=(Source.SMALL_DRIVER, usual),
        )
        for name, value, derived in deviations
        if derived is not None and abs(value / derived - 1) > tolerance
    )
    return CompletedDriver(driver=driver, findings=findings)


class _Known:
    """What follows from the values taken so far."""

    def __init__(self, constants: dict[str, float]) -> None:
        self._constants = constants
        self._rows: list[tuple[float, ...]] = []
        self._logs: list[float] = []

    def find(self, name: str) -> float | None:
        """Work out one quantity, or None when it does not follow yet."""
        if not self._rows:
            return None
        matrix: Floats = np.array(self._rows)
        row = np.array(_ROWS[name])
        weights = np.linalg.lstsq(matrix.T, row, rcond=None)[0]
        if not np.allclose(matrix.T @ weights, row, atol=1e-9):
            return None
        return math.exp(float(weights @ np.array(self._logs)) + self._constants[name])

    def take(self, name: str, value: float) -> float | None:
        """Add a value, or give back what it should have been when it adds nothing."""
        derived = self.find(name)
        if derived is None:
            self._rows.append(_ROWS[name])
            self._logs.append(math.log(value) - self._constants[name])
        return derived


def _constants(air: Air) -> dict[str, float]:
    rho, c = float(air.density), float(air.speed_of_sound)
    constants = dict.fromkeys(_ROWS, 0.0)
    constants["fs"] = -math.log(2 * math.pi)
    constants["diameter"] = 0.5 * math.log(4 / math.pi)
    constants["vas"] = math.log(rho * c**2)
    constants["efficiency"] = math.log(rho / (2 * math.pi * c))
    return constants


def _take_qts(known: _Known, qts: float) -> float | None:
    """Let Qts give the one of Qes and Qms that is not known, or hold it against both."""
    qes, qms = known.find("qes"), known.find("qms")
    if qes is not None and qms is not None:
        return qes * qms / (qes + qms)
    for name, other in (("qms", qes), ("qes", qms)):
        if other is not None:
            if other <= qts:
                raise _impossible_qts(qts, other)
            known.take(name, qts * other / (other - qts))
    return None


def _refuse_impossible_qts(qts: float, entered: dict[str, float]) -> None:
    for name in ("qms", "qes"):
        if name in entered and qts >= entered[name]:
            raise _impossible_qts(qts, entered[name])


def _impossible_qts(qts: float, part: float) -> ContradictionError:
    """Refuse a Qts that is not below one of the two it is made of."""
    return ContradictionError(
        code="contradicts-below", name=Name.QTS, value=Quantity(qts), limit=Quantity(part)
    )
