"""Measuring with the microphone of the device at hand: what it heard comes here as a recording."""

from __future__ import annotations

from typing import Any, ClassVar

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_http_methods

from jobs.design.job import board_counts
from jobs.design.setup.measured import places
from jobs.drawings.setup.measured_pictures import place_chart
from jobs.locks import held
from jobs.models import ChannelCurve, Job
from jobs.pages.forms import strip
from jobs.pages.forms.record_rows import opened, store
from jobs.pages.setup.measured import CHANNEL_CURVE, ChannelCurveForm


class TakeForm(ChannelCurveForm):
    """What a recording needs beside its sound."""

    fieldsets: ClassVar = [
        (_("What, where, when and by whom"), ["channel", "place", "measured_on", "measured_by"]),
        (_("Microphone"), ["microphone", "calibration"]),
    ]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        # The curve comes out of the recording, which the page has and sends along each time.
        del self.fields["content"], self.fields["file"], self.fields["again"]
        self.fields["channel"].label = _("channel")
        self.fields["channel"].required = self.fields["recording"].required = True
        self.offer("channel", self.instance.job.channels.filter(amplifier__isnull=False))

    def _columns(self, sent: str | None, cleaned: dict[str, Any]) -> None:
        """Ask for no columns beside a recording that is missing."""


@require_http_methods(["GET", "POST"])
def microphone(request: HttpRequest, code: str) -> HttpResponse:
    """Show what plays and records; a recording that was sent is answered with what it says."""
    job = opened(request, code, CHANNEL_CURVE)
    if request.method == "POST":
        return _heard(request, job)
    last = ChannelCurve.objects.filter(job=job, recorded=True).order_by("-pk").first()
    kept = ("place", "measured_by", "microphone", "calibration")
    initial = {name: getattr(last, name) for name in kept} if last else {}
    initial["measured_on"] = timezone.localdate()
    context = {
        "job": job,
        "form": TakeForm(instance=ChannelCurve(job=job), initial=initial),
        "steps": strip.steps(request, job, "setup"),
    }
    return render(request, "pages/setup/microphone.html", context)


def _heard(request: HttpRequest, job: Job) -> HttpResponse:
    # Worked out before the job is held: it takes a second.
    form = TakeForm(request.POST, request.FILES, instance=ChannelCurve(job=job))
    if not form.is_valid():
        return render(request, "parts/forms/wrong.html", {"form": form}, status=422)
    with held(job):
        row = store(CHANNEL_CURVE, form)
        board_counts.forget(job)
    rows = ChannelCurve.objects.filter(job=job, place=row.place).select_related("channel")
    place = places(rows)[0]
    context = {"job": job, "row": row, "place": place, "chart": place_chart(1, place)}
    return render(request, "parts/setup/take.html", context, status=201)


urlpatterns = [path("jobs/<str:code>/set-up/microphone/", microphone, name="setup-microphone")]
