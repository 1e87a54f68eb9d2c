"""The sag of the supply on a bass note, and what a capacitor really buys."""

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
from wiring.sources import Source

# A smaller gain of the lowest voltage is not worth a bank.
SMALL_GAIN = 0.1  # common practice, no source
_SAMPLES = 1001


@dataclass(frozen=True, kw_only=True)
class Feed:
    """The way from the battery to the amplifier, cut at the place of the capacitor bank.

    Attributes:
        open_voltage: voltage of the battery or charging source without load [V]
        source_resistance: battery, fuses, cable out and return up to the bank [Ω]
        tail_resistance: cable out and return between bank and amplifier [Ω]

    Raises:
        OutOfRangeError: the voltage or the source resistance is not above 0, or the tail
            resistance is negative.
    """

    open_voltage: float
    source_resistance: float
    tail_resistance: float

    def __post_init__(self) -> None:
        """Refuse a feed that cannot exist: no real source has zero resistance."""
        require_positive(name=Name.OPEN_VOLTAGE, value=self.open_voltage, unit="V")
        require_positive(name=Name.SOURCE_RESISTANCE, value=self.source_resistance, unit="Ω")
        require_not_negative(name=Name.TAIL_RESISTANCE, value=self.tail_resistance, unit="Ω")

    @property
    def most_power(self) -> float:
        """Greatest steady power that can reach the amplifier's terminals.

        P_max = E² / (4·(R_source + R_tail)), with half the open voltage at the amplifier.

        Returns: power [W]

        Source: maximum power transfer, definition.
        """
        return self.open_voltage**2 / (4.0 * (self.source_resistance + self.tail_resistance))


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
    feed: Feed,
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
    resistance = feed.source_resistance + feed.tail_resistance
    if note.rest_power > feed.most_power:
        raise OutOfRangeError(Name.REST_POWER, note.rest_power, "W", at_most=feed.most_power)
    rest = float(_at_load(feed.open_voltage, resistance, note.rest_power))
    if bank is None:
        time = np.array([0.0, note.duration])
        settles = note.power <= feed.most_power
        end = float(_at_load(feed.open_voltage, resistance, note.power))
        return Sag(
            time=time if settles else time[:1],
            voltage=np.full(2 if settles else 1, end),
            rest_voltage=rest,
            collapse_time=None if settles else 0.0,
        )
    rest_on_bank = rest + feed.tail_resistance * note.rest_power / rest
    start = rest_on_bank if bank_voltage is None else bank_voltage
    require_positive(name=Name.BANK_VOLTAGE, value=start, unit="V")
    return _sag_with_bank(feed, note, bank, start, rest)


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
    *, feed: Feed, note: BassNote, bank: CapacitorBank, floor: float
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
    feed: Feed,
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
    feed: Feed, note: BassNote, bank: CapacitorBank, start: float, rest: float
) -> Sag:
    esr, source = bank.series_resistance, feed.source_resistance
    both = source + esr
    resistance = source * esr / both + feed.tail_resistance

    def thevenin(v: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        opened: npt.NDArray[np.float64] = (feed.open_voltage * esr + v * source) / both
        return opened

    def slope(_: float, v: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        opened = thevenin(v)
        current = note.power / _at_load(opened, resistance, note.power)
        # Node current law written without dividing by the ESR, which may be 0.
        into_bank = (feed.open_voltage - v - current * source) / both
        rate: npt.NDArray[np.float64] = into_bank / bank.capacitance
        return rate

    def margin(_: float, v: npt.NDArray[np.float64]) -> float:
        return float(thevenin(v)[0] ** 2 - 4.0 * note.power * resistance)

    margin.terminal = True  # type: ignore[attr-defined]
    if margin(0.0, np.array([start])) < 0.0:
        fold = thevenin(np.array([start])) / 2.0
        return Sag(time=np.zeros(1), voltage=fold, rest_voltage=rest, collapse_time=0.0)
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
    voltage = _at_load(thevenin(solution.sol(time)[0]), resistance, note.power)
    collapse = float(solution.t[-1]) if solution.status == 1 else None
    return Sag(time=time, voltage=voltage, rest_voltage=rest, collapse_time=collapse)


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
