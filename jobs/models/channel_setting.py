"""A channel as it was set in the car: every figure of it, by whom and when."""

from __future__ import annotations

from django.core.validators import MinValueValidator
from django.db import models
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from jobs.models.bounded import figure, prose
from jobs.models.channel_plan import Channel, FilterShape
from jobs.models.job import JobPart


class ChannelSetting(JobPart):
    """What was dialled in for a channel; of several the newest holds, the others stay."""

    # Every field of these names is one of the plan.
    FILTERS = ("highpass_frequency", "highpass_shape", "lowpass_frequency", "lowpass_shape")
    FIELDS = (*FILTERS, "level", "delay", "inverted")

    channel = models.ForeignKey(
        Channel, models.CASCADE, related_name="settings", verbose_name=_("channel")
    )
    set_on = models.DateField(_("set on"))
    set_by = models.CharField(_("set by"), max_length=80)
    preset = models.CharField(_("preset in the processor"), max_length=60, blank=True)
    highpass_frequency = models.FloatField(_("high-pass"), null=True, blank=True)
    highpass_shape = models.CharField(
        _("high-pass shape"), max_length=5, choices=FilterShape, blank=True
    )
    lowpass_frequency = models.FloatField(_("low-pass"), null=True, blank=True)
    lowpass_shape = models.CharField(
        _("low-pass shape"), max_length=5, choices=FilterShape, blank=True
    )
    level = models.FloatField(_("level"), default=0.0)
    delay = models.FloatField(_("delay"), default=0.0, validators=[MinValueValidator(0.0)])
    inverted = models.BooleanField(_("polarity inverted"), default=False)
    # Of the tone the gain is set with; None where nobody measured it.
    gain_voltage = figure(_("measured with the gain tone, speaker unplugged"))
    note = prose(_("what else was set: equaliser, limiter"), most=2000)

    class Meta(JobPart.Meta):
        verbose_name = _("channel as set")
        ordering = ["channel__position", "channel", "-set_on", "-pk"]

    def __str__(self) -> str:
        return f"{self.channel}, {date_format(self.set_on, 'SHORT_DATE_FORMAT')}"
