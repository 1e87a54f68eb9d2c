"""A list of records as a table whose cells are typed in: what stands in it, and one row of it.

Each row is a form of its own. It sends its cells and names them; of every other field the server
takes what the record holds, so that the form of the record judges the whole of it.
"""

from __future__ import annotations

import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, cast

from django import forms
from django.http import QueryDict
from django.urls import reverse
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from jobs.models import Job
from jobs.pages.forms.fields import QuantityField
from jobs.pages.forms.forms import RecordForm, spell
from jobs.pages.forms.shown import as_sent, in_words

# Names the cells a row sends; a form without it sends everything.
CELLS = "cells"

# What stands in a column: one field, or two of them, the second below the first.
Column = str | tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Cell:
    """One field of one row: as it is typed in and as it is read."""

    name: str
    label: str
    control: str
    words: Any
    numeric: bool = False
    tick: bool = False


@dataclass(frozen=True, kw_only=True)
class TableRow:
    """One row: its cells column by column, and what was worked out of it."""

    id: str
    # Where it is sent, and where the rest of it stands.
    page: str
    called: str
    columns: list[list[Cell]]
    # Sent with the row: its version or token, what it is given, which cells it holds.
    hidden: list[tuple[str, str]]
    record: Any = None
    tag: str = ""
    # What was worked out of it, under the head of its column.
    beside: Sequence[tuple[str, str]] = ()


@dataclass(frozen=True, kw_only=True)
class Head:
    """What stands over a column."""

    label: str
    unit: str = ""


@dataclass(frozen=True, kw_only=True)
class Table:
    """A whole table, as its template takes it."""

    id: str
    caption: str
    heads: list[list[Head]]
    beside: Sequence[str]
    rows: list[TableRow]
    # The empty row at its foot; none where nobody may type.
    blank: TableRow | None
    acts: str = ""
    token: str = ""
    tagged: bool = False
    two_sided: bool = False
    in_pieces: bool = False

    @property
    def width(self) -> int:
        """How many columns it has, with that of the ticks and that of the links."""
        return len(self.heads) + len(self.beside) + self.tagged + 2


@dataclass(frozen=True, kw_only=True)
class Layout:
    """Which fields of a kind of record stand in a table, and what is the same in all its rows."""

    slug: str
    form: type[RecordForm[Any]]
    columns: Sequence[Column]
    given: Mapping[str, str] = field(default_factory=dict)
    two_sided: bool = False
    in_pieces: bool = False

    @property
    def names(self) -> list[str]:
        """Every field that is typed in."""
        return [name for column in self.columns for name in _fields_of(column)]


def _fields_of(column: Column) -> tuple[str, ...]:
    return (column,) if isinstance(column, str) else column


class _Drawer:
    """Draws the rows of one table; its choices are read once, whatever the number of rows."""

    def __init__(
        self,
        layout: Layout,
        job: Job,
        form: RecordForm[Any],
        offered: dict[Any, Any],
        at_hand: Mapping[str, Sequence[Any]],
    ) -> None:
        self.layout, self.job, self.form = layout, job, form
        self.key = "-".join([layout.slug, *layout.given.values()])
        for name in layout.names:
            choice = form.fields[name]
            if isinstance(choice, forms.ModelChoiceField) and name in at_hand:
                choice.widget.choices = [
                    ("", choice.empty_label or ""),
                    *((str(row.pk), choice.label_from_instance(row)) for row in at_hand[name]),
                ]
            elif isinstance(choice, forms.ModelChoiceField):
                rows = "" if choice.queryset is None else str(choice.queryset.query)
                same = (rows, choice.empty_label)
                if same not in offered:
                    offered[same] = [
                        (key if isinstance(words, list | tuple) else str(key), words)
                        for key, words in choice.widget.choices
                    ]
                choice.widget.choices = offered[same]

    def heads(self) -> list[list[Head]]:
        """What stands over each column."""
        return [
            [
                Head(
                    label=capfirst(str(self.form.fields[name].label)),
                    unit=getattr(self.form.fields[name], "plain_unit", ""),
                )
                for name in _fields_of(column)
            ]
            for column in self.layout.columns
        ]

    def row(
        self, record: Any, *, beside: Sequence[tuple[str, str]] = (), tag: str = ""
    ) -> TableRow:
        """Draw a row as it is stored; one that is not is the empty row."""
        key = str(record.pk or "new")
        row_id = f"{self.key}-{key}"
        slug, code = self.layout.slug, self.job.code
        stored = bool(record.pk)
        page = reverse(f"{slug}-edit", args=[code, record.pk]) if stored else ""
        page = page or reverse(f"{slug}-add", args=[code])
        return TableRow(
            id=row_id,
            columns=[
                [self._cell(name, row_id, record) for name in _fields_of(column)]
                for column in self.layout.columns
            ],
            hidden=self._hidden(record),
            record=record if stored else None,
            called=str(record) if stored else _("new row"),
            tag=tag,
            page=page,
            beside=beside,
        )

    def _hidden(self, record: Any) -> list[tuple[str, str]]:
        sent = {CELLS: " ".join(self.layout.names)}
        if record.pk:
            sent["version"] = str(record.version)
        else:
            names = [name for name in ("entry_token", "position") if name in self.form.fields]
            sent |= {name: values[0] for name, values in as_sent(self.form, names).items()}
        return list({**sent, **self.layout.given}.items())

    def _cell(self, name: str, row_id: str, record: Any) -> Cell:
        choice = self.form.fields[name]
        label = capfirst(str(choice.label))
        value = self._stored(name, record)
        attrs = {
            "id": f"{row_id}-{name}",
            "aria-label": f"{label}, {record if record.pk else _('new row')}",
            "required": choice.required and not isinstance(choice, forms.BooleanField),
        }
        widget = self._offering(choice, value, record, name)
        return Cell(
            name=name,
            label=label,
            control=widget.render(name, value, attrs),
            words=in_words(choice, value),
            numeric=isinstance(choice, QuantityField | forms.IntegerField | forms.DecimalField),
            tick=isinstance(widget, forms.CheckboxInput),
        )

    def _stored(self, name: str, record: Any) -> Any:
        """Return the value of a field as its page would show it."""
        if not record.pk:
            return self.form[name].value()
        spell(record, {name: self.form.fields[name]})
        held = record._meta.get_field(name).value_from_object(record)
        return self.form.fields[name].prepare_value(held)

    def _offering(self, choice: forms.Field, value: Any, record: Any, name: str) -> forms.Widget:
        """Of what is not offered any more keep what was chosen, so that it is not lost unseen."""
        widget: forms.Widget = choice.widget
        if not isinstance(choice, forms.ModelChoiceField) or value in (None, ""):
            return widget
        if in_words(choice, value):
            return widget
        lost = (str(value), str(getattr(record, name)))
        apart: forms.Widget = type(choice.widget)(
            attrs=choice.widget.attrs, choices=[*choice.widget.choices, lost]
        )
        return apart


