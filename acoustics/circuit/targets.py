"""From what is wanted to the box that gives it, and what a box costs.

Each answer is solved with the box's losses and the source's resistance. Voice-coil inductance
plays no part in choosing a box, only in what the box costs. A sealed box of a named shape is the
one for that shape's Q: sealed_for_q(driver, q_of_shape(shape)).
"""

import math
from dataclasses import dataclass, replace
from typing import cast

import numpy as np
from scipy.optimize import brentq

from acoustics.air.air import STANDARD, Air
from acoustics.circuit.solver import Sweep, sweep
from acoustics.driver.driver import Driver
from acoustics.enclosure.alignments import Shape, align_shape
from acoustics.enclosure.boxes import Box, Door, PassiveRadiatorBox, Sealed, Vented
from acoustics.enclosure.closed_box import resonance_and_q, total_damping
from acoustics.errors import NoSolutionError, Quantity
from acoustics.names import Name
from acoustics.values import Floats, Real, require_positive

# Volumes looked at, over Vas, and tunings looked at, over fs.
_VOLUMES = (0.02, 50.0)
_TUNINGS = (0.25, 4.0)


@dataclass(frozen=True, kw_only=True)
class Cost:
    """What a box costs and gives.

    Attributes:
        volume: net volume [m³]
        resonance: fc of a sealed box with its driver, fb of a vented one [Hz]
        qtc: total Q of a sealed box; None for other kinds [-]
        f3: half-power frequency [Hz]
        peak: largest level above the passband [dB]
        excursion: largest excursion from f3 up, one way, peak, at the stated voltage [m]
    """

    volume: float
    resonance: float
    qtc: float | None
    f3: float
    peak: float
    excursion: float


def cost_of(
    driver: Driver,
    box: Sealed | Vented | PassiveRadiatorBox | Door,
    *,
    voltage: float = 2.83,
    series_resistance: float = 0.0,
    air: Air = STANDARD,
) -> Cost:
    """What a box costs and gives, also for the litres at hand.

    Args:
        driver: driver in the box
        box: the box
        voltage: source voltage for the excursion, rms [V]
        series_resistance: resistance of cable and source [Ω]
        air: air in the box

    Returns: the cost

    Raises:
        NoSolutionError: the response never falls to half power within the range looked at.

    Valid: one box, plain numbers.

    Source: the solver.
    """
    solved = _sweep(driver, box, series_resistance, air, voltage)
    f3 = float(solved.f3)
    resonance, qtc = float(box.resonance(driver, air)), None
    if isinstance(box, Sealed):
        fc, q = resonance_and_q(driver, box, series_resistance=series_resistance, air=air)
        resonance, qtc = float(fc), float(q)
    return Cost(
        volume=float(box.volume),
        resonance=resonance,
        qtc=qtc,
        f3=f3,
        peak=float(_peak(solved)),
        excursion=float(solved.excursion[solved.frequencies >= f3].max()),
    )


def sealed_for_q(
    driver: Driver,
    qtc: float,
    *,
    ql: float = math.inf,
    qa: float = math.inf,
    fill: float = 1.0,
    series_resistance: float = 0.0,
    air: Air = STANDARD,
) -> Sealed:
    """Largest sealed box that gives a total Q, its losses included.

    Args:
        driver: driver in the box
        qtc: total Q wanted, of the resonant pair of poles [-]
        ql: Q of leakage at the box resonance [-]
        qa: Q of absorption at the box resonance [-]
        fill: factor by which filling enlarges the volume [-]
        series_resistance: resistance of cable and source [Ω]
        air: air in the box

    Returns: the box

    Raises:
        OutOfRangeError: a value is not positive.
        NoSolutionError: no volume gives this Q; the nearest Q is named.

    Valid: volumes from Vas/1000 to 1000 Vas.

    Source: Small, JAES 20 (1972) 798-808; losses by the roots of the circuit's polynomial.
    """
    require_positive(Name.QTC, qtc, "-")
    template = Sealed(volume=driver.vas, ql=ql, qa=qa, fill=fill)

    def excess(log_volume: Real) -> Floats:
        box = replace(template, volume=np.exp(log_volume))
        q = resonance_and_q(driver, box, series_resistance=series_resistance, air=air)[1]
        return q - qtc

    volumes = math.log(driver.vas) + np.linspace(math.log(1e3), -math.log(1e3), 400)
    excesses = excess(volumes)
    crossing = np.flatnonzero(excesses[:-1] * excesses[1:] <= 0)
    if not crossing.size:
        nearest = qtc + float(excesses[np.abs(excesses).argmin()])
        raise NoSolutionError(code="qtc-out-of-reach", value=Quantity(qtc), limit=Quantity(nearest))
    first = int(crossing[0])
    log_volume = brentq(lambda v: float(excess(v)), volumes[first + 1], volumes[first])
    return replace(template, volume=math.exp(log_volume))


