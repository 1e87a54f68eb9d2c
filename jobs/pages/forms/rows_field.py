"""One form field for every list that is part of a record: a table whose cells are typed in.

A row is sent as one value for each column, in the order of the page. What a cell takes stands with
its column; a row nobody typed anything into is none.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.forms.boundfield import BoundField
from django.template.loader import render_to_string
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from jobs import units
from jobs.pages.forms.surface import surface

EMPTY_ROWS = 2
MOST_MESSAGES = 5

# What stands in one row as it is typed, and what it says, column by column.
Typed = tuple[str, ...]
Row = tuple[Any, ...]


@dataclass(frozen=True, kw_only=True)
class Column:
    """One column: its figure with a unit, its choice, or else its text."""

    name: str
    label: Any
    kind: str = ""
    choices: Sequence[tuple[str, Any]] = ()
    needed: bool = True
    positive: bool = False
    # What an empty cell stands for, shown in it.
    usual: str = ""
    longest: int = 60

    @property
    def unit(self) -> str:
        """The unit a plain number is read in."""
        return units.plain_unit(self.kind) if self.kind else ""

    def show(self, value: Any) -> str:
        """Return a value as it is typed."""
        if value is None:
            return ""
        if self.kind:
            return units.show(value, self.kind, exact=True).replace("\N{NO-BREAK SPACE}", " ")
        return str(value)

    def say(self, value: Any) -> str:
        """Return a value as it is read."""
        if self.choices:
            return str(dict(self.choices).get(value, value))
        return self.show(value)

    def read(self, text: str) -> Any:
        """Return what a cell says, or raise ValidationError."""
        if not text:
            if self.needed:
                raise ValidationError(_("This is missing."))
            return None
        if self.choices:
            if text not in dict(self.choices):
                raise ValidationError(_("This is not one of the choices."))
            return text
        if not self.kind:
            if len(text) > self.longest or not text.isprintable():
                message = _("At most %(most)s letters, on one line.")
                raise ValidationError(message % {"most": self.longest})
            return text
        try:
            value = units.parse(text, self.kind)
        except units.UnreadableQuantity as error:
            raise ValidationError(error.message) from error
        if self.positive and value <= 0:
            raise ValidationError(_("This must be more than zero."))
        return value


class RowsWidget(forms.Widget):
    """A table with two empty rows below; a script adds and takes out rows, and may draw them."""

    use_fieldset = True

    # How its rows are drawn, on the outline of which list; of an outline, which two fields of the
    # form are its rectangle while it has no corners, and which other lists lie on it.
    draws: str = ""
    on: str = ""
    plate: str = ""
    beside: Sequence[str] = ()

    def __init__(self, columns: Sequence[Column], most: int) -> None:
        self.columns, self.most = columns, most
        super().__init__()

    def id_for_label(self, id_: str) -> str:
        """There is no single control to point at."""
        return ""

    def value_from_datadict(self, data: Any, files: Any, name: str) -> list[Typed]:
        """Return the rows as they were sent."""
        if not hasattr(data, "getlist"):
            return []
        cells = (data.getlist(f"{name}-{column.name}") for column in self.columns)
        return list(zip(*cells, strict=False))

    def value_omitted_from_data(self, data: Any, files: Any, name: str) -> bool:
        """Tell a list that was not sent from an empty one."""
        return f"{name}-{self.columns[0].name}" not in data

    def sent(self, name: str, value: Sequence[Typed]) -> dict[str, list[str]]:
        """Return what a browser would send for these rows."""
        return {
            f"{name}-{column.name}": [row[n] for row in value]
            for n, column in enumerate(self.columns)
        }

    def format_value(self, value: Any) -> str:
        """Say typed rows in one line."""
        rows = (
            ", ".join(
                str(dict(column.choices).get(cell, cell)) if column.choices else cell
                for column, cell in zip(self.columns, row, strict=True)
                if cell
            )
            for row in value or []
        )
        return "; ".join(row for row in rows if row)

    def render(self, name: str, value: Any, attrs: Any = None, renderer: Any = None) -> Any:
        """Draw the table."""
        empty = ("",) * len(self.columns)
        typed = [*(value or [])][: self.most]
        rows = [*typed, *[empty] * min(EMPTY_ROWS, self.most - len(typed))]
        context = {
            "name": name,
            "id": (attrs or {}).get("id", name),
            "columns": self.columns,
            "rows": [list(zip(self.columns, row, strict=True)) for row in rows],
            "most": self.most,
            "draws": self.draws,
            "on": self.on,
        }
        if self.draws == "outline" and not self.on:
            context |= surface(
                "list", surface_of=name, surface_plate=self.plate, surface_lists=self.beside
            )
        return render_to_string("parts/forms/rows.html", context)


class RowsField(forms.Field):
    """Cleans to a list of rows, each a value for every column; `pack` makes of it what is kept.

    `unpack` takes what is kept apart again, `check` says what is wrong with one row or with all.
    """

    wide = True
    widget: RowsWidget

    def __init__(
        self,
        columns: Sequence[Column],
        *,
        most: int,
        least: int = 0,
        pack: Callable[[Row], Any] = tuple,
        unpack: Callable[[Any], Row] = tuple,
        check: Callable[[Row], str] = lambda row: "",
        **kwargs: Any,
    ) -> None:
        self.columns, self.most, self.least = columns, most, least
        self.pack, self.unpack, self.check = pack, unpack, check
        super().__init__(widget=RowsWidget(columns, most), required=False, **kwargs)

    def gather(self, rows: list[Any]) -> Any:
        """Return what is kept of all rows together."""
        return rows or None

    def parted(self, kept: Any) -> Sequence[Any]:
        """Return what is kept, row by row."""
        return kept or ()

    def prepare_value(self, value: Any) -> Any:
        """Show what is kept as rows that can be typed; what was typed stays as it is."""
        if not isinstance(value, list | dict) or not value:
            return []  # nothing yet, or a word in the address
        if isinstance(value, list) and isinstance(value[0], tuple) and _all_texts(value):
            return value
        return [
            tuple(
                column.show(cell)
                for column, cell in zip(self.columns, self.unpack(row), strict=True)
            )
            for row in self.parted(value)
        ]

    def words(self, kept: Any) -> str:
        """Say what is kept in one line."""
        rows = (
            ", ".join(
                column.say(cell)
                for column, cell in zip(self.columns, self.unpack(row), strict=True)
                if cell is not None
            )
            for row in self.parted(kept)
        )
        return "; ".join(rows)

    def has_changed(self, initial: Any, data: Any) -> bool:
        """Compare what would be shown."""
        typed = [row for row in data or [] if _is_typed(row)]
        return bool(typed != self.prepare_value(initial))

    # Django's hook for a field whose cleaning needs the initial value, as its file field does.
    def _clean_bound_field(self, bf: BoundField) -> Any:
        # A figure nobody touched keeps its stored digits: what is shown of it is rounded.
        if not self.has_changed(bf.initial, bf.data):
            return bf.initial or self.gather([])
        return self.clean(bf.data)

    def clean(self, value: Any) -> Any:
        """Return what is kept, or raise with each row and column that cannot be read."""
        typed = [(number, row) for number, row in enumerate(value or [], start=1) if _is_typed(row)]
        if len(typed) > self.most:
            message = _("At most %(most)s can be entered here; these are %(n)s.")
            raise ValidationError(message % {"most": self.most, "n": len(typed)})
        if typed and len(typed) < self.least:
            message = _("At least %(least)s are needed here; these are %(n)s.")
            raise ValidationError(message % {"least": self.least, "n": len(typed)})
        wrong: list[str] = []
        rows = [self._row(number, row, wrong) for number, row in typed]
        if wrong:
            raise ValidationError(wrong[:MOST_MESSAGES])
        return self.gather([self.pack(row) for row in rows])

    def _row(self, number: int, typed: Typed, wrong: list[str]) -> Row:
        """Read one row; what cannot be read is added to what is wrong."""
        cells: list[Any] = []
        before = len(wrong)
        for column, text in zip(self.columns, typed, strict=True):
            try:
                cells.append(column.read(text.strip()))
            except ValidationError as error:
                words = {"n": number, "column": column.label, "why": error.messages[0]}
                wrong.append(_("Row %(n)s, %(column)s: %(why)s") % words)
        if len(wrong) == before and (trouble := self.check(tuple(cells))):
            wrong.append(_("Row %(n)s: %(why)s") % {"n": number, "why": capfirst(trouble)})
        return tuple(cells)


def _is_typed(row: Typed) -> bool:
    return any(cell.strip() for cell in row)


def _all_texts(rows: list[Any]) -> bool:
    return all(isinstance(cell, str) for row in rows for cell in row)
