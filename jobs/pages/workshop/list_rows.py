"""What would become of each row of a supplier's list: a new part, a change, nothing, or trouble."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, TypedDict

from django import forms
from django.core.exceptions import ValidationError
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from jobs.models import Part, PartList
from jobs.pages.forms.fields import AmountField, ConductorField, QuantityField
from jobs.pages.workshop.list_columns import (
    KIND,
    Column,
    columns_of,
    form_of,
    kind_called,
    readable,
)
from jobs.pages.workshop.part_forms import FORMS, as_marked

YES = {"1", "yes", "y", "true", "x", "ja", "j", "wahr"}
NO = {"0", "no", "n", "false", "nein", "falsch"}
_BROKEN = re.compile(r"#(?:N/A|NV|DIV/0!|REF!|BEZUG!|NAME\?|VALUE!|WERT!|NUM!|ZAHL!|NULL!)")
Key = tuple[str, ...]
Trouble = tuple[int, str, str]


class ToWrite(TypedDict):
    """One row that is to be written."""

    row: int
    kind: str
    pk: int | None
    version: int
    values: dict[str, Any]
    # Of a change: what stood there before, as text, for whoever says yes.
    before: dict[str, str]


def keys_of(kind: str, values: Mapping[str, Any]) -> list[Key]:
    """What a part is known by: its supplier's number first, then maker and name."""
    supplier, number = values.get("supplier") or "", values.get("order_number") or ""
    name = values.get("name") or ""
    keys: list[Key] = [("number", supplier.casefold(), number.casefold())] if number else []
    if name:
        keys.append(("name", kind, (values.get("maker") or "").casefold(), name.casefold()))
    return keys


class Judge:
    """Judges rows against the catalogue as it is; made anew for every step."""

    def __init__(self, part_list: PartList) -> None:
        self.list = part_list
        self.troubles: list[Trouble] = []
        self.to_write: list[ToWrite] = []
        self.unchanged = 0
        self._of_kind: dict[str, list[Column]] = {}
        self.known: dict[Key, list[tuple[int, str]]] = defaultdict(list)
        fields = ("pk", KIND, "maker", "name", "supplier", "order_number")
        for pk, kind, maker, name, supplier, number in Part.objects.values_list(*fields):
            part = {"maker": maker, "name": name, "supplier": supplier, "order_number": number}
            for key in keys_of(kind, part):
                self.known[key].append((pk, kind))
        # Rows of the file itself by what they are known by.
        self.seen: dict[Key, int] = {}
        for number, row in enumerate(part_list.rows[: part_list.judged], start=2):
            for key in self._keys(row):
                self.seen.setdefault(key, number)

    def _columns(self, kind: str) -> list[Column]:
        if kind not in self._of_kind:
            self._of_kind[kind] = columns_of(self.list.head, kind)
        return self._of_kind[kind]

    def _keys(self, row: Sequence[str]) -> list[Key]:
        kind = self._kind(row)
        if not kind:
            return []
        texts = {
            column.field: row[column.index]
            for column in self._columns(kind)
            if column.index < len(row)
        }
        return keys_of(kind, self._whose(kind) | texts)

    def _whose(self, kind: str) -> dict[str, str]:
        """The supplier of every row, where no column says it."""
        is_said = any(c.field == "supplier" for c in self._columns(kind))
        return {} if is_said or not self.list.supplier else {"supplier": self.list.supplier}

    def _kind(self, row: Sequence[str]) -> str:
        if self.list.kind:
            return self.list.kind
        for column in self._columns(Part.Kind.OTHER):
            if column.field == KIND and column.index < len(row):
                return kind_called(row[column.index])
        return ""

    def judge(self, start: int, end: int) -> None:
        """Judge rows of the file; what is found out is kept here."""
        pending: list[tuple[int, str, int | None, dict[str, Any]]] = []
        for number, row in enumerate(self.list.rows[start:end], start=start + 2):
            if not any(row):
                continue
            kind = self._kind(row)
            if not kind:
                self._say(number, KIND, _("This is no kind of part."))
                continue
            values = self._values(number, kind, row)
            if values is None:
                continue
            pk = self._match(number, kind, row, values)
            if pk != 0:
                pending.append((number, kind, pk, values))
        parts = _parts((kind, pk) for _number, kind, pk, _values in pending if pk)
        for number, kind, pk, values in pending:
            if pk is None:
                self._new(number, kind, values)
            else:
                self._change(number, kind, parts[pk], values)

    def _say(self, number: int, column: str, words: str) -> None:
        self.troubles.append((number, column, words))

    def _values(self, number: int, kind: str, row: Sequence[str]) -> dict[str, Any] | None:
        """The cells of a row as the catalogue keeps them; None where one cannot be read."""
        if len(row) > len(self.list.head) and any(row[len(self.list.head) :]):
            words = _("More cells than the head has: is a decimal comma not in quotes?")
            self._say(number, "", words)
            return None
        values: dict[str, Any] = dict(self._whose(kind))
        is_sound = True
        for column in self._columns(kind):
            text = row[column.index] if column.index < len(row) else ""
            if not text or column.field == KIND:
                continue
            try:
                values[column.field] = cell_value(kind, column, text)
            except ValidationError as error:
                self._say(number, column.title, " ".join(error.messages))
                is_sound = False
        return values if is_sound else None

    def _match(
        self, number: int, kind: str, row: Sequence[str], values: dict[str, Any]
    ) -> int | None:
        """The part a row is about, none for a new one, 0 where that cannot be told."""
        keys = keys_of(kind, values)
        if not keys:
            self._say(number, "", _("Neither a name nor a supplier's number."))
            return 0
        for key in keys:
            if key in self.seen:
                self._say(number, "", _("The same part as row %(n)d.") % {"n": self.seen[key]})
                return 0
        self.seen |= dict.fromkeys([*keys, *self._keys(row)], number)
        for key in keys:
            parts = self.known.get(key, [])
            if len(parts) > 1:
                self._say(number, "", _("The catalogue has this part more than once."))
                return 0
            if parts and parts[0][1] != kind:
                words = {"kind": Part.Kind(parts[0][1]).label}
                self._say(number, KIND, _("In the catalogue this is a %(kind)s.") % words)
                return 0
            if parts:
                return parts[0][0]
        return None

    def _new(self, number: int, kind: str, values: dict[str, Any]) -> None:
        lacks = [
            str(field.label)
            for name, field in form_of(kind).fields.items()
            if field.required and name in readable(kind) and name not in values
            and not FORMS[kind]._meta.model._meta.get_field(name).has_default()
        ]  # fmt: skip
        if lacks:
            words = {"names": ", ".join(lacks)}
            self._say(number, "", _("A new part needs: %(names)s.") % words)
            return
        part = FORMS[kind]._meta.model(kind=kind, **values)
        if self._is_sound(number, kind, part):
            self.to_write.append(
                ToWrite(row=number, kind=kind, pk=None, version=0, values=values, before={})
            )

    def _change(self, number: int, kind: str, part: Any, values: dict[str, Any]) -> None:
        different = {name: value for name, value in values.items() if getattr(part, name) != value}
        if not different:
            self.unchanged += 1
            return
        before = {name: str(getattr(part, name) or "") for name in different}
        for name, value in different.items():
            setattr(part, name, value)
        if self._is_sound(number, kind, part):
            self.to_write.append(
                ToWrite(
                    row=number,
                    kind=kind,
                    pk=part.pk,
                    version=part.version,
                    values=different,
                    before=before,
                )
            )

    def _is_sound(self, number: int, kind: str, part: Any) -> bool:
        """Whether the figures of a part may stand beside each other."""
        try:
            part.clean()
        except ValidationError as error:
            for name, messages in error.message_dict.items():
                self._say(number, _label(kind, name), " ".join(messages))
            return False
        return True


