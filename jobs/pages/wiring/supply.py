"""The supply page: what charges, what is left, how long it plays and stands, notes and heat."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.wiring.bass import COMMON_BANK, NOTE_LENGTH
from jobs.drawings.wiring.supply_pictures import note_chart
from jobs.pages.forms import strip


@require_safe
def supply(request: HttpRequest, code: str) -> HttpResponse:
    """Show the supply worked out; its figures are entered with the car, the brief and the parts."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    mine = {finding.key for finding in design.supply.findings}
    context = {
        "job": job,
        "supply": design.supply,
        "charts": [note_chart(bass) for bass in design.supply.bass],
        "note_length": round(NOTE_LENGTH * 1000),
        "common": COMMON_BANK,
        "findings": [finding for finding in design.findings if finding.key in mine],
        "steps": strip.steps(request, job, "power"),
        "may_spec": access.may_spec(user),
        "may_release": access.may_release(user),
    }
    return render(request, "pages/wiring/supply.html", context)


urlpatterns = [path("jobs/<str:code>/supply/", supply, name="supply")]
