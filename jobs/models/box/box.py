"""A box: the enclosure, its driver, its carcass as wood and the cavity it must go in."""

from __future__ import annotations

from typing import Any, Self

from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.base import TypedFigures
from jobs.models.bounded import count, figure
from jobs.models.box.box_wood import BRACES, CAVITY, FACES, OWN, PLAN, BoxWood, face
from jobs.models.box.moulded import MouldedShape
from jobs.models.box.row_lists import Corner, ListedRow, RowList
from jobs.models.channel_plan import Channel
from jobs.models.equipment import EquipmentItem
from jobs.models.held import HeldInCar
from jobs.models.job import Job, JobPart


class Box(BoxWood, MouldedShape, HeldInCar, TypedFigures, JobPart):
    """An enclosure; every length is in metres and outside unless it says otherwise."""

    class Kind(models.TextChoices):
        SEALED = "sealed", _("sealed")
        VENTED = "vented", _("vented")
        PASSIVE_RADIATOR = "passive_radiator", _("passive radiator")
        BAND_PASS_4 = "band_pass_4", _("band-pass, 4th order")
        BAND_PASS_6 = "band_pass_6", _("band-pass, 6th order")
        INFINITE_BAFFLE = "infinite_baffle", _("infinite baffle")
        DOOR = "door", _("vehicle door")

    class PortShape(models.TextChoices):
        ROUND = "round", _("round tube")
        SLOT = "slot", _("slot along a wall")

    class SlotWalls(models.TextChoices):
        ONE = "one", _("one: its width lies on a wall")
        TWO = "two", _("two: it lies in a corner")
        THREE = "three", _("three: it is as wide as the box")

    class Hole(models.TextChoices):
        BLANKED = "blanked", _("blanked off")
        OPEN = "open", _("left open")
        FACTORY_DRIVER = "factory_driver", _("factory driver left in, unplugged")

    job = models.ForeignKey(Job, models.CASCADE, related_name="boxes")
    name = models.CharField(_("name"), max_length=60)
    kind = models.CharField(_("kind"), max_length=18, choices=Kind, default=Kind.SEALED)
    place = models.CharField(_("place"), max_length=80, blank=True)
    chosen = models.BooleanField(_("this one is built"), default=True)

    driver = models.ForeignKey(
        EquipmentItem,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="boxes",
        verbose_name=_("driver"),
    )
    driver_count = count(_("drivers"), most=16, least=1)
    isobaric = models.BooleanField(_("isobaric pair"), default=False)
    # One behind the other, so far apart; face to face when it is left empty.
    isobaric_gap = figure(_("from the first driver of a pair to the second"))
    # The channel decides how coils and drivers are connected and what the amplifier can give.
    channel = models.ForeignKey(
        Channel,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="boxes",
        verbose_name=_("channel that feeds it"),
    )
    test_voltage = models.FloatField(_("voltage for the curves"), default=2.83)

    wanted_volume = figure(_("net volume wanted"))
    ql = figure(_("leakage QL"))
    qa = figure(_("absorption QA"))
    qp = figure(_("port loss QP"))
    fill = models.FloatField(_("filling gain (1 to 1.4)"), default=1.0)

    port_shape = models.CharField(
        _("port"), max_length=5, choices=PortShape, default=PortShape.ROUND
    )
    port_count = count(_("ports"), most=16)
    port_diameter = figure(_("port diameter inside"))
    port_width = figure(_("slot width"))
    port_height = figure(_("slot height"))
    slot_walls = models.CharField(
        _("walls the slot lies on, inside"),
        max_length=5,
        choices=SlotWalls,
        default=SlotWalls.ONE,
    )
    port_flare = figure(_("radius of the flares, both ends"))
    port_length = figure(_("port length"))
    port_wall = models.FloatField(_("port wall thickness"), default=0.003)
    wanted_tuning = figure(_("tuning wanted"))

    # A port unlike the first, beside it.
    second_port_diameter = figure(_("second port, diameter inside"))
    second_port_length = figure(_("second port, length"))
    second_port_face = face(_("second port in"))
    second_port_u = figure(_("second port, from the left"))
    second_port_v = figure(_("second port, from below"))

    front_volume = figure(_("front chamber volume"))
    rear_port_diameter = figure(_("rear port diameter inside"))
    rear_port_length = figure(_("rear port length"))
    rear_port_face = face(_("rear port in"))
    rear_wanted_tuning = figure(_("rear tuning wanted"))

    radiator = models.ForeignKey(
        EquipmentItem,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("passive radiator"),
    )
    radiator_count = count(_("passive radiators"), most=16)
    radiator_added_mass = models.FloatField(_("mass added to each"), default=0.0)

    hole = models.CharField(_("factory hole beside it"), max_length=16, choices=Hole, blank=True)
    hole_area = figure(_("area of the factory hole"))

    # The space in the car, seen from the side, and what must stay free around the box.
    # [[x, y], …] in metres, or [x, y, bow] where the edge after a corner is an arc.
    cavity_profile = RowList("corners", outline=CAVITY)
    cavity_width = figure(_("cavity width"))
    cavity_gap = models.FloatField(_("gap to keep"), default=0.01)
    # [{"name", "points": [[x, y], …], "start", "end"}, …] in metres; end is None for all across.
    cavity_obstacles = RowList("obstacles")
    opening_width = figure(_("opening it must pass, width"))
    opening_height = figure(_("opening it must pass, height"))

    class Meta(JobPart.Meta):
        verbose_name = _("box")
        ordering = ["-chosen", "pk"]
        verbose_name_plural = "boxes"

    def __str__(self) -> str:
        return self.name


