"""The parts the workshop fits, each kind with its own typed figures (SI, None where unknown)."""

from __future__ import annotations

from typing import Any

from django.core.validators import MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.agreement.money_field import money
from jobs.models.agreement.rates import TaxClass
from jobs.models.base import Record
from jobs.models.bounded import count, figure, number, prose


class Part(Record):
    """Anything in the catalogue; the kinds below add their figures."""

    class Kind(models.TextChoices):
        DRIVER = "driver", _("driver")
        AMPLIFIER = "amplifier", _("amplifier")
        PROCESSOR = "processor", _("processor")
        CONDUCTOR = "conductor", _("conductor")
        TERMINAL = "terminal", _("crimp terminal")
        FUSE = "fuse", _("fuse")
        HOLDER = "holder", _("fuse holder or block")
        SHEET_MATERIAL = "sheet_material", _("sheet material")
        DAMPING = "damping", _("damping")
        OTHER = "other", _("other")

    kind = models.CharField(_("kind"), max_length=16, choices=Kind, editable=False)
    maker = models.CharField(_("maker"), max_length=60, blank=True)
    name = models.CharField(_("name"), max_length=100)
    mass = figure(_("mass"))
    supplier = models.CharField(_("supplier"), max_length=60, blank=True)
    order_number = models.CharField(_("supplier's number"), max_length=60, blank=True)
    # Without tax; of cable by the metre, of wood by the sheet.
    price = money(_("price"))
    cost = money(_("costs the workshop"))
    tax_class = models.CharField(
        _("tax class"), max_length=8, choices=TaxClass, default=TaxClass.STANDARD
    )
    figures_source = models.CharField(_("where the figures come from"), max_length=160, blank=True)
    notes = prose(_("notes"))

    class Meta:
        ordering = ["kind", "maker", "name", "pk"]

    def __str__(self) -> str:
        return f"{self.maker} {self.name}".strip()


class Driver(Part):
    """A loudspeaker driver: its Thiele–Small set as far as known, coils and dimensions."""

    fs = figure(_("resonance fs"))
    qts = figure("Qts")
    qes = figure("Qes")
    qms = figure("Qms")
    vas = figure("Vas")
    sd = figure(_("cone area Sd"))
    re = figure(_("coil resistance Re, one coil"))
    le = figure(_("coil inductance Le, one coil"))
    mms = figure("Mms")
    cms = figure("Cms")
    rms = figure(_("mechanical loss Rms"))
    bl = figure("Bl")
    # PostgreSQL has a column xmax of its own in every table.
    xmax = figure(_("linear travel Xmax, one way"), column="linear_travel")
    power = figure(_("continuous power"))
    nominal_impedance = figure(_("nominal impedance, one coil"))
    sensitivity = figure(_("level at 2.83 V and 1 m"))
    coils = count(_("voice coils"), most=4)
    outer_diameter = figure(_("outer diameter"))
    cutout_diameter = figure(_("cut-out diameter"))
    bolt_circle = figure(_("bolt circle"))
    screws = number(_("screws"), most=64)
    screw_hole = figure(_("pilot hole or hole for its insert"))
    depth = figure(_("depth behind the mounting face"))
    magnet_diameter = figure(_("magnet diameter"))
    magnet_height = figure(_("magnet height"))
    displacement = figure(_("volume it takes from the box"))


class Amplifier(Part):
    """An amplifier: channels, power per load, lowest load per mode, efficiency, fuse."""

    class Stage(models.TextChoices):
        D = "D", _("class D")
        AB = "AB", _("class AB")

    stage = models.CharField(_("output stage"), max_length=2, choices=Stage, default=Stage.D)

    channels = count(_("channels"), most=16, default=2)
    lowest_load = figure(_("lowest load, one channel"))
    lowest_load_bridged = figure(_("lowest load, bridged"))
    efficiency = figure(_("efficiency at rated power"))
    fuse_rating = figure(_("fuse on the amplifier"))
    quiescent_current = figure(_("idle current"))
    minimum_voltage = figure(_("lowest supply voltage it works at"))
    highest_voltage = figure(_("highest supply voltage it stands"))
    turn_on_current = figure(_("turn-on current"))

    def what_hangs(self) -> dict[str, Any]:
        """Return what it gives into each load, as saved."""
        ratings = AmplifierRating.objects.filter(amplifier=self)
        return {"ratings": [[rating.bridged, rating.power, rating.load] for rating in ratings]}


class AmplifierRating(Record):
    """What an amplifier gives into one load in one mode, all channels driven."""

    amplifier = models.ForeignKey(Amplifier, models.CASCADE, related_name="ratings")
    bridged = models.BooleanField(_("bridged"), default=False)
    load = models.FloatField(_("load"), validators=[MinValueValidator(0.1)])
    power = models.FloatField(_("power per channel"), validators=[MinValueValidator(0.1)])

    class Meta:
        ordering = ["bridged", "-load", "pk"]

    def __str__(self) -> str:
        return f"{self.power:g} W / {self.load:g} Ω"


