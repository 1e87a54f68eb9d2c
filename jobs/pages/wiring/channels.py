"""The channel plan of a job."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, ClassVar

from django.contrib import messages
from django.db.models import Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils.translation import gettext, ngettext
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_POST, require_safe

from jobs import access, units
from jobs.design.job import board_counts
from jobs.design.records.records import load
from jobs.design.setup.suggest import suggest
from jobs.design.wiring.channels import ChannelResult
from jobs.drawings.wiring import wiring_pictures
from jobs.locks import held
from jobs.models import Channel, FactoryPart, Part
from jobs.pages.forms import row_acts, strip
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
        in_use = Q(kind=FactoryPart.Kind.SPEAKER, fate__in=["", FactoryPart.Fate.IN_USE])
        chosen = Q(pk=self.instance.factory_speaker_id)  # stays, whatever became of it since
        self.offer("factory_speaker", job.factory_parts.filter(in_use | chosen))


def _beside(plan: Sequence[ChannelResult]) -> tuple[list[str], dict[int, list[str]]]:
    """What each channel comes to, and what its cells do not show."""
    heads = [gettext("load"), gettext("power"), gettext("also")]
    return heads, {
        result.channel.pk: [
            units.show(result.load, "resistance"),
            units.show(result.power_there, "power"),
            ", ".join(_also(result.channel)),
        ]
        for result in plan
    }


def _also(channel: Channel) -> Iterator[str]:
    if channel.speaker_count > 1:
        yield f"{channel.speaker_count} ×"
    if channel.bridged:
        yield gettext("bridged")
    if channel.factory_speaker:
        yield f"{channel.factory_speaker} ({gettext('factory')})"
    if channel.inverted:
        yield gettext("inverted")


@require_safe
def channels(request: HttpRequest, code: str) -> HttpResponse:
    """Show every way from a source to its speakers, as a table and as a picture."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    sheet = strip.worked_out(request, job)
    context = {
        "job": job,
        "plan": sheet.channels,
        "table": CHANNEL.table(
            job,
            [result.channel for result in sheet.channels],
            may_type=access.may_spec(user),
            beside=_beside(sheet.channels),
        ),
        "picture": wiring_pictures.signal(sheet),
        "findings": sheet.findings_of("channels"),
        "steps": strip.steps(request, job, "channels"),
        "may_spec": access.may_spec(user),
        "suggestion": suggest(sheet.records) if access.may_spec(user) else None,
    }
    return render(request, "pages/wiring/channels.html", context)


@require_POST
def put_in(request: HttpRequest, code: str) -> HttpResponse:
    """Make channels of what is suggested now; each is changed and removed like any other."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    with held(job):
        # Suggested anew while the job is held: sent twice, nothing is left to suggest.
        suggested = suggest(load(job)).channels
        for channel in suggested:
            channel.save()
        board_counts.forget(job)
    words = ngettext("%(n)d channel put in.", "%(n)d channels put in.", len(suggested))
    messages.success(request, words % {"n": len(suggested)})
    return redirect("channels", job.code)


CHANNEL = RowKind(
    slug="channel",
    form=ChannelForm,
    section="channels",
    in_table=(
        ("name", "source"),
        ("processor", "processor_output"),
        ("amplifier", "amplifier_channel"),
        "speaker",
        ("highpass_frequency", "highpass_shape"),
        ("lowpass_frequency", "lowpass_shape"),
    ),
    sided=("name", "speaker", "factory_speaker"),
    counted={"position": "", "processor_output": "processor", "amplifier_channel": "amplifier"},
)

urlpatterns = [
    path("jobs/<str:code>/channels/", channels, name="channels"),
    path("jobs/<str:code>/channels/suggested/", put_in, name="channels-suggested"),
    *row_acts.urls(CHANNEL),
    *CHANNEL.urls(),
]