class BoxCorner(Corner):
    """A corner of a box's own side view, or of the cavity it goes in."""

    class Outline(models.TextChoices):
        OWN = OWN, _("own side profile")
        PLAN = PLAN, _("own plan")
        CAVITY = "cavity", _("cavity, side profile")

    of = "box"
    box = models.ForeignKey(Box, models.CASCADE, related_name="corners")
    outline = models.CharField(_("outline"), max_length=6, choices=Outline)
    # Of a plan: of the wall after it, from upright, inwards above zero.
    lean = models.FloatField(_("lean of the wall after it"), default=0.0)

    @property
    def plain(self) -> list[float]:
        """Across and up, the bow, and the lean where the wall leans [m, rad]."""
        return [self.x, self.y, self.bow, self.lean] if self.lean else super().plain

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read two to four figures."""
        x, y, *more = value
        bow, lean = [*more, 0.0, 0.0][:2]
        return cls(x=x, y=y, bow=bow, lean=lean)


class Obstacle(ListedRow):
    """A block that stands in a cavity; `end` is None where it reaches all the way across."""

    of = "box"
    box = models.ForeignKey(Box, models.CASCADE, related_name="obstacles")
    name = models.CharField(_("name"), max_length=60)
    x = models.FloatField(_("front edge at"))
    y = models.FloatField(_("lower edge at"))
    depth = models.FloatField(_("depth"))
    height = models.FloatField(_("height"))
    start = models.FloatField(_("from the left"), default=0.0)
    end = figure(_("to"))

    @property
    def plain(self) -> dict[str, Any]:
        """Its name, its corners and its reach across [m]."""
        x, y, far, high = self.x, self.y, self.x + self.depth, self.y + self.height
        return {
            "name": self.name,
            "points": [[x, y], [far, y], [far, high], [x, high]],
            "start": self.start,
            "end": self.end,
        }

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read a block; of any other outline what it stands in."""
        xs, ys = zip(*value["points"], strict=True)
        return cls(
            name=value["name"],
            x=min(xs),
            y=min(ys),
            depth=max(xs) - min(xs),
            height=max(ys) - min(ys),
            start=value["start"] or 0.0,
            end=value["end"],
        )


class InnerBrace(ListedRow):
    """What stiffens a box from within, placed by one figure, or a strut by two and its breadth."""

    of = "box"
    box = models.ForeignKey(Box, models.CASCADE, related_name="braces")
    kind = models.CharField(_("kind"), max_length=12, choices=BRACES)
    at = models.FloatField(_("at"))
    second = figure(_("and at"))
    breadth = figure(_("breadth"))
    open = models.FloatField(_("share cut out"), default=0.0)

    @property
    def plain(self) -> dict[str, Any]:
        """Kind, places [m] and open share."""
        places = [self.at, self.second, self.breadth]
        return {
            "kind": self.kind,
            "at": [place for place in places if place is not None],
            "open": self.open,
        }

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read one brace."""
        at, *rest = value["at"]
        second, breadth = rest or (None, None)
        return cls(kind=value["kind"], at=at, second=second, breadth=breadth, open=value["open"])


class SideThickness(ListedRow):
    """A side of a box that is of another thickness than its sheet."""

    of = "box"
    box = models.ForeignKey(Box, models.CASCADE, related_name="sides")
    face = models.CharField(_("side"), max_length=12, choices=FACES)
    thickness = models.FloatField(_("thickness"))

    @property
    def plain(self) -> tuple[str, float]:
        """The side and its thickness [m]."""
        return self.face, self.thickness

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read one side."""
        face, thickness = value
        return cls(face=face, thickness=thickness)
