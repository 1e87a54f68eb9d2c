"""A finished box as it was measured: sizes, wood and litres beside the drawn ones."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.base import written_day
from jobs.models.bounded import figure
from jobs.models.box.box import Box
from jobs.models.job import JobPart


class BoxAsBuilt(JobPart):
    """What a rule and a calliper say of the built box; what is empty was not measured."""

    # What takes the place of the drawn figure of the same name.
    SIZES = ("width", "height", "depth", "top_depth")

    box = models.ForeignKey(Box, models.CASCADE, related_name="built", verbose_name=_("box"))
    measured_on = models.DateField(_("measured on"))
    measured_by = models.CharField(_("measured by"), max_length=80)
    width = figure(_("width"))
    height = figure(_("height"))
    depth = figure(_("depth at the bottom"))
    top_depth = figure(_("depth at the top"))
    thickness = figure(_("thickness of its wood"))
    volume = figure(_("net litres, by filling it"))

    class Meta(JobPart.Meta):
        verbose_name = _("box as built")
        ordering = ["box", "-measured_on", "-pk"]

    def __str__(self) -> str:
        return f"{self.box}, {written_day(self.measured_on)}"
