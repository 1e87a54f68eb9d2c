"""The words of an entry: fields by their labels, values as people type and read them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Set
from decimal import Decimal
from typing import Any

from django.db.models import Field, Model
from django.utils.formats import date_format, localize
from django.utils.text import capfirst
from django.utils.timezone import localtime
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs import access, units
from jobs.design.job.closing import CHECKS
from jobs.design.job.earlier.start_like import ASPECTS
from jobs.design.job.electronics import QUESTIONS
from jobs.design.job.handover_gate import FUNCTIONS, SIGNED
from jobs.models import (
    BoxSweep,
    CarAnswer,
    CarTemplate,
    Channel,
    Customer,
    DampingLayer,
    Decision,
    DriverSweep,
    EquipmentItem,
    GateSign,
    ItemAsBuilt,
    Job,
    Measurement,
    Panel,
    PanelClosing,
    PanelContent,
    PanelStep,
    Part,
    Photo,
    Run,
    RunAsBuilt,
    StageRelease,
    User,
    Vehicle,
    WoodStep,
)
from jobs.models.people import words_of_roles
from jobs.pages.forms.route_field import LOOM, OWN, RouteWidget
from jobs.pages.forms.rows_field import RowsField
from jobs.pages.history.kinds import Kind

NOTHING = "–"
LONGEST = 240  # characters shown of a text, from a little before what differs
BEFORE = 40

# What tells a person nothing, or is said otherwise: removed, brought back, new.
UNSAID = {
    *("id", "job", "version", "entry_token", "removed_at", "created_at", "number", "is_demo"),
    "as_typed",
    *(
        "open_stops",
        "open_looks",
        "edition",
        "last_link",
        "vehicle",
        "customer",
        "image",
        "small",
        "original",
    ),
    *("proportion", "report", "take", "kept"),
    *(
        "code",
        "where",
        "about_kind",
        "about_key",
        "about_detail",
        "fingerprint",
        "token",
        "severity",
        "subject",
        "decided_by",
    ),
    *("decided_at", "taken_by", "added_at", "shown", "signature", "sheet", "basis", "recorded_by"),
}
# Figures of the house: who may not see prices, or costs, does not read them here either.
MONEY = {"price", "budget", "discount", "deposit", "each", "tax_class", "amount", "total"}
COSTS = {"cost", "hour_cost", "covering_cost"}
# A history that was of no account before it was to be read: fields without a label of their own.
LABELS: dict[type[Model], dict[str, Any]] = {
    PanelStep: {
        "done_by": gettext_lazy("done by"),
        "done_at": gettext_lazy("done"),
    },
    WoodStep: {
        "done_by": gettext_lazy("done by"),
        "done_at": gettext_lazy("done"),
    },
    Measurement: {
        "measured_by": gettext_lazy("measured by"),
        "measured_at": gettext_lazy("measured at"),
    },
    Panel: {
        "empty_by": gettext_lazy("found empty by"),
        "empty_at": gettext_lazy("found empty"),
    },
    Job: {"consultant": gettext_lazy("consultant")},
    Decision: {
        "said": gettext_lazy("what was found"),
        "name": gettext_lazy("decided by"),
    },
    User: {
        "first_name": gettext_lazy("first name"),
        "last_name": gettext_lazy("last name"),
        "username": gettext_lazy("sign-in name"),
        "is_active": gettext_lazy("works here"),
    },
}
# What the name of a record is made of: the records it points at for that.
NAMED_BY: dict[type[Model], tuple[str, ...]] = {
    EquipmentItem: ("part",),
    DampingLayer: ("part",),
    BoxSweep: ("box",),
    DriverSweep: ("item",),
    ItemAsBuilt: ("item",),
    PanelContent: ("equipment", "factory_part", "box"),
    Photo: ("panel", "visit"),
}
# The same, as far as they have to be read to write that name.
CALLED_BY: dict[type[Model], tuple[str, ...]] = {
    EquipmentItem: ("part",),
    DampingLayer: ("part",),
    BoxSweep: ("box",),
    DriverSweep: ("item__part",),
    ItemAsBuilt: ("item__part",),
    PanelContent: ("equipment__part", "factory_part", "box"),
    Photo: ("panel", "visit"),
}
# Who is meant by a key, by model: read once for all entries of a page.
Names = dict[type[Model], dict[Any, Any]]


def unseen_by(user: User) -> frozenset[str]:
    """Return the fields this person does not read."""
    prices = set() if access.may_see_prices(user) else MONEY
    costs = set() if access.may_see_costs(user) else COSTS
    return frozenset(UNSAID | prices | costs)


def fields_of(entry: Any, *, unseen: Set[str]) -> list[Field[Any, Any]]:
    """Return the fields of an entry that a person reads."""
    return [
        field
        for field in entry.tracked_fields
        if field.name not in unseen and not field.name.endswith("_ptr")
    ]


def label(kind: Kind, field: Field[Any, Any]) -> str:
    """Return what a field is called where it is typed."""
    if (special := LABELS.get(kind.model, {}).get(field.name)) is not None:
        return capfirst(str(special))
    typed = kind.form.base_fields.get(field.name) if kind.form is not None else None
    return capfirst(str((typed and typed.label) or field.verbose_name))


def value(kind: Kind, field: Field[Any, Any], entry: Any, names: Names) -> str:
    """Return the value of a field as people read it."""
    kept = getattr(entry, field.attname)
    if kept is None or kept == "":
        return NOTHING
    if field.is_relation:
        return called(names.get(field.related_model, {}).get(kept)) or NOTHING  # type: ignore[arg-type]
    if (quantity := _quantity(kind, field, entry)) and isinstance(kept, int | float):
        return units.show(kept, quantity)
    if field.flatchoices:
        return str(dict(field.flatchoices).get(kept, kept))
    if isinstance(kept, list | dict):
        return _listed(kind, field, kept, names) or NOTHING
    return _plain(kept)


def _quantity(kind: Kind, field: Field[Any, Any], entry: Any) -> str:
    if kind.model is Measurement and field.name == "value":
        return str(entry.kind)
    return str(getattr(kind.form, "quantities", {}).get(field.name, ""))


def _listed(kind: Kind, field: Field[Any, Any], kept: Any, names: Names) -> str:
    """Return a list as people read it: checks in their sentences, a route, roles, rows."""
    if field.name == "roles":
        return words_of_roles(kept)
    if kind.model is PanelClosing:
        return " ".join(str(CHECKS.get(code, code)) for code in kept)
    if kind.model is CarTemplate:
        return "; ".join(str(ASPECTS[code][0]) for code in kept if code in ASPECTS)
    if kind.model is StageRelease:
        return "; ".join(str(says).rstrip(".") for says in kept.get("says", ()))
    if kind.model is RunAsBuilt:
        return _route(kept, names)
    typed = kind.form.base_fields.get(field.name) if kind.form is not None else None
    return typed.words(kept) if isinstance(typed, RowsField) else ""


def _plain(kept: Any) -> str:
    if isinstance(kept, bool):
        return _("yes") if kept else _("no")
    if isinstance(kept, dt.datetime):
        return date_format(localtime(kept), "SHORT_DATETIME_FORMAT")
    if isinstance(kept, dt.date):
        return date_format(kept, "SHORT_DATE_FORMAT")
    if isinstance(kept, Decimal | float | int):
        return str(localize(kept))
    return str(kept)


def hanging(kind: Kind, kept: dict[str, Any], names: Names) -> dict[str, str]:
    """Return what is part of a record and has no history of its own, by the label of each."""
    words: dict[str, str] = {}
    if "route" in kept:
        words[_("route")] = _route(kept["route"], names)
        woken = [called(names.get(EquipmentItem, {}).get(key)) for key in kept["wakes"]]
        words[str(Run._meta.get_field("wakes").verbose_name)] = ", ".join(filter(None, woken))
    fields = kind.form.base_fields if kind.form is not None else {}
    for name, listed in kept.items():
        if isinstance(field := fields.get(name), RowsField):
            words[str(field.label)] = field.words(listed)
    return {capfirst(name): text or NOTHING for name, text in words.items()}


def _route(kept: Any, names: Names) -> str:
    widget = RouteWidget()
    widget.panels = list(names.get(Panel, {}).values())
    rows = [
        (str(panel or ""), place, LOOM if follows else OWN, edge)
        for panel, place, follows, edge in kept
    ]
    return widget.format_value(rows)


def called(row: Any) -> str:
    """Return the name of a record, or of a person."""
    if row is None:
        return ""
    return row.full_name if isinstance(row, User) else str(row).rstrip(".")


def name_of(kind: Kind, entry: Any, names: Names) -> str:
    """Return what a record was called when the entry was made."""
    row = entry.instance
    for link in NAMED_BY.get(kind.model, ()):
        key = getattr(row, f"{link}_id")
        model: Any = kind.model._meta.get_field(link).related_model
        if (named := names.get(model, {}).get(key)) is not None:
            setattr(row, link, named)
        elif key is not None:
            return ""
    if kind.model in (Job, Customer, Vehicle):
        return ""  # there is one of each on the job
    if isinstance(row, CarAnswer):
        return str(QUESTIONS.get(row.code, row.code))
    if isinstance(row, GateSign):
        return _signed(row, names)
    return str(row.where) if isinstance(row, Decision) else called(row)


def _signed(row: GateSign, names: Names) -> str:
    """What was signed, as its page says it; of a channel that is gone for good nothing is known."""
    of = str(FUNCTIONS.get(row.subject, ""))
    if (key := _channel(row)) is not None:
        of = called(names.get(Channel, {}).get(key))
    return f"{SIGNED.get(row.code, row.code)} {of}".strip().rstrip(".")


def _channel(row: Any) -> int | None:
    what, _space, key = row.subject.partition(" ")
    return int(key) if what == "channel" and key.isdecimal() else None


def cut(before: str, after: str) -> tuple[str, str]:
    """Shorten two long texts to where they begin to differ."""
    if max(len(before), len(after)) <= LONGEST:
        return before, after
    same = next(
        (n for n, (a, b) in enumerate(zip(before, after, strict=False)) if a != b),
        min(len(before), len(after)),
    )
    start = max(same - BEFORE, 0)
    return _piece(before, start), _piece(after, start)


def _piece(text: str, start: int) -> str:
    piece = text[start : start + LONGEST]
    left, right = "…" if start else "", "…" if start + LONGEST < len(text) else ""
    return f"{left}{piece}{right}" if piece else NOTHING


def points_at(kind: Kind, entry: Any) -> list[tuple[type[Model], Any]]:
    """Return the records an entry names: in its own name, in its fields, in what hangs on it."""
    pointed: list[tuple[type[Model], Any]] = [
        (field.related_model, key)
        for field in entry.tracked_fields
        if field.is_relation and (key := getattr(entry, field.attname)) is not None
    ]
    kept = entry.__dict__.get("hanging") or {}
    route = entry.route if kind.model is RunAsBuilt else kept.get("route", ())
    pointed += [(Panel, row[0]) for row in route if row[0] is not None]
    if kind.model is GateSign and (key := _channel(entry)) is not None:
        pointed.append((Channel, key))
    pointed += [(EquipmentItem, key) for key in kept.get("wakes", ())]
    return [
        (model, key) for model, key in pointed if model is not Job and not _is_half(model, kind)
    ]


def _is_half(model: type[Model], kind: Kind) -> bool:
    """Whether it is the general half of the same record."""
    return model is Part and issubclass(kind.model, Part)
