"""Every finding of a job in one place; a look is accepted here, a stop released."""

from __future__ import annotations

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from jobs import access
from jobs.design.job import board_counts
from jobs.design.job.alike import by_due
from jobs.design.job.due import cured_by
from jobs.design.records.decisions import OF_THE_CAR, stand_again, take
from jobs.locks import held
from jobs.models import Decision, Job, Role, User
from jobs.pages.forms import strip

FEWEST_WORDS = 3  # of a reason, different ones


class DecisionForm(forms.Form):
    """Why a finding may stand."""

    fingerprint = forms.CharField(max_length=64, widget=forms.HiddenInput)
    reason = forms.CharField(
        label=gettext_lazy("reason, as it is printed"),
        min_length=8,
        max_length=500,
        widget=forms.Textarea(attrs={"rows": 3}),
    )

    def clean_reason(self) -> str:
        """A word is no reason: whoever reads it later was not there."""
        reason: str = self.cleaned_data["reason"]
        if len({word for word in reason.casefold().split() if len(word) > 1}) < FEWEST_WORDS:
            raise forms.ValidationError(_("Say why in a few words: it is printed."))
        return reason


@require_safe
def findings(request: HttpRequest, code: str) -> HttpResponse:
    """List every finding by when it is due, the dangerous ones first; of one person if asked."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    asked = request.GET.get("who", "")
    who = Role(asked) if asked in Role.values else None
    context = {
        "job": job,
        "groups": by_due(design.findings, who),
        "roles": sorted({cured_by(row) for row in design.findings}, key=list(Role).index),
        "who": who,
        "steps": strip.steps(request, job, "findings"),
        "may_spec": access.may_spec(user),
        "may_release": access.may_release(user),
    }
    return render(request, "pages/job/findings.html", context)


@require_http_methods(["GET", "POST"])
def decide(request: HttpRequest, code: str, key: str) -> HttpResponse:
    """Accept a look with a reason, or release a stop as the manager."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    if request.method != "POST":
        return _decide(request, job, user, key)
    with held(job):
        return _decide(request, job, user, key)


def _decide(request: HttpRequest, job: Job, user: User, key: str) -> HttpResponse:
    """Ask, or take the answer: the figures it is about cannot change before it is stored."""
    finding = next((f for f in strip.worked_out(request, job).findings if f.key == key), None)
    if finding is None:
        messages.info(request, _("That finding is gone: the figures have changed."))
        return redirect("findings", job.code)
    if finding.severity == "stop":
        access.require(access.may_release(user))
    form = DecisionForm(request.POST or None, initial={"fingerprint": finding.fingerprint})
    status = 200
    if request.method == "POST":
        if form.is_valid() and form.cleaned_data["fingerprint"] != finding.fingerprint:
            form.add_error(None, _("The figures changed while you were reading. Read them again."))
        if form.is_valid():
            take(job, finding, user, form.cleaned_data["reason"])
            board_counts.forget(job)
            return redirect("findings", job.code)
        status = 422
    context = {
        "job": job,
        "finding": finding,
        "form": form,
        "steps": strip.steps(request, job, "findings"),
    }
    return render(request, "pages/job/decide.html", context, status=status)


@require_POST
def caution_known(request: HttpRequest, code: str, key: str) -> HttpResponse:
    """Tick a caution of the car: somebody knows it now, on this job and on those to come."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    with held(job):
        finding = next((f for f in strip.worked_out(request, job).findings if f.key == key), None)
        if finding is None or finding.fingerprint != request.POST.get("fingerprint"):
            messages.info(request, _("That finding is gone: the figures have changed."))
        elif finding.code not in OF_THE_CAR:
            return redirect("decide", job.code, key)
        elif finding.decision is None:
            take(job, finding, user, _("Known, and ticked on the list of the car."))
            board_counts.refresh_all(job.vehicle)
            board_counts.forget(job)
    return redirect("car", job.code)


@require_POST
def withdraw(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Take a decision back; the finding is open again."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    decision = get_object_or_404(Decision.with_removed, job=job, pk=pk)
    if decision.severity == "stop":
        access.require(access.may_release(user))
    with held(job):
        decision.refresh_from_db()
        standing = decision.removed_at is None
        if standing:
            decision.remove()
            board_counts.forget(job)
    if standing:
        undo = reverse("decision-restore", args=[job.code, pk])
        messages.warning(request, _("Decision withdrawn."), extra_tags=f"undo:{undo}")
    return redirect("findings", job.code)


@require_POST
def restore(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Let a withdrawn decision stand again, by somebody who might have made it."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    decision = get_object_or_404(Decision.with_removed, job=job, pk=pk)
    if decision.severity == "stop":
        access.require(access.may_release(user))
    with held(job):
        stand_again(decision)
        board_counts.forget(job)
    return redirect("findings", job.code)


urlpatterns = [
    path("jobs/<str:code>/findings/", findings, name="findings"),
    path("jobs/<str:code>/findings/<str:key>/", decide, name="decide"),
    path("jobs/<str:code>/findings/<str:key>/known/", caution_known, name="caution-known"),
    path("jobs/<str:code>/decision/<int:pk>/withdraw/", withdraw, name="decision-withdraw"),
    path("jobs/<str:code>/decision/<int:pk>/restore/", restore, name="decision-restore"),
]
