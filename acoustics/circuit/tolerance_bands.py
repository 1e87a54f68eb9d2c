"""How sure a curve is: parts, build and temperature drawn at random, and the band they leave."""

import math
from dataclasses import dataclass, fields, replace
from typing import Any, cast

import numpy as np
from numpy.typing import ArrayLike

from acoustics.air.air import standard_at
from acoustics.circuit.filters import Way
from acoustics.circuit.limits import AUDIBLE_PORT_SPEED
from acoustics.circuit.solver import Sweep, sweep
from acoustics.driver.driver import Driver
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import Box, Sealed
from acoustics.enclosure.closed_box import resonance_and_q
from acoustics.enclosure.openings import Radiator, Vent
from acoustics.errors import AcousticsError
from acoustics.findings import Finding
from acoustics.names import Name
from acoustics.sources import Source
from acoustics.values import Floats, require_between

_SHARES = (0.05, 0.5, 0.95)
_UNITS = {"temperature": ("K", 30.0)}


@dataclass(frozen=True, kw_only=True)
class Tolerances:
    """How far parts, build and temperature stray: 95 % of them lie within plus or minus this.

    The mechanical parts are drawn, not fs and Q, because they are made apart from one another.

    Attributes:
        compliance: suspension compliance, relative [-]
        mass: moving mass, relative [-]
        force_factor: force factor, relative [-]
        mechanical_resistance: mechanical resistance, relative [-]
        coil_resistance: voice-coil resistance, relative [-]
        volume: net volume as built, relative [-]
        port_length: effective port length as built, relative [-]
        losses: QL, QA and QP of the box, relative [-]
        temperature: temperature around 20 °C [K]

    Raises:
        OutOfRangeError: a tolerance is negative, above 0.5, or a temperature above 30 K.

    Source: the defaults are common practice, no source; give measured spread where there is one.
    """

    compliance: float = 0.20
    mass: float = 0.04
    force_factor: float = 0.06
    mechanical_resistance: float = 0.25
    coil_resistance: float = 0.05
    volume: float = 0.03
    port_length: float = 0.03
    losses: float = 0.30
    temperature: float = 15.0

    def __post_init__(self) -> None:
        """Refuse a tolerance that would turn a part inside out."""
        for field in fields(self):
            unit, limit = _UNITS.get(field.name, ("-", 0.5))
            require_between(Name.TOLERANCE, getattr(self, field.name), 0.0, limit, unit)


@dataclass(frozen=True, kw_only=True)
class Band:
    """Where nine in ten lie.

    Attributes:
        low: value that 5 % stay below [as the quantity]
        median: value that half stay below [as the quantity]
        high: value that 95 % stay below [as the quantity]
    """

    low: Floats
    median: Floats
    high: Floats


@dataclass(frozen=True, kw_only=True)
class SpreadBands:
    """Bands of a design's curves and figures.

    Attributes:
        frequencies: frequencies of the curves [Hz]
        spl: sound pressure level [dB re 20 µPa]
        excursion: excursion, one way, peak [m]
        port_speed: peak air speed in the port; None without a port [m/s]
        largest_excursion: largest excursion over the frequencies [m]
        largest_port_speeds: largest air speed over the frequencies in each port unlike the others,
            in the order of the box [m/s]
        f3: half-power frequency; None when some draw never falls that far [Hz]
        resonance: fc of a sealed box, fb of a vented one; None for a box without one [Hz]
        qtc: total Q of a sealed box; None for other kinds [-]
    """

    frequencies: Floats
    spl: Band
    excursion: Band
    port_speed: Band | None
    largest_excursion: Band
    largest_port_speeds: tuple[Band, ...]
    f3: Band | None
    resonance: Band | None
    qtc: Band | None


def spread(
    *,
    driver: Driver,
    box: Box,
    frequencies: ArrayLike,
    voltage: float = 2.83,
    series_resistance: float = 0.0,
    filters: Way | None = None,
    tolerances: Tolerances | None = None,
    draws: int = 2000,
    start: int = 1,
) -> SpreadBands:
    """Bands that hold nine in ten of the systems the tolerances allow.

    Every relative tolerance t draws a factor exp(t z / 2), z normal, so that 95 % lie within t.

    Args:
        driver: driver as stated
        box: box as drawn
        frequencies: frequencies of the curves [Hz]
        voltage: source voltage, rms [V]
        series_resistance: resistance of cable and source [Ω]
        filters: what the processor does to the voltage; f3 stays that of the box alone
        tolerances: how far things stray; the defaults unless given
        draws: number of systems drawn [-]
        start: number the drawing starts from; the same number gives the same bands [-]

    Returns: the bands

    Raises:
        OutOfRangeError: fewer than 100 or more than 20 000 draws.

    Valid: one driver and one box, plain numbers; air between -10 and 50 °C.

    Source: Monte Carlo after JCGM 101:2008 (propagation of distributions); distribution and
        defaults: common practice, no source.
    """
    require_between(Name.DRAWS, draws, 100, 20_000, "-")
    stray = _Stray(np.random.default_rng(start), draws)
    t = tolerances or Tolerances()
    drawn_driver = _vary_driver(driver, t, stray)
    drawn_box = _vary_box(box, t, stray)
    # Cut at the tolerance, so that no draw leaves the range of the air formula.
    normal = np.clip(stray.normal(), -2.0, 2.0)
    air = standard_at(293.15 + t.temperature * normal / 2)
    solved = sweep(
        driver=drawn_driver,
        box=drawn_box,
        frequencies=frequencies,
        voltage=voltage,
        series_resistance=series_resistance,
        filters=filters,
        air=air,
    )
    speed = solved.port_speed
    qtc = resonance = None
    if isinstance(drawn_box, Sealed):
        fc, q = resonance_and_q(
            drawn_driver, drawn_box, series_resistance=series_resistance, air=air
        )
        resonance, qtc = _band(fc), _band(q)
    elif hasattr(drawn_box, "resonance"):
        resonance = _band(np.broadcast_to(drawn_box.resonance(drawn_driver, air), draws))
    return SpreadBands(
        frequencies=solved.frequencies,
        spl=_band(solved.spl),
        excursion=_band(solved.excursion),
        port_speed=None if speed is None else _band(speed),
        largest_excursion=_band(solved.excursion.max(axis=-1)),
        largest_port_speeds=tuple(_band(speed.max(axis=-1)) for speed in solved.port_speeds),
        f3=_f3(solved, float(driver.fs)),
        resonance=resonance,
        qtc=qtc,
    )


