"""Car templates: what a job knows of a model of car, under a name."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.job import JobPart


class CarTemplate(JobPart):
    """A job that the next car of its model starts from, and what of it is taken over.

    It holds no rows of its own: what is put right in that job is right in the template.
    """

    name = models.CharField(_("name"), max_length=60)
    # Codes of `ASPECTS` (jobs/design/job/earlier/start_like.py).
    takes = models.JSONField(_("what a new job takes over of it"), default=list)

    class Meta(JobPart.Meta):
        verbose_name = _("car template")
        ordering = ["name", "pk"]

    def __str__(self) -> str:
        return self.name
