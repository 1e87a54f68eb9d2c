"""Choose cables and fuses: what is there, what is proposed, what bound it, and a tick to keep."""

from __future__ import annotations

import uuid

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path, reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST
from django.views.decorators.vary import vary_on_headers

from jobs import access
from jobs.design.job import board_counts
from jobs.design.wiring.choose import PartsChoice, Proposal, choose_parts, put_in
from jobs.locks import held
from jobs.models import Conductor, Fuse, Holder, Job, Run, Terminal
from jobs.pages.forms import strip
from jobs.pages.forms.fields import key_of

# What a proposal replaces; undoing brings these back from the run's history.
FIELDS = (
    *("conductor_id", "fuse_id", "fuse_distance", "fuse_holder_id", "fuse_terminal_id"),
    *("end_fuse_id", "end_fuse_distance", "end_fuse_holder_id", "end_fuse_terminal_id"),
)


def _proposed(request: HttpRequest, job: Job) -> PartsChoice:
    ticked = request.POST if request.method == "POST" else request.GET
    keep = {key for key in map(key_of, ticked.getlist("keep")) if key is not None}
    power = strip.worked_out(request, job).power
    return choose_parts(
        power,
        Conductor.objects.all(),
        Fuse.objects.all(),
        holders=list(Holder.objects.all()),
        terminals=list(Terminal.objects.all()),
        keep=keep,
    )


@require_http_methods(["GET", "HEAD", "POST"])
@vary_on_headers("HX-Request")
def choose(request: HttpRequest, code: str) -> HttpResponse:
    """Show what would be chosen; put it in as it was shown."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    if request.method == "POST" and "again" not in request.POST:
        return _put_in(request, job)
    return _page(request, job, _proposed(request, job))


def _page(
    request: HttpRequest, job: Job, choice: PartsChoice, trouble: str = "", status: int = 200
) -> HttpResponse:
    context = {"job": job, "choice": choice, "trouble": trouble}
    if request.headers.get("HX-Request"):
        return render(request, "parts/forms/choice.html", context)
    context["steps"] = strip.steps(request, job, "power")
    return render(request, "pages/wiring/choose.html", context, status=status)


def _put_in(request: HttpRequest, job: Job) -> HttpResponse:
    """Save the proposals as ordinary edits, all or none, if they are still those that were read."""
    with held(job):
        # Chosen while the job is held: nobody can save between the check and the write.
        choice = _proposed(request, job)
        if not choice.passes:
            return _page(request, job, choice, status=422)
        if request.POST.get("fingerprint") != choice.fingerprint:
            trouble = _("The job changed while you were reading. This is what it comes to now.")
            return _page(request, job, choice, trouble, status=422)
        token, changed = uuid.uuid4().hex, choice.changed
        for proposal in changed:
            _save(proposal, token)
        board_counts.forget(job)
    if count := len(changed):
        words = ngettext("Put in: %(n)d run.", "Put in: %(n)d runs.", count) % {"n": count}
        undo = reverse("choose-restore", args=[job.code, token])
        messages.success(request, words, extra_tags=f"undo:{undo}")
    else:
        messages.info(request, _("Nothing to put in: every run has what would be chosen."))
    return redirect("power", job.code)


def _save(proposal: Proposal, token: str) -> None:
    run = put_in(proposal.run, proposal)
    run.fuse_holder, run.fuse_terminal = proposal.at_start.holder, proposal.at_start.terminal
    run.end_fuse_holder, run.end_fuse_terminal = proposal.at_end.holder, proposal.at_end.terminal
    _keep(run, f"chosen {token}")


def _keep(run: Run, reason: str) -> None:
    """Save a run as its form does, and note in its history what it belongs to."""
    run.version += 1
    run._change_reason = reason  # type: ignore[attr-defined]
    run.save()


@require_POST
def undo(request: HttpRequest, code: str, token: str) -> HttpResponse:
    """Bring back what stood before the proposals were put in, unless somebody has gone on."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    with held(job):
        saved = list(Run.history.filter(job=job, history_change_reason=f"chosen {token}"))
        if not saved:
            raise Http404
        runs = {run.pk: run for run in Run.with_removed.filter(job=job)}
        gone_on = [row for row in saved if runs[row.id].version != row.version]
        if gone_on:
            labels = ", ".join(runs[row.id].label for row in gone_on)
            messages.warning(request, _("Not undone: %(runs)s changed since.") % {"runs": labels})
            return redirect("power", job.code)
        for row in saved:
            run, before = runs[row.id], row.prev_record
            for name in FIELDS:
                setattr(run, name, getattr(before, name))
            _keep(run, f"undone {token}")
        board_counts.forget(job)
    messages.success(request, _("Back as before."))
    return redirect("power", job.code)


urlpatterns = [
    path("jobs/<str:code>/choose/", choose, name="choose"),
    path("jobs/<str:code>/choose/<str:token>/restore/", undo, name="choose-restore"),
]
