"""A value read off the finished car, and the limits it is held against."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.bounded import count, figure
from jobs.models.channel_plan import Channel
from jobs.models.job import JobPart
from jobs.models.panels import GroundPoint
from jobs.models.power_tree import PowerNode, Run


class Measurement(JobPart):
    """A value to be measured in the bay, with the box it is written in."""

    class Kind(models.TextChoices):
        VOLTAGE = "voltage", _("voltage")
        CURRENT = "current", _("current")
        RESISTANCE = "resistance", _("resistance")
        LENGTH = "length", _("length")
        LEVEL = "level", _("sound level")

    class Beyond(models.TextChoices):
        LOOK = "look", _("a person decides")
        STOP = "stop", _("it must not stay so")

    class Derived(models.TextChoices):
        """What its limits are worked out from; of others they are typed."""

        REST = "rest", _("voltage at a load, everything off")
        LOAD = "load", _("voltage at a load, everything at full output")
        SPEAKER = "speaker", _("resistance of a speaker at the amplifier’s plug")
        FUSE = "fuse", _("voltage lost over a fuse at full output")
        GROUND = "ground", _("voltage between a ground point and the battery’s minus")
        KEY_OFF = "key_off", _("key-off current, car asleep")
        CHARGING = "charging", _("charging voltage, engine running")

    position = count(_("order"), most=999)
    name = models.CharField(_("what to measure"), max_length=160)
    kind = models.CharField(_("kind"), max_length=10, choices=Kind)
    expected = models.CharField(_("what to expect, in words"), max_length=120, blank=True)
    low = figure(_("at least"))
    high = figure(_("at most"))
    beyond = models.CharField(_("beyond that"), max_length=4, choices=Beyond, default=Beyond.LOOK)
    derived = models.CharField(max_length=8, choices=Derived, blank=True, editable=False)
    node = models.ForeignKey(
        PowerNode, models.CASCADE, null=True, blank=True, related_name="+", editable=False
    )
    channel = models.ForeignKey(
        Channel, models.CASCADE, null=True, blank=True, related_name="+", editable=False
    )
    run = models.ForeignKey(
        Run, models.CASCADE, null=True, blank=True, related_name="+", editable=False
    )
    ground = models.ForeignKey(
        GroundPoint, models.CASCADE, null=True, blank=True, related_name="+", editable=False
    )
    value = models.FloatField(_("measured"), null=True, blank=True)
    measured_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    measured_at = models.DateTimeField(null=True, blank=True)

    class Meta(JobPart.Meta):
        verbose_name = _("measurement")
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return self.name
