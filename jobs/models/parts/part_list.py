"""A supplier's list that is being read into the catalogue, step by step, until it is written."""

from __future__ import annotations

from django.conf import settings
from django.core.serializers.json import DjangoJSONEncoder
from django.db import models
from django.utils.translation import gettext_lazy as _


class PartList(models.Model):
    """One file: its rows as text, how far they are judged, and what would become of each.

    Nothing in the catalogue changes before all of it is judged and somebody has said yes.
    """

    class State(models.TextChoices):
        READING = "reading", _("being read")
        READ = "read", _("read")
        WRITTEN = "written", _("written")

    name = models.CharField(max_length=100)
    # Both of every row, where the file has no column for it.
    kind = models.CharField(max_length=16, blank=True)
    supplier = models.CharField(max_length=60, blank=True)
    sent_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    sent_at = models.DateTimeField(auto_now_add=True)
    # How its letters were read, to be checked by whoever sent it.
    encoding = models.CharField(max_length=20, blank=True)
    head = models.JSONField(default=list)
    rows = models.JSONField(default=list)
    count = models.PositiveIntegerField(default=0)
    state = models.CharField(max_length=8, choices=State, default=State.READING)
    judged = models.PositiveIntegerField(default=0)
    # What is to be written: kind, key of the part (none: a new one) with its version, values.
    to_write = models.JSONField(default=list, encoder=DjangoJSONEncoder)
    # [row of the file, column, what is wrong]
    troubles = models.JSONField(default=list)
    unchanged = models.PositiveIntegerField(default=0)
    new = models.PositiveIntegerField(default=0)
    changed = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["-pk"]

    def __str__(self) -> str:
        return self.name
