"""The catalogue: the parts the workshop fits, each kind with its own typed figures."""

from __future__ import annotations

from typing import Any, ClassVar

from django.contrib import messages
from django.db.models import Q
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path, reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, override
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from jobs import access
from jobs.design.job import board_counts
from jobs.locks import held
from jobs.models import (
    Amplifier,
    AmplifierRating,
    Conductor,
    Damping,
    Driver,
    Fuse,
    Holder,
    Part,
    Processor,
    SheetMaterial,
    Terminal,
)
from jobs.pages.forms.fields import ConductorField, asked
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.shape_fields import CurveField, RatingsField
from jobs.units import show_conductor

MOST_ROWS = 200
SOUND_TAKEN = (Processor.Device.PROCESSOR, Processor.Device.CONVERTER)
_WHAT = (gettext_lazy("What it is"), ["maker", "name", "mass", "figures_source", "notes"])
_BUYING = (gettext_lazy("Where it is bought"), ["supplier", "order_number"])
_MONEY = (gettext_lazy("Money, without tax"), ["price", "cost", "tax_class"])


class PartForm(RecordForm[Part]):
    """A part without figures of its own: a source, a battery, an accessory."""

    quantities: ClassVar = {"mass": "mass"}
    fieldsets: ClassVar = [_WHAT, _BUYING, _MONEY]

    class Meta:
        model = Part
        fields = (
            *("maker", "name", "mass", "figures_source", "notes"),
            *("supplier", "order_number", "price", "cost", "tax_class"),
        )


class DriverForm(RecordForm[Driver]):
    """A driver: type what the sheet gives, the rest is worked out from it."""

    quantities: ClassVar = {
        "fs": "frequency",
        **dict.fromkeys(("qts", "qes", "qms"), "ratio"),
        "vas": "volume",
        "sd": "area",
        "re": "resistance",
        "le": "inductance",
        "mms": "moving_mass",
        "cms": "compliance",
        "rms": "mechanical_resistance",
        "bl": "force_factor",
        "power": "power",
        "nominal_impedance": "resistance",
        "sensitivity": "level",
        "xmax": "length",
        **dict.fromkeys(("outer_diameter", "cutout_diameter", "bolt_circle"), "length"),
        **dict.fromkeys(("screw_hole", "depth", "magnet_diameter", "magnet_height"), "length"),
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
                *("outer_diameter", "cutout_diameter", "bolt_circle", "screws", "screw_hole"),
                *("depth", "magnet_diameter", "magnet_height", "displacement"),
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
        **dict.fromkeys(("lowest_load", "lowest_load_bridged"), "resistance"),
        "efficiency": "percent",
        **dict.fromkeys(("fuse_rating", "quiescent_current", "turn_on_current"), "current"),
        **dict.fromkeys(("minimum_voltage", "highest_voltage"), "voltage"),
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
    }
    any_sign: ClassVar = {"current"}  # a converter of coils alone takes none
    field_only_for: ClassVar = {
        "inputs": SOUND_TAKEN,
        "highest_input": SOUND_TAKEN,
        "sample_rate": (Processor.Device.PROCESSOR,),
        "wakes_itself": (Processor.Device.CONVERTER, Processor.Device.INTERFACE),
    }

    class Meta:
        model = Processor
        exclude = ("kind",)


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
        with override("en"):  # whoever reads it, in whatever language
            return show_conductor(self.cleaned_data["size"]).replace("\N{NO-BREAK SPACE}", " ")


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
    }

    class Meta:
        model = SheetMaterial
        exclude = ("kind", "mass")


class DampingForm(RecordForm[Damping]):
    """Damping or absorbing material."""

    quantities: ClassVar = {"mass": "mass", "thickness": "length", "area_mass": "area_density"}

    class Meta:
        model = Damping
        exclude = ("kind",)


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
    Part.Kind.OTHER: PartForm,
}