def _label(kind: str, name: str) -> str:
    field = form_of(kind).fields.get(name)
    return capfirst(str(field.label)) if field else ""


def _parts(wanted: Iterable[tuple[str, int]]) -> dict[int, Any]:
    by_kind: dict[str, list[int]] = defaultdict(list)
    for kind, pk in wanted:
        by_kind[kind].append(pk)
    parts: dict[int, Any] = {}
    for kind, keys in by_kind.items():
        parts |= FORMS[kind]._meta.model.objects.in_bulk(keys)
    return parts


def cell_value(kind: str, column: Column, text: str) -> Any:
    """What a cell says, judged as the form of its part would judge it."""
    if text.startswith("="):
        raise ValidationError(_("This is a formula. Save the file with values only."))
    if _BROKEN.fullmatch(text):
        raise ValidationError(_("The spreadsheet shows an error here: %(text)s.") % {"text": text})
    field = readable(kind)[column.field]
    if isinstance(field, QuantityField | AmountField) and column.unit and _is_bare(text):
        text = f"{text} {column.unit}"
    if isinstance(field, forms.BooleanField):
        value: Any = _yes_or_no(text)
    elif isinstance(field, forms.TypedChoiceField):
        value = _choice(field, text)
    else:
        value = field.clean(text)
    if isinstance(field, ConductorField):
        value = as_marked(value)
    return FORMS[kind]._meta.model._meta.get_field(column.field).clean(value, None)


def _is_bare(text: str) -> bool:
    """Whether a figure names no unit of its own."""
    return not re.search(r"[^\W\d_]|[\"'%°]", text)


def _yes_or_no(text: str) -> bool:
    if text.casefold() in YES | NO:
        return text.casefold() in YES
    raise ValidationError(_("Say yes or no."))


def _choice(field: forms.TypedChoiceField, text: str) -> str:
    choices: Any = field.choices
    for value, words in choices:
        if value and text.casefold() in (str(value).casefold(), str(words).casefold()):
            return str(value)
    known = ", ".join(str(words) for value, words in choices if value)
    raise ValidationError(_("None of: %(choices)s.") % {"choices": known})
