"""The power tree's nodes, and every cable run of the job with its route."""

from __future__ import annotations

from django.core.validators import MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from jobs.models.base import figure
from jobs.models.catalogue import Conductor, Fuse
from jobs.models.channel_plan import Channel
from jobs.models.equipment import EquipmentItem
from jobs.models.job import JobPart
from jobs.models.panels import Panel


class PowerNode(JobPart):
    """A point of the power tree: a source, a block, or something that takes current."""

    class Kind(models.TextChoices):
        BATTERY = "battery", _("battery")
        DC_DC = "dc_dc", _("DC-DC converter")
        CAPACITOR = "capacitor", _("capacitor bank")
        BLOCK = "block", _("distribution block")
        AMPLIFIER = "amplifier", _("amplifier")
        LOAD = "load", _("other load")

    SOURCES = (Kind.BATTERY, Kind.DC_DC, Kind.CAPACITOR)

    kind = models.CharField(_("kind"), max_length=10, choices=Kind)
    name = models.CharField(_("name"), max_length=60)
    place = models.CharField(_("place"), max_length=80, blank=True)
    equipment = models.ForeignKey(
        EquipmentItem,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="power_nodes",
        verbose_name=_("equipment"),
    )
    # Sources. None means nobody has read or measured it.
    voltage = models.FloatField(_("open-circuit voltage"), null=True, blank=True)
    internal_resistance = models.FloatField(_("internal resistance"), null=True, blank=True)
    cca = models.FloatField(_("cold cranking current"), null=True, blank=True)
    charge = models.FloatField(_("capacity"), null=True, blank=True)
    rated_time = figure(_("discharge time the capacity is rated for"))
    peukert = figure(_("Peukert exponent"))
    usable_share = figure(_("share of the capacity that may be used"))
    current_limit = models.FloatField(_("output current limit"), null=True, blank=True)
    capacitance = models.FloatField(_("capacitance"), null=True, blank=True)
    # Loads other than an amplifier of the catalogue.
    current = models.FloatField(_("current it takes"), null=True, blank=True)
    standby_current = figure(_("current it takes asleep, key off"))

    class Meta(JobPart.Meta):
        verbose_name = _("power node")
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.name

    @property
    def is_source(self) -> bool:
        """Whether current can come from here, also after the battery is off."""
        return self.kind in self.SOURCES


class Run(JobPart):
    """One cable from here to there, with its label."""

    class Kind(models.TextChoices):
        POWER = "P", pgettext_lazy("run", "power")
        SPEAKER = "S", _("speaker")
        LINE = "L", _("line level")
        CONTROL = "C", _("control")

    class Return(models.TextChoices):
        CABLE = "cable", _("its own cable")
        CHASSIS = "chassis", _("chassis, measured")

    class Zone(models.TextChoices):
        ENGINE_BAY = "engine bay", _("engine bay")
        CABIN = "cabin", _("cabin")
        UNDER_CARPET = "under carpet", _("under carpet")
        BOOT = "boot", _("boot")
        OUTSIDE = "outside", _("outside, under the floor")

    kind = models.CharField(_("kind"), max_length=1, choices=Kind)
    number = models.PositiveSmallIntegerField(_("number"), editable=False)
    start = models.ForeignKey(
        PowerNode,
        models.CASCADE,
        null=True,
        blank=True,
        related_name="runs_out",
        verbose_name=_("from"),
    )
    end = models.ForeignKey(
        PowerNode,
        models.CASCADE,
        null=True,
        blank=True,
        related_name="runs_in",
        verbose_name=_("to"),
    )
    channel = models.ForeignKey(
        Channel,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="runs",
        verbose_name=_("channel"),
    )
    from_text = models.CharField(_("from"), max_length=80, blank=True)
    to_text = models.CharField(_("to"), max_length=80, blank=True)
    conductor = models.ForeignKey(
        Conductor,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("cable"),
    )
    colour = models.CharField(_("colour (IEC 60757)"), max_length=8, blank=True)
    length = models.FloatField(_("length, one way"), null=True, blank=True)
    return_kind = models.CharField(_("way back"), max_length=8, choices=Return, blank=True)
    return_length = models.FloatField(_("length of the way back"), null=True, blank=True)
    chassis_resistance = models.FloatField(_("chassis resistance, measured"), null=True, blank=True)
    zone = models.CharField(_("hottest zone it passes"), max_length=12, choices=Zone, blank=True)
    bundle = models.PositiveSmallIntegerField(
        _("current-carrying cables in the bundle"), default=2, validators=[MinValueValidator(1)]
    )
    fuse = models.ForeignKey(
        Fuse,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("fuse at the start"),
    )
    fuse_distance = models.FloatField(_("cable from the source to the fuse"), null=True, blank=True)
    fuse_sheathed = models.BooleanField(_("sheathed all the way to the fuse"), default=False)
    end_fuse = models.ForeignKey(
        Fuse,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("fuse at the end"),
    )
    end_fuse_distance = models.FloatField(
        _("cable from the far source to its fuse"), null=True, blank=True
    )
    current = models.FloatField(_("current it must switch or carry"), null=True, blank=True)
    panels: models.ManyToManyField[Panel, Stretch] = models.ManyToManyField(
        Panel, through="Stretch", related_name="runs"
    )

    class Meta(JobPart.Meta):
        verbose_name = _("run")
        ordering = ["kind", "number"]
        constraints = [
            models.UniqueConstraint(fields=["job", "kind", "number"], name="one_run_per_label")
        ]

    def __str__(self) -> str:
        return self.label

    @property
    def label(self) -> str:
        """What is printed on both ends of the cable, such as P03."""
        if self.number is None:  # numbered when it is saved
            return self.kind
        return f"{self.kind}{self.number:02d}"

    @property
    def goes_from(self) -> str:
        """Where the run starts, in words."""
        return str(self.start) if self.start else self.from_text

    @property
    def goes_to(self) -> str:
        """Where the run ends, in words."""
        return str(self.end) if self.end else self.to_text


class Stretch(models.Model):
    """One stretch of a run: which panel it passes behind, in order, and beside what."""

    run = models.ForeignKey(Run, models.CASCADE, related_name="stretches")
    panel = models.ForeignKey(Panel, models.CASCADE, related_name="stretches")
    position = models.PositiveSmallIntegerField(default=1)
    follows_loom = models.BooleanField(_("follows the factory loom"), default=True)
    note = models.CharField(_("note"), max_length=120, blank=True)

    class Meta:
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return f"{self.run} behind {self.panel}"