def sealed_for_f3(
    driver: Driver,
    f3: float,
    *,
    ql: float = math.inf,
    qa: float = math.inf,
    fill: float = 1.0,
    series_resistance: float = 0.0,
    air: Air = STANDARD,
) -> Sealed:
    """Smallest sealed box whose response reaches down to a frequency.

    Args:
        driver: driver in the box
        f3: half-power frequency wanted [Hz]
        ql: Q of leakage at the box resonance [-]
        qa: Q of absorption at the box resonance [-]
        fill: factor by which filling enlarges the volume [-]
        series_resistance: resistance of cable and source [Ω]
        air: air in the box

    Returns: the box

    Raises:
        OutOfRangeError: a value is not positive.
        NoSolutionError: no volume reaches this f3; the lowest reachable is named.

    Valid: volumes from Vas/50 to 50 Vas.

    Source: the solver.
    """
    require_positive(Name.F3, f3, "Hz")
    template = Sealed(volume=driver.vas, ql=ql, qa=qa, fill=fill)

    def f3_at(log_volume: Real) -> Floats:
        box = replace(template, volume=np.exp(log_volume))
        return _sweep(_resistive(driver), box, series_resistance, air).f3

    volumes = np.log(driver.vas * np.geomspace(*_VOLUMES, 161))
    first = _first_reached(f3_at(volumes), f3, "f3-out-of-reach")
    log_volume = float(volumes[first])
    if first:
        log_volume = brentq(lambda v: float(f3_at(v)) - f3, volumes[first - 1], log_volume)
    return replace(template, volume=math.exp(log_volume))


def vented_for_shape(
    driver: Driver,
    shape: Shape,
    *,
    area: float,
    ql: float = math.inf,
    series_resistance: float = 0.0,
    air: Air = STANDARD,
) -> Vented:
    """Vented box that gives a driver a named shape, leakage included exactly.

    Args:
        driver: driver in the box
        shape: the shape wanted
        area: area of all ports together [m²]
        ql: Q of leakage at the box resonance [-]
        series_resistance: resistance of cable and source [Ω]
        air: air in the box

    Returns: the box

    Raises:
        OutOfRangeError: a value is not positive.
        NoSolutionError: the driver's Q does not allow this shape; the nearest Q is named.

    Source: Thiele 1971; Small, JAES 21 (1973) 363-372.
    """
    qts = 1 / float(total_damping(driver, series_resistance))
    alignment = align_shape(shape, qts=qts, ql=ql)
    stiffness = driver.cms * driver.sd**2 * air.bulk_modulus
    return Vented.tuned(
        volume=stiffness / alignment.alpha,
        frequency=driver.fs * alignment.h,
        area=area,
        ql=ql,
        air=air,
    )


def vented_for_volume(
    driver: Driver,
    volume: float,
    *,
    area: float,
    ql: float = math.inf,
    peak: float = 0.5,
    series_resistance: float = 0.0,
    air: Air = STANDARD,
) -> Vented:
    """Tuning that takes a vented box of given litres lowest without rising above a peak.

    Args:
        driver: driver in the box
        volume: net volume at hand [m³]
        area: area of all ports together [m²]
        ql: Q of leakage at the box resonance [-]
        peak: level above the passband that is accepted [dB]
        series_resistance: resistance of cable and source [Ω]
        air: air in the box

    Returns: the box

    Raises:
        OutOfRangeError: a value is not positive.
        NoSolutionError: every tuning rises higher; the lowest peak is named.

    Valid: tunings from fs/4 to 4 fs.

    Source: the solver; the accepted peak: common practice, no source.
    """
    require_positive(Name.PEAK, peak, "dB")

    low, high = (driver.fs * ratio for ratio in _TUNINGS)
    for _ in range(4):
        tunings = np.geomspace(low, high, 33)
        box = Vented.tuned(volume=volume, frequency=tunings, area=area, ql=ql, air=air)
        peaks, reached = _peak_and_f3(driver, box, series_resistance, air)
        if not np.any(peaks <= peak):
            value, limit = Quantity(peak, "dB"), Quantity(float(peaks.min()), "dB")
            raise NoSolutionError(code="peak-out-of-reach", value=value, limit=limit)
        tuning = float(tunings[np.where(peaks <= peak, reached, np.inf).argmin()])
        step = tunings[1] / tunings[0]
        low, high = tuning / step, tuning * step
    return Vented.tuned(volume=volume, frequency=tuning, area=area, ql=ql, air=air)


