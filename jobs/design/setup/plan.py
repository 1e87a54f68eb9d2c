"""The channel plan held against the parts on it: what is fed twice, played too low, or left out."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Container, Iterable, Iterator, Sequence
from typing import Any

import numpy as np

from acoustics.circuit.filters import Way
from acoustics.circuit.solver import Sweep, sweep
from acoustics.enclosure.boxes import InfiniteBaffle
from acoustics.errors import AcousticsError
from acoustics.setup.start import TIMES_RESONANCE, beams_from
from acoustics.sources import Source
from jobs.design.box.channel_feed import filters_of
from jobs.design.box.drivers import completed
from jobs.design.box.figures import FREQUENCIES
from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords
from jobs.design.wiring.channels import SECTION, ChannelResult
from jobs.models import Channel, Driver, EquipmentItem, FactoryPart, Part, Processor

# A driver whose resonance lies here or above bears no bass; common practice, no source [Hz].
HIGH_RESONANCE = 300.0
OUT = (FactoryPart.Fate.UNPLUGGED, FactoryPart.Fate.REMOVED, FactoryPart.Fate.REPLACED)


def check_plan(
    records: JobRecords, channels: Sequence[ChannelResult], boxed: Container[int]
) -> list[Finding]:
    """Hold the channel plan against its parts; `boxed` are the channels that feed a box."""
    in_boxes = {box.driver_id for box in records.boxes if box.driver_id}
    findings = [*_speakers(records), *_shared_outputs(records.channels)]
    for result in channels:
        channel = result.channel
        findings += _filters(channel)
        if channel.pk not in boxed and channel.speaker_id not in in_boxes:
            findings += _travel(result)
        part = channel.factory_speaker
        if part is not None and part.fate in OUT:
            findings.append(
                _finding(channel, "factory-speaker-is-out", "look", value=part.get_fate_display())
            )
    return findings


def driver_of(item: EquipmentItem | None) -> Driver | None:
    """Return the figures of a loudspeaker driver, None for anything else."""
    return getattr(item.part, "driver", None) if item else None


def _finding(channel: Channel, code: str, severity: str, *detail: str, **data: Any) -> Finding:
    return Finding(
        code=code, severity=severity, section=SECTION, about=about(channel, *detail),
        name=channel.name, **data,
    )  # fmt: skip


def _speakers(records: JobRecords) -> Iterator[Finding]:
    """Count the drivers on the list against those that channels feed; a radiator is fed by none."""
    fed: Counter[int] = Counter()
    for channel in records.channels:
        if channel.speaker_id:
            fed[channel.speaker_id] += channel.speaker_count
    radiators = {box.radiator_id for box in records.boxes}
    for item in records.equipment:
        if item.part.kind != Part.Kind.DRIVER or (item.pk in radiators and not fed[item.pk]):
            continue
        if fed[item.pk] == item.quantity or not records.channels:
            continue
        too_many = fed[item.pk] > item.quantity
        yield Finding(
            code="speakers-fed-twice" if too_many else "speakers-not-fed",
            severity="look",
            section=SECTION,
            about=about(item),
            name=str(item),
            value=str(fed[item.pk]),
            limit=str(item.quantity),
        )


def _shared_outputs(channels: Iterable[Channel]) -> Iterator[Finding]:
    """One output of a processor says one thing: channels on it that want two cannot both have it.

    Two amplifier channels on one output with equal settings are a way to feed them.
    """
    users: dict[tuple[int, int], list[Channel]] = defaultdict(list)
    for channel in channels:
        if channel.processor_id and channel.processor_output:
            users[channel.processor_id, channel.processor_output].append(channel)
    for (_processor, output), sharing in users.items():
        for channel in sharing[1:]:
            if _dialled(channel) != _dialled(sharing[0]):
                yield _finding(
                    channel, "processor-output-shared", "look", str(output),
                    value=str(output), also=(about(sharing[0]),),
                )  # fmt: skip


def _dialled(channel: Channel) -> tuple[object, ...]:
    names = ("highpass_frequency", "highpass_shape", "lowpass_frequency", "lowpass_shape")
    return tuple(getattr(channel, name) for name in (*names, "level", "delay", "inverted"))


def _filters(channel: Channel) -> Iterator[Finding]:
    """Hold the filters against each other, the driver and the processor."""
    high, low = channel.highpass_frequency, channel.lowpass_frequency
    if high and low and high >= low:
        yield _finding(
            channel, "high-pass-above-low-pass", "look", value=high, limit=low, unit="Hz"
        )
    rate = sample_rate(channel)
    highest = max(high or 0.0, low or 0.0)
    if rate and highest >= rate / 2:
        yield _finding(
            channel, "filter-beyond-processor", "look", value=highest, limit=rate / 2, unit="Hz"
        )
    part = driver_of(channel.speaker)
    if part is None or channel.amplifier is None:
        return
    yield from _low_end(channel, part, high)
    if low and part.sd and low > beams_from(part.sd):
        yield _finding(
            channel, "low-pass-where-cone-beams", "note", value=low, limit=beams_from(part.sd),
            unit="Hz", source=(Source.COMMON_PRACTICE,),
        )  # fmt: skip


def processor_of(channel: Channel) -> Processor | None:
    """Return the catalogue's processor a channel comes from."""
    return getattr(channel.processor.part, "processor", None) if channel.processor else None


