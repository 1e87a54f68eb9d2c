"""Panels with a cover, of many jobs at once: what their metres follow from, in a fixed number of
queries."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from jobs.design.records.as_built import equip_as_built
from jobs.design.records.linking import link
from jobs.design.records.reading import ON_BOXES, PART
from jobs.design.records.records import ON_TRIM
from jobs.models import Box, EquipmentItem, ItemAsBuilt, Job, TrimPanel


@dataclass
class Covered:
    """One job: its covered panels, the boxes they cover, its equipment as it was fitted."""

    job: Job
    panels: list[TrimPanel] = field(default_factory=list)
    boxes: list[Box] = field(default_factory=list)
    equipment: list[EquipmentItem] = field(default_factory=list)


def load_covered(jobs: Iterable[Job]) -> Sequence[Covered]:
    """Read what covers the panels of these jobs, in the order of the jobs."""
    by_job = {job.pk: Covered(job=job) for job in jobs}
    panels = TrimPanel.objects.filter(job__in=by_job, cover__isnull=False)
    panels = panels.select_related("cover", "material")
    for panel in panels.prefetch_related(*(name for _model, name in ON_TRIM)):
        by_job[panel.job_id].panels.append(panel)
    _read_equipment(by_job)
    behind = {p.box_id for covered in by_job.values() for p in covered.panels if p.box_id}
    boxes = Box.objects.filter(pk__in=behind, chosen=True).select_related("material", "channel")
    for box in boxes.prefetch_related(*(name for _model, name in ON_BOXES)):
        covered = by_job[box.job_id]
        equipment = {item.pk: item for item in covered.equipment}
        link(box, "driver", equipment)
        link(box, "radiator", equipment)
        covered.boxes.append(box)
    return list(by_job.values())


def _read_equipment(by_job: dict[int, Covered]) -> None:
    items = EquipmentItem.objects.filter(job__in=by_job).select_related("fastener", *PART)
    changed: dict[int, list[ItemAsBuilt]] = defaultdict(list)
    for row in ItemAsBuilt.objects.filter(job__in=by_job).select_related("done_by", *PART):
        changed[row.job_id].append(row)
    for item in items:
        by_job[item.job_id].equipment.append(item)
    for covered in by_job.values():
        equip_as_built(covered.equipment, changed[covered.job.pk])
