"""Start a list of panels from a kind of body; take over what earlier jobs of the model taught."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from jobs import access
from jobs.design.job import board_counts
from jobs.design.job.earlier.panel_sets import BODIES, add_usual, earlier_jobs, take_over
from jobs.design.job.earlier.taught import lay_like, lessons, measure_like
from jobs.design.records.records import load
from jobs.locks import held
from jobs.models import Box, Job, Run
from jobs.pages.forms import strip
from jobs.pages.forms.fields import key_of


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


@require_safe
def taught(request: HttpRequest, code: str) -> HttpResponse:
    """Show what earlier cars of the model taught, each with its job and who wrote it."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    context = {
        "job": job,
        "lessons": lessons(load(job)),
        "may_spec": access.may_spec(user),
        "steps": strip.steps(request, job, "panels"),
    }
    return render(request, "pages/job/taught.html", context)


@require_POST
def from_job(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Take over how the panels of an earlier job of the model came off, or how one did."""
    job = _open(request, code)
    earlier = _earlier(job, pk)
    only = _asked(request, "panel") if "panel" in request.POST else None
    with held(job):
        added = take_over(job, earlier, only)
        board_counts.forget(job)
    messages.success(request, _("Panels added: %(n)s.") % {"n": added})
    return redirect("panels" if only is None else "panels-taught", job.code)


@require_POST
def route(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Lay a cable that has no route yet where one of an earlier job went."""
    job = _open(request, code)
    records = load(_earlier(job, pk))
    earlier = next((run for run in records.runs if run.pk == _asked(request, "like")), None)
    with held(job):
        run = Run.objects.filter(job=job, pk=_asked(request, "run")).first()
        if earlier is None or not earlier.route or run is None or run.stretches.exists():
            messages.error(request, _("Nothing was taken over: it has a route, or there is none."))
        else:
            lay_like(run, earlier)
            board_counts.forget(job)
            lies_so = _("%(run)s lies as in %(code)s now: hold it against this car.")
            messages.success(request, lies_so % {"run": run.label, "code": records.job.code})
    return redirect("panels-taught", job.code)


@require_POST
def cavity(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Give a box the cavity that was measured in an earlier car, where it has none."""
    job = _open(request, code)
    earlier = Box.objects.filter(job=_earlier(job, pk), pk=_asked(request, "like")).first()
    with held(job):
        box = Box.objects.filter(job=job, pk=_asked(request, "box")).first()
        if box is None or box.cavity_profile or earlier is None or not earlier.cavity_profile:
            messages.error(request, _("Nothing was taken over: it has a cavity, or there is none."))
        else:
            measure_like(box, earlier)
            board_counts.forget(job)
            has_it = _("%(box)s has the cavity of %(code)s now: measure this car before you cut.")
            messages.success(request, has_it % {"box": box, "code": earlier.job.code})
    return redirect("panels-taught", job.code)


def _asked(request: HttpRequest, name: str) -> int:
    return key_of(request.POST.get(name)) or 0


def _earlier(job: Job, pk: int) -> Job:
    earlier = next((row for row in earlier_jobs(job) if row.pk == pk), None)
    if earlier is None:
        raise Http404
    return earlier


def _open(request: HttpRequest, code: str) -> Job:
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    return job


urlpatterns = [
    path("jobs/<str:code>/panels/usual/", from_body, name="panels-usual"),
    path("jobs/<str:code>/panels/taught/", taught, name="panels-taught"),
    path("jobs/<str:code>/panels/learnt/<int:pk>/", from_job, name="panels-learnt"),
    path("jobs/<str:code>/panels/learnt/<int:pk>/route/", route, name="route-learnt"),
    path("jobs/<str:code>/panels/learnt/<int:pk>/cavity/", cavity, name="cavity-learnt"),
]
