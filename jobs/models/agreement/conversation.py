"""What was said with the customer of a job, and when."""

from __future__ import annotations

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from jobs.models.base import written_day
from jobs.models.bounded import prose
from jobs.models.job import Job, JobPart


class Conversation(JobPart):
    """Something that was said on a day; who wrote it down is in its history."""

    class Way(models.TextChoices):
        PHONE = "phone", _("by telephone")
        HERE = "here", _("face to face")
        WRITTEN = "written", _("in writing")

    job = models.ForeignKey(Job, models.CASCADE, related_name="conversations")
    held_on = models.DateField(_("on"), default=timezone.localdate)
    way = models.CharField(_("how"), max_length=7, choices=Way, default=Way.PHONE)
    text = prose(_("what was said"), most=2000, blank=False)

    class Meta(JobPart.Meta):
        verbose_name = _("conversation")
        ordering = ["held_on", "pk"]

    def __str__(self) -> str:
        return f"{self.get_way_display()}, {written_day(self.held_on)}"
