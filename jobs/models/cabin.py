"""What a car's cabin does to the bass, as it was measured in the car."""

from __future__ import annotations

from django.db import models
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from jobs.models.job import JobPart
from jobs.models.vehicle import Vehicle


class CabinCurve(JobPart):
    """A transfer curve measured in the car of a job; it takes the place of the ideal bound."""

    place = models.CharField(_("where the box and the microphone stood"), max_length=120)
    measured_on = models.DateField(_("measured on"))
    measured_by = models.CharField(_("measured by"), max_length=80)
    # Text columns as they were pasted, or as they were read from a file: Hz, dB, and perhaps °.
    content = models.TextField(_("curve: frequency, gain in dB, phase in degrees"))

    class Meta(JobPart.Meta):
        verbose_name = _("transfer curve")
        ordering = ["-measured_on", "-pk"]

    def __str__(self) -> str:
        return f"{self.place}, {date_format(self.measured_on, 'SHORT_DATE_FORMAT')}"

    @classmethod
    def of(cls, vehicle: Vehicle) -> models.QuerySet[CabinCurve]:
        """Every curve measured in a car, on whichever job, the newest first."""
        return cls.objects.filter(job__vehicle=vehicle, job__removed_at=None)
