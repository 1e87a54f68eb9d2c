"""A moulded shape: how its litres were measured, and the skin it is made of."""

from __future__ import annotations

from typing import Any, Self

from django.db import models
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from jobs.models.bounded import figure
from jobs.models.box.row_lists import ListedRow, RowList, WithLists

# So many are worked out.
MOST_FILLS, MOST_SECTIONS = 30, 60


class MouldedShape(WithLists):
    """What is known of a box that is no box of panels; lengths in metres."""

    class LitresBy(models.TextChoices):
        WATER = "water", _("fills with water")
        GRANULES = "granules", _("fills with granules")
        AREAS = "areas", _("areas at heights")

    class MeasuredIn(models.TextChoices):
        SKIN = "skin", _("inside the finished skin")
        MOULD = "mould", _("inside the mould, before the skin is laid in")

    litres_by = models.CharField(
        _("litres measured by"), max_length=8, choices=LitresBy, default=LitresBy.WATER
    )
    measured_in = models.CharField(
        pgettext_lazy("litres", "measured"),
        max_length=5,
        choices=MeasuredIn,
        default=MeasuredIn.SKIN,
    )
    # [volume, …] in m³, and [[height, area], …].
    fills = RowList("fillings")
    sections = RowList("level_cuts")
    skin_area = figure(_("surface of the skin, floor and all"))
    skin_thickness = figure(_("thickness of the skin"), most=0.1)
    skin_stray = figure(_("the skin's thickness may be off by"), most=0.1)
    skin_density = figure(_("density of the skin"))
    skin_layup = models.CharField(_("layup"), max_length=200, blank=True)

    class Meta:
        abstract = True


class BoxFill(ListedRow):
    """What one fill of a moulded shape took."""

    of = "box"
    box = models.ForeignKey("jobs.Box", models.CASCADE, related_name="fillings")
    volume = models.FloatField(_("took"))

    @property
    def plain(self) -> float:
        """The volume [m³]."""
        return self.volume

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read one fill."""
        return cls(volume=value)


class BoxSection(ListedRow):
    """A level cut through a moulded shape: how high it lies and how large it is."""

    of = "box"
    box = models.ForeignKey("jobs.Box", models.CASCADE, related_name="level_cuts")
    height = models.FloatField(_("height"))
    area = models.FloatField(pgettext_lazy("quantity", "area"))

    @property
    def plain(self) -> list[float]:
        """Height [m] and area [m²]."""
        return [self.height, self.area]

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read one cut."""
        height, area = value
        return cls(height=height, area=area)
