"""The sag of the supply on a bass note, and what a capacitor really buys."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.integrate import solve_ivp

from wiring.errors import (
    OutOfRangeError,
    require_not_negative,
    require_positive,
)
from wiring.findings import Finding
from wiring.names import Name
from wiring.network.feed import AnyFeed, Feed, Floats
from wiring.sources import Source

# A smaller gain of the lowest voltage is not worth a bank.
SMALL_GAIN = 0.1  # common practice, no source
_SAMPLES = 1001


@dataclass(frozen=True, kw_only=True)
class CapacitorBank:
    """A capacitor bank across the supply near the amplifier.

    Attributes:
        capacitance: capacitance of the whole bank as measured, not as printed on it [F]
        series_resistance: equivalent series resistance of bank, leads and terminals [Ω]

    Raises:
        OutOfRangeError: the capacitance is not above 0 or the resistance is negative.
    """

    capacitance: float
    series_resistance: float

    def __post_init__(self) -> None:
        """Refuse a bank that cannot exist."""
        require_positive(name=Name.CAPACITANCE, value=self.capacitance, unit="F")
        require_not_negative(name=Name.BANK_RESISTANCE, value=self.series_resistance, unit="Ω")


@dataclass(frozen=True, kw_only=True)
class BassNote:
    """A note that starts from a resting level and lasts for a while.

    Attributes:
        rest_power: input power of the amplifier before the note [W]
        power: input power of the amplifier during the note [W]
        duration: length of the note [s]

    Raises:
        OutOfRangeError: a power is negative, the note is quieter than the rest, or the duration
            is not above 0.

    Valid: input power averaged over a cycle of the bass; the amplifier's own reservoir carries
        the rest.
    """

    rest_power: float
    power: float
    duration: float

    def __post_init__(self) -> None:
        """Refuse a note that cannot exist."""
        require_not_negative(name=Name.REST_POWER, value=self.rest_power, unit="W")
        if not self.rest_power <= self.power < np.inf:
            raise OutOfRangeError(Name.NOTE_POWER, self.power, "W", at_least=self.rest_power)
        require_positive(name=Name.DURATION, value=self.duration, unit="s")


@dataclass(frozen=True, kw_only=True, eq=False)
class Sag:
    """Voltage at the amplifier over one note.

    Attributes:
        time: times from the start of the note, the last one is its end or the collapse [s]
        voltage: voltage at the amplifier at these times [V]
        rest_voltage: voltage at the amplifier before the note [V]
        collapse_time: when the feed can no longer give the power, None when it always can [s]
    """

    time: npt.NDArray[np.float64]
    voltage: npt.NDArray[np.float64]
    rest_voltage: float
    collapse_time: float | None

    @property
    def lowest(self) -> float:
        """Lowest voltage at the amplifier; after a collapse the last voltage that existed.

        Returns: voltage [V]
        """
        return float(self.voltage.min())

    def held_time(self, floor: float) -> float:
        """Time from the start of the note during which the voltage stays at or above a floor.

        Args:
            floor: voltage to stay above [V]

        Returns: time, at most the length of the note, rounded down to a sample where it ends [s]
        """
        below = np.flatnonzero(self.voltage < floor)
        if below.size == 0:
            return float(self.time[-1])
        return float(self.time[below[0] - 1]) if below[0] > 0 else 0.0


def sag(
    feed: AnyFeed,
    note: BassNote,
    bank: CapacitorBank | None = None,
    *,
    bank_voltage: float | None = None,
) -> Sag:
    """Voltage at the amplifier during a note, the amplifier taken as a constant power.

    With v on the capacitance, the bank and the feed are one source E_t behind R_t; the amplifier
    sees w = ½·(E_t + √(E_t² − 4·P·R)), R = R_t + R_tail, and C·dv/dt = (u − v)/ESR with u the
    voltage at the bank. The feed collapses when the root has no real value.

    Args:
        feed: the way from battery to amplifier
        note: the note
        bank: capacitor bank, None for none
        bank_voltage: voltage on the capacitance when the note starts, None for the one it rests
            at [V]

    Returns: voltage over the note, collapse and rest voltage

    Raises:
        OutOfRangeError: the feed cannot even give the rest power, or the bank voltage is not
            above 0.

    Valid: no inductance; the open voltage stays put during the note.

    Source: Kirchhoff's laws; integrated with scipy's solve_ivp (LSODA), relative error 1e-9.
    """
    rest = _steady(feed, note.rest_power)
    if rest is None:
        raise OutOfRangeError(Name.REST_POWER, note.rest_power, "W", at_most=feed.most_power)
    if bank is None:
        return _bare_sag(feed, note, rest)
    start = bank_voltage
    if start is None:
        source = rest.feed
        start = source.at_bank - source.source_resistance * note.rest_power / rest.voltage
    require_positive(name=Name.BANK_VOLTAGE, value=start, unit="V")
    return _sag_with_bank(feed, note, bank, start, rest.voltage)


@dataclass(frozen=True)
class _Steady:
    voltage: float
    feed: Feed


def _steady(feed: AnyFeed, power: float) -> _Steady | None:
    """The settled voltage at a power, and the way that gives it; None if nothing gives it."""
    for way in feed.feeds:
        resistance = way.source_resistance + way.tail_resistance
        if power > way.most_power:
            continue
        voltage = _at_load(way.open_voltage, resistance, power)
        if way.holds(np.atleast_1d(power / voltage), np.zeros(1))[0]:
            return _Steady(float(voltage), way)
    return None


def _bare_sag(feed: AnyFeed, note: BassNote, rest: _Steady) -> Sag:
    played = _steady(feed, note.power)
    time = np.array([0.0, note.duration])
    if played is not None:
        voltage = np.full(2, played.voltage)
        return Sag(time=time, voltage=voltage, rest_voltage=rest.voltage, collapse_time=None)
    fold = rest.feed.open_voltage / 2.0
    return Sag(
        time=time[:1], voltage=np.full(1, fold), rest_voltage=rest.voltage, collapse_time=0.0
    )


@dataclass(frozen=True, kw_only=True)
class CapacitorBenefit:
    """What a capacitor bank buys during one note.

    Attributes:
        gain: lowest voltage with the bank less the one without it, None when the feed collapses
            with it or without it [V]
        held: how much longer the amplifier stays at or above the floor [s]
    """

    gain: float | None
    held: float


def capacitor_benefit(
    *, feed: AnyFeed, note: BassNote, bank: CapacitorBank, floor: float
) -> CapacitorBenefit:
    """What a capacitor bank buys during one note, in volts and in seconds.

    Args:
        feed: the way from battery to amplifier
        note: the note
        bank: capacitor bank
        floor: voltage at the amplifier to stay above [V]

    Returns: gain of the lowest voltage [V] and time held above the floor [s]

    Raises:
        OutOfRangeError: the feed cannot even give the rest power.

    Source: definition; both sags from sag().
    """
    with_bank, without = sag(feed, note, bank), sag(feed, note)
    collapses = with_bank.collapse_time is not None or without.collapse_time is not None
    return CapacitorBenefit(
        gain=None if collapses else with_bank.lowest - without.lowest,
        held=with_bank.held_time(floor) - without.held_time(floor),
    )


def check_transient(
    *,
    feed: AnyFeed,
    note: BassNote,
    bank: CapacitorBank | None,
    minimum_voltage: float | None,
    about: str,
) -> tuple[Finding, ...]:
    """Findings on the lowest voltage during a note and on the worth of a bank.

    Args:
        feed: the way from battery to amplifier
        note: the note
        bank: capacitor bank, None for none
        minimum_voltage: lowest supply voltage the amplifier works at, from its sheet [V]
        about: id of the amplifier

    Returns: findings

    Raises:
        OutOfRangeError: the feed cannot even give the rest power.

    Source: amplifier's sheet for its lowest voltage; definition for the collapse.
    """
    result, without = sag(feed, note, bank), sag(feed, note)
    findings: list[Finding] = []
    if result.collapse_time is not None:
        findings.append(_finding("note-collapses", about, note.power, feed.most_power, "W"))
    if minimum_voltage is None:
        findings.append(_finding("amplifier-minimum-voltage-unknown", about, None, None, "V"))
    elif result.lowest < minimum_voltage:
        findings.append(
            _finding("note-below-minimum-voltage", about, result.lowest, minimum_voltage, "V")
        )
    if bank is not None:
        findings.append(_finding("capacitor-needs-fuse-and-slow-charge", about, None, None, ""))
        gain = result.lowest - without.lowest
        if without.collapse_time is None and gain < SMALL_GAIN:
            findings.append(_finding("capacitor-gain-small", about, gain, SMALL_GAIN, "V"))
    return tuple(findings)


def _sag_with_bank(
    feed: AnyFeed, note: BassNote, bank: CapacitorBank, start: float, rest: float
) -> Sag:
    ways = [_Way(way, bank, note.power) for way in feed.feeds]

    def slope(_: float, v: Floats) -> Floats:
        rate: Floats = _pick(ways, v)[1] / bank.capacitance
        return rate

    def margin(_: float, v: Floats) -> float:
        return float(max(way.margin(v)[0] for way in ways))

    margin.terminal = True  # type: ignore[attr-defined]
    if margin(0.0, np.array([start])) < 0.0:
        fold = max(way.opened(np.array([start]))[0] for way in ways) / 2.0
        return Sag(time=np.zeros(1), voltage=np.array([fold]), rest_voltage=rest, collapse_time=0.0)
    solution = solve_ivp(
        slope,
        (0.0, note.duration),
        np.array([start]),
        method="LSODA",
        events=margin,
        dense_output=True,
        rtol=1e-9,
        atol=1e-10,
    )
    assert solution.sol is not None  # asked for with dense_output
    time = np.linspace(0.0, solution.t[-1], _SAMPLES)
    voltage = _pick(ways, solution.sol(time)[0])[0]
    collapse = float(solution.t[-1]) if solution.status == 1 else None
    return Sag(time=time, voltage=voltage, rest_voltage=rest, collapse_time=collapse)


@dataclass(frozen=True)
class _Way:
    """One linear feed with the bank at its place, the amplifier as constant power."""

    feed: Feed
    bank: CapacitorBank
    power: float

    @property
    def esr(self) -> float:
        return self.bank.series_resistance + self.feed.lead

    def opened(self, v: Floats) -> Floats:
        """Voltage at the amplifier without its current, v on the capacitance."""
        source = self.feed.source_resistance
        # Node current law written without dividing by the ESR, which may be 0.
        opened: Floats = self.feed.open_voltage - source * (self.feed.at_bank - v) / (
            source + self.esr
        )
        return opened

    @property
    def resistance(self) -> float:
        source = self.feed.source_resistance
        return source * self.esr / (source + self.esr) + self.feed.tail_resistance

    def margin(self, v: Floats) -> Floats:
        """Below zero where it cannot give the power."""
        room: Floats = self.opened(v) ** 2 - 4.0 * self.power * self.resistance
        return room

    def state(self, v: Floats) -> tuple[Floats, Floats, npt.NDArray[np.bool_]]:
        """Voltage at the amplifier, current into the bank, and where this way is the one."""
        voltage = _at_load(self.opened(v), self.resistance, self.power)
        current = self.power / voltage
        source = self.feed.source_resistance
        into_bank = (self.feed.at_bank - v - current * source) / (source + self.esr)
        fits = self.feed.holds(current, into_bank) & (self.margin(v) >= 0)
        return voltage, into_bank, fits


def _pick(ways: list[_Way], v: Floats) -> tuple[Floats, Floats]:
    """Voltage and bank current of the way that is the one at each point; else of the first."""
    voltage, current, done = ways[0].state(v)
    for way in ways[1:]:
        if done.all():
            break
        other_voltage, other_current, fits = way.state(v)
        new = fits & ~done
        voltage = np.where(new, other_voltage, voltage)
        current = np.where(new, other_current, current)
        done = done | fits
    return voltage, current


def _at_load(opened: npt.ArrayLike, resistance: float, power: float) -> npt.NDArray[np.float64]:
    """Upper root of w² − E·w + P·R = 0; at and beyond the fold, the fold itself."""
    opened = np.asarray(opened, dtype=float)
    root = np.maximum(opened**2 - 4.0 * power * resistance, 0.0)
    voltage: npt.NDArray[np.float64] = 0.5 * (opened + np.sqrt(root))
    return voltage


def _finding(code: str, about: str, value: float | None, limit: float | None, unit: str) -> Finding:
    by_sheet = "minimum-voltage" in code
    source = Source.AMPLIFIER_SHEET if by_sheet else Source.COMMON_PRACTICE
    return Finding(code=code, about=about, value=value, limit=limit, unit=unit, source=(source,))
