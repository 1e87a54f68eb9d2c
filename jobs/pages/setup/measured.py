"""What was measured in the seat: curves typed, read from a file, or out of a recording."""

from __future__ import annotations

from pathlib import PurePath
from typing import Any, ClassVar, cast

from django import forms
from django.core.files.base import ContentFile, File
from django.http import FileResponse, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, render
from django.template.defaultfilters import filesizeformat
from django.urls import path
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from jobs import access, arrivals
from jobs.design.setup.measured import UnusableCurveError, places, read_level, read_recording
from jobs.design.setup.visits import visits
from jobs.drawings.setup.measured_pictures import place_chart
from jobs.models import ChannelCurve
from jobs.pages.forms import strip
from jobs.pages.forms.columns_form import ColumnsForm
from jobs.pages.forms.record_rows import RowKind

LARGEST = 30_000_000  # bytes: two minutes in stereo
LONGEST_NAME = 100
# What only a recording says.
TOLD = ("delay", "delay_within", "inverted", "above_noise")


class ChannelCurveForm(ColumnsForm[ChannelCurve]):
    """One channel in one place: pasted, read from a text file, or worked out of a recording."""

    recording = forms.FileField(
        label=_("or a recording of the sweep with a time mark, as WAV"),
        required=False,
        widget=forms.FileInput(attrs={"accept": ".wav,audio/wav"}),
        help_text=_("Level, delay and polarity are worked out; the recording is kept with them."),
    )
    # A recording of a form that was refused: no browser sends it once more by itself.
    again = forms.CharField(required=False, widget=forms.HiddenInput)
    fieldsets: ClassVar = [
        (_("What, where, when and by whom"), ["channel", "place", "measured_on", "measured_by"]),
        (_("Curve"), ["content", "file", "recording"]),
        (_("Microphone"), ["microphone", "calibration"]),
    ]

    class Meta:
        model = ChannelCurve
        fields = (
            *("channel", "place", "measured_on", "measured_by"),
            *("microphone", "calibration", "content"),
        )
        widgets: ClassVar = {
            "measured_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "content": forms.Textarea(attrs={"rows": 8, "spellcheck": "false"}),
            "calibration": forms.Textarea(attrs={"rows": 4, "spellcheck": "false"}),
        }
        help_texts: ClassVar = {
            "content": _("One line for each frequency: Hz, dB, and the phase if it was measured."),
            "calibration": _(
                "The text that came with the microphone: Hz, dB. It is taken off. Without one the "
                "shape of the curve is that of the microphone too, and no level is absolute."
            ),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer("channel", self.instance.job.channels.all())

    def clean(self) -> dict[str, Any]:
        """Read the curve now: one that cannot be read is not kept, but stays to be put right."""
        cleaned = super().clean()
        self._calibration(cleaned.get("calibration", ""))
        again = cleaned.pop("again", "")
        sent, recording = cleaned.pop("file", None), cleaned.pop("recording", None)
        if recording is None and again and not sent:
            recording = self._sent_before(again)
        if recording is not None:
            self._record(recording, cleaned)
        elif "file" not in self.errors:
            self._columns(sent, cleaned)
        if recording is not None and self.errors:
            self._keep(recording)
        return cleaned

    def _sent_before(self, again: str) -> File[bytes] | None:
        """Return the recording that came with a form that was refused."""
        token, _slash, name = again.partition("/")
        file = arrivals.opened(token)
        if file is None:
            says = gettext("The recording is there no more: choose it once more.")
            self.add_error("recording", says)
            return None
        with file:
            return ContentFile(file.read(), name)

    def _keep(self, recording: File[bytes]) -> None:
        """Keep a recording for a form that is put right: it need not be chosen once more."""
        if not recording.size or recording.size > LARGEST:
            return
        recording.seek(0)
        name = PurePath(recording.name or "").name[-LONGEST_NAME:]
        typed = cast(QueryDict, self.data).copy()
        typed[self.add_prefix("again")] = f"{arrivals.keep(recording)}/{name}"
        self.data = typed
        says = gettext("%(name)s is kept: save once more, or choose another in its place.")
        self["recording"].help_text = says % {"name": name}

    def _calibration(self, text: str) -> None:
        if not text:
            return
        try:
            read_level(text)
        except UnusableCurveError as error:
            self.add_error("calibration", str(error))

    def _columns(self, sent: str | None, cleaned: dict[str, Any]) -> None:
        text = cleaned.get("content", "") if sent is None else sent
        if not text and sent is None:
            says = gettext("Paste the curve here, or choose a text file or a recording of it.")
            self.add_error("content", says)
            return
        try:
            read_level(text)
        except UnusableCurveError as error:
            self.refuse("content", str(error), sent)
            return
        if text != self.instance.content:
            # Columns of another make carry no time mark.
            self._told(**dict.fromkeys(TOLD), recorded=False, take="", take_name="")
        cleaned["content"] = text

    def _record(self, recording: File[bytes], cleaned: dict[str, Any]) -> None:
        if (size := recording.size or 0) > LARGEST:
            sizes = {"size": filesizeformat(size), "most": filesizeformat(LARGEST)}
            says = gettext("This holds %(size)s; at most %(most)s are read.") % sizes
            self.add_error("recording", says)
            return
        content = recording.read()
        try:
            heard = read_recording(content)
        except UnusableCurveError as error:
            self.add_error("recording", str(error))
            return
        if heard.above_noise is None:
            says = gettext(
                "The channel is nowhere 20 dB above the noise: louder, or a quieter car."
            )
            self.add_error("recording", says)
            return
        self._told(
            **{name: getattr(heard, name) for name in TOLD},
            recorded=True,
            take=ContentFile(content, "take"),
            take_name=PurePath(recording.name or "").name[-LONGEST_NAME:],
        )
        cleaned["content"] = heard.content

    def _told(self, **figures: Any) -> None:
        """Keep what a recording says beside the curve: nobody types it."""
        for name, value in figures.items():
            setattr(self.instance, name, value)


@require_safe
def take(request: HttpRequest, code: str, pk: int) -> FileResponse:
    """Hand out a recording as it came, to be kept and not to be played here."""
    job = access.open_job(access.signed_in(request), code)
    row = get_object_or_404(ChannelCurve.objects.exclude(take=""), job=job, pk=pk)
    return FileResponse(
        row.take.open("rb"), as_attachment=True, filename=row.take_name or "take.wav",
        content_type="application/octet-stream",
    )  # fmt: skip


@require_safe
def measured(request: HttpRequest, code: str) -> HttpResponse:
    """Show what was measured, place by place."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    rows = strip.worked_out(request, job).records.channel_curves
    pairs = visits(rows)
    of_place = [
        (place, [pair for pair in pairs if pair.now.row.place == place.name])
        for place in places(rows)
    ]
    context = {
        "job": job,
        "section": "setup-measured",
        "rows": rows,
        "places": [
            (place, place_chart(number, place, [pair.then for pair in before]), before)
            for number, (place, before) in enumerate(of_place, start=1)
        ],
        "steps": strip.steps(request, job, "setup"),
        "findings": strip.worked_out(request, job).findings_of("setup"),
    }
    return render(request, "pages/setup/measured.html", context)


CHANNEL_CURVE = RowKind(
    slug="channel-curve",
    form=ChannelCurveForm,
    section="setup-measured",
    allowed=access.may_record,
)

urlpatterns = [
    path("jobs/<str:code>/set-up/measured/", measured, name="setup-measured"),
    path("jobs/<str:code>/set-up/measured/<int:pk>/recording/", take, name="setup-take"),
    *CHANNEL_CURVE.urls(),
]
