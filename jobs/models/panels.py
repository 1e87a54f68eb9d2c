"""Panels of the car: steps behind each, what is there afterwards, and photos."""

from __future__ import annotations

import uuid
from typing import Any, ClassVar, Self

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.bounded import count, figure, number, prose
from jobs.models.box.row_lists import ListedRow, RowList, WithLists
from jobs.models.equipment import EquipmentItem, FactoryPart
from jobs.models.job import Job, JobPart
from jobs.models.parts.catalogue import Damping
from jobs.models.sides import OnASide


class Panel(OnASide, JobPart):
    """A piece of the car that comes off."""

    DANGERS: ClassVar = ("airbag_near", "drilled", "glass_near")

    position = count(_("order"), most=999)
    name = models.CharField(_("name"), max_length=80)
    removal = prose(_("how it comes off"))
    fixings = models.CharField(_("fixings"), max_length=160, blank=True)
    tools = models.CharField(_("tools it takes"), max_length=160, blank=True)
    # What can hurt; None where nobody has looked.
    airbag_near = models.BooleanField(_("airbag or its wiring behind it"), null=True, blank=True)
    drilled = models.BooleanField(_("something is drilled here"), null=True, blank=True)
    glass_near = models.BooleanField(_("glass behind or beside it"), null=True, blank=True)
    damping_note = models.CharField(_("damping fitted"), max_length=160, blank=True)
    rattle_note = models.CharField(_("against rattling"), max_length=160, blank=True)
    # Who looked and found nothing of ours behind it; None where nobody has said so.
    empty_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    empty_at = models.DateTimeField(null=True, blank=True)
    # The job it was taken over from, where somebody took such a car apart before.
    learnt_from = models.ForeignKey(
        Job, models.SET_NULL, null=True, blank=True, related_name="+", editable=False
    )
    # Opens the page behind its code (jobs/panel_codes.py); None until one is needed.
    token = models.CharField(max_length=22, null=True, unique=True, editable=False)  # noqa: DJ001

    class Meta(JobPart.Meta):
        verbose_name = _("panel")
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return self.name

    @property
    def has_cautions(self) -> bool:
        """Whether there is something to mind before it comes off, or nobody has looked for it."""
        return any(there is not False for _name, _label, there in self.dangers)

    @property
    def dangers(self) -> list[tuple[str, str, bool | None]]:
        """What can hurt there: its field, its name, and whether it is there as far as is known."""
        fields = [field for field in self._meta.concrete_fields if field.name in self.DANGERS]
        return [(f.name, str(f.verbose_name), getattr(self, f.name)) for f in fields]


class WithdrawnCode(models.Model):
    """A token that was printed and opens nothing any more."""

    token = models.CharField(max_length=22, unique=True)
    panel = models.ForeignKey(Panel, models.CASCADE, related_name="withdrawn_codes")
    withdrawn_at = models.DateTimeField()
    withdrawn_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.token


class Fixing(JobPart):
    """What holds a panel: one kind of clip, screw or nut, how many of it, and what it is called."""

    panel = models.ForeignKey(
        Panel, models.CASCADE, related_name="fastenings", verbose_name=_("panel")
    )
    name = models.CharField(_("clip, screw or nut"), max_length=80)
    part_number = models.CharField(
        _("part number, from the vehicle maker"), max_length=40, blank=True
    )
    quantity = count(_("how many"), most=200, least=1)
    place = models.CharField(_("where, if it is hidden"), max_length=120, blank=True)
    breaks = models.BooleanField(_("breaks easily: have spares"), default=False)
    spares = number(_("spares to lay out"), most=200)  # None where nobody has said how many

    class Meta(JobPart.Meta):
        verbose_name = _("fixing")
        ordering = ["panel__position", "pk"]

    def __str__(self) -> str:
        return f"{self.quantity} × {self.name}"


