"""The bay page: one thumb, gloves on; tick what was done, write down what was measured."""

from __future__ import annotations

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from jobs import access
from jobs.models import Measurement, PanelStep
from jobs.models.locks import held
from jobs.pages.forms import strip
from jobs.pages.forms.fields import QuantityField
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind


class MeasurementForm(RecordForm[Measurement]):
    """A value to be measured, planned at the desk."""

    class Meta:
        model = Measurement
        fields = ("position", "name", "kind", "expected")


def _value_form(measurement: Measurement, data: object = None) -> forms.Form:
    """Return a form with the one figure that was read off the meter."""
    kind = measurement.kind
    field = QuantityField(kind, required=False, label=measurement.name, initial=measurement.value)
    form_class = type("ValueForm", (forms.Form,), {"value": field})
    form: forms.Form = form_class(data, prefix=f"m{measurement.pk}")
    return form


@require_safe
def bay(request: HttpRequest, code: str) -> HttpResponse:
    """Show what is to do behind each panel and what is to measure."""
    return _page(request, code)


def _page(
    request: HttpRequest, code: str, bound: dict[int, forms.Form] | None = None
) -> HttpResponse:
    job = access.open_job(access.signed_in(request), code)
    design = strip.worked_out(request, job)
    context = {
        "job": job,
        "panels": [panel for panel in design.panels if panel.steps],
        "cautions": design.cautions,
        "open_stops": design.open_stops,
        "measurements": [
            (row, (bound or {}).get(row.pk) or _value_form(row)) for row in design.measurements
        ],
        "may_spec": access.may_spec(access.signed_in(request)),
        "steps": strip.steps(request, job, "bay"),
    }
    return render(request, "pages/job/bay.html", context, status=422 if bound else 200)


@require_POST
def tick(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Tick a step, or take the tick back; the second of two people keeps the first one's name."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    with held(job):
        step = get_object_or_404(PanelStep, job=job, pk=pk)
        wanted = request.POST.get("done") == "1"
        if wanted and step.done_at is None:
            step.done_by, step.done_at = user, timezone.now()
            step.save()
        elif not wanted and step.done_at is not None:
            step.done_by, step.done_at = None, None
            step.save()
    if request.headers.get("HX-Request"):
        return render(request, "parts/job/tick.html", {"job": job, "step": step})
    return redirect("bay", job.code)


@require_POST
def measure(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Write down a measured value."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    with held(job):
        row = get_object_or_404(Measurement, job=job, pk=pk)
        form = _value_form(row, request.POST)
        if not form.is_valid():
            return _page(request, code, {row.pk: form})
        row.value = form.cleaned_data["value"]
        row.measured_by, row.measured_at = user, timezone.now()
        row.save()
    return redirect("bay", job.code)


urlpatterns = [
    path("jobs/<str:code>/bay/", bay, name="bay"),
    path("jobs/<str:code>/step/<int:pk>/tick/", tick, name="tick"),
    path("jobs/<str:code>/measure/<int:pk>/", measure, name="measure"),
    *RowKind(slug="measurement", form=MeasurementForm, section="bay").urls(),
]