def vented_for_f3(
    driver: Driver,
    f3: float,
    *,
    area: float,
    ql: float = math.inf,
    peak: float = 0.5,
    series_resistance: float = 0.0,
    air: Air = STANDARD,
) -> Vented:
    """Smallest vented box that reaches down to a frequency without rising above a peak.

    Args:
        driver: driver in the box
        f3: half-power frequency wanted [Hz]
        area: area of all ports together [m²]
        ql: Q of leakage at the box resonance [-]
        peak: level above the passband that is accepted [dB]
        series_resistance: resistance of cable and source [Ω]
        air: air in the box

    Returns: the box, its volume within 0.1 %

    Raises:
        OutOfRangeError: a value is not positive.
        NoSolutionError: no box does both; the lowest f3 that keeps the peak is named.

    Valid: volumes from Vas/50 to 50 Vas, tunings from fs/4 to 4 fs.

    Source: the solver; the accepted peak: common practice, no source.
    """
    require_positive(Name.F3, f3, "Hz")
    require_positive(Name.PEAK, peak, "dB")

    def reached(volumes: Floats, tunings: Floats) -> Floats:
        box = Vented.tuned(volume=volumes[:, None], frequency=tunings, area=area, ql=ql, air=air)
        peaks, lowest = _peak_and_f3(driver, box, series_resistance, air)
        return np.where(peaks <= peak, lowest, np.inf)

    volumes = driver.vas * np.geomspace(*_VOLUMES, 40)
    tunings = driver.fs * np.geomspace(*_TUNINGS, 40)
    for _ in range(4):
        cutoffs = reached(np.asarray(volumes), np.asarray(tunings))
        first = _first_reached(cutoffs.min(axis=-1), f3, "vented-f3-out-of-reach")
        best = int(cutoffs[first].argmin())
        volumes = np.geomspace(volumes[max(first - 1, 0)], volumes[first], 12)
        step = 1.2 * tunings[1] / tunings[0]
        tunings = np.geomspace(tunings[best] / step, tunings[best] * step, 24)
    return vented_for_volume(
        driver, float(volumes[-1]), area=area, ql=ql, peak=peak,
        series_resistance=series_resistance, air=air,
    )  # fmt: skip


def _first_reached(reached: Floats, f3: float, code: str) -> int:
    good = reached <= f3
    if not good.any():
        value, limit = Quantity(f3, "Hz"), Quantity(float(reached.min()), "Hz")
        raise NoSolutionError(code=code, value=value, limit=limit)
    return int(good.argmax())


def _sweep(driver: Driver, box: Box, resistance: float, air: Air, voltage: float = 2.83) -> Sweep:
    """Wide enough for any box looked at, and close enough for its peak."""
    f = driver.fs * np.geomspace(0.1, 60.0, 240)
    return sweep(
        driver=driver, box=box, frequencies=f, voltage=voltage,
        series_resistance=resistance, air=air,
    )  # fmt: skip


def _resistive(driver: Driver) -> Driver:
    return replace(driver, le=0.0, semi_inductance=0.0)


def _peak(solved: Sweep) -> Floats:
    return cast(Floats, np.maximum(solved.spl.max(axis=-1) - solved.passband_level, 0.0))


def _peak_and_f3(driver: Driver, box: Box, resistance: float, air: Air) -> tuple[Floats, Floats]:
    solved = _sweep(_resistive(driver), box, resistance, air)
    return _peak(solved), solved.f3
