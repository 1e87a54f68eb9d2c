"""The page of one car in the bay: what is next, panel by panel, and what is to measure."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from jobs import access
from jobs.design.job.after.visits import photos_of
from jobs.design.job.closing import closing_of
from jobs.design.job.earlier.panel_sets import earlier_jobs
from jobs.design.job.panels import PanelResult
from jobs.design.job.stages import open_before_handover
from jobs.design.job.whole import JobDesign
from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords, otherwise
from jobs.models import (
    BayNote,
    CautionRead,
    Job,
    PanelClosing,
    PanelStep,
    Photo,
    ServiceVisit,
    User,
)
from jobs.pages.bay import values
from jobs.pages.forms import strip


@dataclass(frozen=True, kw_only=True)
class PanelView:
    """A panel on the page: what is behind it, how far it is, what bars it."""

    result: PanelResult
    closing: PanelClosing | None
    bars: Sequence[Finding]
    notes: Sequence[BayNote]

    @property
    def done(self) -> int:
        """Steps that are ticked."""
        return sum(step.done_at is not None for step in self.result.steps)

    @property
    def next_step(self) -> PanelStep | None:
        """The first step that is still open and may be done."""
        if self.bars or self.closing:
            return None
        return next((step for step in self.result.steps if step.done_at is None), None)


@dataclass(frozen=True, kw_only=True)
class Reopening:
    """A panel that was not opened again: what was typed as the reason, and what is wrong."""

    panel: int
    reason: str
    wrong: str


def panel_views(design: JobDesign) -> list[PanelView]:
    """Every panel of a job, those without steps too."""
    return [
        PanelView(
            result=result,
            closing=closing_of(result.panel.pk, design.records.closings),
            bars=[stop for stop in design.open_stops if stop.concerns(about(result.panel))],
            notes=[row for row in design.records.notes if row.panel_id == result.panel.pk],
        )
        for result in design.panels
    ]


def following_of(panels: Sequence[PanelView]) -> PanelView | None:
    """The panel to go on with: all come off before the first goes back on, the last off first."""
    for view in panels:
        if view.next_step and view.next_step.phase != PanelStep.Phase.REFIT:
            return view
    return next((view for view in reversed(panels) if view.next_step), None)


def page(
    request: HttpRequest,
    code: str,
    *,
    bound: Mapping[int, forms.Form] | None = None,
    asked: PanelStep | None = None,
    reopening: Reopening | None = None,
) -> HttpResponse:
    """Show the car; what was refused and a tick that is asked about stand where they were."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    panels = panel_views(design)
    following = following_of(panels)
    read = read_on(job, user, timezone.localdate())
    context = {
        "job": job,
        "panels": panels,
        "following": following,
        "elsewhere_notes": [row for row in design.records.notes if row.panel_id is None],
        "cautions": design.cautions,
        "cautions_read": None in read,
        "read_at": read,
        "open_stops": design.open_stops,
        "bay_findings": design.findings_of("bay"),
        "lines": values.lines(job, design.measured, bound or {}),
        "built": otherwise(design.records),
        "visits": open_visits(design.records),
        "earlier": earlier_jobs(job),
        "before_handover": len(open_before_handover(design)),
        "seen": newest(job),
        "asked": asked,
        "reopening": reopening,
        "refused": bool(bound),
        "may_spec": access.may_spec(user),
        "steps": strip.steps(request, job, "bay"),
    }
    status = 422 if bound or reopening else 409 if asked else 200
    return render(request, "pages/bay/bay.html", context, status=status)


def open_visits(records: JobRecords) -> list[tuple[ServiceVisit, list[Photo]]]:
    """What a car that had left is here for, each with its photos; none of one that never left."""
    if records.job.left_on is None:
        return []
    today = timezone.localdate()
    return [
        (visit, photos_of(records, visit))
        for visit in records.visits
        if visit.day == today or not visit.settled
    ]


def newest(job: Job) -> int:
    """The newest entry of the history of this car's steps: what came after it is news."""
    entry = PanelStep.history.filter(job=job).order_by("-history_id").first()
    return int(entry.history_id) if entry else 0


def read_on(job: Job, user: User, day: dt.date) -> set[int | None]:
    """The panels whose cautions this person has read on a day; None for those of the car."""
    mine = CautionRead.objects.filter(job=job, read_by=user, read_on=day)
    return set(mine.values_list("panel", flat=True))
