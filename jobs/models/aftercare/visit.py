"""A visit: what somebody looked into on a car that had left, and what came of it."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.base import written_day
from jobs.models.bounded import prose
from jobs.models.equipment import EquipmentItem
from jobs.models.job import JobPart
from jobs.models.panels import Panel
from jobs.models.wiring.power_tree import Run

LONGEST = 1000  # characters of what was said, found or changed


class ServiceVisit(JobPart):
    """One matter that somebody looked into on a car that had left."""

    class Reason(models.TextChoices):
        CHECK = "check", _("first check")
        COMPLAINT = "complaint", _("complaint")
        SERVICE = "service", _("service")
        RECALL = "recall", _("a part was called back")

    day = models.DateField(_("day"))
    reason = models.CharField(_("why the car is here"), max_length=9, choices=Reason)
    person = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", verbose_name=_("looked at by")
    )
    # What it is about, as far as somebody knows; what was removed since is still what it was about.
    panel = models.ForeignKey(
        Panel, models.SET_NULL, null=True, blank=True, related_name="+", verbose_name=_("panel")
    )
    run = models.ForeignKey(
        Run, models.SET_NULL, null=True, blank=True, related_name="+", verbose_name=_("run")
    )
    item = models.ForeignKey(
        EquipmentItem,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("part"),
    )
    told = prose(_("what the customer says"), most=LONGEST)
    seen = prose(_("what was found"), most=LONGEST)
    changed = prose(_("what was changed, and why"), most=LONGEST)
    settled = models.BooleanField(_("settled"), default=False)

    class Meta(JobPart.Meta):
        verbose_name = _("visit")
        ordering = ["-day", "-pk"]

    def __str__(self) -> str:
        return f"{self.get_reason_display()}, {written_day(self.day)}"
