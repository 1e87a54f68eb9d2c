"""From a measured impedance sweep to the parameters of the driver, and against its catalogue."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from acoustics.air.air import STANDARD, Air
from acoustics.columns import parse_columns
from acoustics.driver.impedance_fit import ImpedanceFit
from acoustics.driver.impedance_sweep import ImpedanceSweep
from acoustics.errors import FitError, Quantity, SweepFileError
from acoustics.findings import Finding
from acoustics.names import Name
from acoustics.sources import Source
from acoustics.values import Floats, require_positive

TOLERANCE = 0.15  # measured against catalogue; common practice, no source
PASSIVE_PHASE = 100.0  # a loudspeaker stays within ±90°; the rest is room for noise [°]

_UNITS = {
    "fs": "Hz",
    "re": "Ω",
    "qms": "-",
    "qes": "-",
    "qts": "-",
    "le": "H",
    "semi_inductance": "Ω·√s",
    "mms": "kg",
    "cms": "m/N",
    "rms": "kg/s",
    "bl": "T·m",
    "vas": "m³",
}


@dataclass(frozen=True, kw_only=True)
class MovingParts:
    """Mechanical parameters that a second sweep adds.

    Attributes:
        mms: moving mass with its air load [kg]
        cms: compliance of the suspension [m/N]
        rms: mechanical resistance [kg/s]
        bl: force factor [T·m]
        vas: volume of air as compliant as the suspension [m³]
        standard_errors: standard error of each by name [as the parameter]
    """

    mms: float
    cms: float
    rms: float
    bl: float
    vas: float
    standard_errors: Mapping[str, float]


def parse_impedance(content: bytes | str) -> ImpedanceSweep:
    """Read an impedance sweep from a text file: frequency, magnitude in Ω, phase in degrees.

    Args:
        content: the file, as bytes or already as text

    Returns: the sweep

    Raises:
        SweepFileError: as parse_columns; also not-impedance: a magnitude of zero or less, or a
            phase no passive load can have.

    Source: definition.
    """
    columns = parse_columns(content)
    bad = np.nonzero(columns.value <= 0.0)[0]
    if len(bad):
        raise _no_impedance(columns.lines[bad[0]], columns.value[bad[0]], "Ω")
    if columns.phase is not None:
        bad = np.nonzero(np.abs(columns.phase) > PASSIVE_PHASE)[0]
        if len(bad):
            raise _no_impedance(columns.lines[bad[0]], columns.phase[bad[0]], "°")
    return ImpedanceSweep(frequency=columns.frequency, magnitude=columns.value, phase=columns.phase)


def _no_impedance(line: int, value: float, unit: str) -> SweepFileError:
    return SweepFileError(code="not-impedance", line=line, value=Quantity(float(value), unit))


def moving_parts_from_mass(
    free: ImpedanceFit, loaded: ImpedanceFit, *, mass: float, sd: float, air: Air = STANDARD
) -> MovingParts:
    """Mass, compliance, force factor and Vas from a second sweep with a known mass on the cone.

    Mms = m / ((fs/fs')² − 1).

    Args:
        free: fit of the sweep without the mass
        loaded: fit of the sweep with the mass
        mass: mass added to the cone [kg]
        sd: effective area of the diaphragm [m²]
        air: air it was measured in

    Returns: the mechanical parameters

    Raises:
        FitError: the mass did not lower the resonance.
        OutOfRangeError: mass or area is not above zero.

    Source: R. H. Small, JAES 20 (1972) 383-395.
    """
    require_positive(Name.ADDED_MASS, mass, "kg")
    require_positive(Name.EFFECTIVE_AREA, sd, "m²")
    if loaded.fs >= free.fs:
        value, limit = Quantity(loaded.fs, "Hz"), Quantity(free.fs, "Hz")
        raise FitError(code="mass-did-not-lower", value=value, limit=limit)

    def mms(fs: float, fs_loaded: float, qes: float, qes_loaded: float) -> float:
        return mass / ((fs / fs_loaded) ** 2 - 1.0)

    return _moving_parts(mms, free, loaded, sd=sd, air=air)


def moving_parts_from_volume(
    free: ImpedanceFit, boxed: ImpedanceFit, *, volume: float, sd: float, air: Air = STANDARD
) -> MovingParts:
    """Mass, compliance, force factor and Vas from a second sweep in a sealed box of known volume.

    Vas = Vb (fc Qec/(fs Qes) − 1), which a change of air load between the sweeps does not upset.

    Args:
        free: fit of the sweep in free air
        boxed: fit of the sweep in the sealed box
        volume: net volume of the box, without damping material [m³]
        sd: effective area of the diaphragm [m²]
        air: air it was measured in

    Returns: the mechanical parameters

    Raises:
        FitError: the box did not raise the resonance.
        OutOfRangeError: volume or area is not above zero.

    Source: R. H. Small, "Closed-Box Loudspeaker Systems", JAES 20 (1972) 798-808, from memory.
    """
    require_positive(Name.TEST_BOX_VOLUME, volume, "m³")
    require_positive(Name.EFFECTIVE_AREA, sd, "m²")
    if boxed.fs * boxed.qes <= free.fs * free.qes:
        value, limit = Quantity(boxed.fs, "Hz"), Quantity(free.fs, "Hz")
        raise FitError(code="box-did-not-raise", value=value, limit=limit)

    def mms(fs: float, fc: float, qes: float, qec: float) -> float:
        vas = volume * (fc * qec / (fs * qes) - 1.0)
        cms = vas / (float(air.bulk_modulus) * sd**2)
        return 1.0 / ((2.0 * np.pi * fs) ** 2 * cms)

    return _moving_parts(mms, free, boxed, sd=sd, air=air)


def compare_with_catalogue(
    measured: Mapping[str, float],
    catalogue: Mapping[str, float],
    *,
    tolerance: float | Mapping[str, float] = TOLERANCE,
) -> tuple[Finding, ...]:
    """Say which measured parameters lie outside the tolerance of the catalogue's.

    Args:
        measured: measured values by name (fs, re, qms, qes, qts, mms, cms, rms, bl, vas) [SI]
        catalogue: catalogue values by name; names on one side only are passed over [SI]
        tolerance: relative tolerance, one for all or by name [-]

    Returns: one finding for each parameter outside

    Raises:
        OutOfRangeError: a catalogue value or a tolerance is not above zero.

    Source: the tolerance is common practice, no source.
    """
    findings = []
    for name, value in measured.items():
        if name not in catalogue or name not in _UNITS:
            continue
        expected = catalogue[name]
        require_positive(Name(name), expected, _UNITS[name])
        allowed = tolerance.get(name, TOLERANCE) if isinstance(tolerance, Mapping) else tolerance
        require_positive(Name.TOLERANCE, allowed, "-")
        usual = Source.CATALOGUE_FIFTEEN_PERCENT if allowed == TOLERANCE else Source.TOLERANCE_ASKED
        if abs(value / expected - 1.0) > allowed:
            findings.append(
                Finding(
                    code="measured-differs-from-catalogue",
                    detail=(name,),
                    value=float(value),
                    limit=float(expected),
                    unit=_UNITS[name],
                    source=(usual,),
                )
            )
    return tuple(findings)


def _moving_parts(
    mms_of: Callable[[float, float, float, float], float],
    free: ImpedanceFit,
    second: ImpedanceFit,
    *,
    sd: float,
    air: Air,
) -> MovingParts:
    """Everything that follows from Mms, with standard errors by small steps in each input."""

    def parts(x: Floats) -> Floats:
        fs, fs_second, qes, qes_second, qms, re = (float(value) for value in x)
        mms = mms_of(fs, fs_second, qes, qes_second)
        ws = 2.0 * np.pi * fs
        cms = 1.0 / (ws**2 * mms)
        bl = np.sqrt(ws * mms * re / qes)
        return np.array([mms, cms, ws * mms / qms, bl, float(air.bulk_modulus) * sd**2 * cms])

    at = np.array([free.fs, second.fs, free.qes, second.qes, free.qms, free.re])
    sure, second_sure = free.standard_errors, second.standard_errors
    errors = np.array(
        [
            sure["fs"],
            second_sure["fs"],
            sure["qes"],
            second_sure["qes"],
            sure["qms"],
            sure["re"],
        ]
    )
    step = 1e-6 * at
    slopes = np.array([(parts(at + d) - parts(at - d)) / (2.0 * d.sum()) for d in np.diag(step)])
    spread = np.sqrt(np.sum((slopes * errors[:, None]) ** 2, axis=0))
    names = ("mms", "cms", "rms", "bl", "vas")
    values = {name: float(value) for name, value in zip(names, parts(at), strict=True)}
    return MovingParts(
        **values,
        standard_errors={name: float(value) for name, value in zip(names, spread, strict=True)},
    )
