"""The box page: a form on one side, the drawing, the curves and the findings on the other."""

from __future__ import annotations

import uuid
from typing import Any, ClassVar

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from jobs import access, units
from jobs.design.boxes import BoxResult
from jobs.design.cabin import cabin_of
from jobs.design.compare import compare, picked
from jobs.design.job import load, work_out
from jobs.drawings import pictures
from jobs.drawings.compare_pictures import comparison_charts
from jobs.models import Box, CabinCurve, Job, Part
from jobs.pages import strip
from jobs.pages.forms import RecordForm
from jobs.pages.profile_field import ProfileField
from jobs.pages.rows import RowKind

PORT, FRONT_CHAMBER = _("Port"), _("Front chamber")
RADIATOR, DOOR = _("Passive radiator"), _("Door")


class BoxForm(RecordForm[Box]):
    """An enclosure: what it is, what drives it, how big, and the wood it is made of."""

    quantities: ClassVar = {
        "test_voltage": "voltage",
        "wanted_volume": "volume",
        "port_diameter": "length",
        "port_width": "length",
        "port_height": "length",
        "port_length": "length",
        "port_wall": "length",
        "wanted_tuning": "frequency",
        "front_volume": "volume",
        "rear_port_diameter": "length",
        "rear_port_length": "length",
        "radiator_added_mass": "moving_mass",
        "hole_area": "area",
        "width": "length",
        "height": "length",
        "depth": "length",
        "top_depth": "length",
        "cavity_width": "length",
        "cavity_gap": "length",
        "opening_width": "length",
        "opening_height": "length",
        "ql": "ratio",
        "qa": "ratio",
        "qp": "ratio",
        "fill": "ratio",
        "brace_opening": "ratio",
    }
    terms: ClassVar = {
        "wanted_volume": "net_volume",
        "wanted_tuning": "tuning",
        "port_diameter": "port_speed",
    }
    only_for: ClassVar = {
        PORT: (Box.Kind.VENTED, Box.Kind.BAND_PASS_4, Box.Kind.BAND_PASS_6),
        FRONT_CHAMBER: (Box.Kind.BAND_PASS_4, Box.Kind.BAND_PASS_6),
        RADIATOR: (Box.Kind.PASSIVE_RADIATOR, Box.Kind.DOOR),
        DOOR: (Box.Kind.DOOR,),
    }
    any_sign: ClassVar = {"radiator_added_mass", "cavity_gap", "brace_opening", "port_wall"}
    fieldsets: ClassVar = [
        (_("What it is"), ["name", "kind", "place", "chosen"]),
        (
            _("Driver"),
            ["driver", "driver_count", "isobaric", "channel", "test_voltage"],
        ),
        (_("Air"), ["wanted_volume", "ql", "qa", "qp", "fill"]),
        (
            PORT,
            [
                "port_shape",
                "port_count",
                "port_diameter",
                "port_width",
                "port_height",
                "port_length",
                "port_wall",
                "wanted_tuning",
            ],
        ),
        (FRONT_CHAMBER, ["front_volume", "rear_port_diameter", "rear_port_length"]),
        (RADIATOR, ["radiator", "radiator_count", "radiator_added_mass"]),
        (DOOR, ["hole", "hole_area"]),
        (
            _("Carcass, outside"),
            [
                "shape",
                "width",
                "height",
                "depth",
                "top_depth",
                "profile",
                "material",
                "baffle_layers",
                "brace_count",
                "brace_opening",
            ],
        ),
        (
            _("Cavity in the car"),
            ["cavity_profile", "cavity_width", "cavity_gap", "opening_width", "opening_height"],
        ),
    ]
    profile = ProfileField(label=_("own side profile"), required=False)
    cavity_profile = ProfileField(label=_("cavity, side profile"), required=False)

    class Meta:
        model = Box
        exclude = ("job",)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        job = self.instance.job
        drivers = job.equipmentitems.select_related("part").filter(part__kind=Part.Kind.DRIVER)
        self.offer("driver", drivers)
        self.offer("radiator", drivers)
        self.offer("channel", job.channels.all())


# What stays in sight while the hands type.
HEADLINE = (
    "net_volume",
    "qtc",
    "fb",
    "f3",
    "port_length",
    "largest_excursion",
    "largest_port_speed",
)


def _results(result: BoxResult, saved: BoxResult | None) -> list[tuple[str, str, str]]:
    """Return (label, value, last saved value) of the figures a fabricator steers by."""
    was = {one.name: units.show(one.value, one.kind) for one in saved.figures} if saved else {}
    return [
        (one.label, units.show(one.value, one.kind), was.get(one.name, ""))
        for one in result.figures
        if one.name in HEADLINE
    ]


def _preview(request: HttpRequest, job: Job, box: Box) -> dict[str, Any]:
    """Work the unsaved box out beside the last saved one."""
    records = load(job)
    design = work_out(records.with_unsaved(box))
    result = design.box(box)
    saved = None
    if box.pk and not records.same_as_saved(box):
        saved = work_out(records).saved_box(box.pk)
    return {
        "result": result,
        "results": _results(result, saved),
        "pictures": pictures.box(result, saved),
        "findings": design.findings_at(box),
    }


@require_safe
def boxes(request: HttpRequest, code: str) -> HttpResponse:
    """List the job's boxes side by side."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    cabin = cabin_of(job.vehicle, CabinCurve.of(job.vehicle)[:1])
    ticked = picked(design.boxes, request.GET.getlist("box"))
    made = compare(ticked, cabin)
    context = {
        "job": job,
        # A copy carries the token of its button, so that one pressed twice makes one box.
        "boxes": [(one, one in ticked, uuid.uuid4()) for one in design.boxes],
        "comparison": made,
        "charts": comparison_charts(made),
        "findings": design.findings_of("boxes"),
        "steps": strip.steps(request, job, "boxes"),
        "may_spec": access.may_spec(user),
    }
    return render(request, "pages/boxes.html", context)


urlpatterns = [
    path("jobs/<str:code>/boxes/", boxes, name="boxes"),
    *RowKind(
        slug="box",
        form=BoxForm,
        section="boxes",
        preview=_preview,
        preview_template="pages/box_result.html",
    ).urls(),
]
