"""A judged list goes into the catalogue: all of it in one transaction, with its history."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from typing import Any

from django.db import models, transaction

from jobs import search
from jobs.design.job import board_counts
from jobs.locks import hold_table
from jobs.models import Part, PartList, User, Workshop
from jobs.pages.workshop.list_rows import ToWrite, keys_of
from jobs.pages.workshop.part_forms import FORMS

AT_ONCE = 400  # rows in one statement
# Each row of an update is looked for among all of its statement.
UPDATED_AT_ONCE = 60
FOUND_BY = {"maker", "name", "supplier", "order_number", "shelf", "figures_source", "notes"}
# What no check of a job asks for.
OF_BUYING = {"price", "cost", "tax_class", "supplier", "order_number", "shelf", "notes"}


class ChangedMeanwhileError(Exception):
    """Somebody changed the catalogue since the list was judged."""


def write(part_list: PartList, user: User) -> None:
    """Write every row that was judged sound, or nothing at all."""
    by_kind: dict[str, list[ToWrite]] = defaultdict(list)
    for row in part_list.to_write:
        by_kind[row["kind"]].append(row)
    reason = f"list: {part_list.name}"[:100]
    with transaction.atomic():
        hold_table(Part)
        _refuse_known(part_list.to_write)
        touches_checks = False
        for kind, rows in by_kind.items():
            new = [row for row in rows if row["pk"] is None]
            changed = [row for row in rows if row["pk"] is not None]
            parts = _create(kind, new)
            _keep(parts, user, reason, update=False)
            search.write_parts(parts)
            parts = _update(kind, changed)
            _keep(parts, user, reason, update=True)
            renamed = {row["pk"] for row in changed if row["values"].keys() & FOUND_BY}
            search.write_parts([part for part in parts if part.pk in renamed])
            touches_checks |= any(row["values"].keys() - OF_BUYING for row in changed)
        if touches_checks:
            board_counts.refresh_all(Workshop.current())
        part_list.state = PartList.State.WRITTEN
        part_list.rows, part_list.to_write = [], []
        part_list.save()


def _refuse_known(rows: Sequence[ToWrite]) -> None:
    """Somebody may have entered by hand meanwhile what the list would enter."""
    known = {
        key
        for part in Part.objects.values("kind", "maker", "name", "supplier", "order_number")
        for key in keys_of(part["kind"], part)
    }
    if any(known & {*keys_of(row["kind"], row["values"])} for row in rows if row["pk"] is None):
        raise ChangedMeanwhileError


def _model(kind: str) -> Any:
    return FORMS[kind]._meta.model


def _value(model: Any, name: str, value: Any) -> Any:
    """A value as it came out of the list's row: amounts were written as text."""
    return model._meta.get_field(name).to_python(value)


def _create(kind: str, rows: Sequence[ToWrite]) -> list[Any]:
    """New parts: what all parts have in one table, then what is of their kind."""
    model = _model(kind)
    parts = [
        model(kind=kind, **{name: _value(model, name, v) for name, v in row["values"].items()})
        for row in rows
    ]
    if model is Part:
        return list(Part.objects.bulk_create(parts, batch_size=AT_ONCE))
    shared = [field.attname for field in Part._meta.concrete_fields if not field.primary_key]
    bases = [Part(**{name: getattr(part, name) for name in shared}) for part in parts]
    for part, base in zip(parts, Part.objects.bulk_create(bases, batch_size=AT_ONCE), strict=True):
        part.pk = part.id = base.pk
        # The other half is there: only the table of the kind is written.
        part.save_base(raw=True, force_insert=True)
    return parts


def _update(kind: str, rows: Sequence[ToWrite]) -> list[Any]:
    """Parts that were there, unless somebody changed one since it was judged."""
    model = _model(kind)
    parts = model.objects.in_bulk([row["pk"] for row in rows])
    fields: dict[str, None] = {"version": None}
    for row in rows:
        part = parts.get(row["pk"])
        if part is None or part.version != row["version"]:
            raise ChangedMeanwhileError
        part.version += 1
        for name, value in row["values"].items():
            setattr(part, name, _value(model, name, value))
            fields[name] = None
    changed = list(parts.values())
    if changed:
        model.objects.bulk_update(changed, list(fields), batch_size=UPDATED_AT_ONCE)
    return changed


def _keep(parts: Sequence[models.Model], user: User, reason: str, *, update: bool) -> None:
    """Keep the history, which no signal wrote here."""
    if not parts:
        return
    model: Any = type(parts[0])
    model.history.bulk_history_create(
        parts, batch_size=AT_ONCE, update=update, default_user=user, default_change_reason=reason
    )
