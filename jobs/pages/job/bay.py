"""The bay page: one thumb, gloves on; tick what was done, write down what was measured."""

from __future__ import annotations

from collections import defaultdict
from typing import Any, cast

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from jobs import access
from jobs.locks import held
from jobs.models import Job, Measurement, PanelStep
from jobs.pages.forms import strip
from jobs.pages.forms.fields import QuantityField
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind
from jobs.units import show

STEP_KIND = "step"


class MeasurementForm(RecordForm[Measurement]):
    """A value to be measured, planned at the desk."""

    class Meta:
        model = Measurement
        fields = ("position", "name", "kind", "expected")


def _value_form(measurement: Measurement, data: object = None) -> forms.Form:
    """Return a form with the one figure that was read off the meter, and of which version it is."""
    kind = measurement.kind
    fields = {
        "value": QuantityField(
            kind, required=False, label=measurement.name, initial=measurement.value
        ),
        "version": forms.IntegerField(
            widget=forms.HiddenInput, required=False, initial=measurement.version
        ),
    }
    form_class = type("ValueForm", (forms.Form,), fields)
    form: forms.Form = form_class(data, prefix=f"m{measurement.pk}")
    return form


@require_safe
def bay(request: HttpRequest, code: str) -> HttpResponse:
    """Show what is to do behind each panel and what is to measure."""
    return _page(request, code)


def _page(
    request: HttpRequest,
    code: str,
    *,
    bound: dict[int, forms.Form] | None = None,
    asked: PanelStep | None = None,
) -> HttpResponse:
    job = access.open_job(access.signed_in(request), code)
    design = strip.worked_out(request, job)
    corrected = _corrected(job)
    context = {
        "job": job,
        "panels": [panel for panel in design.panels if panel.steps],
        "cautions": design.cautions,
        "open_stops": design.open_stops,
        "measurements": [
            (
                row,
                (bound or {}).get(row.pk) or _value_form(row),
                show(row.value, row.kind) if row.value is not None else "",
                corrected.get(row.pk, ()),
            )
            for row in design.measurements
        ],
        "asked": asked,
        "may_spec": access.may_spec(access.signed_in(request)),
        "steps": strip.steps(request, job, "bay"),
    }
    status = 422 if bound else 409 if asked else 200
    return render(request, "pages/job/bay.html", context, status=status)


def _corrected(job: Job) -> dict[int, list[Measurement]]:
    """The values that were written down before the present one, the first one first."""
    entries = Measurement.history.filter(job=job, value__isnull=False).order_by("history_id")
    values: dict[int, list[Any]] = defaultdict(list)
    for entry in entries.select_related("measured_by"):
        of_it = values[entry.id]
        if not of_it or of_it[-1].value != entry.value:
            of_it.append(entry)
    return {pk: of_it[:-1] for pk, of_it in values.items()}


@require_POST
def tick(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Tick a step, or take the tick back: another person's only when that is said again."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    with held(job):
        step = get_object_or_404(PanelStep.with_removed.select_related("done_by"), job=job, pk=pk)
        if step.removed_at:
            return _gone(request, job, step, STEP_KIND)
        wanted = request.POST.get("done") == "1"
        theirs = step.done_at is not None and step.done_by != user
        asks = theirs and not wanted and "sure" not in request.POST
        if wanted != (step.done_at is not None) and not asks:
            step.done_by, step.done_at = (user, timezone.now()) if wanted else (None, None)
            step.version += 1
            step.save()
    if request.headers.get("HX-Request"):
        told = theirs and wanted
        context = {"job": job, "step": step, "asked": step if asks else None, "told": told}
        return render(request, "parts/job/tick.html", context)
    if asks:
        return _page(request, code, asked=step)
    if theirs and wanted:
        done = {"who": step.done_by and step.done_by.full_name, "step": step}
        messages.info(request, _("%(who)s has ticked this already: %(step)s") % done)
    return redirect("bay", job.code)


def _gone(request: HttpRequest, job: Job, row: Any, kind: str, wrote: str = "") -> HttpResponse:
    """Say who removed what somebody was about to tick or to write a value for; offer it back."""
    by = row.removed_by()
    words = {"row": str(row).rstrip("."), "who": by.full_name if by else "–", "text": wrote}
    sentence = (
        _("%(who)s has removed “%(row)s” meanwhile. You wrote %(text)s, which is not kept.")
        if wrote
        else _("%(who)s has removed “%(row)s” meanwhile.")
    )
    undo = ""
    if access.may_spec(access.signed_in(request)):
        undo = f"undo:{reverse(f'{kind}-restore', args=[job.code, row.pk])}"
    messages.warning(request, sentence % words, extra_tags=undo)
    if request.headers.get("HX-Request"):
        return HttpResponse(headers={"HX-Redirect": reverse("bay", args=[job.code])})
    return redirect("bay", job.code)


@require_POST
def measure(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Write down a measured value; an empty field takes none away."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    with held(job):
        row = get_object_or_404(
            Measurement.with_removed.select_related("measured_by"), job=job, pk=pk
        )
        form = _value_form(row, request.POST)
        if row.removed_at:
            return _gone(request, job, row, MEASUREMENT.slug, form["value"].value() or "")
        if form.is_valid():
            _judge(form, row)
        if not form.is_valid():
            return _page(request, code, bound={row.pk: form})
        value = form.cleaned_data["value"]
        if value is not None and value != row.value:
            row.value = value
            row.measured_by, row.measured_at = user, timezone.now()
            row.version += 1
            row.save()
    return redirect("bay", job.code)


def _judge(form: forms.Form, row: Measurement) -> None:
    """Tell an empty field, and a value somebody else wrote since the page was opened."""
    value, version = form.cleaned_data["value"], form.cleaned_data["version"]
    if row.value is None or value == row.value:
        return
    if value is None:
        form.add_error(
            "value",
            _("The value stays: an empty field takes none away. Type the right one over it."),
        )
    elif version != row.version:
        data = cast(QueryDict, form.data).copy()
        data[form.add_prefix("version")] = str(row.version)
        form.data = data
        words = {
            "who": row.measured_by.full_name if row.measured_by else "–",
            "theirs": show(row.value, row.kind),
            "yours": show(value, row.kind),
        }
        sentence = _(
            "%(who)s wrote %(theirs)s meanwhile; you typed %(yours)s. Send again to put yours in "
            "its place; theirs stays in the history."
        )
        form.add_error("value", sentence % words)


MEASUREMENT = RowKind(slug="measurement", form=MeasurementForm, section="bay")

urlpatterns = [
    path("jobs/<str:code>/bay/", bay, name="bay"),
    path("jobs/<str:code>/step/<int:pk>/tick/", tick, name="tick"),
    path("jobs/<str:code>/measure/<int:pk>/", measure, name="measure"),
    *MEASUREMENT.urls(),
]
