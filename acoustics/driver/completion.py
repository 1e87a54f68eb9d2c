"""Complete a driver's parameter set from whatever is on its data sheet.

Every relation but the one for Qts is a product of powers, hence linear in logarithms of six basic
quantities. A quantity follows from the given ones when its row lies in their row space.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
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
    deviations = _take_all(known, entered, qts)
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
        for name, value, derived in _to_blame(entered, qts, deviations, air, tolerance)
    )
    return CompletedDriver(driver=driver, findings=findings)


@dataclass(frozen=True, kw_only=True)
class Misread:
    """A figure that would agree with the others if it were another.

    Attributes:
        name: its name as complete_driver calls it
        value: what was given [SI]
        expected: what the others lead to [SI]
    """

    name: str
    value: float
    expected: float


def misread_figures(
    figures: Mapping[str, float], *, air: Air = STANDARD, tolerance: float = TOLERANCE
) -> tuple[Misread, ...]:
    """Name the figures of which one must be wrong: without it all the others agree.

    Each is left out in turn. Where several would do, those that the smallest slip of the decimal
    mark explains are named alone.

    Args:
        figures: what was given, by the names complete_driver takes [SI]
        air: air in which they are stated
        tolerance: relative difference above which a figure contradicts [-]

    Returns: the suspects, none where all agree or where no single figure explains it

    Valid: figures above zero; others are left out.

    Source: relations of complete_driver; decimal marks: common practice, no source.
    """
    given = {name: float(value) for name, value in figures.items() if value > 0}
    constants = _constants(air)
    if _agree(constants, given, tolerance) is not None:
        return ()
    suspects = [
        Misread(name=name, value=value, expected=expected)
        for name, value in given.items()
        if (expected := _without(constants, given, name, tolerance)) is not None
    ]
    slips = {suspect: _slip(suspect.expected / suspect.value) for suspect in suspects}
    least = min(filter(None, slips.values()), default=0)
    return tuple(suspect for suspect, places in slips.items() if places == least or not least)


def _without(
    constants: dict[str, float], given: Mapping[str, float], name: str, tolerance: float
) -> float | None:
    """Return what all others lead to for one figure, or None where they disagree by themselves."""
    rest = {other: value for other, value in given.items() if other != name}
    known = _agree(constants, rest, tolerance)
    if known is None:
        return None
    if name != "qts":
        return known.find(name)
    qes, qms = known.find("qes"), known.find("qms")
    return None if qes is None or qms is None else qes * qms / (qes + qms)


def _agree(
    constants: dict[str, float], given: Mapping[str, float], tolerance: float
) -> _Known | None:
    """Return what these figures lead to, or None where two of them contradict each other."""
    known = _Known(constants)
    entered = {name: given[name] for name in _ROWS if name in given}
    try:
        deviations = _take_all(known, entered, given.get("qts"))
    except ContradictionError:
        return None
    return None if any(_strays(row, tolerance) for row in deviations) else known


def _slip(ratio: float) -> int:
    """Return by how many places of a decimal mark a ratio is explained, three at most, or 0."""
    tens = math.log10(ratio)
    explains = abs(tens - round(tens)) < math.log10(1 + 2 * TOLERANCE)
    return abs(round(tens)) if explains and abs(round(tens)) <= 3 else 0


Deviation = tuple[str, float, float | None]


def _take_all(known: _Known, entered: Mapping[str, float], qts: float | None) -> list[Deviation]:
    """Add every figure; return each with what those before it lead to."""
    deviations: list[Deviation] = [
        (name, value, known.take(name, value)) for name, value in entered.items()
    ]
    if qts is not None:
        deviations.append(("qts", qts, _take_qts(known, qts)))
    return deviations


def _strays(deviation: Deviation, tolerance: float) -> bool:
    _name, value, derived = deviation
    return derived is not None and abs(value / derived - 1) > tolerance


def _to_blame(
    entered: Mapping[str, float],
    qts: float | None,
    deviations: list[Deviation],
    air: Air,
    tolerance: float,
) -> list[tuple[str, float, float]]:
    """Return the one figure that explains a contradiction, else all that stray, by trust."""
    straying = [
        (name, value, derived)
        for name, value, derived in deviations
        if derived is not None and _strays((name, value, derived), tolerance)
    ]
    if not straying:
        return []
    figures = dict(entered) if qts is None else {**entered, "qts": qts}
    suspects = misread_figures(figures, air=air, tolerance=tolerance)
    if len(suspects) != 1:
        return straying
    return [(suspects[0].name, suspects[0].value, suspects[0].expected)]


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
