"""After hand-over: the car as it is now, who looked at it since, and what was changed and why."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, ClassVar

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.calendar.reminders import first_check, of_a_job
from jobs.design.job.after.handed_over import HandedOver
from jobs.design.job.after.visits import work_out_aftercare
from jobs.design.records.as_built import SAYS
from jobs.design.records.changes import Present, in_words
from jobs.design.records.pieces import with_numbers
from jobs.design.records.records import JobRecords
from jobs.design.wiring.cores import fuses_of
from jobs.models import (
    Box,
    BoxAsBuilt,
    CableLot,
    Channel,
    ChannelSetting,
    DampingLayer,
    EquipmentItem,
    FactoryPart,
    Fuse,
    GroundPoint,
    LoomJoin,
    Panel,
    PanelContent,
    Part,
    PowerNode,
    Ring,
    Run,
    ServiceVisit,
    TrimPanel,
    User,
)
from jobs.pages.forms import strip
from jobs.pages.forms.days import DAY, DaysForm
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind
from jobs.portable.origin import data_here


class VisitForm(DaysForm[ServiceVisit]):
    """One matter of a visit: what it is about, what was found, what was changed and why."""

    over: ClassVar = {"day"}
    fieldsets: ClassVar = [
        (gettext_lazy("The visit"), ["day", "reason", "person"]),
        (gettext_lazy("What it is about"), ["panel", "run", "item", "told"]),
        (gettext_lazy("What came of it"), ["seen", "changed", "settled"]),
    ]

    class Meta:
        model = ServiceVisit
        fields = (
            *("day", "reason", "person", "panel", "run", "item", "told"),
            *("seen", "changed", "settled"),
        )
        widgets: ClassVar = {"day": DAY}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        job = self.instance.job
        self.offer("panel", job.panels.all())
        self.offer("run", job.runs.all())
        self.offer("item", job.equipmentitems.select_related("part"))
        self.offer("person", User.objects.exclude(roles=[]))


class LotForm(RecordForm[CableLot]):
    """The lot of a cable, as it is printed on its drum or sleeve."""

    class Meta:
        model = CableLot
        fields = ("conductor", "number", "run")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer("run", self.instance.job.runs.all())


# What is in the car, and is not told step by step.
OF_THE_CAR = (
    *(Box, BoxAsBuilt, Ring, TrimPanel, Channel, ChannelSetting, PanelContent, DampingLayer),
    *(PowerNode, GroundPoint, LoomJoin, Panel, Run, EquipmentItem, FactoryPart),
)
# Follow from a record that is issued, or are told step by step.
TOLD = {"token", *(name for says, _of in SAYS.values() for name in (*says.FIELDS, "stretches"))}


@require_safe
def aftercare(request: HttpRequest, code: str) -> HttpResponse:
    """Show the car as it left, and all that came since."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    records = strip.worked_out(request, job).records
    after = work_out_aftercare(records)
    in_plan, in_catalogue = _changed(records, after.then)
    context = {
        "job": job,
        "after": after,
        "in_plan": in_plan,
        "in_catalogue": in_catalogue,
        "due": of_a_job(job, records.visits),
        "checked": first_check(job, records.visits),
        "runs": [(run, fuses) for run in records.runs if (fuses := _fuses(run, after.then))],
        "items": with_numbers(records),
        "steps": strip.steps(request, job, ""),
        "person": user.pk,
        "today": timezone.localdate(),
        "may_record": access.may_record(user),
    }
    return render(request, "pages/job/aftercare.html", context)


def _fuses(run: Run, then: HandedOver | None) -> list[Fuse]:
    """The fuses of a run, with the figures they were fitted with."""
    parts = [fuse.part for fuse in fuses_of(run)]
    return [then.as_fitted(part) for part in parts] if then else parts


def _changed(records: JobRecords, then: HandedOver | None) -> tuple[str, str]:
    """Say what of the plan has changed since, and what of the catalogue alone."""
    if then is None:
        return "", ""
    changes = Present.of(records).changes_since(data_here(then.sheet))
    planned = [
        replace(change, fields=fields)
        for change in changes
        if isinstance(change.row, OF_THE_CAR)
        and not (isinstance(change.row, tuple(SAYS)) and (change.is_new or change.is_gone))
        and (
            (fields := tuple(f for f in change.fields if f.removesuffix("_id") not in TOLD))
            or change.is_new
            or change.is_gone
        )
    ]
    listed = [change for change in changes if isinstance(change.row, Part)]
    return in_words(planned), in_words(listed)


VISIT = RowKind(slug="visit", form=VisitForm, section="aftercare", allowed=access.may_record)
LOT = RowKind(slug="lot", form=LotForm, section="schedule", allowed=access.may_record)

urlpatterns = [
    path("jobs/<str:code>/aftercare/", aftercare, name="aftercare"),
    *VISIT.urls(),
    *LOT.urls(),
]
