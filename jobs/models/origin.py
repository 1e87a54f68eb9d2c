"""Where a job was before it came here as a file."""

from __future__ import annotations

from django.db import models

from jobs.models.job import Job


class Origin(models.Model):
    """The keys the records of a job had where sheets of it were issued, and those they have here.

    A sheet keeps what it was made from as it was: its keys are those of that installation.
    """

    job = models.ForeignKey(Job, models.CASCADE, related_name="origins")
    # {"Panel": {"12": 40}, …}: of every record the job had when it left.
    keys = models.JSONField()

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return str(self.job)
