"""From what is wanted to the box that gives it, and what a box costs.

Each answer is solved with the box's losses and the source's resistance. Voice-coil inductance
plays no part in choosing a box, only in what the box costs. A sealed box of a named shape is the
one for that shape's Q: sealed_for_q(driver, q_of_shape(shape)); vented ones stand in
`vented_targets`.
"""

import math
from dataclasses import dataclass, replace
from typing import cast

import numpy as np
from scipy.optimize import brentq

from acoustics.air.air import STANDARD, Air
from acoustics.circuit.solver import HALF_POWER, Sweep, sweep
from acoustics.circuit.vented_targets import VOLUMES
from acoustics.driver.driver import Driver
from acoustics.enclosure.boxes import Box, Door, PassiveRadiatorBox, Sealed, Vented
from acoustics.enclosure.closed_box import resonance_and_q
from acoustics.errors import NoSolutionError, Quantity
from acoustics.names import Name
from acoustics.values import Floats, Real, require_positive


@dataclass(frozen=True, kw_only=True)
class Cost:
    """What a box costs and gives.

    Attributes:
        volume: net volume [m³]
        resonance: fc of a sealed box with its driver, fb of a vented one [Hz]
        qtc: total Q of a sealed box; None for other kinds [-]
        f3: half-power frequency [Hz]
        peak: largest level above the passband [dB]
        sag: deepest place below the passband before the response falls for good [dB]
        excursion: largest excursion from f3 up, one way, peak, at the stated voltage [m]
    """

    volume: float
    resonance: float
    qtc: float | None
    f3: float
    peak: float
    sag: float
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
        sag=_sag(solved),
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

    volumes = np.log(driver.vas * np.geomspace(*VOLUMES, 161))
    first = _first_reached(f3_at(volumes), f3, "f3-out-of-reach")
    log_volume = float(volumes[first])
    if first:
        log_volume = brentq(lambda v: float(f3_at(v)) - f3, volumes[first - 1], log_volume)
    return replace(template, volume=math.exp(log_volume))


def _first_reached(reached: Floats, f3: float, code: str) -> int:
    good = reached <= f3
    if not good.any():
        value, limit = Quantity(f3, "Hz"), Quantity(float(reached.min()), "Hz")
        raise NoSolutionError(code=code, value=value, limit=limit)
    return int(good.argmax())


def _sweep(driver: Driver, box: Box, resistance: float, air: Air, voltage: float = 2.83) -> Sweep:
    """Wide enough for any box looked at, and close enough for its peak."""
    f = driver.fs * np.geomspace(0.05, 60.0, 260)
    return sweep(
        driver=driver, box=box, frequencies=f, voltage=voltage,
        series_resistance=resistance, air=air,
    )  # fmt: skip


def _resistive(driver: Driver) -> Driver:
    return replace(driver, le=0.0, semi_inductance=0.0)


def _peak(solved: Sweep) -> Floats:
    return cast(Floats, np.maximum(solved.spl.max(axis=-1) - solved.passband_level, 0.0))


def _sag(solved: Sweep) -> float:
    """How deep the passband sags before the response falls for good, going down."""
    reference = float(solved.reference)
    falls = int((solved.spl >= reference - HALF_POWER).argmax())
    spl = solved.spl[falls:]
    dips = spl[1:-1][(spl[1:-1] < spl[:-2]) & (spl[1:-1] <= spl[2:])]
    return max(reference - float(dips.min()), 0.0) if dips.size else 0.0
