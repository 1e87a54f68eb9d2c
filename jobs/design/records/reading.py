"""Reading what sounds of a job: its equipment, its channels and its boxes, linked to each other."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.db.models import Model, QuerySet

from jobs.compiled import compiled
from jobs.design.records.as_built import equip_as_built, is_of_former_part
from jobs.design.records.linking import link
from jobs.design.records.prepared import hang, hang_on, rows_of
from jobs.models import (
    Amplifier,
    AmplifierRating,
    Box,
    BoxCorner,
    BoxFill,
    BoxSection,
    Channel,
    DriverSweep,
    EquipmentItem,
    InnerBrace,
    ItemAsBuilt,
    Job,
    Obstacle,
    ProcessorFile,
    SideThickness,
)

PART = (
    "part__driver",
    "part__amplifier",
    "part__processor",
    "part__holder",
    "part__supply",
)
# What hangs on a box, in rows of their own.
ON_BOXES: list[tuple[type[Model], str]] = [
    (BoxCorner, "corners"),
    (Obstacle, "obstacles"),
    (InnerBrace, "braces"),
    (SideThickness, "sides"),
    (BoxFill, "fillings"),
    (BoxSection, "level_cuts"),
]


def equipment_of(
    job: Job, fitted: ItemAsBuilt | None = None
) -> tuple[list[EquipmentItem], list[ItemAsBuilt]]:
    """Equipment as it was really fitted, and the rows that say so."""
    equipment, changed = _equipment(job.pk), _fitted(job.pk)
    for row in (*equipment, *changed):
        row.job = job
    if fitted is not None:
        changed = [*(row for row in changed if row.item_id != fitted.item_id), fitted]
    equip_as_built(equipment, changed)
    return equipment, changed


@compiled
def _equipment(job: int) -> QuerySet[EquipmentItem]:
    return EquipmentItem.objects.filter(job=job).select_related("fastener", *PART)


@compiled
def _fitted(job: int) -> QuerySet[ItemAsBuilt]:
    return ItemAsBuilt.objects.filter(job=job).select_related("done_by", *PART)


def amplifiers_of(equipment: Iterable[EquipmentItem]) -> dict[int, Amplifier]:
    """The amplifiers of the equipment, with what each gives into which load."""
    keys = [item.part_id for item in equipment]
    amplifiers = {each.pk: each for each in _amplifiers({key for key in keys if key})}
    hang_on(amplifiers.values(), _ratings(amplifiers), of="amplifier", as_="ratings")
    return amplifiers


@compiled
def _amplifiers(keys: list[int]) -> QuerySet[Amplifier]:
    return Amplifier.objects.filter(pk__in=keys)


@compiled
def _ratings(amplifiers: list[int]) -> QuerySet[AmplifierRating]:
    return AmplifierRating.objects.filter(amplifier__in=amplifiers)


def sweeps_of(job: Job, equipment: dict[Any, EquipmentItem]) -> list[DriverSweep]:
    """The drivers that were measured; of equipment that was removed it waits for that."""
    sweeps = [sweep for sweep in rows_of(DriverSweep, job) if sweep.item_id in equipment]
    for sweep in sweeps:
        link(sweep, "item", equipment)
    return [sweep for sweep in sweeps if not is_of_former_part(sweep, sweep.item)]


def processor_files_of(job: Job, equipment: dict[Any, EquipmentItem]) -> list[ProcessorFile]:
    """Files of processors; of equipment that was removed they wait for that."""
    files = [row for row in rows_of(ProcessorFile, job) if row.processor_id in equipment]
    for row in files:
        link(row, "processor", equipment)
    return files


def channels_of(job: Job, equipment: dict[Any, EquipmentItem], factory: Any) -> list[Channel]:
    """The channel plan, linked to what plays and what drives it."""
    channels = rows_of(Channel, job)
    for channel in channels:
        link(channel, "processor", equipment)
        link(channel, "amplifier", equipment)
        link(channel, "speaker", equipment)
        link(channel, "factory_speaker", factory)
    return channels


def boxes_of(
    job: Job,
    equipment: dict[Any, EquipmentItem],
    channels: dict[Any, Channel],
    *,
    at_hand: Box | None = None,
) -> list[Box]:
    """The boxes with their corners and braces, linked to driver and channel.

    Beside a box at hand, which has its own, those of the others are read once they are asked for.
    """
    boxes = rows_of(Box, job)
    for model, name in ON_BOXES if at_hand is None else ():
        hang(model, boxes, job, of="box", as_=name)
    for box in boxes:
        if at_hand is not None and box.pk == at_hand.pk:
            box.share_lists(at_hand)
        link(box, "driver", equipment)
        link(box, "radiator", equipment)
        link(box, "channel", channels)
    return boxes
