"""One way to do a whole job, kept beside the others until one is chosen."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.bounded import prose
from jobs.models.job import Job, JobPart


class DesignOption(JobPart):
    """A design as it was when it was kept, with what the customer reads of it."""

    job = models.ForeignKey(Job, models.CASCADE, related_name="options")
    name = models.CharField(_("name"), max_length=40)
    text = prose(_("what it is, for the customer"), most=600)
    kept_at = models.DateTimeField(_("kept"), auto_now_add=True)
    # Of the records it was kept from; the same design is known by it.
    fingerprint = models.CharField(max_length=64, editable=False)
    chosen_at = models.DateTimeField(_("chosen"), null=True, editable=False)

    class Meta(JobPart.Meta):
        verbose_name = _("option")
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.name


class OptionCopy(models.Model):
    """Every record an option was kept from; apart, so that no list of options reads it."""

    option = models.OneToOneField(DesignOption, models.CASCADE, related_name="copy")
    data = models.JSONField()

    def __str__(self) -> str:
        return str(self.option)
