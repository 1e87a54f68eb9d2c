"""The car of a job: its identity, battery and charging, and its factory audio."""

from __future__ import annotations

from typing import ClassVar

from django.utils.translation import gettext_lazy as _

from jobs.models import CabinCurve, CarTemplate, FactoryPart, Vehicle
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.one_record import Single
from jobs.pages.forms.record_rows import RowKind
from jobs.pages.job.start import earlier_of_model


class VehicleForm(RecordForm[Vehicle]):
    """The car as it stands in front of you."""

    quantities: ClassVar = {
        "battery_charge": "charge",
        "battery_cca": "current",
        "charging_current": "current",
        "charging_current_idle": "current",
        "charging_hot_share": "percent",
        "accessory_limit": "current",
        "recovery_current": "current",
        "vehicle_current": "current",
        "sleep_current": "current",
        "cabin_volume": "volume",
        "cabin_length": "span",
        **dict.fromkeys(("payload", "front_axle_spare", "rear_axle_spare"), "mass"),
    }
    fieldsets: ClassVar = [
        (
            _("Identity"),
            ["maker", "model", "body", "year", "plate", "vin", "colour", "driver_side"],
        ),
        (
            _("Battery and charging"),
            [
                "energy",
                "battery_place",
                "battery_chemistry",
                "battery_charge",
                "battery_cca",
                "charging_source",
                "charging_current",
                "charging_current_idle",
                "charging_hot_share",
                "accessory_limit",
                "vehicle_current",
                "recovery_current",
                "sleep_current",
                "start_stop",
                "smart_charging",
            ],
        ),
        (
            _("Cabin and load"),
            ["cabin_volume", "cabin_length", "payload", "front_axle_spare", "rear_axle_spare"],
        ),
        (_("Airbags"), ["airbag_procedure"]),
    ]

    class Meta:
        model = Vehicle
        exclude = ("customer",)
        help_texts: ClassVar = {
            "payload": _(
                "As it came in: the mass its papers allow, less what it weighs with its driver. "
                "Passengers and luggage come off it too."
            ),
            "rear_axle_spare": _("Likewise, for the axle, as weighed."),
        }


class FactoryPartForm(RecordForm[FactoryPart]):
    """A factory part and its fate."""

    quantities: ClassVar = {"mass": "mass"}

    class Meta:
        model = FactoryPart
        fields = ("kind", "place", "description", "mass", "fate", "untouched", "kept_where")
        help_texts: ClassVar = {"mass": _("Counted back where it is taken out of the car.")}


FACTORY = RowKind(slug="factory", form=FactoryPartForm, section="car")

urlpatterns = [
    Single(
        slug="car",
        form=VehicleForm,
        record=lambda job: job.vehicle,
        section="car",
        template="pages/job/car.html",
        beside=lambda job: {
            "alike": earlier_of_model(job),
            "car_templates": CarTemplate.objects.filter(job=job),
            "factory_parts": job.factory_parts.all(),
            "open_fates": job.factory_parts.filter(fate="").count(),
            "curves": CabinCurve.of(job.vehicle).defer("content").select_related("job"),
        },
    ).url(),
    *FACTORY.urls(),
]
