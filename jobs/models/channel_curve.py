"""What was measured in the seat: the curve of one channel, or of all together."""

from __future__ import annotations

from django.db import models
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from jobs.models.bounded import figure, prose
from jobs.models.channel_plan import Channel
from jobs.models.job import JobPart

LONGEST_TEXT = 400_000


class ChannelCurve(JobPart):
    """A curve measured in the car, kept as the text it came as or as a recording led to."""

    channel = models.ForeignKey(
        Channel,
        models.CASCADE,
        null=True,
        blank=True,
        related_name="curves",
        verbose_name=_("channel; empty: all together"),
    )
    place = models.CharField(_("seat, and where the microphone stood"), max_length=80)
    measured_on = models.DateField(_("measured on"))
    measured_by = models.CharField(_("measured by"), max_length=80)
    microphone = models.CharField(_("microphone"), max_length=80, blank=True)
    calibration = prose(_("its calibration: frequency, dB"), most=LONGEST_TEXT)
    # Text columns as they were pasted or read from a file, or as the recording came to: Hz, dB, °.
    content = models.TextField(_("curve: frequency, level in dB, phase in degrees"), blank=True)
    # Of a recording with time marks; None where it was none, or where it cannot be told.
    recorded = models.BooleanField(default=False, editable=False)
    delay = figure(_("delay against the mark"))
    delay_within = figure(_("how far it may be off"))
    inverted = models.BooleanField(_("polarity turned against the mark"), null=True, blank=True)

    class Meta(JobPart.Meta):
        verbose_name = _("measured channel")
        ordering = ["place", "channel", "-measured_on", "-pk"]

    def __str__(self) -> str:
        which = self.channel or _("all together")
        return f"{which}, {self.place}, {date_format(self.measured_on, 'SHORT_DATE_FORMAT')}"
