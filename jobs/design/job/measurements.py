"""What is measured on the finished car: its limits, worked out where they can be, and a verdict.

The tolerances below are common practice, no source: a meter on a cold workshop floor reads a
little otherwise than a calculator, and a finger's width of oxide reads very much otherwise.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Self

from django.utils.translation import gettext as _

from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords
from jobs.design.wiring.channels import ChannelResult, wired, work_out_channels
from jobs.design.wiring.power import PowerResult, work_out_power
from jobs.design.wiring.supply import SupplyResult, work_out_supply
from jobs.models import Channel, Measurement, PowerNode
from jobs.units import show

SECTION = "bay"
UNITS = {"voltage": "V", "current": "A", "resistance": "Ω", "length": "m", "level": "dB"}
REST_TOLERANCE = 0.5  # V, either way from the open-circuit voltage that was typed
LOST_OVER_FUSE = 0.1  # V at full output, holder and both lugs
LOST_TO_GROUND = 0.05  # V at full output
SPEAKER_SHARE, LEADS = 0.15, 0.3  # of the coils' resistance either way; Ω of leads and plugs
ASLEEP_SHARE = 1.25  # of the key-off current worked out
CHARGING = (13.2, 15.0)  # V, where nothing commands it lower
COMMANDED = (12.2, 15.5)  # V, where the car commands it
SLIP = 100.0  # times beyond a limit: a unit was mistaken, such as A for mA
THOUSAND = 1000.0

Derived = Measurement.Derived


@dataclass(frozen=True, kw_only=True)
class Limits:
    """Between which values it is as meant, and beyond which ones it must not stay so."""

    low: float | None = None
    high: float | None = None
    stop_low: float | None = None
    stop_high: float | None = None
    worked_out: bool = False

    def verdict(self, value: float) -> str:
        """Judge a value: "done", "look" or "stop"."""
        if _outside(value, self.stop_low, self.stop_high):
            return "stop"
        return "look" if _outside(value, self.low, self.high) else "done"

    def crossed(self, value: float) -> float | None:
        """The limit a value lies beyond, the graver one first."""
        for low, high in ((self.stop_low, self.stop_high), (self.low, self.high)):
            if _outside(value, low, high):
                return low if low is not None and value < low else high
        return None

    @property
    def known(self) -> bool:
        """Whether there is anything to judge by."""
        ends = (self.low, self.high, self.stop_low, self.stop_high)
        return any(end is not None for end in ends)

    def slip(self, value: float) -> float | None:
        """The value that was meant where a thousandth or a thousandfold of it was typed."""
        low = self.low if self.low is not None else self.stop_low
        # Where only the least is known, it tells the size of what is meant too.
        high = next((end for end in (self.high, self.stop_high, low) if end is not None), None)
        for meant, suspected in (
            (value / THOUSAND, high is not None and high > 0 and value > high * SLIP),
            (value * THOUSAND, low is not None and 0 < value < low / SLIP),
        ):
            if suspected and self.verdict(meant) == "done":
                return meant
        return None


def _outside(value: float, low: float | None, high: float | None) -> bool:
    return (low is not None and value < low) or (high is not None and value > high)


@dataclass(frozen=True, kw_only=True)
class Measured:
    """A row, its limits and what they make of its value."""

    row: Measurement
    limits: Limits = field(default_factory=Limits)

    @property
    def verdict(self) -> str:
        """Its verdict; nothing while it is not measured or there is nothing to judge by."""
        if self.row.value is None or not self.limits.known:
            return ""
        return self.limits.verdict(self.row.value)

    @property
    def expected(self) -> str:
        """What to expect, in words: the limits where there are some."""
        low, high = self.limits.low, self.limits.high
        if low is None and high is None:
            low, high = self.limits.stop_low, self.limits.stop_high
        kind = self.row.kind
        if low is not None and high is not None:
            return _("%(low)s to %(high)s") % {"low": show(low, kind), "high": show(high, kind)}
        if high is not None:
            return _("at most %(high)s") % {"high": show(high, kind)}
        if low is not None:
            return _("at least %(low)s") % {"low": show(low, kind)}
        return str(self.row.expected)


@dataclass(frozen=True, kw_only=True)
class Known:
    """What the limits are worked out from."""

    records: JobRecords
    power: PowerResult
    channels: Sequence[ChannelResult]
    supply: SupplyResult

    @classmethod
    def of(cls, records: JobRecords) -> Self:
        """Work out of a job what the limits need, and nothing else of it."""
        channels = work_out_channels(records)
        power = work_out_power(records, channels)
        supply = work_out_supply(records, channels, power)
        return cls(records=records, power=power, channels=channels, supply=supply)

    def limits(self, row: Measurement) -> Limits:
        """The limits of a row: worked out, or as somebody typed them."""
        work = _BY_KIND.get(row.derived)
        if work is not None:
            return work(self, row)
        stops = row.beyond == Measurement.Beyond.STOP
        return Limits(
            low=row.low,
            high=row.high,
            stop_low=row.low if stops else None,
            stop_high=row.high if stops else None,
        )


def work_out_measurements(known: Known) -> list[Measured]:
    """Judge every value of a job."""
    return [Measured(row=row, limits=known.limits(row)) for row in known.records.measurements]


def check_measurements(measured: Sequence[Measured]) -> Iterator[Finding]:
    """Name every value that is not as meant."""
    for judged in measured:
        if judged.verdict in {"look", "stop"} and judged.row.value is not None:
            yield Finding(
                code="measured-outside" if judged.verdict == "look" else "measured-far-outside",
                severity=judged.verdict,
                section=SECTION,
                about=about(judged.row),
                name=judged.row.name,
                value=judged.row.value,
                limit=judged.limits.crossed(judged.row.value),
                unit=UNITS[judged.row.kind],
            )


def _rest(known: Known, row: Measurement) -> Limits:
    volts = [
        node.voltage
        for node in known.records.nodes
        if node.kind == PowerNode.Kind.BATTERY and node.voltage
    ]
    if not volts:
        return Limits()
    return Limits(
        low=min(volts) - REST_TOLERANCE, high=max(volts) + REST_TOLERANCE, worked_out=True
    )


def _load(known: Known, row: Measurement) -> Limits:
    """At least what the tree says of the worst state; below what the part needs it must not be."""
    node = next((n for n in known.power.nodes if n.node.pk == row.node_id), None)
    if node is None or node.worst_voltage is None:
        return Limits()
    item = node.node.equipment
    part = known.records.amplifiers.get(item.part_id) if item else None
    return Limits(
        low=node.worst_voltage,
        stop_low=part.minimum_voltage if part else None,
        stop_high=node.node.highest_voltage,
        worked_out=True,
    )


def _speaker(known: Known, row: Measurement) -> Limits:
    result = next((c for c in known.channels if c.channel.pk == row.channel_id), None)
    coils = coil_resistance(result.channel) if result else None
    if result is None or coils is None:
        return Limits()
    low, high = coils * (1 - SPEAKER_SHARE), coils * (1 + SPEAKER_SHARE) + LEADS
    cable = result.cable_resistance
    if cable is None:  # it adds what nobody knows: there is no saying what would be too much
        return Limits(low=low, worked_out=True)
    return Limits(low=low + cable, high=high + cable, worked_out=True)


def coil_resistance(channel: Channel) -> float | None:
    """What a meter reads of everything on the channel, without its cable."""
    part = getattr(channel.speaker.part, "driver", None) if channel.speaker else None
    if part is None or part.re is None:
        return None
    return wired(channel, part.re, part.coils)


def _fuse(known: Known, row: Measurement) -> Limits:
    return Limits(high=LOST_OVER_FUSE)


def _ground(known: Known, row: Measurement) -> Limits:
    return Limits(high=LOST_TO_GROUND)


def _key_off(known: Known, row: Measurement) -> Limits:
    total = known.supply.key_off.total if known.supply.key_off else None
    return Limits(high=total * ASLEEP_SHARE, worked_out=True) if total else Limits()


def _charging(known: Known, row: Measurement) -> Limits:
    low, high = COMMANDED if known.records.job.vehicle.smart_charging else CHARGING
    return Limits(low=low, high=high)


_BY_KIND: Mapping[str, Callable[[Known, Measurement], Limits]] = {
    Derived.REST: _rest,
    Derived.LOAD: _load,
    Derived.SPEAKER: _speaker,
    Derived.FUSE: _fuse,
    Derived.GROUND: _ground,
    Derived.KEY_OFF: _key_off,
    Derived.CHARGING: _charging,
}


def plan(records: JobRecords) -> list[Measurement]:
    """Return what this job still has to plan to measure, from its tree and its channels."""
    have = {_key(row) for row in records.measurements if row.derived}
    rows = [*_supply_rows(records), *_speaker_rows(records)]
    return [row for row in rows if _key(row) not in have]


def _key(row: Measurement) -> tuple[Any, ...]:
    return row.derived, row.node_id, row.channel_id, row.run_id, row.ground_id


def _supply_rows(records: JobRecords) -> Iterator[Measurement]:
    job, loads = records.job, [n for n in records.nodes if n.kind == PowerNode.Kind.AMPLIFIER]
    for node in loads:
        for derived, words in (
            (Derived.REST, _("%(what)s: voltage, everything off")),
            (Derived.LOAD, _("%(what)s: voltage at full output")),
        ):
            name = words % {"what": node.name}
            yield Measurement(job=job, kind="voltage", derived=derived, node=node, name=name)
    for run in (run for run in records.runs if run.kind == run.Kind.POWER and run.fuse):
        name = _("%(what)s: lost over its fuse at full output") % {"what": run.label}
        yield Measurement(job=job, kind="voltage", derived=Derived.FUSE, run=run, name=name)
    for point in records.grounds:
        name = _("%(what)s: lost to the battery’s minus at full output") % {"what": point.name}
        yield Measurement(job=job, kind="voltage", derived=Derived.GROUND, ground=point, name=name)
    if loads:
        name = _("Key-off current, car asleep")
        yield Measurement(job=job, kind="current", derived=Derived.KEY_OFF, name=name)
        name = _("Charging voltage, engine running")
        yield Measurement(job=job, kind="voltage", derived=Derived.CHARGING, name=name)


def _speaker_rows(records: JobRecords) -> Iterator[Measurement]:
    for channel in records.channels:
        if coil_resistance(channel) is not None and channel.amplifier:
            name = _("%(what)s: resistance at the amplifier’s plug") % {"what": channel.name}
            yield Measurement(
                job=records.job,
                kind="resistance",
                derived=Derived.SPEAKER,
                channel=channel,
                name=name,
            )
