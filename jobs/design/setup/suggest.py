"""A channel plan suggested from the equipment list: source, processor, amplifier, speaker.

What stands in the plan stays. Each driver that no channel feeds gets a channel of its own, in
pairs left and right, the highest first; those that play lowest come to the amplifier with the
fewest channels. It is a beginning: everything of it is checked like what a person enters.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil

from django.utils.translation import gettext as _

from acoustics.setup.start import TIMES_RESONANCE
from jobs.design.records.records import JobRecords
from jobs.design.setup.plan import HIGH_RESONANCE, driver_of
from jobs.design.wiring.channels import rating_for, speaker_load
from jobs.models import Channel, EquipmentItem, FactoryPart, Part, Processor

NAME = 60  # letters of a channel's name
LOW_RESONANCE = 60.0  # below, or in a box, it is the bass; common practice, no source [Hz]
STEP = 100.0  # a corner is dialled in round figures [Hz]
Side = Channel.Side


@dataclass(frozen=True, kw_only=True)
class Suggestion:
    """Channels that are not saved, and drivers for which something ran out: (name, why)."""

    channels: Sequence[Channel]
    left_over: Sequence[tuple[str, str]]


def suggest(records: JobRecords) -> Suggestion:
    """Suggest a channel for each driver on the list that none feeds."""
    amplifiers = _free_amplifier_channels(records)
    outputs = _free_outputs(records)
    has_processor = any(_is_processor(item) for item in records.equipment)
    position = max((channel.position for channel in records.channels), default=0)
    suggested: list[Channel] = []
    left_over = []
    for item, side in _unfed(records):
        channel = Channel(
            job=records.job, position=position + len(suggested) + 1, name=_name(item, side),
            source=_source(records), side=side, speaker=item, **_high_pass(item),
        )  # fmt: skip
        place = _taken(channel, amplifiers, records)
        if place is None:  # two coils in series are borne where side by side they are not
            channel.coil_connection = Channel.Connection.SERIES
            place = _taken(channel, amplifiers, records)
        if place is None:
            left_over.append((channel.name, _("no amplifier channel that bears it is left")))
            continue
        if has_processor and not outputs:
            left_over.append((channel.name, _("no processor output is left")))
            continue
        amplifiers.remove(place)
        channel.amplifier, channel.amplifier_channel = place
        if outputs:
            channel.processor, channel.processor_output = outputs.pop(0)
        suggested.append(channel)
    return Suggestion(channels=suggested, left_over=left_over)


def _unfed(records: JobRecords) -> Iterator[tuple[EquipmentItem, str]]:
    """Each piece of a driver that no channel feeds, with its side; the highest comes first."""
    fed: Counter[int | None] = Counter()
    for channel in records.channels:
        fed[channel.speaker_id] += channel.speaker_count
    radiators = {box.radiator_id for box in records.boxes}
    drivers = [
        item
        for item in records.equipment
        if item.part.kind == Part.Kind.DRIVER and item.pk not in radiators
    ]
    for item in sorted(drivers, key=_resonance, reverse=True):
        sides = [Side.LEFT, Side.RIGHT] if item.quantity == 2 else [Side.BOTH] * item.quantity
        yield from ((item, side) for side in sides[fed[item.pk] :])


def _resonance(item: EquipmentItem) -> float:
    """Unknown counts as middling: neither first nor at the bass amplifier."""
    driver = driver_of(item)
    return driver.fs if driver and driver.fs else HIGH_RESONANCE / 2


def _name(item: EquipmentItem, side: str) -> str:
    which = "" if side == Side.BOTH else f" {Side(side).label}"
    return f"{item.part.name[: NAME - len(which)]}{which}"


def _source(records: JobRecords) -> str:
    """What the rest of the plan plays from, else the head unit that stays."""
    sources = Counter(channel.source for channel in records.channels)
    if sources:
        return sources.most_common(1)[0][0]
    stays = ("", FactoryPart.Fate.IN_USE)
    units = [part for part in records.factory_parts if part.kind == FactoryPart.Kind.HEAD_UNIT]
    return _("factory head unit") if any(part.fate in stays for part in units) else _("head unit")


def _high_pass(item: EquipmentItem) -> dict[str, object]:
    """A driver that resonates high is never left without one."""
    fs = _resonance(item)
    if fs < HIGH_RESONANCE:
        return {}
    corner = STEP * ceil(TIMES_RESONANCE * fs / STEP)
    return {"highpass_frequency": corner, "highpass_shape": "lr24"}


Place = tuple[EquipmentItem, int]


def _free_amplifier_channels(records: JobRecords) -> list[Place]:
    used = set()
    for channel in records.channels:
        if channel.amplifier_channel:
            spans = (0, 1) if channel.bridged else (0,)
            used |= {(channel.amplifier_id, channel.amplifier_channel + more) for more in spans}
    return [
        (item, number)
        for item in records.equipment
        if (amplifier := records.amplifiers.get(item.part_id)) is not None
        for number in range(1, amplifier.channels + 1)
        if (item.pk, number) not in used
    ]


def _is_processor(item: EquipmentItem) -> bool:
    part = getattr(item.part, "processor", None)
    return part is not None and part.device == Processor.Device.PROCESSOR


def _free_outputs(records: JobRecords) -> list[Place]:
    used = {(channel.processor_id, channel.processor_output) for channel in records.channels}
    return [
        (item, number)
        for item in records.equipment
        if _is_processor(item)
        for number in range(1, item.part.processor.outputs + 1)
        if (item.pk, number) not in used
    ]


def _taken(channel: Channel, free: Sequence[Place], records: JobRecords) -> Place | None:
    """The first free channel of an amplifier that bears the load and has a figure for it."""
    assert channel.speaker is not None
    load = speaker_load(channel)
    boxed = {box.driver_id for box in records.boxes}
    low = channel.speaker.pk in boxed or _resonance(channel.speaker) < LOW_RESONANCE
    by_size = sorted(
        free, key=lambda place: records.amplifiers[place[0].part_id].channels, reverse=not low
    )
    for item, number in by_size:
        amplifier = records.amplifiers[item.part_id]
        lowest = amplifier.lowest_load
        if load is not None and lowest is not None and load < lowest:
            continue
        if load is None or rating_for(amplifier, channel, load) is not None:
            return item, number
    return None
