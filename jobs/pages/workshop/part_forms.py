"""The forms of the catalogue: each kind of part with its own typed figures."""

from __future__ import annotations

from typing import Any, ClassVar

from django.utils.translation import gettext_lazy, override

from jobs.models import (
    Amplifier,
    AmplifierRating,
    Conductor,
    Cover,
    Damping,
    Driver,
    Fuse,
    Holder,
    Part,
    Processor,
    SheetMaterial,
    Supply,
    Terminal,
)
from jobs.models.parts.catalogue import OnBoard
from jobs.models.parts.supply import BARRELS, FASTENERS, GLUES
from jobs.pages.forms.fields import ConductorField
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.shape_fields import CurveField, RatingsField
from jobs.units import ConductorSize, show_conductor

SOUND_TAKEN = (Processor.Device.PROCESSOR, Processor.Device.CONVERTER)
_WHAT = (
    gettext_lazy("What it is"),
    ["maker", "name", "mass", "shelf", "figures_source", "notes"],
)
_BUYING = (gettext_lazy("Where it is bought"), ["supplier", "order_number"])
_MONEY = (gettext_lazy("Money, without tax"), ["price", "cost", "tax_class"])


# Size, screws and air of what is screwed to a board.
_ON_BOARD = dict.fromkeys((field.name for field in OnBoard._meta.fields), "length")


class PartForm(RecordForm[Part]):
    """A part without figures of its own: a source, a battery, an accessory."""

    quantities: ClassVar = {"mass": "mass"}
    fieldsets: ClassVar = [_WHAT, _BUYING, _MONEY]

    class Meta:
        model = Part
        fields = (
            *("maker", "name", "mass", "shelf", "figures_source", "notes"),
            *("supplier", "order_number", "price", "cost", "tax_class"),
        )


class DriverForm(RecordForm[Driver]):
    """A driver: type what the sheet gives, the rest is worked out from it."""

    quantities: ClassVar = {
        "fs": "frequency",
        "qts": "ratio",
        "qes": "ratio",
        "qms": "ratio",
        "vas": "volume",
        "sd": "area",
        "re": "resistance",
        "le": "inductance",
        "mms": "moving_mass",
        "cms": "compliance",
        "rms": "mechanical_resistance",
        "bl": "force_factor",
        "xmax": "length",
        "power": "power",
        "nominal_impedance": "resistance",
        "sensitivity": "level",
        **dict.fromkeys(("outer_diameter", "cutout_diameter", "bolt_circle"), "length"),
        **dict.fromkeys(("screw_hole", "depth", "magnet_diameter", "magnet_height"), "length"),
        "surround_height": "length",
        "displacement": "volume",
        "mass": "mass",
    }
    fieldsets: ClassVar = [
        _WHAT,
        (
            gettext_lazy("Thiele–Small figures"),
            ["fs", "qts", "qes", "qms", "vas", "sd", "re", "le", "mms", "cms", "rms", "bl"],
        ),
        (
            gettext_lazy("Limits and coils"),
            ["xmax", "power", "nominal_impedance", "sensitivity", "coils"],
        ),
        (
            gettext_lazy("Dimensions"),
            [
                "outer_diameter",
                "cutout_diameter",
                "bolt_circle",
                "screws",
                "screw_hole",
                "depth",
                "surround_height",
                "magnet_diameter",
                "magnet_height",
                "displacement",
            ],
        ),
        _BUYING,
        _MONEY,
    ]

    class Meta:
        model = Driver
        exclude = ("kind",)


class AmplifierForm(RecordForm[Amplifier]):
    """An amplifier with what it gives into which load."""

    quantities: ClassVar = {
        "mass": "mass",
        "lowest_load": "resistance",
        "lowest_load_bridged": "resistance",
        "efficiency": "percent",
        "fuse_rating": "current",
        "quiescent_current": "current",
        "minimum_voltage": "voltage",
        "highest_voltage": "voltage",
        "turn_on_current": "current",
        **_ON_BOARD,
    }
    ratings = RatingsField(
        label=gettext_lazy("power into each load"),
    )

    class Meta:
        model = Amplifier
        exclude = ("kind",)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if self.instance.pk:
            self.fields["ratings"].initial = [
                (r.bridged, r.power, r.load) for r in self.instance.ratings.all()
            ]

    def save(self, commit: bool = True) -> Amplifier:
        """Save the amplifier and replace its ratings."""
        amplifier = super().save(commit)
        amplifier.ratings.all().delete()
        for bridged, power, load in self.cleaned_data["ratings"]:
            AmplifierRating.objects.create(
                amplifier=amplifier, bridged=bridged, power=power, load=load
            )
        amplifier.note_what_hangs()
        return amplifier


