"""Lots of cable: what is on the drum when it is cut, for the day a maker calls it back."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.job import JobPart
from jobs.models.parts.catalogue import Conductor
from jobs.models.wiring.power_tree import Run


class CableLot(JobPart):
    """The lot a cable came from: of all of it in this car, or of one run."""

    conductor = models.ForeignKey(
        Conductor, models.PROTECT, related_name="+", verbose_name=_("cable")
    )
    number = models.CharField(_("lot, as printed on drum or sleeve"), max_length=60)
    run = models.ForeignKey(
        Run,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("run, or all of this cable"),
    )

    class Meta(JobPart.Meta):
        verbose_name = _("lot of cable")
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.conductor}: {self.number}"
