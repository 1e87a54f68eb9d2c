"""What is in the car: the equipment list, and the factory audio with what becomes of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.bounded import count, figure
from jobs.models.held import HeldInCar
from jobs.models.job import Job, JobPart
from jobs.models.parts.catalogue import Part
from jobs.models.parts.supply import Supply

if TYPE_CHECKING:
    from jobs.models.bay import FactoryAsBuilt, ItemAsBuilt


class EquipmentItem(HeldInCar, JobPart):
    """A catalogue part in this job."""

    class State(models.TextChoices):
        TO_ORDER = "to_order", _("to order")
        ORDERED = "ordered", _("ordered")
        IN = "in", _("in")
        FITTED = "fitted", _("fitted")
        # Ordered, and not in what arrived.
        MISSING = "missing", _("missing")

    # Where something else was fitted: what was planned, and the row that says what it is.
    designed: EquipmentItem | None = None
    as_built: ItemAsBuilt | None = None

    part = models.ForeignKey(Part, models.PROTECT, related_name="uses", verbose_name=_("part"))
    # Of a driver: what its screws hold by in wood.
    fastener = models.ForeignKey(
        Supply,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("screwed into wood with"),
    )
    place = models.CharField(_("place"), max_length=80)
    quantity = count(_("quantity"), most=1000, least=1)
    serial = models.CharField(_("serial number"), max_length=120, blank=True)
    state = models.CharField(_("state"), max_length=10, choices=State, default=State.TO_ORDER)
    expected_on = models.DateField(_("expected on"), null=True, blank=True)
    shelf = models.CharField(_("shelf"), max_length=40, blank=True)
    # A closed space lets no heat out; None means nobody has looked.
    ventilated = models.BooleanField(_("air can move around it"), null=True, blank=True)
    # A tracker or an alarm.
    private = models.BooleanField(
        _("private: behind the code only “ask the workshop”"), default=False
    )

    class Meta(JobPart.Meta):
        verbose_name = _("equipment")
        ordering = ["place", "pk"]

    def __str__(self) -> str:
        times = f"{self.quantity} × " if self.quantity > 1 else ""
        return f"{times}{self.part}, {self.place}"

    @property
    def is_used_up(self) -> bool:
        """Whether it goes into the making, as glue does: nobody looks for it in the car."""
        return bool(self.part.kind == Part.Kind.SUPPLY)

    @property
    def to_come(self) -> bool:
        """Whether the part is not in the workshop yet."""
        return self.state in {self.State.TO_ORDER, self.State.ORDERED, self.State.MISSING}


class FactoryPart(JobPart):
    """A factory speaker, amplifier, connector or head unit, and what becomes of it."""

    class Kind(models.TextChoices):
        SPEAKER = "speaker", _("speaker")
        AMPLIFIER = "amplifier", _("amplifier")
        HEAD_UNIT = "head_unit", _("head unit")
        CONNECTOR = "connector", _("connector")
        OTHER = "other", _("other part")

    class Fate(models.TextChoices):
        IN_USE = "in_use", _("stays in use")
        UNPLUGGED = "unplugged", _("stays in place, unplugged and insulated")
        REMOVED = "removed", _("removed and kept")
        REPLACED = "replaced", _("replaced")

    # Where something else became of it: what was decided, and the row that says what it is.
    designed: FactoryPart | None = None
    as_built: FactoryAsBuilt | None = None

    job = models.ForeignKey(Job, models.CASCADE, related_name="factory_parts")
    kind = models.CharField(_("kind"), max_length=10, choices=Kind)
    place = models.CharField(_("place"), max_length=80)
    description = models.CharField(_("description"), max_length=120, blank=True)
    mass = figure(_("mass"))
    fate = models.CharField(_("fate"), max_length=10, choices=Fate, blank=True)
    untouched = models.BooleanField(_("the customer wants it left alone"), default=False)
    kept_where = models.CharField(
        _("where it is kept, or how it goes back"), max_length=160, blank=True
    )

    class Meta(JobPart.Meta):
        verbose_name = _("factory part")
        ordering = ["place", "pk"]

    def __str__(self) -> str:
        return f"{self.get_kind_display()}, {self.place}"
