"""The power tree's nodes, and every cable run of the job with its route."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.db import models
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from jobs.models.base import TypedFigures
from jobs.models.bounded import count, figure
from jobs.models.channel_plan import Channel
from jobs.models.equipment import EquipmentItem
from jobs.models.job import JobPart
from jobs.models.panels import Panel
from jobs.models.parts.catalogue import Conductor, Fuse, Holder, Terminal
from jobs.models.sides import OnASide
from jobs.models.wiring.contacts import Contact
from jobs.models.wiring.stretch import Stretch

if TYPE_CHECKING:
    from jobs.models.bay import RunAsBuilt


AMPERE_HOUR, HOUR = 3600.0, 3600.0  # C, s


class PowerNode(OnASide, TypedFigures, JobPart):
    """A point of the power tree: a source, a block, or something that takes current."""

    class Kind(models.TextChoices):
        BATTERY = "battery", _("battery")
        DC_DC = "dc_dc", _("DC-DC converter")
        ALTERNATOR = "alternator", _("alternator")
        CAPACITOR = "capacitor", _("capacitor bank")
        SWITCH = "switch", _("switch")
        RELAY = "relay", _("charge relay")
        DIODE = "diode", _("isolator with diodes")
        BLOCK = "block", _("distribution block")
        AMPLIFIER = "amplifier", _("amplifier")
        LOAD = "load", _("other load")

    SOURCES = (Kind.BATTERY, Kind.DC_DC, Kind.ALTERNATOR, Kind.CAPACITOR)
    # They join what arrives at them to what leaves them; a diode one way only.
    CONTACTS = (Kind.SWITCH, Kind.RELAY, Kind.DIODE)
    # What arrives there is another place of the tree than what leaves.
    TWO_SIDED = (Kind.DC_DC, *CONTACTS)

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
    voltage = figure(_("open-circuit voltage"), most=100.0)
    internal_resistance = figure(_("internal resistance"), most=10.0)
    cca = figure(_("cold cranking current"), most=3000.0)
    charge = figure(_("capacity"), most=1000 * AMPERE_HOUR)
    rated_time = figure(_("discharge time the capacity is rated for"), most=100 * HOUR)
    peukert = figure(_("Peukert exponent"), least=1.0, most=2.0)
    usable_share = figure(_("share of the capacity that may be used"), most=1.0)
    current_limit = figure(_("output current limit"), most=1000.0)
    capacitance = figure(_("capacitance"), most=1000.0)
    flat_voltage = figure(_("open-circuit voltage when flat"), most=100.0)
    starting_current = figure(_("current the starter takes"), most=3000.0)
    # Switches, relays, diodes.
    rated_current = figure(_("current it may carry, by its maker"), most=2000.0)
    coil_current = figure(_("current of its coil"), most=20.0)
    coil_diode = models.BooleanField(_("its coil has a diode or a resistor"), null=True, blank=True)
    # Loads other than an amplifier of the catalogue.
    current = figure(_("current it takes"), most=1000.0)
    highest_voltage = figure(_("highest supply voltage it stands"), most=100.0)
    fuse_rating = figure(_("supply fuse its maker asks for"), most=1000.0)
    standby_current = figure(_("current it takes asleep, key off"), most=20.0)

    class Meta(JobPart.Meta):
        verbose_name = _("power node")
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.name

    @property
    def is_source(self) -> bool:
        """Whether current can come from here, also after the battery is off."""
        return self.kind in self.SOURCES


class Run(TypedFigures, JobPart):
    """One cable from here to there, with its label."""

    class Kind(models.TextChoices):
        POWER = "P", pgettext_lazy("run", "power")
        SPEAKER = "S", _("speaker")
        LINE = "L", _("line level or bus")
        CONTROL = "C", _("control")

    class Purpose(models.TextChoices):
        """What a control run is for."""

        TURN_ON = "turn_on", _("turns equipment on")
        MUTE = "mute", _("mutes equipment, for a call")

    class Return(models.TextChoices):
        CABLE = "cable", _("its own cable")
        CHASSIS = "chassis", _("chassis, measured")

    class Feed(models.TextChoices):
        """What feeds a control run: it decides whether the run can burn."""

        OUTPUT = "output", _("an output of a device, with a limit of its own")
        SUPPLY = "supply", _("a battery, a block or a switched circuit of the car")

    class Zone(models.TextChoices):
        ENGINE_BAY = "engine bay", _("engine bay")
        CABIN = "cabin", _("cabin")
        UNDER_CARPET = "under carpet", _("under carpet")
        BOOT = "boot", _("boot")
        OUTSIDE = "outside", _("outside, under the floor")

    Contact = Contact

    # The route while it is being typed; None once it is read from the table.
    typed_route: list[Stretch] | None = None
    # What it wakes while that is being typed.
    typed_wakes: list[EquipmentItem] | None = None
    # Where it was built otherwise: what was designed, and the row that says how it is.
    designed: Run | None = None
    as_built: RunAsBuilt | None = None

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
    start_contact = models.CharField(
        _("terminal number at the start (DIN 72552)"), max_length=4, choices=Contact, blank=True
    )
    end_contact = models.CharField(
        _("terminal number at the end (DIN 72552)"), max_length=4, choices=Contact, blank=True
    )
    conductor = models.ForeignKey(
        Conductor,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("cable"),
    )
    colour = models.CharField(_("colour (IEC 60757)"), max_length=8, blank=True)
    return_colour = models.CharField(
        _("colour of the other core (IEC 60757)"), max_length=8, blank=True
    )
    start_terminal = models.ForeignKey(
        Terminal,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("crimp terminal at the start"),
    )
    end_terminal = models.ForeignKey(
        Terminal,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("crimp terminal at the end"),
    )
    length = figure(_("length, one way"), most=100.0)
    return_kind = models.CharField(_("way back"), max_length=8, choices=Return, blank=True)
    return_length = figure(_("length of the way back"), most=100.0)
    return_conductor = models.ForeignKey(
        Conductor,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("cable of the way back"),
    )
    return_start = models.ForeignKey(
        "GroundPoint",
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("where the minus meets metal at the start"),
    )
    return_end = models.ForeignKey(
        "GroundPoint",
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("where the minus meets metal at the end"),
    )
    return_start_terminal = models.ForeignKey(
        Terminal,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("terminal of the minus at the start"),
    )
    return_end_terminal = models.ForeignKey(
        Terminal,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("terminal of the minus at the end"),
    )
    chassis_resistance = figure(_("chassis resistance, measured"), most=10.0)
    zone = models.CharField(_("hottest zone it passes"), max_length=12, choices=Zone, blank=True)
    ambient = figure(_("hottest air round it, if measured"))
    bundle = count(_("current-carrying cables in the bundle"), most=100, least=1, default=2)
    fuse = models.ForeignKey(
        Fuse,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("fuse at the start"),
    )
    fuse_holder = models.ForeignKey(
        Holder,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("holder of the fuse at the start"),
    )
    # What both ends of the cable get where it is cut for the fuse; none where that sits at 0.
    fuse_terminal = models.ForeignKey(
        Terminal,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("terminals at that holder"),
    )
    fuse_distance = figure(_("cable from the source to the fuse"), most=100.0)
    fuse_sheathed = models.BooleanField(_("sheathed all the way to the fuse"), default=False)
    drop_limit = figure(_("voltage it may lose, as a share of 12 V"), most=0.1)
    diversity = figure(_("share of the fuses behind it that flows at once"), most=1.0)
    end_fuse = models.ForeignKey(
        Fuse,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("fuse at the end"),
    )
    end_fuse_holder = models.ForeignKey(
        Holder,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("holder of the fuse at the end"),
    )
    end_fuse_terminal = models.ForeignKey(
        Terminal,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("terminals at that holder"),
    )
    end_fuse_distance = models.FloatField(
        _("cable from the far source to its fuse"), null=True, blank=True
    )
    end_fuse_sheathed = models.BooleanField(_("sheathed all the way to that fuse"), default=False)
    current = figure(_("current it must switch or carry"), most=1000.0)
    fed_by = models.CharField(_("fed by"), max_length=8, choices=Feed, blank=True)
    # Line level: None means nobody has read the sheet or looked along the route.
    source_resistance = figure(_("output resistance of its source"))
    beside_power = figure(_("how far it lies along a power run"))
    # Control: what it is for, what it switches, and what its source may give.
    purpose = models.CharField(
        _("what it does"), max_length=8, choices=Purpose, default=Purpose.TURN_ON
    )
    wakes = models.ManyToManyField(
        EquipmentItem,
        blank=True,
        related_name="+",
        verbose_name=_("equipment it turns on or mutes"),
    )
    source_limit = figure(_("most its source may give"), most=100.0)
    relay = models.BooleanField(_("turned on through a relay"), default=False)
    relay_coil = figure(_("current of the relay's coil"), most=20.0)
    relay_diode = models.BooleanField(
        _("the relay's coil has a diode or a resistor"), null=True, blank=True
    )
    panels: models.ManyToManyField[Panel, Stretch] = models.ManyToManyField(
        Panel, through="Stretch", related_name="runs"
    )

    class Meta(JobPart.Meta):
        verbose_name = _("run")
        ordering = ["kind", "number", "pk"]
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
    def mutes(self) -> bool:
        """Whether it is a control run that silences the music, for a call."""
        return self.kind == self.Kind.CONTROL and self.purpose == self.Purpose.MUTE

    @property
    def kind_said(self) -> str:
        """What the run is, in words."""
        return str(_("mute") if self.mutes else self.get_kind_display())

    @property
    def goes_from(self) -> str:
        """Where the run starts, in words; a speaker run at the output its channel uses."""
        if self.start or self.from_text or self.channel is None:
            return str(self.start) if self.start else self.from_text
        return self.channel.output

    @property
    def goes_to(self) -> str:
        """Where the run ends, in words; a speaker run at the speaker of its channel."""
        if self.end or self.to_text or self.channel is None:
            return str(self.end) if self.end else self.to_text
        return self.channel.name

    @property
    def route(self) -> list[Stretch]:
        """Its stretches in order: what is being typed, or else what was saved."""
        if self.typed_route is not None:
            return self.typed_route
        return list(self.stretches.all()) if self.pk else []

    def what_hangs(self) -> dict[str, Any]:
        """Return its route and what it wakes, as saved."""
        return {
            "route": [
                [stretch.panel_id, stretch.place, stretch.follows_loom, stretch.edge]
                for stretch in Stretch.objects.filter(run=self)
            ],
            "wakes": list(self.wakes.order_by("pk").values_list("pk", flat=True)),
        }

    @property
    def woken(self) -> list[EquipmentItem]:
        """The equipment it turns on: what is being typed, or else what was saved."""
        if self.typed_wakes is not None:
            return self.typed_wakes
        return list(self.wakes.all()) if self.pk else []
