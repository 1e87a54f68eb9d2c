"""The car as it came in: identity, energy, battery, charging, factory audio."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.base import Record
from jobs.models.bounded import figure, number, prose
from jobs.models.people import Customer


class Vehicle(Record):
    """One car; its electrical figures are None until someone has read them off the car."""

    class DriverSide(models.TextChoices):
        LEFT = "left", _("left")
        RIGHT = "right", _("right")

    class Energy(models.TextChoices):
        COMBUSTION = "combustion", _("combustion engine")
        MILD_HYBRID = "mild_hybrid", _("mild hybrid (48 V)")
        HYBRID = "hybrid", _("hybrid (high voltage)")
        BATTERY = "battery", _("battery electric (high voltage)")

    class Chemistry(models.TextChoices):
        FLOODED = "flooded", _("lead-acid, flooded")
        EFB = "efb", _("lead-acid, enhanced flooded")
        AGM = "agm", _("lead-acid, absorbed glass mat")
        GEL = "gel", _("lead-acid, gel")
        LFP = "lfp", _("lithium iron phosphate")

    class Charging(models.TextChoices):
        ALTERNATOR = "alternator", _("alternator")
        DC_DC = "dc_dc", _("DC-DC converter")

    customer = models.ForeignKey(Customer, models.PROTECT, related_name="vehicles")
    maker = models.CharField(_("maker"), max_length=60)
    model = models.CharField(_("model"), max_length=60)
    body = models.CharField(_("body"), max_length=60, blank=True)
    year = number(_("year"), most=2100)
    plate = models.CharField(_("number plate"), max_length=20, blank=True)
    vin = models.CharField(_("vehicle identification number"), max_length=17, blank=True)
    colour = models.CharField(_("colour"), max_length=40, blank=True)
    driver_side = models.CharField(_("driver's side"), max_length=5, choices=DriverSide)
    energy = models.CharField(_("energy"), max_length=12, choices=Energy)
    battery_place = models.CharField(_("where the 12 V battery is"), max_length=80, blank=True)
    battery_chemistry = models.CharField(
        _("battery chemistry"), max_length=8, choices=Chemistry, blank=True
    )
    battery_charge = models.FloatField(_("battery capacity"), null=True, blank=True)
    battery_cca = models.FloatField(_("cold cranking current"), null=True, blank=True)
    charging_source = models.CharField(
        _("charging source"), max_length=10, choices=Charging, blank=True
    )
    charging_current = models.FloatField(_("rated charging current"), null=True, blank=True)
    # As the plate of an alternator gives them, cold; hot, a share of both is left.
    charging_current_idle = figure(_("rated charging current at idle"))
    charging_hot_share = figure(_("share of it left when hot"))
    # The most added load its maker allows on a DC-DC converter.
    accessory_limit = figure(_("added load the vehicle maker allows"))
    recovery_current = figure(_("current the batteries take after a start"))
    vehicle_current = models.FloatField(
        _("current the running car takes itself"), null=True, blank=True
    )
    sleep_current = models.FloatField(
        _("key-off current of the car alone, asleep"), null=True, blank=True
    )
    # None until somebody has looked.
    start_stop = models.BooleanField(_("the engine stops by itself"), null=True, blank=True)
    smart_charging = models.BooleanField(
        _("the charging voltage is commanded (sensor on the battery)"), null=True, blank=True
    )
    cabin_volume = models.FloatField(_("cabin air volume"), null=True, blank=True)
    cabin_length = models.FloatField(_("cabin length inside"), null=True, blank=True)
    # As it came in: what its papers allow, less what was weighed. None until somebody has.
    payload = figure(_("mass the car may still carry"))
    front_axle_spare = figure(_("mass its front axle may still bear"))
    rear_axle_spare = figure(_("mass its rear axle may still bear"))
    # Asked for and never invented: makers' waiting times range from seconds to ten minutes.
    airbag_procedure = prose(_("airbag isolation, as the vehicle maker writes it"))

    class Meta:
        ordering = ["maker", "model", "pk"]

    def __str__(self) -> str:
        year = f" {self.year}" if self.year else ""
        return f"{self.maker} {self.model}{year}"

    @property
    def has_high_voltage(self) -> bool:
        """Whether orange cables run somewhere in this car."""
        return self.energy in {self.Energy.HYBRID, self.Energy.BATTERY}
