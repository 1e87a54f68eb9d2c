"""The form of an address without the page around it, which takes many times as long."""

from __future__ import annotations

from typing import Any

from django import forms
from django.urls import resolve
from django.utils.datastructures import MultiValueDict

from jobs import models


def form_at(url: str, row: models.JobPart | None = None) -> forms.BaseForm:
    """Return the form a page shows for a row nobody has touched yet, without the page around it.

    Which row, its address says; a new one has to be given.
    """
    view = resolve(url)
    kind = view.func.keywords["kind"]
    if row is None:
        row = kind.model.objects.get(pk=view.kwargs["pk"])
    form: forms.BaseForm = kind.form(instance=row)
    return form


def as_sent(sent: dict[str, Any]) -> MultiValueDict[str, Any]:
    """Return fields as a browser sends them, lists with all their rows."""
    return MultiValueDict(
        {name: value if isinstance(value, list) else [str(value)] for name, value in sent.items()}
    )


def refused_at(url: str, sent: dict[str, Any]) -> dict[str, Any]:
    """Return what the form at an address says of what was sent, without the page around it."""
    untouched = form_at(url)
    return dict(type(untouched)(as_sent(sent), instance=untouched.instance).errors)
