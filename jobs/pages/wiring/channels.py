"""The channel plan of a job."""

from __future__ import annotations

from typing import Any, ClassVar

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from jobs import access
from jobs.drawings.wiring import wiring_pictures
from jobs.models import Channel, Part
from jobs.pages.forms import strip
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind


class ChannelForm(RecordForm[Channel]):
    """One way from a source to its speakers; only this job's equipment is offered."""

    quantities: ClassVar = {
        "highpass_frequency": "frequency",
        "lowpass_frequency": "frequency",
        "level": "level",
        "delay": "time",
        "distance": "span",
    }
    any_sign: ClassVar = {"level", "delay"}
    terms: ClassVar = {
        "highpass_frequency": "crossover",
        "delay": "delay",
        "inverted": "polarity",
        "connection": "load",
    }
    fieldsets: ClassVar = [
        (_("What it is"), ["position", "name", "source", "side"]),
        (_("Processor"), ["processor", "processor_output"]),
        (_("Amplifier"), ["amplifier", "amplifier_channel", "bridged"]),
        (
            _("Speakers"),
            ["speaker", "factory_speaker", "speaker_count", "connection", "coil_connection"],
        ),
        (
            _("To dial in"),
            [
                "highpass_frequency",
                "highpass_shape",
                "lowpass_frequency",
                "lowpass_shape",
                "level",
                "delay",
                "inverted",
                "distance",
            ],
        ),
    ]

    class Meta:
        model = Channel
        exclude = ("job",)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        job = self.instance.job
        items = job.equipmentitems.select_related("part")
        for name, kind in [
            ("processor", Part.Kind.PROCESSOR),
            ("amplifier", Part.Kind.AMPLIFIER),
            ("speaker", Part.Kind.DRIVER),
        ]:
            self.offer(name, items.filter(part__kind=kind))
        self.offer("factory_speaker", job.factory_parts.all())


@require_safe
def channels(request: HttpRequest, code: str) -> HttpResponse:
    """Show every way from a source to its speakers, as a table and as a picture."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    sheet = strip.worked_out(request, job)
    context = {
        "job": job,
        "plan": sheet.channels,
        "picture": wiring_pictures.signal(sheet),
        "findings": sheet.findings_of("channels"),
        "steps": strip.steps(request, job, "channels"),
        "may_spec": access.may_spec(user),
    }
    return render(request, "pages/wiring/channels.html", context)


CHANNEL = RowKind(slug="channel", form=ChannelForm, section="channels")

urlpatterns = [
    path("jobs/<str:code>/channels/", channels, name="channels"),
    *CHANNEL.urls(),
]
