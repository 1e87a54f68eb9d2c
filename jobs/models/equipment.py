"""The equipment list: what goes in, how many, where, and how far it has got."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.bounded import count
from jobs.models.catalogue import Part
from jobs.models.job import JobPart


class EquipmentItem(JobPart):
    """A catalogue part in this job."""

    class State(models.TextChoices):
        TO_ORDER = "to_order", _("to order")
        ORDERED = "ordered", _("ordered")
        IN = "in", _("in")
        FITTED = "fitted", _("fitted")

    part = models.ForeignKey(Part, models.PROTECT, related_name="uses", verbose_name=_("part"))
    place = models.CharField(_("place"), max_length=80)
    quantity = count(_("quantity"), most=1000, least=1)
    serial = models.CharField(_("serial number"), max_length=120, blank=True)
    state = models.CharField(_("state"), max_length=10, choices=State, default=State.TO_ORDER)
    # A closed space lets no heat out; None means nobody has looked.
    ventilated = models.BooleanField(_("air can move around it"), null=True, blank=True)

    class Meta(JobPart.Meta):
        verbose_name = _("equipment")
        ordering = ["place", "pk"]

    def __str__(self) -> str:
        times = f"{self.quantity} × " if self.quantity > 1 else ""
        return f"{times}{self.part}, {self.place}"

    @property
    def to_come(self) -> bool:
        """Whether the part is not in the workshop yet."""
        return self.state in {self.State.TO_ORDER, self.State.ORDERED}
