"""What a named person decided about a finding, with the reason that is printed."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.job import JobPart


class Decision(JobPart):
    """An accepted `look` or a released `stop`; it holds only for the value it was made on."""

    code = models.CharField(max_length=60)
    # What the finding is about: the kind and the key of a record, and a place on it. Empty where
    # a decision from before these were kept could not be matched to a finding: it asks again.
    about_kind = models.CharField(max_length=40, blank=True)
    about_key = models.CharField(max_length=20, blank=True)
    about_detail = models.TextField(blank=True)
    # The record and the place as they were called when it was decided; words, and no key.
    where = models.TextField()
    # The finding as it stood. A changed value is a new finding and asks again.
    fingerprint = models.CharField(max_length=64)
    said = models.TextField()
    severity = models.CharField(max_length=4)
    reason = models.TextField(_("reason"))
    decided_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    name = models.CharField(max_length=150)
    decided_at = models.DateTimeField(auto_now_add=True)

    class Meta(JobPart.Meta):
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.code}: {self.name}"
