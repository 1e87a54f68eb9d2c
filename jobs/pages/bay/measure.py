"""What is read off the meter: planned, written down, judged at once, corrected without loss."""

from __future__ import annotations

import datetime as dt
from typing import Any, ClassVar, cast

from django import forms
from django.contrib import messages
from django.db.models import Max
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect
from django.urls import path, reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST

from jobs import access
from jobs.design.job import board_counts
from jobs.design.job.measurements import Known, Limits, Measured, plan
from jobs.design.records.records import load
from jobs.locks import held
from jobs.models import Job, Measurement, User
from jobs.pages.bay import gone
from jobs.pages.bay.page import page
from jobs.pages.bay.values import value_form
from jobs.pages.forms.fields import QuantityField
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind
from jobs.units import show


class MeasurementForm(RecordForm[Measurement]):
    """A value to be measured, with the limits it is held against."""

    fieldsets: ClassVar = [
        (gettext_lazy("What"), ["position", "name", "kind"]),
        (gettext_lazy("What is as meant"), ["low", "high", "beyond", "expected"]),
    ]
    low = forms.CharField(label=gettext_lazy("at least"), max_length=40, required=False)
    high = forms.CharField(label=gettext_lazy("at most"), max_length=40, required=False)

    class Meta:
        model = Measurement
        fields = ("position", "name", "kind", "low", "high", "beyond", "expected")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        kind = self._kind()
        for name in ("low", "high"):
            label = self.fields[name].label
            # Read in the unit of what is measured, whichever that is.
            self.fields[name] = QuantityField(
                kind, positive=False, required=False, label=label, initial=None
            )
        if self.instance.derived:  # worked out, and worked out anew whenever the job changes
            for name in ("kind", "low", "high", "beyond"):
                self.fields[name].disabled = True

    def _kind(self) -> str:
        sent = self.data.get("kind") if self.is_bound else self.instance.kind
        return str(sent) if sent in Measurement.Kind.values else str(Measurement.Kind.VOLTAGE)

    def clean(self) -> dict[str, Any]:
        """A lower limit lies below the upper one."""
        cleaned = super().clean()
        low, high = cleaned.get("low"), cleaned.get("high")
        if low is not None and high is not None and low > high:
            self.add_error("high", _("This lies below the lower limit."))
        return cleaned


@require_POST
def measure(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Write down a measured value; an empty field takes none away."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    with held(job):
        row = get_object_or_404(
            Measurement.with_removed.select_related("measured_by"), job=job, pk=pk
        )
        form = value_form(row, request.POST)
        if row.removed_at:
            return gone.told(request, job, row, MEASUREMENT.slug, form["value"].value() or "")
        limits = limits_of(job, row)
        if form.is_valid():
            _judge(form, row, limits)
        if not form.is_valid():
            return page(request, code, bound={row.pk: form})
        value = form.cleaned_data["value"]
        if value is not None and value == row.value:
            who = row.measured_by.full_name if row.measured_by else "–"
            messages.info(request, _("%(who)s has written the same down already.") % {"who": who})
        elif value is not None:
            set_value(job, row, user, value)
            _tell(request, row, limits)
    return redirect(f"{reverse('bay', args=[job.code])}#measure-{row.pk}")


def set_value(
    job: Job, row: Measurement, user: User, value: float, at: dt.datetime | None = None
) -> None:
    """Write a measured value down, and who measured it when."""
    row.value, row.measured_by, row.measured_at = value, user, at or timezone.now()
    row.version += 1
    row.save()
    board_counts.forget(job)


def limits_of(job: Job, row: Measurement) -> Limits:
    """The limits of a value as the job stands now."""
    return Known.of(load(job)).limits(row)


def _tell(request: HttpRequest, row: Measurement, limits: Limits) -> None:
    """Say at once how the value stands."""
    verdict = Measured(row=row, limits=limits).verdict
    words = {"name": row.name, "value": show(row.value or 0.0, row.kind)}
    if verdict == "stop":
        messages.error(request, _("Stop: %(name)s is %(value)s. It must not stay so.") % words)
    elif verdict == "look":
        messages.warning(request, _("Look: %(name)s is %(value)s, not as expected.") % words)
    elif verdict == "done":
        messages.success(request, _("As meant: %(name)s is %(value)s.") % words)


def _judge(form: forms.Form, row: Measurement, limits: Limits) -> None:
    """Tell an empty field, a mistaken unit, and a value somebody else wrote meanwhile."""
    value, version = form.cleaned_data["value"], form.cleaned_data["version"]
    if value is None:
        if row.value is not None:
            form.add_error(
                "value",
                _("The value stays: an empty field takes none away. Type the right one over it."),
            )
        return
    typed = form["value"].value()
    meant = limits.slip(value)
    if meant is not None and form.cleaned_data["sure"] != typed:
        _set(form, "sure", typed)
        vars(form)["meant"] = show(meant, row.kind)
        words = {
            "typed": show(value, row.kind),
            "expected": Measured(row=row, limits=limits).expected,
            "meant": show(meant, row.kind),
        }
        sentence = _(
            "You typed %(typed)s; %(expected)s is expected. Was it %(meant)s? Send again to keep "
            "%(typed)s."
        )
        form.add_error("value", sentence % words)
    elif row.value is not None and value != row.value and version != row.version:
        _set(form, "version", str(row.version))
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


def _set(form: forms.Form, name: str, value: str) -> None:
    data = cast(QueryDict, form.data).copy()
    data[form.add_prefix(name)] = value
    form.data = data


@require_POST
def plan_values(request: HttpRequest, code: str) -> HttpResponse:
    """Plan every value that follows from the tree and the channels, and is not planned yet."""
    job = access.open_job(access.signed_in(request), code)
    with held(job):
        rows = plan(load(job))
        last = job.measurements.aggregate(last=Max("position"))["last"] or 0
        for position, row in enumerate(rows, start=last + 1):
            row.position = min(position, 999)
            row.save()
        board_counts.forget(job)
    messages.success(request, _("Values to measure added: %(n)s.") % {"n": len(rows)})
    return redirect("bay", job.code)


# Whoever measures may add what else they measure.
MEASUREMENT = RowKind(
    slug="measurement", form=MeasurementForm, section="bay", allowed=access.may_record
)

urlpatterns = [
    path("jobs/<str:code>/measure/<int:pk>/", measure, name="measure"),
    path("jobs/<str:code>/measurement/plan/", plan_values, name="measurement-plan"),
    *MEASUREMENT.urls(),
]