def sample_rate(channel: Channel) -> float | None:
    """Return the rate the channel's processor works at, None where it is not known."""
    processor = processor_of(channel)
    return processor.sample_rate if processor else None


def _low_end(channel: Channel, part: Driver, high: float | None) -> Iterator[Finding]:
    """A driver that resonates high is played from well above its resonance, or it breaks."""
    if part.fs is None and not high:
        yield _finding(channel, "lowest-it-bears-unknown", "look")
    if part.fs is None or part.fs < HIGH_RESONANCE:
        return
    wanted = TIMES_RESONANCE * part.fs
    if not high:
        yield _finding(
            channel, "no-high-pass", "stop", value=part.fs, limit=wanted, unit="Hz",
            source=(Source.COMMON_PRACTICE,),
        )  # fmt: skip
    elif high < wanted:
        yield _finding(
            channel, "high-pass-near-resonance", "look", value=high, limit=wanted, unit="Hz",
            source=(Source.COMMON_PRACTICE,),
        )  # fmt: skip


def in_the_open(result: ChannelResult, filters: Way | None) -> Sweep | None:
    """Play one driver of a channel without a box at the amplifier's full voltage.

    None where its figures are not enough.
    """
    part, channel = driver_of(result.channel.speaker), result.channel
    if part is None or result.voltage is None:
        return None
    share = channel.speaker_count if channel.connection == Channel.Connection.SERIES else 1
    try:
        return sweep(
            driver=completed(part).driver,
            box=InfiniteBaffle(),
            frequencies=FREQUENCIES,
            voltage=result.voltage / share,
            filters=filters,
        )
    except AcousticsError:
        return None


def _travel(result: ChannelResult) -> Iterator[Finding]:
    """How far a driver without a box moves at the amplifier's full voltage, filters as set.

    A door counts as an endless baffle: its spring is weak, and then the cone moves most.
    """
    part, channel = driver_of(result.channel.speaker), result.channel
    if part is None or part.xmax is None or result.voltage is None:
        return
    solved = in_the_open(result, filters_of(channel))
    if solved is None:
        return  # its figures are not enough to say; who needs them is told where they are entered
    travel = float(np.max(solved.excursion))
    if travel > part.xmax:
        yield _finding(
            channel, "moves-beyond-xmax", "look", value=travel, limit=part.xmax, unit="m",
            source=(Source.DRIVER_SHEET,),
        )  # fmt: skip
