"""How a thing is held in the car, so that it stays where it is in a crash."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _


class HeldInCar(models.Model):
    """A record of something heavy: by what it is held, and into what metal."""

    class Held(models.TextChoices):
        UNSAID = "", _("nobody has said yet")
        MAKERS = "makers", _("at the vehicle maker's own points")
        BRACKETS = "brackets", _("by brackets bolted into body metal")
        INSERTS = "inserts", _("by bolts through inserts into body metal")
        CARRIED = "carried", _("on a box, board or floor that is held itself")
        LOOSE = "loose", _("by nothing: it stands loose")

    held_by = models.CharField(
        _("held in the car"), max_length=8, choices=Held, default=Held.UNSAID, blank=True
    )
    held_into = models.CharField(_("into what, with what"), max_length=120, blank=True)

    class Meta:
        abstract = True
