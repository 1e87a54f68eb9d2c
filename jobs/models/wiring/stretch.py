"""One stretch of the way a run takes through the car."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.panels import Panel


class Stretch(models.Model):
    """One stretch of a run: the panel or place it passes, in order, beside what, past what edge."""

    class Edge(models.TextChoices):
        GROMMET = "grommet", _("metal edge, grommet or guard fitted")
        BARE = "bare", _("metal edge, still bare")
        SOFT = "soft", _("edge, but no metal")
        OPEN = "open", _("an edge, nobody has looked yet")

    run = models.ForeignKey("Run", models.CASCADE, related_name="stretches")
    panel = models.ForeignKey(
        Panel, models.CASCADE, null=True, blank=True, related_name="stretches"
    )
    place = models.CharField(_("place"), max_length=80, blank=True)
    position = models.PositiveSmallIntegerField(default=1)
    follows_loom = models.BooleanField(_("follows the factory loom"), default=True)
    edge = models.CharField(_("edge it passes"), max_length=8, choices=Edge, blank=True)
    note = models.CharField(_("note"), max_length=120, blank=True)

    class Meta:
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return ", ".join(part for part in (str(self.panel or ""), self.place) if part)
