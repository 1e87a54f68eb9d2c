"""One measured value as the bay shows it: its form, its verdict, what stood there before."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django import forms

from jobs.design.job.measurements import Measured
from jobs.models import Job, Measurement
from jobs.pages.forms.fields import QuantityField
from jobs.units import show, units_of


@dataclass(frozen=True, kw_only=True)
class Line:
    """One value on the page: the row, its form, what it came to and what stood there before."""

    measured: Measured
    form: forms.Form
    before: list[Any]

    @property
    def row(self) -> Measurement:
        """The row."""
        return self.measured.row

    @property
    def shown(self) -> str:
        """The value as a person reads it."""
        return show(self.row.value, self.row.kind) if self.row.value is not None else ""


def lines(job: Job, measured: Iterable[Measured], bound: Mapping[int, forms.Form]) -> list[Line]:
    """Every value of a job, ready for its page."""
    before = corrected(job)
    return [
        Line(
            measured=value,
            form=bound.get(value.row.pk) or value_form(value.row),
            before=before.get(value.row.pk, []),
        )
        for value in measured
    ]


def value_form(measurement: Measurement, data: object = None) -> forms.Form:
    """Return a form with the one figure that was read off the meter, and of which version it is."""
    fields = {
        "value": QuantityField(
            measurement.kind,
            positive=False,
            required=False,
            label=measurement.name,
            initial=measurement.value,
        ),
        "version": forms.IntegerField(
            widget=forms.HiddenInput, required=False, initial=measurement.version
        ),
        # The text that was asked about and is meant all the same.
        "sure": forms.CharField(widget=forms.HiddenInput, required=False, max_length=40),
    }
    fields["value"].widget.attrs["data-pad"] = " ".join(units_of(measurement.kind))
    form_class = type("ValueForm", (forms.Form,), fields)
    form: forms.Form = form_class(data, prefix=f"m{measurement.pk}")
    return form


def corrected(job: Job) -> dict[int, list[Any]]:
    """The values that were written down before the present one, the first one first."""
    entries = Measurement.history.filter(job=job, value__isnull=False).order_by("history_id")
    values: dict[int, list[Any]] = defaultdict(list)
    for entry in entries.select_related("measured_by"):
        of_it = values[entry.id]
        if not of_it or of_it[-1].value != entry.value:
            of_it.append(entry)
    return {pk: of_it[:-1] for pk, of_it in values.items()}
