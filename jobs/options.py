"""Options of a whole job: kept as they are designed, taken up again, chosen.

Taking one up writes its rows over those of the job, each as a change of its own that its history
keeps; rows it does not have are removed and may be brought back. What was done meanwhile stays:
ticks, serial numbers, what was ordered, codes of panels.
"""

from __future__ import annotations

from typing import Any

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext as _

from jobs.design.job import board_counts
from jobs.design.records.changes import Present
from jobs.design.records.data import CHILDREN, Rows, carried, read_rows, to_data
from jobs.design.records.records import JobRecords, load
from jobs.locks import held
from jobs.models import (
    Box,
    Channel,
    DampingLayer,
    DesignOption,
    EquipmentItem,
    FactoryPart,
    Fixing,
    GroundPoint,
    Job,
    JobPart,
    LoomJoin,
    OptionCopy,
    Panel,
    PanelContent,
    PanelStep,
    PowerNode,
    PriceLine,
    Ring,
    Run,
    Stage,
    TrimPanel,
    WoodStep,
)

MOST = 12  # kept at once
# What a design is made of, whatever another points at before it.
DESIGNED: tuple[type[JobPart], ...] = (
    *(EquipmentItem, FactoryPart, Panel, Channel, Box, Ring, TrimPanel, WoodStep),
    *(PowerNode, GroundPoint, Run, LoomJoin, Fixing, DampingLayer, PanelStep, PanelContent),
    PriceLine,
)
# How far a row has got, and not what it is.
DONE = {
    *("state", "cover_state", "serial", "expected_on", "shelf", "done_by_id", "done_at"),
    *("token", "empty_by_id", "empty_at", "id", "job_id", "version", "removed_at"),
}


class RefusedError(Exception):
    """Why it was not done, in words for whoever tried."""


def keep(job: Job, name: str, text: str = "") -> DesignOption:
    """Keep the design as it stands as an option."""
    with held(job):
        if job.options.count() >= MOST:
            raise RefusedError(_("%(n)d options are kept: remove one first.") % {"n": MOST})
        records = _as_saved(job)
        option = DesignOption.objects.create(
            job=job, name=name, text=text, fingerprint=Present.of(records).fingerprint
        )
        OptionCopy.objects.create(option=option, data=to_data(records))
        return option


def _as_saved(job: Job) -> JobRecords:
    """Read a job anew: what is at hand may hold what nobody saved."""
    related = ("vehicle__customer", "consultant")
    return load(Job.with_removed.select_related(*related).get(pk=job.pk))


def is_kept(records: JobRecords) -> bool:
    """Whether the design as it stands is one of the options; nothing of it may be unsaved."""
    now = Present.of(records).fingerprint
    return records.job.options.filter(fingerprint=now).exists()


def take_up(option: DesignOption, *, choose: bool = False) -> None:
    """Make an option the design of its job; what was designed is kept as an option before."""
    job = option.job
    with held(job):
        job.refresh_from_db()
        stages = list(Stage)
        if stages.index(Stage(job.stage)) >= stages.index(Stage.BAY):
            raise RefusedError(_("The work has begun: what changes now is an addition."))
        if not is_kept(_as_saved(job)):
            keep(job, _("before “%(name)s”") % {"name": option.name[:20]})
        _write(job, option.copy.data)
        option.refresh_from_db()
        # Known by what it is now, down to the figures of the catalogue.
        option.fingerprint = Present.of(_as_saved(job)).fingerprint
        if choose:
            job.options.exclude(pk=option.pk).update(chosen_at=None)
            option.chosen_at = timezone.now()
        option.save()
        board_counts.forget(job)


def _write(job: Job, data: dict[str, Any]) -> None:
    rows = read_rows(data)
    wakes = {stored["id"]: stored["wakes"] for stored in data["rows"].get("Run", ())}
    for model in DESIGNED:
        wanted = {pk: row for pk, row in rows.get(model, {}).items() if _is_of(row, job)}
        there = {row.pk: row for row in model.with_removed.filter(job=job)}
        for pk, row in there.items():
            if pk not in wanted and row.removed_at is None:
                row.remove()
        for pk, kept in wanted.items():
            row = _put(model, kept, there.get(pk))
            _put_children(row, rows)
            if isinstance(row, Run):
                row.wakes.set(wakes[pk])
            row.note_what_hangs()


def _is_of(row: Any, job: Job) -> bool:
    return bool(row.job_id == job.pk)


def _put(model: type[JobPart], kept: Any, there: Any) -> Any:
    """Write a kept row over the one of the same key, or make it anew."""
    if there is None:
        row = model(**{name: getattr(kept, name) for name in carried(model)})
        row.removed_at = None
        row.save(force_insert=True)
        return row
    for name in carried(model).keys() - DONE:
        setattr(there, name, getattr(kept, name))
    there.removed_at = None
    there.version += 1
    there.save()
    return there


def _put_children(row: Any, rows: Rows) -> None:
    """Write the rows that are part of another as they were kept."""
    for _name, child, back in CHILDREN.get(type(row), ()):
        of_it: models.QuerySet[Any] = child._base_manager.filter(**{back: row.pk})
        of_it.delete()
        for kept in rows.get(child, {}).values():
            if getattr(kept, back) == row.pk:
                fields = {name: getattr(kept, name) for name in carried(child) if name != "id"}
                child(**fields).save()
