"""Hours worked on a job, against those that were sold: written down by whoever worked."""

from __future__ import annotations

from typing import ClassVar

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.agreement.agreed import work_out_hours
from jobs.models import WorkTime
from jobs.pages.forms import strip
from jobs.pages.forms.days import DaysForm
from jobs.pages.forms.record_rows import RowKind


class WorkTimeForm(DaysForm[WorkTime]):
    """Time somebody worked."""

    over: ClassVar = {"worked_on"}

    class Meta:
        model = WorkTime
        fields = ("kind", "minutes", "worked_on", "text")
        widgets: ClassVar = {
            "worked_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
        }


@require_safe
def hours(request: HttpRequest, code: str) -> HttpResponse:
    """List the time that was worked beside what was sold; no money stands here."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    records = strip.worked_out(request, job).records
    context = {
        "job": job,
        "hours": work_out_hours(records),
        "times": records.work_times,
        "may_record": access.may_record(user),
        "may_see_prices": access.may_see_prices(user),
        "steps": strip.steps(request, job, "hours"),
        "section": "hours",
    }
    return render(request, "pages/agreement/hours.html", context)


WORK_TIME = RowKind(slug="work-time", form=WorkTimeForm, section="hours", allowed=access.may_record)

urlpatterns = [
    path("jobs/<str:code>/hours/", hours, name="hours"),
    *WORK_TIME.urls(),
]
