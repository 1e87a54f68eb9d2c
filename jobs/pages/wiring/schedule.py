"""Cables and labels: wire schedule, fuse map, cable order and crimp list of a job."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.wiring.schedule import work_out_schedule
from jobs.design.wiring.signals import work_out_signals
from jobs.models import Workshop
from jobs.pages.forms import strip


@require_safe
def schedule(request: HttpRequest, code: str) -> HttpResponse:
    """Show every list that is made from the runs."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    context = {
        "job": job,
        "schedule": work_out_schedule(design.records, design.power, Workshop.current()),
        "turn_ons": work_out_signals(design.records, design.power).turn_ons,
        "steps": strip.steps(request, job, "power"),
        "lots": design.records.cable_lots,
        "may_record": access.may_record(user),
        "may_spec": access.may_spec(user),
    }
    return render(request, "pages/wiring/schedule.html", context)


urlpatterns = [path("jobs/<str:code>/schedule/", schedule, name="schedule")]
