"""The box page: a form on one side, the drawing, the curves and the findings on the other."""

from __future__ import annotations

import uuid
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe

from jobs import access, units
from jobs.design.boxes import BoxResult
from jobs.design.cabin import cabin_of
from jobs.design.compare import compare, picked
from jobs.design.job import findings_at, load, typed_box
from jobs.design.study import DOOR_FREQUENCIES, study
from jobs.drawings import pictures
from jobs.drawings.compare_pictures import comparison_charts
from jobs.drawings.study_pictures import study_charts
from jobs.models import Box, Job
from jobs.pages import strip
from jobs.pages.box_form import BoxForm
from jobs.pages.rows import RowKind

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
    result = typed_box(records, box)
    saved = None
    if box.pk and not records.same_as_saved(box):
        kept = next(one for one in records.boxes if one.pk == box.pk)
        saved = typed_box(records, kept)
    # The page loads the study of a saved box late; what is typed is studied at once.
    typed = study(result) if request.method == "POST" else None
    return {
        "result": result,
        "results": _results(result, saved),
        "pictures": pictures.box(result, saved),
        "findings": findings_at(records, result),
        "study": typed,
        "charts": study_charts(typed) if typed else [],
        "door_frequencies": DOOR_FREQUENCIES,
        "embedded": True,
    }


@require_safe
def boxes(request: HttpRequest, code: str) -> HttpResponse:
    """List the job's boxes, and hold up to four of them against each other."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    cabin = cabin_of(job.vehicle, design.records.cabin_curves)
    ticked = picked(design.boxes, request.GET.getlist("box"))
    made = compare(ticked, cabin)
    context = {
        "job": job,
        # A copy carries the token of its button, so that one pressed twice makes one box.
        "boxes": [(one, one in ticked, uuid.uuid4()) for one in design.boxes],
        "comparison": made,
        "charts": comparison_charts(made) if made.is_one else [],
        "findings": design.findings_of("boxes"),
        "trims": design.trims,
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
