"""After hand-over: the car as it is now, who looked at it since, and what was changed and why."""

from __future__ import annotations

from typing import Any, ClassVar

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.calendar.reminders import of_a_job
from jobs.design.job.after.visits import work_out_aftercare
from jobs.design.records.pieces import with_numbers
from jobs.design.wiring.cores import fuses_of
from jobs.models import CableLot, ServiceVisit, User
from jobs.pages.forms import strip
from jobs.pages.forms.days import DAY, DaysForm
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind


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


@require_safe
def aftercare(request: HttpRequest, code: str) -> HttpResponse:
    """Show the car as it left, and all that came since."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    records = strip.worked_out(request, job).records
    context = {
        "job": job,
        "after": work_out_aftercare(records),
        "due": of_a_job(job),
        "runs": [(run, fuses) for run in records.runs if (fuses := fuses_of(run))],
        "items": with_numbers(records),
        "steps": strip.steps(request, job, ""),
        "person": user.pk,
        "today": timezone.localdate(),
        "may_record": access.may_record(user),
    }
    return render(request, "pages/job/aftercare.html", context)


VISIT = RowKind(slug="visit", form=VisitForm, section="aftercare", allowed=access.may_record)
LOT = RowKind(slug="lot", form=LotForm, section="schedule", allowed=access.may_record)

urlpatterns = [
    path("jobs/<str:code>/aftercare/", aftercare, name="aftercare"),
    *VISIT.urls(),
    *LOT.urls(),
]
