"""What one box of a job is worked out from, read without the rest while somebody types at it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields
from typing import Any, NoReturn

from jobs.design.records.as_built import parts_as_built, runs_as_built
from jobs.design.records.decisions import decisions_of
from jobs.design.records.linking import link_shared
from jobs.design.records.prepared import rows_of, sheet_materials
from jobs.design.records.reading import (
    amplifiers_of,
    boxes_of,
    channels_of,
    equipment_of,
    sweeps_of,
)
from jobs.design.records.records import JobRecords
from jobs.models import (
    Box,
    Conductor,
    FactoryAsBuilt,
    FactoryPart,
    Job,
    Run,
    RunAsBuilt,
    SheetMaterial,
    Workshop,
)

UNREAD = "these rows of the job were not read"


class _Unread(Sequence[Any]):
    """Rows nobody read: whoever asks for one is stopped, instead of being told there is none."""

    def __getitem__(self, at: Any) -> NoReturn:
        raise LookupError(UNREAD)

    def __len__(self) -> NoReturn:
        raise LookupError(UNREAD)


def load_for_box(job: Job, box: Box) -> JobRecords:
    """Read equipment, channels and boxes, their sheets, cables and decisions; nothing else.

    `box` is the one that is typed at, as it was read already.
    """
    equipment, changed_items = equipment_of(job)
    by_id = {item.pk: item for item in equipment}
    changed_parts = rows_of(FactoryAsBuilt, job)
    factory = parts_as_built(rows_of(FactoryPart, job), changed_parts)
    channels = channels_of(job, by_id, {part.pk: part for part in factory})
    boxes = boxes_of(job, by_id, {channel.pk: channel for channel in channels}, at_hand=box)
    runs, changed_runs = rows_of(Run, job), rows_of(RunAsBuilt, job)
    decisions = decisions_of(job)
    materials = sheet_materials()
    kinds = (SheetMaterial, Conductor)
    link_shared(boxes, runs, changed_runs, kinds=kinds, at_hand=materials)
    unread = dict.fromkeys((field.name for field in fields(JobRecords)), _Unread())
    return JobRecords(
        **unread  # type: ignore[arg-type]
        | {
            "job": job,
            "equipment": equipment,
            "amplifiers": amplifiers_of(equipment),
            "factory_parts": factory,
            "parts_as_built": changed_parts,
            "items_as_built": changed_items,
            "sweeps": sweeps_of(job, by_id),
            "channels": channels,
            "boxes": boxes,
            "sheet_materials": materials,
            "workshop": Workshop.current(),
            # Of the cables what they hold back counts here, not the way they take.
            "runs": runs_as_built(runs, changed_runs, {}),
            "runs_as_built": changed_runs,
            "decisions": decisions,
        }
    )