class DampingLayer(JobPart):
    """Damping of one kind on one panel: on how large a piece of it, how much of that, how often."""

    panel = models.ForeignKey(
        Panel, models.CASCADE, related_name="damping", verbose_name=_("panel")
    )
    part = models.ForeignKey(
        Damping, models.PROTECT, related_name="+", verbose_name=_("damping material")
    )
    where = models.CharField(_("on what of it, such as the outer skin"), max_length=80)
    area = figure(_("area of that"))
    # What is left out for holes, ribs and mechanics.
    coverage = models.FloatField(_("share of it that is covered"), default=1.0)
    layers = count(_("layers"), most=10, least=1)

    class Meta(JobPart.Meta):
        verbose_name = _("damping of a panel")
        ordering = ["panel__position", "pk"]

    def __str__(self) -> str:
        times = f"{self.layers} × " if self.layers > 1 else ""
        return f"{self.where}: {times}{self.part}"

    @property
    def fitted(self) -> float | None:
        """How much of the material it takes [m²]; None while nobody has measured the metal."""
        return None if self.area is None else self.area * self.coverage * self.layers

    @property
    def mass(self) -> float | None:
        """How heavy that is [kg]; None where area or material is not known."""
        weighs = self.part.area_mass
        return None if self.fitted is None or weighs is None else self.fitted * weighs


class PanelStep(JobPart):
    """One thing to do at a panel, ticked in the bay."""

    class Phase(models.IntegerChoices):
        """In the order they are gone through."""

        REMOVAL = 1, _("taking it off")
        WORK = 2, _("the work behind it")
        REFIT = 3, _("putting it back")

    panel = models.ForeignKey(Panel, models.CASCADE, related_name="steps", verbose_name=_("panel"))
    phase = models.PositiveSmallIntegerField(_("when"), choices=Phase, default=Phase.WORK)
    position = count(_("order"), most=999)
    text = models.CharField(_("what to do"), max_length=240)
    wants_photo = models.BooleanField(_("not done without a photo"), default=False)
    # None where it is part of taking the panel off and putting it back.
    minutes = number(_("minutes"), most=20_000)
    done_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    done_at = models.DateTimeField(null=True, blank=True)

    class Meta(JobPart.Meta):
        verbose_name = _("step")
        ordering = ["panel__position", "panel_id", "phase", "position", "pk"]

    def __str__(self) -> str:
        return self.text


class PanelContent(JobPart):
    """Where something is now: one piece or several, behind a panel or elsewhere in words."""

    panel = models.ForeignKey(
        Panel,
        models.CASCADE,
        null=True,
        blank=True,
        related_name="contents",
        verbose_name=_("behind panel"),
    )
    elsewhere = models.CharField(_("or where else, in words"), max_length=120, blank=True)
    equipment = models.ForeignKey(
        EquipmentItem,
        models.CASCADE,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("equipment"),
    )
    factory_part = models.ForeignKey(
        FactoryPart,
        models.CASCADE,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("factory part"),
    )
    box = models.ForeignKey(
        "Box", models.CASCADE, null=True, blank=True, related_name="+", verbose_name=_("box")
    )
    description = models.CharField(_("or in words"), max_length=160, blank=True)
    pieces = count(_("how many of them are there"), most=1000, least=1)
    serial = models.CharField(_("serial number"), max_length=120, blank=True)
    fixing = models.CharField(_("how it is fixed"), max_length=160, blank=True)
    private = models.BooleanField(
        _("private: behind the code only “ask the workshop”"), default=False
    )

    class Meta(JobPart.Meta):
        verbose_name = _("what is behind it")
        ordering = [models.F("panel__position").asc(nulls_first=True), "pk"]

    def __str__(self) -> str:
        return self.what

    @property
    def what(self) -> str:
        """What it is and how many of it, in words; where it was planned is said elsewhere."""
        if self.equipment:
            times = f"{self.pieces} × " if self.pieces > 1 else ""
            return f"{times}{self.equipment.part}"
        return str(self.box or self.factory_part or self.description)

    @property
    def number(self) -> str:
        """The serial number of this piece: its own, or that of the only one on the list."""
        item = self.equipment
        # Whoever exchanged a unit read the number off the new one.
        if item and item.as_built and item.quantity == 1 and item.serial:
            return item.serial
        return self.serial or (item.serial if item and item.quantity == 1 else "")

    @property
    def where(self) -> str:
        """Where it is, in words."""
        return str(self.panel or self.elsewhere)


