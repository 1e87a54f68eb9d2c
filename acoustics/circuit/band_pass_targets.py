"""A band-pass of the fourth order for a band: both chambers and the tuning from its two edges."""

import math
from dataclasses import replace
from typing import cast

import numpy as np

from acoustics.air.air import STANDARD, Air
from acoustics.circuit.solver import HALF_POWER, Sweep, sweep
from acoustics.driver.driver import Driver
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import Sealed, Vented
from acoustics.errors import AcousticsError, NoSolutionError, OutOfRangeError, Quantity
from acoustics.names import Name
from acoustics.values import Floats, require_positive

_STEPS, _HAIR = 12, 1e-4
_NEAR = 1e-4  # of an edge: the steps may end


def band_edges(solved: Sweep) -> tuple[float, float]:
    """Where the response is down by half its power on both sides of its largest level.

    Args:
        solved: one band-pass, solved well beyond its band

    Returns: lower and upper frequency [Hz]

    Raises:
        NoSolutionError: the sweep does not reach that far.

    Source: definition.
    """
    return float(solved.f3), float(solved.cutoff(HALF_POWER, upper=True))


def deepest_sag(solved: Sweep) -> float:
    """How deep the response sags between two of its tops, below the largest level.

    Args:
        solved: one band-pass

    Returns: sag; 0 with one top [dB]

    Source: definition.
    """
    return float(sags(solved.spl))


def sags(spl: Floats) -> Floats:
    """How deep each of several responses sags between the outermost tops that hold half the power.

    Args:
        spl: level over frequency, in the last axis [dB]

    Returns: sag of each; 0 with one top [dB]

    Source: definition.
    """
    largest, inner = spl.max(axis=-1, keepdims=True), spl[..., 1:-1]
    tops = (inner > spl[..., :-2]) & (inner >= spl[..., 2:]) & (inner >= largest - HALF_POWER)
    between = np.logical_or.accumulate(tops, axis=-1)
    between &= np.logical_or.accumulate(tops[..., ::-1], axis=-1)[..., ::-1]
    lowest = np.where(between, inner, largest).min(axis=-1)
    return cast(Floats, largest[..., 0] - lowest)


def band_pass_for_band(
    driver: Driver,
    low: float,
    high: float,
    *,
    area: float,
    ql: float = math.inf,
    rear_ql: float = math.inf,
    series_resistance: float = 0.0,
    air: Air = STANDARD,
) -> BandPass:
    """Band-pass, sealed behind and vented in front, whose band ends at two frequencies.

    Without losses, with y = (fH - fL)/f0, f0 = sqrt(fL fH), Qb = Qts f0/fs:
    gamma = -y² + sqrt(2 y^4 + y²/Qb²), 1 + alpha = (Qb/Qts)², Vr = Vas/alpha,
    Vf = Vas/((1 + alpha) gamma). With losses both chambers are then moved until the edges lie
    where they should; the front stays tuned to the resonance behind.

    Args:
        driver: driver between the chambers
        low: lower edge of the band, 3 dB down [Hz]
        high: upper edge of the band, 3 dB down [Hz]
        area: area of the port [m²]
        ql: Q of leakage of the front chamber [-]
        rear_ql: Q of leakage of the rear chamber [-]
        series_resistance: resistance of cable and source [Ω]
        air: air in the box

    Returns: the band-pass

    Raises:
        OutOfRangeError: an edge is not positive, or the upper is not above the lower.
        NoSolutionError: the middle of the band is not above the driver's resonance, or no
            chambers bring the edges there.

    Valid: voice-coil inductance counts.

    Source: the lossless circuit with both chambers tuned alike, H = 1/(p² + p/Qb + gamma); E. R.
        Geddes, JAES 37 (1989) 308-342 (kind).
    """
    require_positive(Name.FREQUENCY, low, "Hz")
    if high <= low:
        raise OutOfRangeError(Name.BAND, high, "Hz", above=low)
    fs, qts = float(driver.fs), _qts(driver, series_resistance)
    centre, y = math.sqrt(low * high), (high - low) / math.sqrt(low * high)
    if centre <= fs * (1 + _HAIR):
        raise NoSolutionError(
            code="band-below-driver", value=Quantity(centre, "Hz"), limit=Quantity(fs, "Hz")
        )
    qb = qts * centre / fs
    gamma = -(y**2) + math.sqrt(2 * y**4 + (y / qb) ** 2)
    vas = float(driver.cms * driver.sd**2 * air.bulk_modulus)
    stiffer = (centre / fs) ** 2
    x = np.log([vas / (stiffer - 1), vas / (stiffer * gamma)])

    def box(volumes: np.ndarray) -> BandPass:
        rear = Sealed(volume=float(math.exp(volumes[0])), ql=rear_ql)
        tuning = float(rear.resonance(driver, air))
        front = Vented.tuned(
            volume=float(math.exp(volumes[1])), frequency=tuning, area=area, ql=ql, air=air
        )
        return BandPass(rear=rear, front=front)

    def missed(volumes: np.ndarray) -> np.ndarray:
        solved = sweep(
            driver=driver,
            box=box(volumes),
            frequencies=np.geomspace(low / 5, high * 6, 240),
            series_resistance=series_resistance,
            air=air,
        )
        return np.log(np.array(band_edges(solved)) / (low, high))

    try:
        for _ in range(_STEPS):
            off = missed(x)
            if np.abs(off).max() < _NEAR:
                return box(x)
            slope = np.array([(missed(x + d) - off) / _HAIR for d in _HAIR * np.eye(2)]).T
            x = x - np.clip(np.linalg.solve(slope, off), -0.3, 0.3)
    except (AcousticsError, np.linalg.LinAlgError):
        pass  # no chambers with such edges
    raise NoSolutionError(
        code="band-out-of-reach", value=Quantity(low, "Hz"), limit=Quantity(high, "Hz")
    )


def _qts(driver: Driver, series_resistance: float) -> float:
    """Qts with the resistance before the coil."""
    damped = replace(driver, qes=driver.qes * (1 + series_resistance / driver.re))
    return float(damped.qts)
