"""The car as it came in: identity, energy, battery, charging, factory audio."""

from __future__ import annotations

import re
from typing import Any

from django.core.exceptions import ValidationError
from django.db import models
from django.utils import timezone
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from jobs.models.base import Record, TypedFigures
from jobs.models.bounded import figure, number, prose
from jobs.models.people import Customer

AMPERE_HOUR = 3600.0  # C
# The first motor car was patented in 1886 (German patent 37435).
FIRST_YEAR = 1886
# ISO 3779: seventeen characters, of the letters no I, O or Q; general from this model year.
VIN, VIN_SINCE = re.compile(r"[A-HJ-NPR-Z0-9]{17}"), 1981


class Vehicle(TypedFigures, Record):
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
    battery_charge = figure(_("battery capacity"), most=1000 * AMPERE_HOUR)
    battery_cca = figure(_("cold cranking current"), most=3000.0)
    charging_source = models.CharField(
        _("charging source"), max_length=10, choices=Charging, blank=True
    )
    charging_current = figure(_("rated charging current"), most=1000.0)
    # As the plate of an alternator gives them, cold; hot, a share of both is left.
    charging_current_idle = figure(_("rated charging current at idle"), most=1000.0)
    charging_hot_share = figure(_("share of it left when hot"), most=1.0)
    # The most added load its maker allows on a DC-DC converter.
    accessory_limit = figure(_("added load the vehicle maker allows"), most=1000.0)
    recovery_current = figure(_("current the batteries take after a start"), most=1000.0)
    vehicle_current = figure(_("current the running car takes itself"), most=500.0)
    sleep_current = figure(_("key-off current of the car alone, asleep"), most=20.0)
    # None until somebody has looked.
    start_stop = models.BooleanField(_("the engine stops by itself"), null=True, blank=True)
    smart_charging = models.BooleanField(
        _("the charging voltage is commanded (sensor on the battery)"), null=True, blank=True
    )
    cabin_volume = figure(_("cabin air volume"), least=0.3, most=60.0)
    cabin_length = figure(_("cabin length inside"), least=0.5, most=15.0)
    # As it came in: what its papers allow, less what was weighed. None until somebody has.
    payload = figure(_("mass the car may still carry"), most=5000.0)
    front_axle_spare = figure(_("mass its front axle may still bear"), most=3000.0)
    rear_axle_spare = figure(_("mass its rear axle may still bear"), most=3000.0)
    # Asked for and never invented: makers' waiting times range from seconds to ten minutes.
    airbag_procedure = prose(_("airbag isolation, as the vehicle maker writes it"))

    # The job some of these figures were taken over from; empty where each was read off this car.
    figures_from = models.CharField(
        _("figures taken over from"), max_length=12, blank=True, editable=False
    )

    class Meta:
        ordering = ["maker", "model", "pk"]

    def __str__(self) -> str:
        year = f" {self.year}" if self.year else ""
        return f"{self.maker} {self.model}{year}"

    def clean(self) -> None:
        """Refuse figures of which one says the other is misread."""
        wrong: dict[str, Any] = {}
        newest = timezone.localdate().year + 1
        if self.year is not None and not FIRST_YEAR <= self.year <= newest:
            words = {"first": FIRST_YEAR, "last": newest}
            wrong["year"] = gettext("A car is of %(first)s to %(last)s.") % words
        elif self._vin_misread:
            wrong["vin"] = gettext(
                "Since 1981 it has seventeen characters, and of the letters no I, O or Q."
            )
        idle, rated = self.charging_current_idle, self.charging_current
        if idle is not None and rated is not None and idle > rated:
            wrong["charging_current_idle"] = gettext(
                "At idle it cannot give more than it is rated."
            )
        if wrong:
            raise ValidationError(wrong)

    @property
    def _vin_misread(self) -> bool:
        """Whether the number cannot be one; where no year is known an old car's may be shorter."""
        return bool(
            self.vin
            and self.year
            and self.year >= VIN_SINCE
            and not VIN.fullmatch(self.vin.upper())
        )

    @property
    def has_high_voltage(self) -> bool:
        """Whether orange cables run somewhere in this car."""
        return self.energy in {self.Energy.HYBRID, self.Energy.BATTERY}