def photo_path(instance: Photo, _filename: str) -> str:
    """Name a photo by chance, so that no address can be guessed and no file name leaks."""
    return f"photos/{instance.job_id}/{uuid.uuid4().hex}.jpg"


class Photo(WithLists, JobPart):
    """A photo of what is behind a panel, or of a visit after the car had left.

    Upright, without location, original kept beside it.
    """

    class Moment(models.TextChoices):
        """What the customer sees it as."""

        BEFORE = "before", _("before the work")
        AFTER = "after", _("after it")

    panel = models.ForeignKey(
        Panel,
        models.CASCADE,
        null=True,
        blank=True,
        related_name="photos",
        verbose_name=_("panel"),
    )
    visit = models.ForeignKey(
        "ServiceVisit",
        models.CASCADE,
        null=True,
        blank=True,
        related_name="photos",
        verbose_name=_("visit"),
    )
    step = models.ForeignKey(
        PanelStep,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="photos",
        verbose_name=_("step it shows"),
    )
    caption = models.CharField(_("caption"), max_length=160, blank=True)
    image = models.FileField(upload_to=photo_path)  # at most 2400 px, no metadata
    small = models.FileField(upload_to=photo_path)  # 1000 px, what pages and sheets show
    original = models.FileField(upload_to=photo_path)  # as it came, for the workshop only
    # Height over width; None of a photo from before marks were drawn, until one is.
    proportion = models.FloatField(null=True, editable=False)
    marks = RowList("drawn")
    # On the page the customer keeps.
    on_handover = models.CharField(
        _("on the hand-over"), max_length=6, choices=Moment, blank=True, default=""
    )
    # Goes with the person when they are erased, and at once when it is removed.
    shows_person = models.BooleanField(_("shows a person or a number plate"), default=False)
    # Somebody has looked: it shows no person and no number plate.
    shown_outside = models.BooleanField(_("may be shown behind the code"), default=False)
    taken_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    added_at = models.DateTimeField(auto_now_add=True)

    class Meta(JobPart.Meta):
        verbose_name = _("photo")
        # What shows no panel comes last, whatever a database thinks of nothing.
        ordering = [models.F("panel__position").asc(nulls_last=True), "pk"]

    def __str__(self) -> str:
        return self.caption or str(self.panel or self.visit)

    @property
    def is_for_everybody(self) -> bool:
        """Whether it may be seen behind the code."""
        return self.shown_outside and not self.shows_person


class PhotoMark(ListedRow):
    """An arrow or a circle on a photo: from its tail to its tip, from its centre to its rim."""

    class Shape(models.TextChoices):
        ARROW = "arrow", _("arrow")
        CIRCLE = "circle", _("circle")

    of = "photo"
    # Shares of the photo's width and height, from its upper left corner.
    PLACES: ClassVar = ("x", "y", "to_x", "to_y")

    photo = models.ForeignKey(Photo, models.CASCADE, related_name="drawn")
    shape = models.CharField(_("mark"), max_length=6, choices=Shape)
    x = models.FloatField(_("from the left"))
    y = models.FloatField(_("from the top"))
    to_x = models.FloatField(_("to, from the left"))
    to_y = models.FloatField(_("to, from the top"))

    @property
    def plain(self) -> list[Any]:
        """The shape and its two points."""
        return [self.shape, *(getattr(self, name) for name in self.PLACES)]

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read a shape and two points."""
        shape, *places = value
        return cls(shape=shape, **dict(zip(cls.PLACES, places, strict=True)))
