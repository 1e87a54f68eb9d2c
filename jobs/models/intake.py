"""The car as it came in: what was looked at, noted and signed before anything comes off."""

from __future__ import annotations

import uuid
from collections.abc import Sequence
from typing import ClassVar

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.base import Signed
from jobs.models.bounded import number, prose
from jobs.models.job import JobPart

LONGEST = 240  # characters of a note
SAID = 1000  # characters of what the customer says


def picture_path(instance: IntakeMark, _filename: str) -> str:
    """Name a picture by chance, so that no address can be guessed."""
    return f"intake/{instance.job_id}/{uuid.uuid4().hex}.jpg"


class Intake(Signed, JobPart):
    """One walk round the car with its customer; once it is signed none of it changes."""

    # The rest belongs to one of these.
    ASKED: ClassVar = (
        *("mileage", "fuel", "keys", "lamps_lit", "belongings_left", "works", "works_not"),
    )

    class Body(models.TextChoices):
        """Which outline is drawn."""

        SALOON = "saloon", _("saloon")
        HATCHBACK = "hatchback", _("hatchback")
        ESTATE = "estate", _("estate or off-road car")
        VAN = "van", _("van, bus or camper")
        PICKUP = "pickup", _("pick-up")
        COUPE = "coupe", _("two doors, or open")

    class MileageUnit(models.TextChoices):
        KM = "km", "km"
        MI = "mi", "mi"

    body = models.CharField(_("outline"), max_length=9, choices=Body)
    # None and empty texts are what nobody noted; they are printed as that.
    mileage = number(_("mileage"), most=9_999_999)
    mileage_unit = models.CharField(
        _("as the instrument shows it, in"), max_length=2, choices=MileageUnit, default="km"
    )
    fuel = number(_("fuel or charge, in per cent"), most=100)
    keys = number(_("keys handed over"), most=20)
    lamps_lit = models.BooleanField(_("a warning lamp is lit"), null=True, blank=True)
    lamps = models.CharField(_("which ones"), max_length=LONGEST, blank=True)
    belongings_left = models.BooleanField(_("something is left in the car"), null=True, blank=True)
    belongings = prose(_("what is left in it"), most=SAID)
    works = prose(_("what works, as the customer says"), most=SAID)
    works_not = prose(_("what does not, as the customer says"), most=SAID)
    signed_name = models.CharField(_("signed by"), max_length=120, blank=True, editable=False)
    # Strokes as flat lists of x and y, as under an offer.
    signature = models.JSONField(default=list, editable=False)
    signed_at = models.DateTimeField(_("signed"), null=True, editable=False)
    taken_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        null=True,
        editable=False,
        related_name="+",
        verbose_name=_("taken in by"),
    )

    class Meta(JobPart.Meta):
        verbose_name = _("intake")
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["job"], name="one_intake_per_job")]

    def __str__(self) -> str:
        return self.job.code

    @property
    def is_signed(self) -> bool:
        """Whether it is frozen."""
        return self.signed_at is not None

    @property
    def lacks(self) -> list[str]:
        """Name what is asked of every car and nobody noted: unknown, not nothing."""
        return [
            str(self._meta.get_field(name).verbose_name)  # type: ignore[union-attr]
            for name in self.ASKED
            if getattr(self, name) in (None, "")
        ]

    def split(self, marks: Sequence[IntakeMark]) -> tuple[list[IntakeMark], list[IntakeMark]]:
        """Part the marks that were signed for from those that were noted later."""
        at = self.signed_at
        signed = [mark for mark in marks if at is None or mark.noted_at <= at]
        return signed, [mark for mark in marks if mark not in signed]


class IntakeMark(JobPart):
    """A scratch, a dent or a word at a place of the car, with a picture or without."""

    class Kind(models.TextChoices):
        SCRATCH = "scratch", _("scratch")
        DENT = "dent", _("dent")
        CRACK = "crack", _("chip or crack")
        STAIN = "stain", _("stain or wear")
        MISSING = "missing", _("missing or broken")
        PICTURE = "picture", _("picture only")
        OTHER = "other", _("something else")

    class Place(models.TextChoices):
        """Where it is; `jobs/drawings/car` knows where each lies on an outline."""

        BONNET = "bonnet", _("bonnet")
        SCREEN = "screen", _("windscreen")
        ROOF = "roof", _("roof")
        REAR_GLASS = "rear_glass", _("rear window")
        TAIL = "tail", _("boot lid, tailgate or bed")
        FRONT = "front", _("front bumper")
        REAR = "rear", _("rear bumper")
        WING_L = "wing_l", _("front wing, left")
        DOOR_L = "door_l", _("front door, left")
        BACK_DOOR_L = "back_door_l", _("rear door, left")
        QUARTER_L = "quarter_l", _("rear wing, left")
        SILL_L = "sill_l", _("sill, left")
        MIRROR_L = "mirror_l", _("mirror, left")
        FRONT_WHEEL_L = "front_wheel_l", _("front wheel, left")
        REAR_WHEEL_L = "rear_wheel_l", _("rear wheel, left")
        WING_R = "wing_r", _("front wing, right")
        DOOR_R = "door_r", _("front door, right")
        BACK_DOOR_R = "back_door_r", _("rear door, right")
        QUARTER_R = "quarter_r", _("rear wing, right")
        SILL_R = "sill_r", _("sill, right")
        MIRROR_R = "mirror_r", _("mirror, right")
        FRONT_WHEEL_R = "front_wheel_r", _("front wheel, right")
        REAR_WHEEL_R = "rear_wheel_r", _("rear wheel, right")
        DASH = "dash", _("inside: dashboard")
        SEATS = "seats", _("inside: seats")
        TRIM = "trim", _("inside: door trims and pillars")
        LINING = "lining", _("inside: roof lining")
        BOOT = "boot", _("inside: boot")

    place = models.CharField(_("where"), max_length=13, choices=Place)
    # Shares of the drawing's width and height; None of what is inside the car.
    x = models.FloatField(null=True, editable=False)
    y = models.FloatField(null=True, editable=False)
    kind = models.CharField(_("what it is"), max_length=8, choices=Kind, default=Kind.SCRATCH)
    note = models.CharField(_("in words"), max_length=LONGEST, blank=True)
    image = models.FileField(upload_to=picture_path, blank=True, editable=False)
    small = models.FileField(upload_to=picture_path, blank=True, editable=False)
    noted_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, editable=False, related_name="+"
    )
    noted_at = models.DateTimeField(editable=False)

    class Meta(JobPart.Meta):
        verbose_name = _("mark on the car")
        ordering = ["noted_at", "pk"]

    def __str__(self) -> str:
        return f"{self.get_place_display()}: {self.get_kind_display()}"
