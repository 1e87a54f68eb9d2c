"""The counts the board shows, kept with the job so that the board computes nothing.

A count is true or it is none: whatever may change it takes it away in the same step as it is
written. Whoever works the job out next, for a page of it or because the board asks, counts it
anew; who looks at the board meanwhile reads that it is being renewed.
"""

from __future__ import annotations

import secrets
import time
from functools import partial

from django.db import transaction
from django.db.models import Q, QuerySet

from jobs.design.job.whole import JobDesign, load, work_out
from jobs.locks import held
from jobs.models import (
    Box,
    Conductor,
    Cover,
    Customer,
    Fuse,
    GroundPoint,
    Holder,
    Job,
    Part,
    Record,
    Ring,
    Run,
    SheetMaterial,
    Terminal,
    TrimPanel,
    Vehicle,
    Workshop,
)

AT_ONCE = 2.0  # seconds somebody waits while counts are renewed; the board does the rest


def forget(job: Job) -> None:
    """Take a job's counts away; called in the transaction of every save, while it is held."""
    _take_away(Job.with_removed.filter(pk=job.pk))


def _take_away(jobs: QuerySet[Job]) -> None:
    jobs.update(open_stops=None, open_looks=None, edition=secrets.randbits(31))


def keep(design: JobDesign) -> None:
    """Keep what a job that was worked out counts, unless somebody saved since it was read."""
    job = design.job
    if job.open_stops is None:
        job.open_stops, job.open_looks = len(design.open_stops), len(design.open_looks)
        Job.with_removed.filter(pk=job.pk, edition=job.edition).update(
            open_stops=job.open_stops, open_looks=job.open_looks
        )


def refresh(job: Job) -> None:
    """Count a job's open findings anew, now."""
    with held(job):
        forget(job)
        fresh = Job.with_removed.select_related("vehicle__customer", "consultant").get(pk=job.pk)
        keep(work_out(load(fresh)))


def refresh_all(record: Record | Workshop) -> None:
    """Count every job anew that a record stands in; called in the transaction that saves it."""
    jobs = touched_by(record)
    # Held in one order, so that two who save what the same jobs share do not wait for each other.
    list(jobs.select_for_update(no_key=True).order_by("pk").values_list("pk", flat=True))
    _take_away(jobs)
    transaction.on_commit(partial(_renew, jobs), robust=True)


def _renew(jobs: QuerySet[Job]) -> None:
    """Count for as long as somebody waits."""
    until = time.monotonic() + AT_ONCE
    for job in jobs.filter(open_stops=None).order_by("-number"):
        refresh(job)
        if time.monotonic() > until:
            break


def touched_by(record: Record | Workshop) -> QuerySet[Job]:
    """Every job whose findings may follow from a record that many jobs share."""
    if isinstance(record, Workshop):
        return Job.objects.all()
    if isinstance(record, Job):
        return Job.objects.filter(pk=record.pk)
    if isinstance(record, Vehicle):
        return Job.objects.filter(vehicle=record)
    if isinstance(record, Customer):
        return Job.objects.filter(vehicle__customer=record)
    assert isinstance(record, Part)
    return Job.objects.filter(_uses(record))


def _uses(part: Part) -> Q:
    """Where a part stands; a row that was removed may come back."""
    pk = part.pk
    used = Q(pk__in=part.uses.values("job")) | Q(pk__in=part.fitted_instead.values("job"))
    if isinstance(part, SheetMaterial):
        # A side of another thickness is cut from whichever sheet of the catalogue has it.
        for model in (Box, Ring, TrimPanel):
            used |= Q(pk__in=model.with_removed.values("job"))
    elif isinstance(part, Cover):
        used |= Q(pk__in=TrimPanel.with_removed.filter(cover_id=pk).values("job"))
    elif isinstance(part, Conductor | Fuse | Terminal | Holder):
        runs = Run.with_removed.filter(
            Q(conductor_id=pk) | Q(return_conductor_id=pk)
            | Q(fuse_id=pk) | Q(end_fuse_id=pk)
            | Q(fuse_holder_id=pk) | Q(end_fuse_holder_id=pk)
            | Q(fuse_terminal_id=pk) | Q(end_fuse_terminal_id=pk)
            | Q(start_terminal_id=pk) | Q(end_terminal_id=pk)
            | Q(return_start_terminal_id=pk) | Q(return_end_terminal_id=pk)
        )  # fmt: skip
        grounds = GroundPoint.with_removed.filter(conductor_id=pk)
        used |= Q(pk__in=runs.values("job")) | Q(pk__in=grounds.values("job"))
    return used