class ProcessorForm(RecordForm[Processor]):
    """A processor, a line converter for high level, or an interface to bus or fibre."""

    quantities: ClassVar = {
        "mass": "mass",
        **dict.fromkeys(("current", "turn_on_limit", "fuse_rating"), "current"),
        **dict.fromkeys(("highest_input", "minimum_voltage", "highest_voltage"), "voltage"),
        "sample_rate": "frequency",
        **dict.fromkeys(("most_boost", "most_cut"), "level"),
        **dict.fromkeys(("lowest_q", "highest_q"), "ratio"),
        **_ON_BOARD,
    }
    # A converter of coils alone takes no current, and some processors cut and never lift.
    or_zero: ClassVar = {"current", "most_boost"}
    field_only_for: ClassVar = {
        "inputs": SOUND_TAKEN,
        "highest_input": SOUND_TAKEN,
        **dict.fromkeys(
            ("sample_rate", "bands", "most_boost", "most_cut", "lowest_q", "highest_q"),
            (Processor.Device.PROCESSOR,),
        ),
        "wakes_itself": (Processor.Device.CONVERTER, Processor.Device.INTERFACE),
    }

    class Meta:
        model = Processor
        exclude = ("kind",)


def as_marked(size: ConductorSize) -> str:
    """Return a size as it is kept: the same text whoever reads it, in whatever language."""
    with override("en"):
        return show_conductor(size).replace("\N{NO-BREAK SPACE}", " ")


class ConductorForm(RecordForm[Conductor]):
    """Cable by the metre."""

    quantities: ClassVar = {
        "insulation_temperature": "temperature",
        "ampacity": "current",
        "outer_diameter": "length",
        "capacitance": "capacitance_per_length",
    }

    size = ConductorField(
        label=gettext_lazy("size, as it is marked"),
        help_text=gettext_lazy("4 AWG, 4 SAE or 25 mm²: these are three different cables"),
    )

    class Meta:
        model = Conductor
        exclude = ("kind", "mass")

    def clean_size(self) -> str:
        """Keep the size in its one written form."""
        return as_marked(self.cleaned_data["size"])


class FuseForm(RecordForm[Fuse]):
    """A fuse; leave empty what its sheet does not say."""

    quantities: ClassVar = {
        "rating": "current",
        "voltage": "voltage",
        "breaking_capacity": "current",
        "rerating": "percent",
    }
    curve = CurveField(
        label=gettext_lazy("opening times"),
        help_text=gettext_lazy(
            "Points of the maker's curve: at so many times its rating it opens within that time."
        ),
    )

    class Meta:
        model = Fuse
        exclude = ("kind", "mass")


class TerminalForm(RecordForm[Terminal]):
    """A crimp terminal."""

    quantities: ClassVar = {
        "torque": "torque",
        "smallest_cable": "cross_section",
        "largest_cable": "cross_section",
    }

    class Meta:
        model = Terminal
        exclude = ("kind", "mass")


class HolderForm(RecordForm[Holder]):
    """A fuse holder or block."""

    quantities: ClassVar = {
        "mass": "mass",
        "rated_current": "current",
        "largest_cable": "cross_section",
    }

    class Meta:
        model = Holder
        exclude = ("kind",)


class SheetMaterialForm(RecordForm[SheetMaterial]):
    """Wood by the sheet, as measured."""

    quantities: ClassVar = {
        "thickness": "length",
        "sheet_length": "length",
        "sheet_width": "length",
        "density": "density",
        "stiffness": "stress",
        "strength": "stress",
    }

    class Meta:
        model = SheetMaterial
        exclude = ("kind", "mass")


class DampingForm(RecordForm[Damping]):
    """Damping or absorbing material."""

    quantities: ClassVar = {
        "mass": "mass",
        "thickness": "length",
        "area_mass": "area_density",
        "sheet_area": "surface",
    }

    class Meta:
        model = Damping
        exclude = ("kind",)


class CoverForm(RecordForm[Cover]):
    """Carpet, vinyl or cloth off the roll."""

    quantities: ClassVar = {
        "thickness": "length",
        "roll_width": "length",
        "area_mass": "area_density",
    }

    class Meta:
        model = Cover
        exclude = ("kind", "mass")


class SupplyForm(RecordForm[Supply]):
    """Glue, tape, screws, T-nuts and inserts, by the pack."""

    quantities: ClassVar = {
        "spread": "area_density",
        "barrel": "length",
        "hole": "length",
        "pack_mass": "mass",
        "pack_length": "cable_length",
    }
    field_only_for: ClassVar = {
        **dict.fromkeys(("spread", "pack_mass"), GLUES),
        "pack_length": (Supply.Use.TAPE,),
        "barrel": BARRELS,
        **dict.fromkeys(("thread", "hole", "pack_pieces"), FASTENERS),
    }

    class Meta:
        model = Supply
        exclude = ("kind", "mass")


FORMS: dict[str, type[RecordForm[Any]]] = {
    Part.Kind.DRIVER: DriverForm,
    Part.Kind.AMPLIFIER: AmplifierForm,
    Part.Kind.PROCESSOR: ProcessorForm,
    Part.Kind.CONDUCTOR: ConductorForm,
    Part.Kind.TERMINAL: TerminalForm,
    Part.Kind.FUSE: FuseForm,
    Part.Kind.HOLDER: HolderForm,
    Part.Kind.SHEET_MATERIAL: SheetMaterialForm,
    Part.Kind.DAMPING: DampingForm,
    Part.Kind.COVER: CoverForm,
    Part.Kind.SUPPLY: SupplyForm,
    Part.Kind.OTHER: PartForm,
}