@require_safe
def catalogue(request: HttpRequest) -> HttpResponse:
    """List parts, by kind and by name."""
    user = access.signed_in(request)
    access.require_member(user)
    kind, text = request.GET.get("kind", ""), asked(request, "q")
    parts = Part.objects.all()
    if kind in Part.Kind.values:
        parts = parts.filter(kind=kind)
    if text:
        parts = parts.filter(Q(maker__icontains=text) | Q(name__icontains=text))
    context = {
        "parts": parts[:MOST_ROWS],
        "kinds": Part.Kind.choices,
        "kind": kind,
        "q": text,
        "job_code": _asking_job(request),
        "may_spec": access.may_spec(user),
        "may_see_prices": access.may_see_prices(user),
    }
    return render(request, "pages/workshop/catalogue.html", context)


def _asking_job(request: HttpRequest) -> str:
    """Return the number of the job somebody came from to enter a part it lacks."""
    code = request.GET.get("job", "")
    return code if access.CODE.fullmatch(code) else ""


def _edit(request: HttpRequest, kind: str, instance: Any) -> HttpResponse:
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_spec(user))
    form = FORMS[kind](request.POST or None, instance=instance)
    if not access.may_see_prices(user):
        del form.fields["price"], form.fields["tax_class"]
    if not access.may_see_costs(user):
        del form.fields["cost"]
    status = 200
    if request.method == "POST":
        with held(instance):
            kept_away = instance.removed_at and "bring_back" not in request.POST
            if not kept_away and form.is_valid():
                form.instance.kind, form.instance.removed_at = kind, None
                part = form.save()
                board_counts.refresh_all(part)
                messages.success(request, _("Saved: %(part)s.") % {"part": part})
                if code := _asking_job(request):
                    return redirect(f"{reverse('item-add', args=[code])}?part={part.pk}")
                return redirect(f"{reverse('catalogue')}?kind={kind}")
        status = 409 if kept_away else 422
    context = {"form": form, "kind": Part.Kind(kind), "row": instance}
    if instance.removed_at:
        context["removed_by"] = instance.removed_by()
    return render(request, "pages/workshop/part.html", context, status=status)


@require_http_methods(["GET", "POST"])
def add_part(request: HttpRequest, kind: str) -> HttpResponse:
    """Enter a new part of one kind."""
    access.require_member(access.signed_in(request))
    if kind not in FORMS:
        raise Http404
    model = FORMS[kind]._meta.model
    return _edit(request, kind, model())


def _part(pk: int, *, removed: bool = False) -> Any:
    """Return a part as its own kind; a removed one only where that is asked for."""
    part = (Part.with_removed if removed else Part.objects).filter(pk=pk).first()
    if part is None:
        raise Http404
    return FORMS[part.kind]._meta.model.with_removed.get(pk=pk)


@require_http_methods(["GET", "POST"])
def edit_part(request: HttpRequest, pk: int) -> HttpResponse:
    """Correct a part; jobs that use it are worked out anew, issued sheets are not."""
    access.require_member(access.signed_in(request))
    part = _part(pk, removed=request.method == "POST")
    return _edit(request, part.kind, part)


def _remove(request: HttpRequest, pk: int, *, back: bool) -> HttpResponse:
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_spec(user))
    part = _part(pk, removed=True)
    with held(part):
        part.refresh_from_db()
        part.restore() if back else part.remove()
        board_counts.refresh_all(part)
    if back:
        messages.success(request, _("Back again: %(part)s.") % {"part": part})
    else:
        undo = reverse("part-restore", args=[pk])
        messages.warning(
            request, _("Removed: %(part)s.") % {"part": part}, extra_tags=f"undo:{undo}"
        )
    return redirect(f"{reverse('catalogue')}?kind={part.kind}")


@require_POST
def remove_part(request: HttpRequest, pk: int) -> HttpResponse:
    """Take a part out of the catalogue; jobs that use it keep it."""
    return _remove(request, pk, back=False)


@require_POST
def restore_part(request: HttpRequest, pk: int) -> HttpResponse:
    """Bring a removed part back."""
    return _remove(request, pk, back=True)


urlpatterns = [
    path("catalogue/", catalogue, name="catalogue"),
    path("catalogue/add/<str:kind>/", add_part, name="part-add"),
    path("catalogue/<int:pk>/", edit_part, name="part-edit"),
    path("catalogue/<int:pk>/remove/", remove_part, name="part-remove"),
    path("catalogue/<int:pk>/restore/", restore_part, name="part-restore"),
]
