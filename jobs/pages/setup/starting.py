"""The set-up page: the values each channel starts from, and the distances they rest on."""

from __future__ import annotations

from typing import ClassVar

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from jobs import access
from jobs.design.job import board_counts
from jobs.design.setup.hearing import work_out_hearing
from jobs.design.setup.starting import TEST_LEVEL
from jobs.drawings.setup.setup_pictures import sum_charts
from jobs.locks import held
from jobs.models import Channel, Job
from jobs.pages.forms import strip
from jobs.pages.forms.forms import RecordForm


class DistanceForm(RecordForm[Channel]):
    """How far a channel's speaker is from the listener, by the tape."""

    quantities: ClassVar = {"distance": "span"}

    class Meta:
        model = Channel
        fields = ("distance",)


@require_safe
def setup(request: HttpRequest, code: str) -> HttpResponse:
    """Show what every channel starts from."""
    job = access.open_job(access.signed_in(request), code)
    return _page(request, job, _forms(request, job))


@require_POST
def distances(request: HttpRequest, code: str) -> HttpResponse:
    """Write the tape's figures down, all of them or none."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_record(user))
    with held(job):
        forms = _forms(request, job)
        # Each is asked, so that each says what is wrong with it.
        if sum(not form.is_valid() for form in forms):
            return _page(request, job, forms, status=422)
        for form in forms:
            if form.has_changed():
                form.save()
        board_counts.refresh(job)
    messages.success(request, _("Saved."))
    return redirect("setup", job.code)


def _forms(request: HttpRequest, job: Job) -> list[DistanceForm]:
    """One short form for each channel that has an amplifier: the others have no delay to set."""
    channels = Channel.objects.filter(job=job, amplifier__isnull=False)
    typed = request.POST if request.method == "POST" else None
    forms = [DistanceForm(typed, instance=channel, prefix=f"c{channel.pk}") for channel in channels]
    for form in forms:
        form.fields["distance"].label = form.instance.name
    return forms


def _page(
    request: HttpRequest, job: Job, forms: list[DistanceForm], status: int = 200
) -> HttpResponse:
    user = access.signed_in(request)
    design = strip.worked_out(request, job)
    context = {
        "job": job,
        "setup": design.setup,
        "charts": sum_charts(design.setup),
        "forms": forms,
        "test_level": TEST_LEVEL,
        "hearing": work_out_hearing(design.setup.starts),
        "findings": design.findings_of("setup"),
        "steps": strip.steps(request, job, "setup"),
        "may_spec": access.may_spec(user),
    }
    return render(request, "pages/setup/setup.html", context, status=status)


urlpatterns = [
    path("jobs/<str:code>/set-up/", setup, name="setup"),
    path("jobs/<str:code>/set-up/distances/", distances, name="setup-distances"),
]
