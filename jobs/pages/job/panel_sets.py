"""Start a list of panels from a kind of body, or from what an earlier job of the model taught."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from jobs import access
from jobs.design.job import board_counts
from jobs.design.job.panel_sets import BODIES, add_usual, earlier_jobs, take_over
from jobs.locks import held
from jobs.models import Job


@require_POST
def from_body(request: HttpRequest, code: str) -> HttpResponse:
    """Add the panels a body usually has."""
    job = _open(request, code)
    body = request.POST.get("body", "")
    if body not in BODIES:
        messages.error(request, _("Choose the kind of body first."))
        return redirect("panels", job.code)
    with held(job):
        added = add_usual(job, body)
        board_counts.forget(job)
    messages.success(request, _("Panels added: %(n)s.") % {"n": added})
    return redirect("panels", job.code)


@require_POST
def from_job(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Take over how the panels of an earlier job of the model came off."""
    job = _open(request, code)
    earlier = next((row for row in earlier_jobs(job) if row.pk == pk), None)
    if earlier is None:
        raise Http404
    with held(job):
        added = take_over(job, earlier)
        board_counts.forget(job)
    messages.success(request, _("Panels added: %(n)s.") % {"n": added})
    return redirect("panels", job.code)


def _open(request: HttpRequest, code: str) -> Job:
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    return job


urlpatterns = [
    path("jobs/<str:code>/panels/usual/", from_body, name="panels-usual"),
    path("jobs/<str:code>/panels/learnt/<int:pk>/", from_job, name="panels-learnt"),
]
