"""What the wood shop does for a box or a panel, step by step, and who ticked it."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.bounded import count, number
from jobs.models.box.box import Box
from jobs.models.box.trim import TrimPanel
from jobs.models.job import Job, JobPart


class WoodStep(JobPart):
    """One piece of work in the wood shop."""

    class Kind(models.TextChoices):
        MOCK_UP = "mock_up", _("mock-up tried in the car")
        CUT = "cut", _("cut the parts")
        GLUE = "glue", _("glue it up")
        CURE = "cure", _("let it cure")
        SEAL = "seal", _("seal it")
        WRAP = "wrap", _("wrap it")
        FIT = "fit", _("fit in the car")

    job = models.ForeignKey(Job, models.CASCADE, related_name="wood_steps")
    box = models.ForeignKey(
        Box,
        models.CASCADE,
        null=True,
        blank=True,
        related_name="wood_steps",
        verbose_name=_("box"),
    )
    trim_panel = models.ForeignKey(
        TrimPanel,
        models.CASCADE,
        null=True,
        blank=True,
        related_name="wood_steps",
        verbose_name=_("trim panel"),
    )
    position = count(_("order"), most=999)
    kind = models.CharField(_("kind"), max_length=8, choices=Kind)
    text = models.CharField(_("what to mind"), max_length=240, blank=True)
    # None until somebody has said; curing counts as waiting, not as work.
    minutes = number(_("minutes"), most=20_000)
    done_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    done_at = models.DateTimeField(null=True, blank=True)

    class Meta(JobPart.Meta):
        verbose_name = _("work in the wood shop")
        verbose_name_plural = "wood steps"
        ordering = [
            models.F("box_id").asc(nulls_first=True),
            models.F("trim_panel_id").asc(nulls_first=True),
            "position",
            "pk",
        ]

    def __str__(self) -> str:
        return ", ".join(part for part in (str(self.get_kind_display()), self.text) if part)
