"""What a column of a supplier's list is: a figure of the catalogue, by its name and its unit."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from django import forms
from django.conf import settings
from django.utils.translation import gettext as _
from django.utils.translation import override

from jobs import units
from jobs.models import Part, Workshop
from jobs.pages.forms.fields import AmountField, ConductorField, QuantityField
from jobs.pages.forms.forms import RecordForm
from jobs.pages.workshop.part_forms import FORMS
from jobs.pages.workshop.sheet_words import patterns

KIND = "kind"
# What suppliers call what every part has; words of the trade.
OF_EVERY_PART: Mapping[str, str] = {
    KIND: "kind of part|category|product group|warengruppe|artikelgruppe|art",
    "name": "model|type|item|description|product|bezeichnung|artikel|modell|typ",
    "maker": "manufacturer|brand|hersteller|marke",
    "supplier": "vendor|distributor|lieferant",
    "order_number": (
        "(?:order|article|item|part|product|stock) ?(?:number|no\\.?|code)|sku"
        "|(?:artikel|bestell)(?:nummer|-?nr\\.?)"
    ),
    "price": "(?:list|net|retail|selling|unit) ?price|(?:listen|verkaufs|netto)preis|preis|vk",
    "cost": "(?:cost|purchase|dealer|buying) ?price|cost|einkaufspreis|händlerpreis|ek",
}
_UNIT = re.compile(r"^(?P<name>[^\[(]*?)\s*[\[(]\s*(?P<unit>[^\])]{1,20})\s*[\])]\s*$")
_LAST_WORD = re.compile(r"^(?P<name>.+?)(?:\s*/\s*|,?\s+(?:in\s+)?)(?P<unit>\S{1,12})$")


@dataclass(frozen=True, kw_only=True)
class Column:
    """One column for one kind of part: its field, and the unit its head names."""

    index: int
    title: str
    field: str
    unit: str = ""


def _plain(text: str) -> str:
    return " ".join(re.sub(r"[_\s]+", " ", text).split()).casefold().strip(" .:*")


@cache
def form_of(kind: str) -> RecordForm[Any]:
    """The form of a kind of part, asked field by field what a cell may hold."""
    return FORMS[kind](instance=FORMS[kind]._meta.model())


@cache
def _names(kind: str) -> dict[str, str]:
    """Every name a field of a kind goes by: in the code, on the page, in each language."""
    named: dict[str, str] = {}
    for code, _language in settings.LANGUAGES:
        with override(code):
            for name, field in readable(kind).items():
                named.setdefault(_plain(name), name)
                named.setdefault(_plain(str(field.label or name)), name)
    return named


@cache
def readable(kind: str) -> Mapping[str, forms.Field]:
    """The fields of a kind of part that one cell can hold."""
    read_as = (
        QuantityField,
        AmountField,
        ConductorField,
        forms.CharField,
        forms.IntegerField,
        forms.TypedChoiceField,
        forms.BooleanField,
        forms.NullBooleanField,
    )
    return {
        name: field
        for name, field in form_of(kind).fields.items()
        if isinstance(field, read_as) and name not in {"version", "entry_token"}
    } | {KIND: forms.CharField()}


@cache
def _field_called(title: str, kind: str) -> str:
    """The field a head means, or nothing."""
    known = _names(kind).get(title)
    if known:
        return known
    for name, words in OF_EVERY_PART.items():
        if re.fullmatch(words, title):
            return name
    for name, pattern in patterns(kind).items():
        if pattern.fullmatch(title) and name in readable(kind):
            return name
    return ""


def columns_of(head: Sequence[str], kind: str) -> list[Column]:
    """What each column is for a kind of part; the first of two that mean the same counts."""
    columns: dict[str, Column] = {}
    for index, title in enumerate(head):
        column = _column(index, title, kind)
        if column and column.field not in columns:
            columns[column.field] = column
    return list(columns.values())


def _column(index: int, title: str, kind: str) -> Column | None:
    whole = _field_called(_plain(title), kind)
    if whole:
        return Column(index=index, title=title, field=whole)
    for pattern in (_UNIT, _LAST_WORD):
        match = pattern.match(title.strip())
        name = _field_called(_plain(match["name"]), kind) if match else ""
        if match and name and _is_unit(match["unit"], readable(kind)[name]):
            return Column(index=index, title=title, field=name, unit=match["unit"].strip())
    return None


def _is_unit(text: str, field: forms.Field) -> bool:
    """Whether a field is measured in what stands beside its name."""
    if isinstance(field, AmountField):
        return text.upper() == Workshop.current().currency
    if not isinstance(field, QuantityField):
        return False
    try:
        units.parse(f"1 {text}", field.kind)
    except units.UnreadableQuantity as problem:
        return problem.code == "range"
    return True


def unread(head: Sequence[str], kinds: Sequence[str]) -> list[str]:
    """Heads that mean nothing for any of these kinds."""
    read_ones = {column.index for kind in kinds for column in columns_of(head, kind)}
    return [title for n, title in enumerate(head) if title and n not in read_ones]


def lacking(head: Sequence[str], kind: str) -> str:
    """Say what no list can do without; nothing where it is there."""
    fields = {column.field for known in ([kind] if kind else FORMS) for column in
              columns_of(head, known)}  # fmt: skip
    if not kind and KIND not in fields:
        return _("No column says what kind of part each row is: choose one kind for all of them.")
    if fields & {"name", "order_number"}:
        return ""
    return _("No column is called “name” or “supplier's number”: the first row must name columns.")


def kind_called(text: str) -> str:
    """The kind of part a cell names, or nothing."""
    return _kinds().get(_plain(text), "")


@cache
def _kinds() -> dict[str, str]:
    named = {_plain(kind.value): kind.value for kind in Part.Kind}
    for code, _language in settings.LANGUAGES:
        with override(code):
            named |= {_plain(str(kind.label)): kind.value for kind in Part.Kind}
    return named
