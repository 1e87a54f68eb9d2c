"""A job drawn at random: any figure within its limits, any choice, any text, rows gone or twice."""

from __future__ import annotations

import random
from typing import Any

from django.db import models

from jobs.models import Job, JobPart
from jobs.pages.portable.published import job_schema
from jobs.portable.schema import row_models

LETTERS = "aé ß„–Ω漢\U0001f50a'\"<&>\n;=,0"
# What a person does not type: keys that are unique, who did it, and where a file is.
_LEFT = {"id", "version", "token", "number", "revision", "link", "sha256", "fingerprint", "image"}
_LEFT |= {"small", "original", "report", "route", "left_open", "checked", "shown", "signature"}
_LEFT |= {
    "kind",
    "subject",
    "about_key",
    "about_kind",
    "about_detail",
    "as_typed",
    "removed_at",
    "code",
}


def shuffled(job: Job, chance: random.Random) -> Job:
    """Change some fields of some rows of a job, in the tables."""
    rows: list[Any] = [job.vehicle]
    for model in row_models():
        if issubclass(model, JobPart):
            rows += model.objects.filter(job=job).order_by("pk")
    for row in chance.sample(rows, min(len(rows), 25)):
        if isinstance(row, JobPart) and chance.random() < 0.15:
            row.remove()
        else:
            for column in chance.sample(_typed(row), min(len(_typed(row)), 4)):
                setattr(row, column.attname, _value(row, column, chance))
            row.save()
    return Job.objects.select_related("vehicle__customer").get(pk=job.pk)


def _typed(row: models.Model) -> list[Any]:
    return [
        column
        for column in row._meta.concrete_fields
        if column.attname not in _LEFT
        and not column.is_relation
        and not column.primary_key
        and not isinstance(column, models.DateTimeField | models.JSONField)
    ]


def _value(row: models.Model, column: Any, chance: random.Random) -> Any:
    if column.null and chance.random() < 0.2:
        return None
    shape = job_schema()["$defs"][type(row).__name__]["properties"].get(column.attname, {})
    shape = next((each for each in shape.get("anyOf", [shape]) if each != {"type": "null"}), {})
    was = getattr(row, column.attname)
    if "enum" in shape:
        return chance.choice(shape["enum"])
    if isinstance(column, models.BooleanField):
        return chance.random() < 0.5
    if isinstance(was, bool) or was is None or isinstance(column, models.DateField):
        return was
    if isinstance(column, models.CharField | models.TextField):
        most = min(column.max_length or 40, 40)
        return "".join(chance.choice(LETTERS) for _letter in range(chance.randint(1, most)))
    if isinstance(was, int):
        return min(max(was + chance.randint(-1, 3), shape["minimum"]), min(shape["maximum"], 9))
    if isinstance(was, float):
        return min(max(was * chance.uniform(0.7, 1.4), shape["minimum"]), shape["maximum"])
    return was
