"""What a stop without a figure rests on: the figures and choices of the records it is about."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import fields, replace
from typing import Any

from django.db.models import CharField, Field, Model, TextField

from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords

# They say which row it is, where it stands in a list and how often it was saved.
NO_FIGURES = {"id", "job", "number", "position", "version", "entry_token", "removed_at"}
# How a figure was written changes nothing of it.
NO_FIGURES |= {"as_typed"}
# Who looked behind a panel, and whence its list came, bear on nothing that forbids opening it.
NO_FIGURES |= {"empty_by", "empty_at", "learnt_from"}
# Nor does whether a job rests for a while.
NO_FIGURES |= {"halt", "look_again_on"}


def rest_on_records(findings: Iterable[Finding], records: JobRecords) -> list[Finding]:
    """Let a stop that has no value change with its records: released for one cable, not for any.

    Names and places are words for people: a new name asks nobody again.
    """
    return resting_on(findings, _rows(records))


def resting_on(findings: Iterable[Finding], of: Iterable[Model]) -> list[Finding]:
    """The same, where the rows are at hand."""
    rows = {(key.kind, key.key): row for row in of for key in (about(row),)}
    return [
        replace(
            finding,
            basis=tuple(
                figures_of(rows[key])
                for touched in (finding.about, *finding.also)
                if (key := (touched.kind, touched.key)) in rows
            ),
        )
        if finding.severity == "stop" and not isinstance(finding.value, float | int)
        else finding
        for finding in findings
    ]


def figures_of(row: Model) -> str:
    """Return every figure and every choice of a row, and the rows it points to."""
    kept = {field.attname: getattr(row, field.attname) for field in _figures(type(row))}
    return json.dumps(kept, default=str, sort_keys=True)


def _figures(model: type[Model]) -> list[Field[Any, Any]]:
    return [
        field
        for field in model._meta.concrete_fields
        if field.name not in NO_FIGURES
        and (field.choices or not isinstance(field, CharField | TextField))
    ]


def _rows(records: JobRecords) -> list[Model]:
    rows: list[Model] = [records.job, records.job.vehicle]
    for field in fields(records):
        listed = getattr(records, field.name)
        if isinstance(listed, list | tuple):
            rows += [row for row in listed if isinstance(row, Model)]
    return rows
