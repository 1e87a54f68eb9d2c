"""What is left of sheets and worth keeping: the workshop's stock, used before a new sheet."""

from __future__ import annotations

from django.core.validators import MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.base import Record
from jobs.models.parts.catalogue import SheetMaterial


class Offcut(Record):
    """A rectangle with clean edges; its length runs along the grain."""

    material = models.ForeignKey(
        SheetMaterial, models.PROTECT, related_name="kept_offcuts", verbose_name=_("sheet material")
    )
    length = models.FloatField(_("length, along the grain"), validators=[MinValueValidator(0.01)])
    width = models.FloatField(_("width"), validators=[MinValueValidator(0.01)])
    place = models.CharField(_("where it stands"), max_length=80, blank=True)

    class Meta:
        verbose_name = _("offcut")
        ordering = ["material", "-length", "pk"]

    def __str__(self) -> str:
        return ", ".join(part for part in (str(self.material), self.place) if part)
