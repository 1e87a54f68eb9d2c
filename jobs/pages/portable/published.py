"""The schema of a job's file, with the units that the forms of the app measure in."""

from __future__ import annotations

from functools import cache
from typing import Any

from django.db import models

from jobs.pages.history.kinds import KINDS
from jobs.pages.workshop.part_forms import FORMS
from jobs.pages.workshop.workshop import WorkshopForm
from jobs.portable.schema import Shape, schema


@cache
def job_schema() -> Shape:
    """Return the schema of job.json."""
    forms: list[Any] = [kind.form for kind in KINDS.values() if kind.form]
    kinds: dict[type[models.Model], dict[str, str]] = {}
    for form in (*forms, *FORMS.values(), WorkshopForm):
        model = form._meta.model
        kinds.setdefault(model, {}).update(getattr(form, "quantities", {}))
    return schema(kinds)
