"""The box page: a form on one side, the drawing, the curves and the findings on the other."""

from __future__ import annotations

import uuid
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_POST, require_safe

from jobs import access, units
from jobs.design.box.boxes import BoxResult
from jobs.design.box.cabin import cabin_of
from jobs.design.box.compare import compare, picked
from jobs.design.box.figures import PORT_SPEEDS
from jobs.design.job.whole import (
    findings_at,
    load,
    load_for_box,
    typed_beside_saved,
    typed_box,
)
from jobs.design.records.records import JobRecords
from jobs.drawings.box.box_pictures import box_pictures
from jobs.drawings.box.compare_pictures import comparison_charts
from jobs.models import Box, Job
from jobs.pages.box.bench import bench
from jobs.pages.box.box_form import BoxForm
from jobs.pages.box.study import studied
from jobs.pages.forms import strip
from jobs.pages.forms.record_rows import RowKind, beside_saved, typed

# What stays in sight while the hands type.
HEADLINE = (
    "net_volume",
    "moulded_net",
    "litres_error",
    "qtc",
    "fb",
    "f3",
    *("front_volume", "rear_tuning", "front_tuning", "band_low", "band_high"),
    "port_length",
    "largest_excursion",
    *PORT_SPEEDS,
)


def _headline(result: BoxResult) -> list[tuple[str, str]]:
    """Return (label, value) of the figures a fabricator steers by."""
    figures = [figure for figure in result.figures if figure.name in HEADLINE]
    return [(figure.label, units.show(figure.value, figure.kind)) for figure in figures]


def _read(request: HttpRequest, job: Job, box: Box) -> JobRecords:
    """Read what a box is worked out from; the whole job for who sees its price change."""
    whole = access.may_see_prices(access.signed_in(request))
    return load(job) if whole else load_for_box(job, box)


def _preview(request: HttpRequest, job: Job, form: BoxForm) -> dict[str, Any]:
    """Work the unsaved box out beside the last saved one."""
    box = form.instance
    records = _read(request, job, box)
    kept = None
    if form.differs_from_saved:
        kept = next(other for other in records.boxes if other.pk == box.pk)
    result, saved = typed_beside_saved(records, box, kept)
    # A key is answered before the spread of builds and the standing waves are worked out.
    to_come = request.method == "POST" and result.refused is None and result.driver is not None
    return {
        "result": result,
        "bench": bench(result),
        "results": beside_saved(_headline(result), _headline(saved) if saved else ()),
        "pictures": box_pictures(result, saved),
        # What somebody has folded away is not drawn at every key.
        "folded": request.POST.getlist("folded"),
        "findings": findings_at(records, result, sure=not to_come),
        "to_come": to_come,
        "changed": records.with_unsaved(box),
    }


@require_POST
def typed_study(request: HttpRequest, code: str) -> HttpResponse:
    """Study the box being typed, and say what that finds: what follows once the hands rest."""
    job, form = typed(request, code, BOX)
    records = load_for_box(job, form.instance)
    result = typed_box(records, form.instance)
    context = {
        "job": job,
        "embedded": True,
        "findings": findings_at(records, result),
        **studied(result),
    }
    return render(request, "pages/box/box_study.html", context)


@require_safe
def boxes(request: HttpRequest, code: str) -> HttpResponse:
    """List the job's boxes, and hold up to four of them against each other."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    cabin = cabin_of(job.vehicle, design.records.cabin_curves)
    ticked = picked(design.boxes, request.GET.getlist("box"))
    comparison = compare(ticked, cabin)
    context = {
        "job": job,
        # A copy carries the token of its button, so that one pressed twice makes one box.
        "boxes": [(box, box in ticked, uuid.uuid4()) for box in design.boxes],
        "comparison": comparison,
        "charts": comparison_charts(comparison) if comparison.is_one else [],
        "findings": design.findings_of("boxes"),
        "finished": design.finished,
        "may_record": access.may_record(user),
        "trims": design.trims,
        "steps": strip.steps(request, job, "boxes"),
        "may_spec": access.may_spec(user),
    }
    return render(request, "pages/box/boxes.html", context)


BOX = RowKind(
    slug="box",
    form=BoxForm,
    section="boxes",
    preview=_preview,
    preview_template="pages/box/box_result.html",
    template="pages/box/box.html",
)
urlpatterns = [
    path("jobs/<str:code>/boxes/", boxes, name="boxes"),
    path("jobs/<str:code>/box/study-preview/", typed_study, name="box-study-preview"),
    *BOX.urls(),
]
