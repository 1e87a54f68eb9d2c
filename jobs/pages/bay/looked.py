"""What can hurt behind a panel: an airbag, drilling, glass; whoever looked says so, by name."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import path, reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from jobs import access
from jobs.design.job import board_counts
from jobs.locks import held
from jobs.models import Panel

ANSWERS = {"1": True, "0": False}


@require_POST
def looked(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Write down whether something is there."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_record(user))
    with held(job):
        panel = get_object_or_404(Panel, job=job, pk=pk)
        refused = keep_looked(panel, request.POST.get("what", ""), request.POST.get("there", ""))
    if refused:
        messages.error(request, refused)
    return redirect(f"{reverse('bay', args=[job.code])}#panel-{panel.pk}")


def keep_looked(panel: Panel, what: str, there: str) -> str:
    """Keep an answer, the last one counts; returns what is wrong with it, in words."""
    if what not in Panel.DANGERS or there not in ANSWERS:
        return _("Not known here.")
    if getattr(panel, what) != ANSWERS[there]:
        setattr(panel, what, ANSWERS[there])
        panel.version += 1
        panel.save()
        board_counts.forget(panel.job)
    return ""


urlpatterns = [path("jobs/<str:code>/panel/<int:pk>/looked/", looked, name="bay-looked")]
