"""What a sheet was made from, under the keys its job has here."""

from __future__ import annotations

from typing import Any

from django.apps import apps
from django.db.models import FileField, Model

from jobs.design.records.keys import at_home
from jobs.models import Decision, IssuedSheet, StageRelease, Workshop
from jobs.portable.staying import stays

# What follows from keys or from where files lie: no change of the job.
_OF_ITS_PLACE: dict[type[Model], set[str]] = {
    Decision: {"fingerprint"},
    StageRelease: {"left_open"},
}


def data_here(sheet: IssuedSheet) -> dict[str, Any]:
    """Return what a sheet was made from, to be held against the job as it is here.

    Of a sheet that came from elsewhere the keys are put right, and what stayed there is left out.
    """
    moved = at_home(sheet)
    if sheet.origin is None or "rows" not in moved:
        return moved
    rows = {apps.get_model("jobs", name): plain for name, plain in moved["rows"].items()}
    moved["rows"] = {
        model.__name__: [_without_place(model, row) for row in plain]
        for model, plain in rows.items()
        if model is not Workshop
    }
    return moved


def _without_place(model: type[Model], row: dict[str, Any]) -> dict[str, Any]:
    files = {c.attname for c in model._meta.concrete_fields if isinstance(c, FileField)}
    left = files | _OF_ITS_PLACE.get(model, set())
    return {
        name: value for name, value in row.items() if name not in left and not stays(model, name)
    }