def build(
    layout: Layout,
    job: Job,
    rows: Sequence[Any],
    *,
    caption: str,
    may_type: bool,
    beside: tuple[Sequence[str], Mapping[int, Sequence[str]]] = ((), {}),
    tags: Mapping[int, str] | None = None,
    initial: Mapping[str, Any] | None = None,
    offered: dict[Any, Any] | None = None,
    at_hand: Mapping[str, Sequence[Any]] | None = None,
) -> Table:
    """Return a table of these rows, with what was worked out of each beside it.

    What tables of one page offer alike is read once, where they are handed the same `offered`;
    what the page has read anyway is `at_hand`, by the field that offers it.
    """
    record = layout.form._meta.model(job=job)
    form = layout.form(instance=record, initial={**(initial or {}), **layout.given})
    drawer = _Drawer(layout, job, form, {} if offered is None else offered, at_hand or {})
    heads, worked_out = beside
    empty = [""] * len(heads)
    blank = drawer.row(record, beside=list(zip(heads, empty, strict=True))) if may_type else None
    return Table(
        id=f"{drawer.key}-table",
        caption=caption,
        heads=drawer.heads(),
        beside=heads,
        rows=[
            drawer.row(
                row,
                beside=list(zip(heads, worked_out.get(row.pk, empty), strict=True)),
                tag=(tags or {}).get(row.pk, ""),
            )
            for row in rows
        ],
        blank=blank,
        acts=reverse(f"{layout.slug}-rows", args=[job.code]) if may_type else "",
        token=str(uuid.uuid4()),
        tagged=tags is not None,
        two_sided=layout.two_sided,
        in_pieces=layout.in_pieces,
    )


def filled(form: RecordForm[Any], typed: QueryDict) -> QueryDict:
    """Return what was typed into cells, and of every other field what the record holds."""
    if CELLS not in typed:
        return typed
    cells = str(typed[CELLS]).split()
    data = typed.copy()
    rest = [name for name in form.fields if name not in cells and name not in typed]
    for name, values in as_sent(form, rest).items():
        data.setlist(name, values)
    return data


def wrong(form: RecordForm[Any]) -> dict[str, Any]:
    """Say what is wrong with a row that was refused: at its cells, and with the whole of it.

    What was kept of somebody else's goes along: it stands in the row from now on.
    """
    typed = cast(QueryDict, form.data)
    cells = str(typed.get(CELLS, "")).split()
    return {
        "cells": {name: list(form.errors[name]) for name in cells if name in form.errors},
        "row": [
            str(message) if name == "__all__" else f"{capfirst(str(form[name].label))}: {message}"
            for name, messages in form.errors.items()
            if name not in cells
            for message in messages
        ],
        "theirs": {name: typed.getlist(name) for name in form.kept},
        "version": typed.get("version", ""),
    }
