"""What was really done where it is not what was designed: the whole truth of one row, and why."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.bounded import figure
from jobs.models.catalogue import Conductor, Fuse
from jobs.models.equipment import FactoryPart
from jobs.models.job import JobPart
from jobs.models.power_tree import Run


class AsBuilt(models.Model):
    """Somebody did it differently: all of these figures hold, the designed ones no more."""

    reason = models.CharField(_("why it was done differently"), max_length=240)
    done_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    done_at = models.DateTimeField()

    class Meta:
        abstract = True


class RunAsBuilt(AsBuilt, JobPart):
    """A run as it lies in the car."""

    # Every field of these names is one of the run.
    FIELDS = (
        *("conductor", "colour", "return_colour", "length", "zone"),
        *("fuse", "fuse_distance", "end_fuse", "end_fuse_distance"),
    )

    run = models.ForeignKey(Run, models.CASCADE, related_name="+", verbose_name=_("run"))
    conductor = models.ForeignKey(
        Conductor,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("cable"),
    )
    colour = models.CharField(_("colour (IEC 60757)"), max_length=8, blank=True)
    return_colour = models.CharField(
        _("colour of the other core (IEC 60757)"), max_length=8, blank=True
    )
    length = figure(_("length, one way"))
    zone = models.CharField(
        _("hottest zone it passes"), max_length=12, choices=Run.Zone, blank=True
    )
    fuse = models.ForeignKey(
        Fuse,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("fuse at the start"),
    )
    fuse_distance = figure(_("cable from the source to the fuse"))
    end_fuse = models.ForeignKey(
        Fuse,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("fuse at the end"),
    )
    end_fuse_distance = figure(_("cable from the far source to its fuse"))
    # As a run's history keeps it: panel, place, whether with the loom, edge; in order.
    route = models.JSONField(default=list)

    class Meta(JobPart.Meta):
        verbose_name = _("run as built")
        ordering = ["pk"]

    def __str__(self) -> str:
        return str(self.run)


class FactoryAsBuilt(AsBuilt, JobPart):
    """A factory part, and what really became of it."""

    FIELDS = ("fate", "kept_where")

    factory_part = models.ForeignKey(
        FactoryPart, models.CASCADE, related_name="+", verbose_name=_("factory part")
    )
    fate = models.CharField(_("fate"), max_length=10, choices=FactoryPart.Fate, blank=True)
    kept_where = models.CharField(
        _("where it is kept, or how it goes back"), max_length=160, blank=True
    )

    class Meta(JobPart.Meta):
        verbose_name = _("factory part as built")
        ordering = ["pk"]

    def __str__(self) -> str:
        return str(self.factory_part)
