"""Curves that were measured and are kept as text: a driver's impedance, a cabin's transfer."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.base import written_day
from jobs.models.bounded import figure
from jobs.models.box.box import Box
from jobs.models.equipment import EquipmentItem
from jobs.models.job import JobPart
from jobs.models.vehicle import Vehicle


class DriverSweep(JobPart):
    """An impedance sweep of a driver on the equipment list, kept as the text it came as."""

    class Coils(models.TextChoices):
        SERIES = "series", _("both, in series")
        PARALLEL = "parallel", _("both, in parallel")

    class Method(models.TextChoices):
        MASS = "mass", _("known mass added to the cone")
        VOLUME = "volume", _("sealed box of known volume")

    item = models.ForeignKey(
        EquipmentItem, models.CASCADE, related_name="sweeps", verbose_name=_("driver")
    )
    specimen = models.CharField(_("which one (serial number, side)"), max_length=60, blank=True)
    measured_on = models.DateField(_("measured on"))
    measured_by = models.CharField(_("measured by"), max_length=80)
    coils = models.CharField(
        _("coils of a two-coil driver"), max_length=8, choices=Coils, default=Coils.SERIES
    )
    # Across the terminals, by a meter; fitted along with the rest when it was not measured.
    resistance = figure(_("resistance by a meter, as connected"))
    # Text columns as they were pasted, or as they were read from a file: Hz, Ω, and perhaps °.
    content = models.TextField(_("sweep in free air: frequency, ohms, phase in degrees"))
    method = models.CharField(_("second sweep"), max_length=6, choices=Method, blank=True)
    added_mass = figure(_("mass added"))
    box_volume = figure(_("net volume of the test box"))
    second = models.TextField(_("second sweep: frequency, ohms, phase in degrees"), blank=True)
    in_use = models.BooleanField(
        _("work out this job's boxes with these figures instead of the catalogue's"), default=False
    )

    class Meta(JobPart.Meta):
        verbose_name = _("measured driver")
        ordering = ["item", "-measured_on", "-pk"]

    def __str__(self) -> str:
        which = f", {self.specimen}" if self.specimen else ""
        return f"{self.item.part}{which}, {written_day(self.measured_on)}"


class BoxSweep(JobPart):
    """An impedance sweep of a finished box, across its terminals, kept as the text it came as."""

    box = models.ForeignKey(Box, models.CASCADE, related_name="sweeps", verbose_name=_("box"))
    measured_on = models.DateField(_("measured on"))
    measured_by = models.CharField(_("measured by"), max_length=80)
    # Text columns as they were pasted, or as they were read from a file: Hz, Ω, and perhaps °.
    content = models.TextField(_("sweep of the box: frequency, ohms, phase in degrees"))

    class Meta(JobPart.Meta):
        verbose_name = _("sweep of a finished box")
        ordering = ["box", "-measured_on", "-pk"]

    def __str__(self) -> str:
        return f"{self.box}, {written_day(self.measured_on)}"


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
        return f"{self.place}, {written_day(self.measured_on)}"

    @classmethod
    def of(cls, vehicle: Vehicle) -> models.QuerySet[CabinCurve]:
        """Every curve measured in a car, on whichever job, the newest first."""
        same = models.Q(job__vehicle=vehicle)
        if vehicle.vin:  # under another owner it is the same car
            same |= models.Q(job__vehicle__vin=vehicle.vin)
        return cls.objects.filter(same, job__removed_at=None)
