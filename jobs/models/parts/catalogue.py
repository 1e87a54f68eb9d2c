"""The parts the workshop fits, each kind with its own typed figures (SI, None where unknown)."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.core.validators import MinValueValidator
from django.db import models
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from jobs.models.agreement.money_field import money
from jobs.models.agreement.rates import TaxClass
from jobs.models.base import Record, TypedFigures
from jobs.models.bounded import count, figure, number, prose


class Part(TypedFigures, Record):
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
        COVER = "cover", _("cover material")
        SUPPLY = "supply", _("glue, tape, screws, T-nuts")
        OTHER = "other", _("other")

    kind = models.CharField(_("kind"), max_length=16, choices=Kind, editable=False)
    maker = models.CharField(_("maker"), max_length=60, blank=True)
    name = models.CharField(_("name"), max_length=100)
    mass = figure(_("mass"), most=500.0)
    supplier = models.CharField(_("supplier"), max_length=60, blank=True)
    order_number = models.CharField(_("supplier's number"), max_length=60, blank=True)
    # Without tax; of cable and cover by the metre, of wood by the sheet.
    price = money(_("price"))
    cost = money(_("costs the workshop"))
    tax_class = models.CharField(
        _("tax class"), max_length=8, choices=TaxClass, default=TaxClass.STANDARD
    )
    shelf = models.CharField(_("where it lies in the workshop"), max_length=80, blank=True)
    figures_source = models.CharField(_("where the figures come from"), max_length=160, blank=True)
    notes = prose(_("notes"))

    class Meta:
        ordering = ["kind", "maker", "name", "pk"]

    def __str__(self) -> str:
        return f"{self.maker} {self.name}".strip()


class Driver(Part):
    """A loudspeaker driver: its Thiele–Small set as far as known, coils and dimensions."""

    fs = figure(_("resonance fs"), least=1.0, most=20_000.0)
    qts = figure("Qts", least=0.02, most=20.0)
    qes = figure("Qes", least=0.02, most=50.0)
    qms = figure("Qms", least=0.1, most=100.0)
    vas = figure("Vas", most=5.0)
    sd = figure(_("cone area Sd"), most=1.0)
    re = figure(_("coil resistance Re, one coil"), least=0.05, most=2000.0)
    le = figure(_("coil inductance Le, one coil"), most=0.1)
    mms = figure("Mms", most=5.0)
    cms = figure("Cms", most=0.1)
    rms = figure(_("mechanical loss Rms"), most=1000.0)
    bl = figure("Bl", most=200.0)
    # PostgreSQL has a column xmax of its own in every table.
    xmax = figure(_("linear travel Xmax, one way"), most=0.2, column="linear_travel")
    power = figure(_("continuous power"), most=20_000.0)
    nominal_impedance = figure(_("nominal impedance, one coil"), least=0.1, most=2000.0)
    sensitivity = figure(_("level at 2.83 V and 1 m"), least=40.0, most=130.0)
    coils = count(_("voice coils"), most=4)
    outer_diameter = figure(_("outer diameter"), most=2.0)
    cutout_diameter = figure(_("cut-out diameter"), most=2.0)
    bolt_circle = figure(_("bolt circle"), most=2.0)
    screws = number(_("screws"), most=64)
    screw_hole = figure(_("pilot hole or hole for its insert"), most=0.05)
    depth = figure(_("depth behind the mounting face"), most=2.0)
    surround_height = figure(_("surround and cone stand before the mounting face by"), most=0.2)
    magnet_diameter = figure(_("magnet diameter"), most=2.0)
    magnet_height = figure(_("magnet height"), most=1.0)
    displacement = figure(_("volume it takes from the box"), most=0.5)

    def clean(self) -> None:
        """Refuse sizes that cannot be those of one driver."""
        if wrong := misfits(self):
            raise ValidationError(wrong)


def misfits(driver: Driver) -> dict[str, str]:
    """Say of each size that contradicts another why it cannot be: by field."""
    outer, cut = driver.outer_diameter, driver.cutout_diameter
    circle, depth, height = driver.bolt_circle, driver.depth, driver.magnet_height
    wrong = {}
    if outer and cut and cut >= outer:
        wrong["cutout_diameter"] = gettext("The flange would fall through: it is no wider.")
    if circle and outer and circle >= outer:
        wrong["bolt_circle"] = gettext("The screws would stand outside the flange.")
    elif circle and cut and circle <= cut:
        wrong["bolt_circle"] = gettext("The screws would stand in the cut-out.")
    if depth and height and height > depth:
        wrong["magnet_height"] = gettext("The magnet alone is higher than the driver is deep.")
    return wrong


class OnBoard(models.Model):
    """What is screwed to a board: its size, its screws, the air its maker asks for."""

    body_length = figure(_("length"), most=2.0)
    body_width = figure(_("breadth"), most=2.0)
    body_height = figure(_("height over its board"), most=1.0)
    holes_along = figure(_("its screws, apart along the length"), most=2.0)
    holes_across = figure(_("its screws, apart along the breadth"), most=2.0)
    fixing_hole = figure(_("hole for each of its screws"), most=0.05)
    air_round = figure(_("free space its maker asks for round it"), most=1.0)

    class Meta:
        abstract = True


class Amplifier(Part, OnBoard):
    """An amplifier: channels, power per load, lowest load per mode, efficiency, fuse."""

    class Stage(models.TextChoices):
        D = "D", _("class D")
        AB = "AB", _("class AB")

    stage = models.CharField(_("output stage"), max_length=2, choices=Stage, default=Stage.D)

    channels = count(_("channels"), most=16, default=2)
    lowest_load = figure(_("lowest load, one channel"), least=0.1, most=100.0)
    lowest_load_bridged = figure(_("lowest load, bridged"), least=0.1, most=100.0)
    efficiency = figure(_("efficiency at rated power"), least=0.05, most=1.0)
    fuse_rating = figure(_("fuse on the amplifier"), most=1000.0)
    quiescent_current = figure(_("idle current"), most=50.0)
    minimum_voltage = figure(_("lowest supply voltage it works at"), most=100.0)
    highest_voltage = figure(_("highest supply voltage it stands"), most=100.0)
    turn_on_current = figure(_("turn-on current"), most=5.0)

    def clean(self) -> None:
        """Refuse limits that exclude each other."""
        wrong = {}
        low, high = self.minimum_voltage, self.highest_voltage
        if low and high and low >= high:
            wrong["minimum_voltage"] = gettext(
                "It would work at no voltage: the highest it stands is lower."
            )
        idle, fuse = self.quiescent_current, self.fuse_rating
        if idle and fuse and idle >= fuse:
            wrong["quiescent_current"] = gettext("Its own fuse would not bear it idling.")
        if wrong:
            raise ValidationError(wrong)

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


class Processor(Part, OnBoard):
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
    sample_rate = figure(_("sample rate"), least=8000.0, most=800_000.0)
    # Of its equaliser, on each output.
    bands = number(_("bands of its equaliser on an output"), most=64)
    most_boost = figure(_("most a band lifts"), most=40.0)
    most_cut = figure(_("most a band cuts"), most=60.0)
    lowest_q = figure(_("lowest Q of a band"), least=0.05, most=100.0)
    highest_q = figure(_("highest Q of a band"), least=0.05, most=100.0)
    current = figure(_("supply current"), most=50.0)
    turn_on_limit = figure(_("turn-on output can carry"), most=20.0)
    highest_input = figure(_("highest signal its inputs take"), most=200.0)
    wakes_itself = models.BooleanField(
        _("turns itself on by the signal or the bus"), null=True, blank=True
    )
    minimum_voltage = figure(_("lowest supply voltage it works at"), most=100.0)
    highest_voltage = figure(_("highest supply voltage it stands"), most=100.0)
    fuse_rating = figure(_("supply fuse its maker asks for"), most=1000.0)


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
    insulation_temperature = figure(_("insulation temperature class"), least=300.0, most=800.0)
    ampacity = figure(_("rated current from the maker's sheet"), most=2000.0)
    outer_diameter = figure(_("outer diameter"), most=0.2)
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
    torque = figure(_("tightening torque, from the part maker's sheet"), most=200.0)
    smallest_cable = figure(_("smallest cable it is made for"), most=0.001)
    largest_cable = figure(_("largest cable it is made for"), most=0.001)
    plug = models.BooleanField(
        _("a plug that comes on its lead or is soldered on: nothing is crimped"), default=False
    )


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
    voltage = figure(_("rated voltage"), most=1500.0)
    breaking_capacity = figure(_("breaking capacity"))
    rerating = figure(_("share of the rating lost for each degree above 25 °C"), most=0.02)
    # Points of the maker's time-current curve: (times the rating, opens within so many seconds).
    curve = models.JSONField(_("opening times"), default=list, blank=True)


class Holder(Part):
    """A fuse holder or distribution block: how many ways, which cable, which stud, how much."""

    ways = count(_("ways"), most=64, least=1)
    takes = models.CharField(_("fuse it takes"), max_length=10, choices=Fuse.Type, blank=True)
    rated_current = figure(_("current it may carry"), most=2000.0)
    largest_cable = figure(_("largest cable it takes"), most=0.001)
    stud = models.CharField(_("stud or screw, such as M8"), max_length=8, blank=True)


class SheetMaterial(Part):
    """Wood by the sheet; the measured thickness counts, not the nominal one."""

    thickness = models.FloatField(_("measured thickness"))
    sheet_length = figure(_("sheet length"), most=10.0)
    sheet_width = figure(_("sheet width"), most=10.0)
    density = figure(_("density"))
    stiffness = figure(_("Young's modulus"))
    strength = figure(_("bending strength, the weaker way of the grain"))
    grained = models.BooleanField(_("has a grain direction"), default=False)


class Damping(Part):
    """Damping or absorbing material."""

    class Effect(models.TextChoices):
        LAYER = "layer", _("constrained layer: damps a sheet of metal")
        BARRIER = "barrier", _("barrier: heavy and limp")
        ABSORBER = "absorber", _("absorber: open pores")
        FOAM = "foam", _("closed-cell foam: keeps parts from rattling")

    effect = models.CharField(_("what it does"), max_length=8, choices=Effect, blank=True)
    thickness = figure(_("thickness"))
    area_mass = figure(_("mass per area"))
    sheet_area = figure(_("area of one sheet or roll"))


class Cover(Part):
    """What panels are covered with, by the metre of its roll."""

    thickness = figure(_("thickness as glued down, round an edge"), most=0.05)
    roll_width = figure(_("width of the roll"), most=10.0)
    area_mass = figure(_("mass per area"))
    directed = models.BooleanField(
        _("has a direction: pile, pattern or stretch run along the roll"), default=False
    )


class PartPicture(models.Model):
    """What a part looks like, no larger than tells it from its like in a list."""

    part = models.OneToOneField(Part, models.CASCADE, related_name="picture")
    image = models.BinaryField()  # a JPEG of some kilobytes, kept with the part
    changed_at = models.DateTimeField(auto_now=True)

    def __str__(self) -> str:
        return str(self.part)
