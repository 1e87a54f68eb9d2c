"""Factory audio found in the car, and what becomes of each part of it in this job."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.job import Job, JobPart


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

    job = models.ForeignKey(Job, models.CASCADE, related_name="factory_parts")
    kind = models.CharField(_("kind"), max_length=10, choices=Kind)
    place = models.CharField(_("place"), max_length=80)
    description = models.CharField(_("description"), max_length=120, blank=True)
    fate = models.CharField(_("fate"), max_length=10, choices=Fate, blank=True)
    kept_where = models.CharField(
        _("where it is kept, or how it goes back"), max_length=160, blank=True
    )

    class Meta(JobPart.Meta):
        verbose_name = _("factory part")
        ordering = ["place", "pk"]

    def __str__(self) -> str:
        return f"{self.get_kind_display()}, {self.place}"
