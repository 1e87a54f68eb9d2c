"""The one electro-mechano-acoustic solver, for every kind of box.

The circuit is Small's: source and Rg, voice coil Re + s Le + K sqrt(s), gyrator Bl, moving mass,
suspension and its loss, and through Sd the acoustic load N/D the box presents:

    P = (Rms + s Mms + 1/(s Cms)) D + Sd² N
    u = Bl V D / (Ze P + Bl² D)            diaphragm velocity
    Z = Ze + Bl² D / P                     impedance at the amplifier's terminals

**Leakage radiates in this model.** Every opening of a small box, its leaks too, adds its volume
velocity at the listener; the sum of them all is the rate at which the enclosed air is compressed,
the current in the compliance branch. A leak therefore takes away from the output, and a driver in
a box that leaked everything would be heard no more than one without a box.

Drive and pressure are rms values; excursions and air speeds are peak values.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property, partial
from typing import cast

import numpy as np
import numpy.typing as npt
from numpy.typing import ArrayLike

from acoustics.air.air import STANDARD, Air
from acoustics.circuit.filters import Way
from acoustics.driver.driver import REFERENCE_PRESSURE, Driver
from acoustics.enclosure.loads import Box, Load
from acoustics.enclosure.openings import Radiator, Vent
from acoustics.errors import NoSolutionError, Quantity
from acoustics.names import Name
from acoustics.values import Complexes, Floats, Real, column, require_between, require_positive

HALF_POWER = 10 * math.log10(2)
HALF_PRESSURE = 20 * math.log10(2)
_STEPS, _EXACT = 10, 1e-11  # of the search for a cut-off, and a level that is met [dB]


def sweep(
    *,
    driver: Driver,
    box: Box,
    frequencies: ArrayLike,
    voltage: Real = 2.83,
    series_resistance: Real = 0.0,
    filters: Way | None = None,
    air: Air = STANDARD,
    distance: float = 1.0,
) -> "Sweep":
    """Solve a driver in a box over frequency and over candidates at once.

    Any parameter of driver, box, air or source may be an array of candidates of shape (...); the
    results then have the shape (..., frequencies).

    Args:
        driver: driver, or the equivalent of several
        box: the box it plays in
        frequencies: frequencies to solve at [Hz]
        voltage: source voltage, rms [V]
        series_resistance: resistance of cable and source before the voice coil [Ω]
        filters: what the processor does to the voltage on its way; nothing unless given
        air: air it plays in
        distance: distance in a half space [m]

    Returns: the sweep

    Raises:
        OutOfRangeError: a value is not positive.

    Valid: piston range, ka < 1; lumped elements; levels small enough for constant parameters.

    Source: Small 1972, JAES 20, 383-395 and his papers on each kind of box.
    """
    f = np.asarray(frequencies, dtype=float)
    require_positive(Name.FREQUENCY, f, "Hz")
    require_positive(Name.VOLTAGE, voltage, "V")
    require_between(Name.SERIES_RESISTANCE, series_resistance, 0.0, math.inf, "Ω")
    require_positive(Name.DISTANCE, distance, "m")
    s = 2j * math.pi * f
    load = box.load(s, driver, air)
    electrical = column(driver.re + series_resistance) + _coil(driver, s)
    mechanical = column(driver.rms) + s * column(driver.mms) + column(1 / driver.cms) * (1 / s)
    mechanical = mechanical * load.denominator + column(driver.sd**2) * load.numerator
    total = electrical * mechanical + column(driver.bl**2) * load.denominator
    flow = cast(Complexes, column(driver.sd * driver.bl * voltage) / total)
    if filters is not None:
        flow = flow * filters.response(f)
    return Sweep(
        driver=driver,
        box=box,
        frequencies=f,
        air=air,
        voltage=voltage,
        passband_level=driver.reference_level(
            voltage=voltage, series_resistance=series_resistance, distance=distance, air=air
        ),
        distance=distance,
        load=load,
        flow=flow,
        mechanical=mechanical,
        total=total,
        at=partial(
            sweep,
            driver=driver,
            box=box,
            voltage=voltage,
            series_resistance=series_resistance,
            filters=filters,
            air=air,
            distance=distance,
        ),
    )


@dataclass(frozen=True, kw_only=True)
class Sweep:
    """A solved system; each curve is worked out when it is first asked for.

    Attributes:
        driver: driver it was solved for
        box: box it was solved for
        frequencies: frequencies of the curves [Hz]
        air: air it was solved in
        voltage: source voltage, rms [V]
        passband_level: level of the flat passband the driver has on its own [dB re 20 µPa]
        distance: distance in a half space [m]
        load: acoustic load of the box
        flow: volume velocity of the diaphragm over the load's denominator, rms [m³/s]
        mechanical: P of the module's equations
        total: Ze P + Bl² D of the module's equations
        at: solves the same system at other frequencies; takes frequencies=
    """

    driver: Driver
    box: Box
    frequencies: Floats
    air: Air
    voltage: Real
    passband_level: Real
    distance: float
    load: Load = field(repr=False)
    flow: Complexes = field(repr=False)
    mechanical: Complexes = field(repr=False)
    total: Complexes = field(repr=False)
    at: Callable[..., "Sweep"] = field(repr=False)

    @cached_property
    def pressure(self) -> Complexes:
        """Sound pressure without the delay of the distance: p = s rho U / (2 pi r).

        Returns: complex pressure, rms [Pa]

        Source: point source in a half space; Small 1972, JAES 20, 383-395.
        """
        return self._heard * (1j * self._scale)

    @cached_property
    def _heard(self) -> Complexes:
        return self.load.output * self.flow

    @property
    def _scale(self) -> Floats:
        """Pressure of a volume velocity of one."""
        return self.frequencies * column(self.air.density / self.distance)

    @cached_property
    def spl(self) -> Floats:
        """Sound pressure level.

        Returns: level [dB re 20 µPa]
        """
        scale = 20 * np.log10(self._scale / REFERENCE_PRESSURE)
        return cast(Floats, 10 * np.log10(_power(self._heard)) + scale)

    @cached_property
    def phase(self) -> Floats:
        """Phase of the sound pressure against the source voltage, distance left out.

        Returns: phase, unwrapped over frequency [rad]
        """
        return np.unwrap(np.angle(self.pressure))

    @cached_property
    def group_delay(self) -> Floats:
        """Group delay of the response: minus the slope of phase over angular frequency.

        The slope is taken from the system solved a hair to each side, so that it does not depend
        on how close the frequencies lie.

        Returns: delay [s]
        """
        hair = 1e-4
        above = self.at(frequencies=self.frequencies * (1 + hair)).pressure
        below = self.at(frequencies=self.frequencies * (1 - hair)).pressure
        return -np.angle(above / below) / (4 * math.pi * hair * self.frequencies)

    @cached_property
    def excursion(self) -> Floats:
        """Excursion of the diaphragm, one way, peak: sqrt(2) |u| / w.

        Returns: excursion [m]
        """
        return self._excursion(self.load.denominator, self.driver.sd)

    @cached_property
    def impedance(self) -> Complexes:
        """Impedance the amplifier sees, cable included.

        Returns: complex impedance [Ω]

        Source: Small 1972, JAES 20, 383-395.
        """
        return self.total / self.mechanical

    @cached_property
    def port_speed(self) -> Floats | None:
        """Air speed averaged over the port's area, peak; the faster one of two ports.

        Returns: air speed, or None without a port [m/s]
        """
        return _largest([speed for speed, _ in self._ports])

    @property
    def port_speeds(self) -> tuple[Floats, ...]:
        """Air speed of each port unlike the others, peak, in the order of the box.

        Returns: air speed of each [m/s]
        """
        return tuple(speed for speed, _ in self._ports)

    @cached_property
    def reynolds_number(self) -> Floats | None:
        """Reynolds number of the port at its peak speed; the larger one of two ports.

        Returns: Reynolds number, or None without a port [-]
        """
        return _largest(
            [cast(Floats, vent.reynolds_number(speed, self.air)) for speed, vent in self._ports]
        )

    @cached_property
    def radiator_excursion(self) -> Floats | None:
        """Excursion of the passive radiator, one way, peak.

        Returns: excursion, or None without a radiator [m]
        """
        return _largest(
            [
                self._excursion(flow.numerator, flow.opening.area)
                for flow in self.load.flows
                if isinstance(flow.opening, Radiator)
            ]
        )

    @property
    def reference(self) -> Real:
        """Level the cut-off frequencies are counted from.

        The flat passband of the driver where the diaphragm is heard, or the largest level where
        voice-coil inductance keeps the response below it; the largest level where only openings
        are heard.

        Returns: level [dB re 20 µPa]

        Source: Small 1972 (passband); band-pass: common practice, no source.
        """
        top = self.spl.max(axis=-1)
        if not self.box.radiates_directly:
            return cast(Floats, top)
        inductive = _given(self.driver.le) or _given(self.driver.semi_inductance)
        return np.minimum(top, self.passband_level) if inductive else self.passband_level

    @property
    def f3(self) -> Floats:
        """Lowest frequency down to which the response holds half the passband's power.

        Returns: frequency [Hz]

        Raises:
            NoSolutionError: the sweep does not reach that far.
        """
        return self.cutoff(HALF_POWER)

    @property
    def f6(self) -> Floats:
        """Lowest frequency down to which the response holds half the passband's pressure.

        Returns: frequency [Hz]

        Raises:
            NoSolutionError: the sweep does not reach that far.
        """
        return self.cutoff(HALF_PRESSURE)

    @property
    def f10(self) -> Floats:
        """Lowest frequency down to which the response holds a tenth of the passband's power.

        Returns: frequency [Hz]

        Raises:
            NoSolutionError: the sweep does not reach that far.
        """
        return self.cutoff(10.0)

    def cutoff(self, drop: float, *, upper: bool = False) -> Floats:
        """Frequency where the response first falls by a drop, going out from its passband.

        The passband of a diaphragm that is heard lies above its resonance, so that going down
        starts from the highest frequency that holds the level; what is heard through openings
        only has its passband around its largest level.

        Args:
            drop: fall below the reference level [dB]
            upper: whether to go up from the largest level instead of down

        Returns: frequency, one per candidate [Hz]

        Raises:
            NoSolutionError: the sweep ends before the response falls that far.
        """
        spl, f = self.spl, self.frequencies
        wanted = np.asarray(self.reference - drop)[..., None]
        index = np.arange(f.size)
        top = spl.argmax(axis=-1)[..., None]
        if self.box.radiates_directly and not upper:
            top = f.size - 1 - (spl >= wanted)[..., ::-1].argmax(axis=-1)[..., None]
        if upper:
            beyond = (spl < wanted) & (index > top)
            outer = beyond.argmax(axis=-1)
            inner = outer - 1
        else:
            beyond = (spl < wanted) & (index < top)
            outer = f.size - 1 - beyond[..., ::-1].argmax(axis=-1)
            inner = np.minimum(outer + 1, f.size - 1)
        if not np.all(beyond.any(axis=-1) & (spl.max(axis=-1) >= wanted[..., 0])):
            edge = f[-1] if upper else f[0]
            limit = Quantity(float(edge), "Hz")
            raise NoSolutionError(code="never-falls", drop=Quantity(drop, "dB"), limit=limit)
        return self._crossing(outer[..., None], inner[..., None], wanted)

    def _crossing(
        self, outer: npt.NDArray[np.int64], inner: npt.NDArray[np.int64], wanted: Floats
    ) -> Floats:
        """Find where the level passes between two points by false position, after Illinois."""
        outside, inside = np.log(self.frequencies)[outer], np.log(self.frequencies)[inner]
        below = np.take_along_axis(self.spl, outer, axis=-1) - wanted
        above = np.take_along_axis(self.spl, inner, axis=-1) - wanted
        low = np.zeros(below.shape, dtype=bool)
        for _ in range(_STEPS):
            crossing = inside - (inside - outside) * above / np.maximum(above - below, 1e-300)
            gap, was_low = self.at(frequencies=np.exp(crossing)).spl - wanted, low
            if not np.any(np.abs(gap) > _EXACT):
                break
            low = gap < 0
            # An end that stays put a second time counts half, or the steps would creep.
            weight = np.where(low == was_low, 0.5, 1.0)
            below, above = np.where(low, gap, below * weight), np.where(low, above * weight, gap)
            outside, inside = np.where(low, crossing, outside), np.where(low, inside, crossing)
        return cast(Floats, np.exp(crossing)[..., 0])

    @cached_property
    def _ports(self) -> list[tuple[Floats, Vent]]:
        return [
            (
                math.sqrt(2) * np.sqrt(_power(flow.numerator * self.flow)) / column(vent.area),
                vent,
            )
            for flow in self.load.flows
            if isinstance(vent := flow.opening, Vent)
        ]

    def _excursion(self, share: Complexes | float, area: Real) -> Floats:
        scale = math.sqrt(2) / (2 * math.pi) / self.frequencies / column(area)
        return cast(Floats, np.sqrt(_power(share * self.flow)) * scale)


def _coil(driver: Driver, s: Complexes) -> Complexes | complex:
    """Impedance of the coil beyond its resistance; most sets state none or plain inductance."""
    impedance: Complexes | complex = 0j
    if _given(driver.le):
        impedance = impedance + s * column(driver.le)
    if _given(driver.semi_inductance):
        impedance = impedance + s**0.5 * column(driver.semi_inductance)
    return impedance


def _given(value: Real) -> bool:
    return bool(value.any()) if isinstance(value, np.ndarray) else value > 0


def _power(value: Complexes) -> Floats:
    return value.real**2 + value.imag**2


def _largest(curves: list[Floats]) -> Floats | None:
    return None if not curves else np.maximum.reduce(curves)
