"""The study of a box: how sure, how loud, what protects it, and what stands inside it."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe
from django.views.decorators.vary import vary_on_headers

from jobs import access
from jobs.design.box.boxes import BoxResult
from jobs.design.box.study import DOOR_FREQUENCIES
from jobs.design.box.study import study as study_box
from jobs.drawings.box.study_pictures import study_charts
from jobs.pages.forms import strip


def studied(result: BoxResult) -> dict[str, Any]:
    """Return what `parts/study.html` says of a box."""
    study = study_box(result)
    return {
        "study": study,
        "charts": study_charts(study) if study else [],
        "door_frequencies": DOOR_FREQUENCIES,
    }


@require_safe
@vary_on_headers("HX-Request")
def study(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Show the study of a saved box, as a page or as the part of one that is loaded late."""
    job = access.open_job(access.signed_in(request), code)
    result = strip.worked_out(request, job).saved_box(pk)
    if result is None:
        raise Http404
    context = {"job": job, "box": result.box, **studied(result)}
    if request.headers.get("HX-Request"):
        # The page around it lists the box's findings already.
        context["embedded"] = True
        return render(request, "parts/box/study.html", context)
    context["steps"] = strip.steps(request, job, "boxes")
    return render(request, "pages/box/study.html", context)


urlpatterns = [path("jobs/<str:code>/box/<int:pk>/study/", study, name="study")]
