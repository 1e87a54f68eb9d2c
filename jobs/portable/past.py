"""The history of a job's rows in its file: when each was what, and by whom as far as that is known.

An entry says of its row what the file says of rows, under the keys of the file. What stays behind
of a row stays behind of its entries. People are named by the job itself and nowhere else: whoever
only touched a field years ago is nobody in the file.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime
from functools import cache
from typing import Any

from django.apps import apps
from django.db.models import Field, FileField, Model

from jobs.design.records.data import carried, plain_value
from jobs.models import JobPart
from jobs.portable.numbering import Row, parts_in
from jobs.portable.staying import stays

Past = dict[str, list[dict[str, Any]]]
KINDS = {"+": "made", "~": "changed", "-": "deleted"}
_BACK = {word: kind for kind, word in KINDS.items()}


@cache
def past_fields(model: type[Model]) -> dict[str, Field[Any, Any]]:
    """Return the fields an entry says; where a file lies is no figure of its row."""
    return {
        name: field
        for name, field in carried(model).items()
        if not stays(model, name) and not isinstance(field, FileField)
    }


def past_of(rows: Mapping[str, list[Row]]) -> Past:
    """Return the entries of these rows under the keys of the tables, row by row in their order."""
    people = {row["id"] for row in rows.get("User", ())}
    past: Past = {}
    for name in sorted(rows):
        model: Any = apps.get_model("jobs", name)
        if issubclass(model, JobPart):
            entries = model.history.filter(id__in=[row["id"] for row in rows[name]])
            ordered = entries.order_by("id", "history_date", "history_id")
            past[name] = [_said(entry, past_fields(model), people) for entry in ordered]
    return {name: entries for name, entries in past.items() if entries}


def _said(entry: Any, fields: Mapping[str, Any], people: set[int]) -> dict[str, Any]:
    by = entry.history_user_id
    return {
        "at": entry.history_date.isoformat(),
        "by": by if by in people else None,
        "did": KINDS[entry.history_type],
        "why": entry.history_change_reason or "",
        "row": {name: plain_value(getattr(entry, name)) for name in fields},
        "hanging": entry.hanging,
    }


def parts_named(past: Past) -> set[int]:
    """Return the parts that some entry names."""
    return {
        key
        for name, entries in past.items()
        for key in parts_in(apps.get_model("jobs", name), entries)
    }


def read_past(past: Past) -> Iterator[tuple[Any, dict[str, Any], dict[str, Any]]]:
    """Read entries back: the model, what each says of its row, and what of itself.

    Raises ValidationError or ValueError where one of them says what cannot be.
    """
    for name, entries in past.items():
        model: type[Model] = apps.get_model("jobs", name)
        fields = past_fields(model)
        for entry in entries:
            row = {field: fields[field].to_python(value) for field, value in entry["row"].items()}
            about = {
                "history_date": datetime.fromisoformat(entry["at"]),
                "history_type": _BACK[entry["did"]],
                "history_user_id": entry["by"],
                "history_change_reason": entry["why"] or None,
                "hanging": entry["hanging"],
            }
            yield model, row, about


def write_past(past: Past) -> None:
    """Write entries, already under the keys here, for rows that are here."""
    new: dict[Any, list[Any]] = {}
    rows: dict[Any, Any] = {}
    for name, entries in past.items():
        model: Any = apps.get_model("jobs", name)
        rows[model] = model._base_manager.in_bulk({entry["row"]["id"] for entry in entries})
    for model, row, about in read_past(past):
        table = model.history.model
        now = rows[model][row["id"]]
        # What stayed behind is as it is now.
        values = {f.attname: getattr(now, f.attname) for f in table.tracked_fields}
        values = {name: getattr(value, "name", value) for name, value in values.items()}
        new.setdefault(table, []).append(table(**values | row | about))
    for table, entries in new.items():
        table.objects.bulk_create(entries)
