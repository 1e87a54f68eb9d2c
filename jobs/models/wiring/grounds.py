"""Where our cables meet the car: grounds on its metal, joins to its loom."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.bounded import figure
from jobs.models.job import JobPart
from jobs.models.panels import Panel
from jobs.models.parts.catalogue import Conductor


class GroundPoint(JobPart):
    """A place where returns meet metal, or a post or block that stands for it."""

    class Kind(models.TextChoices):
        BODY = "body", _("stud on the body")
        POST = "post", _("minus post of the battery")
        SENSOR = "sensor", _("body side of the battery sensor")
        BLOCK = "block", _("ground block")

    class Surface(models.TextChoices):
        BARE = "bare", _("bare metal, sealed afterwards")
        PAINTED = "painted", _("painted or coated")

    name = models.CharField(_("name"), max_length=60)
    kind = models.CharField(_("kind"), max_length=8, choices=Kind, default=Kind.BODY)
    place = models.CharField(_("place"), max_length=80, blank=True)
    panel = models.ForeignKey(
        Panel,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("behind panel"),
    )
    surface = models.CharField(_("metal under the lug"), max_length=8, choices=Surface, blank=True)
    # Between here and the minus of the battery; None until somebody has measured it.
    resistance = figure(_("resistance to the battery's minus, measured"), most=1.0)
    stud = models.CharField(_("stud or screw, such as M8"), max_length=8, blank=True)
    torque = figure(_("tightening torque, from the vehicle or part maker"))
    # What several returns share on their way on, such as the lead of a ground block.
    conductor = models.ForeignKey(
        Conductor,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("cable that leads on from here"),
    )
    length = figure(_("length of that cable"))

    class Meta(JobPart.Meta):
        verbose_name = _("ground point")
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.name


class LoomJoin(JobPart):
    """Where our cable meets the factory loom: which pin, how, and what was found on it."""

    class Carries(models.TextChoices):
        HIGH = "high", _("signal for a speaker (high level)")
        LINE = "line", _("line level")
        DATA = "data", _("bus or fibre")
        SUPPLY = "supply", _("supply or ground")
        REMOTE = "remote", _("turn-on")
        MUTE = "mute", _("mute, from the hands-free")

    class How(models.TextChoices):
        PLUG = "plug", _("adapter plug")
        CRIMP = "crimp", _("crimped splice")
        SOLDER = "solder", _("soldered and sleeved")
        PIN = "pin", _("pin added to the housing")

    connector = models.CharField(_("connector"), max_length=60)
    pin = models.CharField(_("pin"), max_length=12, blank=True)
    colour = models.CharField(_("factory colour"), max_length=20, blank=True)
    how = models.CharField(_("how joined"), max_length=8, choices=How, blank=True)
    carries = models.CharField(_("what it carries"), max_length=8, choices=Carries, blank=True)
    signal = models.CharField(_("signal found there"), max_length=80, blank=True)
    # Measured, never assumed from a colour or a number.
    level = figure(_("voltage measured there"))
    run = models.ForeignKey(
        "Run",
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="joins",
        verbose_name=_("our run"),
    )
    panel = models.ForeignKey(
        Panel,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("behind panel"),
    )

    class Meta(JobPart.Meta):
        verbose_name = _("join to the factory loom")
        ordering = ["pk"]

    def __str__(self) -> str:
        return " ".join(part for part in (self.connector, self.pin) if part)