def check_spread(
    bands: SpreadBands,
    *,
    xmax: float | None,
    port_speed: float = AUDIBLE_PORT_SPEED,
) -> tuple[Finding, ...]:
    """Findings for limits that lie inside a band: some parts and builds would cross them.

    Of unlike ports the one with the fastest air is looked at.

    Args:
        bands: bands of the design
        xmax: linear excursion, one way, peak; None when unknown [m]
        port_speed: peak air speed accepted in a port [m/s]

    Returns: one finding per limit crossed by part of the band

    Source: definition; port speed: common practice, no source.
    """
    fastest = max(bands.largest_port_speeds, key=lambda band: float(band.high), default=None)
    checks = (
        ("spread-crosses-xmax", bands.largest_excursion, xmax, "m"),
        ("spread-crosses-port-speed", fastest, port_speed, "m/s"),
    )
    return tuple(
        Finding(
            code=code,
            value=float(band.high),
            limit=limit,
            unit=unit,
            source=(Source.DRAWS,),
        )
        for code, band, limit, unit in checks
        if band is not None and limit is not None and band.low <= limit < band.high
    )


class _Stray:
    """Random factors, one per draw."""

    def __init__(self, generator: np.random.Generator, draws: int) -> None:
        self._generator, self._draws = generator, draws

    def normal(self) -> Floats:
        return self._generator.standard_normal(self._draws)

    def factor(self, tolerance: float) -> Floats:
        return np.exp(tolerance / 2 * self.normal())


def _vary_driver(driver: Driver, t: Tolerances, stray: _Stray) -> Driver:
    compliance = stray.factor(t.compliance)
    mass = stray.factor(t.mass)
    force = stray.factor(t.force_factor)
    loss = stray.factor(t.mechanical_resistance)
    resistance = stray.factor(t.coil_resistance)
    stiff_mass = np.sqrt(mass / compliance)
    return replace(
        driver,
        fs=driver.fs / np.sqrt(mass * compliance),
        vas=driver.vas * compliance,
        qms=driver.qms * stiff_mass / loss,
        qes=driver.qes * stiff_mass * resistance / force**2,
        re=driver.re * resistance,
    )


def _vary_box(box: Box, t: Tolerances, stray: _Stray) -> Box:
    """Vary whatever a kind of box has; an infinite Q stays infinite."""
    if isinstance(box, BandPass):
        rear, front = _vary_box(box.rear, t, stray), _vary_box(box.front, t, stray)
        return replace(box, rear=rear, front=front)
    changes: dict[str, Any] = {}
    for field in fields(cast(Any, box)):
        value = getattr(box, field.name)
        if field.name == "volume":
            changes["volume"] = value * stray.factor(t.volume)
        elif field.name in ("ql", "qa", "qp") and math.isfinite(value):
            changes[field.name] = value * stray.factor(t.losses)
        elif isinstance(value, Vent):
            length = value.effective_length * stray.factor(t.port_length)
            changes[field.name] = replace(value, effective_length=length)
        elif isinstance(value, Radiator):
            changes[field.name] = replace(
                value,
                cms=value.cms * stray.factor(t.compliance),
                mms=value.mms * stray.factor(t.mass),
                rms=value.rms * stray.factor(t.mechanical_resistance),
            )
    return cast(Box, replace(cast(Any, box), **changes))


def _band(values: Floats) -> Band:
    """Shares of the draws, straight between neighbours: one sort of each column serves all."""
    rising = np.array(values.T, order="C")
    rising.sort(axis=-1)
    at = np.array(_SHARES) * (rising.shape[-1] - 1)
    below = at.astype(int)
    low, median, high = (
        rising[..., k] + (at[i] - k) * (rising[..., k + 1] - rising[..., k])
        for i, k in enumerate(below)
    )
    return Band(low=low, median=median, high=high)


def _f3(solved: Sweep, fs: float) -> Band | None:
    wide = solved.at(frequencies=fs * np.geomspace(0.2, 40.0, 32), filters=None)
    try:
        return _band(wide.f3)
    except AcousticsError:
        return None