class Processor(Part):
    """What hands the signal on before the amplifiers: inputs, outputs, what it draws and wakes."""

    class Device(models.TextChoices):
        PROCESSOR = "processor", _("processor")
        CONVERTER = "converter", _("line converter: high level in, line level out")
        INTERFACE = "interface", _("interface to the bus or fibre of the car")

    device = models.CharField(
        _("what it is"), max_length=12, choices=Device, default=Device.PROCESSOR
    )
    inputs = count(_("inputs"), most=64, default=2)
    outputs = count(_("outputs"), most=64, default=2)
    sample_rate = figure(_("sample rate"))
    current = figure(_("supply current"))
    turn_on_limit = figure(_("turn-on output can carry"))
    highest_input = figure(_("highest signal its inputs take"))
    wakes_itself = models.BooleanField(
        _("turns itself on by the signal or the bus"), null=True, blank=True
    )
    minimum_voltage = figure(_("lowest supply voltage it works at"))
    highest_voltage = figure(_("highest supply voltage it stands"))
    fuse_rating = figure(_("supply fuse its maker asks for"))


class Conductor(Part):
    """Cable by the metre."""

    class Metal(models.TextChoices):
        COPPER = "copper", _("copper")
        # xgettext:no-python-format
        CCA_10 = "copper_clad_aluminium_10", _("copper-clad aluminium, 10 % copper")
        # xgettext:no-python-format
        CCA_15 = "copper_clad_aluminium_15", _("copper-clad aluminium, 15 % copper")
        ALUMINIUM = "aluminium", _("aluminium")

    # As it is marked, such as "4 AWG", "4 SAE" or "25 mm²": these do not convert to each other.
    size = models.CharField(_("size"), max_length=16)
    metal = models.CharField(_("metal"), max_length=26, choices=Metal, default=Metal.COPPER)
    insulation_temperature = figure(_("insulation temperature class"))
    ampacity = figure(_("rated current from the maker's sheet"))
    outer_diameter = figure(_("outer diameter"))
    colour = models.CharField(_("colour (IEC 60757)"), max_length=8, blank=True)
    cores = count(_("cores under one sheath"), most=24, least=1)
    screened = models.BooleanField(_("screened"), default=False)
    capacitance = figure(_("capacitance per length, core to screen"))


class Terminal(Part):
    """A crimp terminal; which metals it is made for decides whether it may be crimped on."""

    class Metals(models.TextChoices):
        COPPER = "copper", _("copper only")
        ALUMINIUM = "aluminium", _("aluminium and copper-clad aluminium only")
        BOTH = "both", _("copper, aluminium and copper-clad aluminium")

    metals = models.CharField(_("made for"), max_length=10, choices=Metals, blank=True)
    stud = models.CharField(_("stud or screw it sits on, such as M8"), max_length=8, blank=True)
    torque = figure(_("tightening torque, from the part maker's sheet"))
    smallest_cable = figure(_("smallest cable it is made for"))
    largest_cable = figure(_("largest cable it is made for"))


class Fuse(Part):
    """A fuse or breaker; a breaking capacity that nobody has read off the sheet stays None."""

    class Type(models.TextChoices):
        MINI = "mini", _("blade, type F (mini)")
        BLADE = "blade", _("blade, type C (regular)")
        MAXI = "maxi", _("blade, type E (maxi)")
        SF30 = "sf30", _("bolted strip SF30")
        SF51 = "sf51", _("bolted strip SF51")
        CARTRIDGE = "cartridge", _("cartridge")
        BREAKER = "breaker", _("circuit breaker")

    type = models.CharField(_("type"), max_length=10, choices=Type)
    rating = models.FloatField(_("rating"), validators=[MinValueValidator(0.1)])
    voltage = figure(_("rated voltage"))
    breaking_capacity = figure(_("breaking capacity"))
    rerating = figure(_("share of the rating lost for each degree above 25 °C"), most=0.02)
    # Points of the maker's time-current curve: (times the rating, opens within so many seconds).
    curve = models.JSONField(_("opening times"), default=list, blank=True)


class Holder(Part):
    """A fuse holder or distribution block: how many ways, which cable, which stud, how much."""

    ways = count(_("ways"), most=64, least=1)
    rated_current = figure(_("current it may carry"))
    largest_cable = figure(_("largest cable it takes"))
    stud = models.CharField(_("stud or screw, such as M8"), max_length=8, blank=True)


class SheetMaterial(Part):
    """Wood by the sheet; the measured thickness counts, not the nominal one."""

    thickness = models.FloatField(_("measured thickness"))
    sheet_length = figure(_("sheet length"))
    sheet_width = figure(_("sheet width"))
    density = figure(_("density"))
    stiffness = figure(_("Young's modulus"))
    grained = models.BooleanField(_("has a grain direction"), default=False)


class Damping(Part):
    """Damping or absorbing material."""

    thickness = figure(_("thickness"))
    area_mass = figure(_("mass per area"))
