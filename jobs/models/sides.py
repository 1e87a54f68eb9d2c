"""The side of the car something is on."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy


class Side(models.TextChoices):
    """As whoever drives sees it; empty where nobody has noted it."""

    LEFT = "left", pgettext_lazy("side of a car", "left")
    MIDDLE = "middle", pgettext_lazy("side of a car", "in the middle")
    RIGHT = "right", pgettext_lazy("side of a car", "right")


class OnASide(models.Model):
    """What is on one side of the car, or in its middle."""

    side = models.CharField(_("side of the car"), max_length=6, choices=Side, blank=True)

    class Meta:
        abstract = True
