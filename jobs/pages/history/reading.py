"""Reading histories: the newest entries of many kinds together, each held against the one before.

The number of queries depends on the kinds that stand on the page, never on how many entries do.
"""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Sequence, Set
from dataclasses import dataclass, field
from itertools import groupby
from typing import Any

from django.core.paginator import Page, Paginator
from django.db.models import CharField, Model, OuterRef, Q, Subquery, Value
from django.utils.timezone import localtime
from django.utils.translation import gettext as _

from jobs.models import EquipmentItem, Part, User
from jobs.pages.history import words
from jobs.pages.history.kinds import Source

PER_PAGE = 50
NEW, CHANGED, REMOVED, BACK, GONE = "new", "changed", "removed", "back", "gone"


@dataclass(frozen=True, kw_only=True)
class Change:
    """One save of one record: what it did, and which fields are now what."""

    slug: str
    pk: int
    kind: str
    name: str
    at: dt.datetime
    did: str
    lines: Sequence[tuple[str, str, str]]

    @property
    def says(self) -> str:
        """What was done, in a word or two."""
        return {
            NEW: _("new"),
            CHANGED: _("changed"),
            REMOVED: _("removed"),
            BACK: _("brought back"),
            GONE: _("gone for good, thirty days after it was removed"),
        }[self.did]


@dataclass(frozen=True, kw_only=True)
class Hour:
    """What one person did within one hour."""

    who: str
    at: dt.datetime
    changes: list[Change] = field(default_factory=list)


@dataclass(frozen=True, kw_only=True)
class History:
    """One page of a history."""

    page: Page[Any]
    hours: list[Hour]
    people: list[tuple[int, str]]  # who may be asked for


@dataclass(frozen=True, kw_only=True)
class _Step:
    """An entry and the one before it."""

    source: Source
    entry: Any
    before: Any


def read(sources: Sequence[Source], *, unseen: Set[str], by: int | None, number: Any) -> History:
    """Read one page; `by` is a person's key, 0 for what was done on the machine itself."""
    everybody = {user.pk: user.full_name for user in User.objects.order_by("first_name", "pk")}
    page = Paginator(_newest(sources, by), PER_PAGE).get_page(number)
    steps = _steps(sources, page)
    names = _names(steps)
    changes = [(step, _change(step, names, unseen=unseen)) for step in steps]
    told = [(step.entry.history_user_id, change) for step, change in changes if change]
    nobody = _("on the machine itself")
    hours = [
        Hour(who=everybody.get(who, nobody), at=hour, changes=[change for _who, change in of_hour])
        for (who, hour), of_hour in groupby(told, key=lambda pair: (pair[0], _hour(pair[1].at)))
    ]
    return History(page=page, hours=hours, people=[*everybody.items(), (0, nobody)])


def _hour(at: dt.datetime) -> dt.datetime:
    return localtime(at).replace(minute=0, second=0, microsecond=0)


def _newest(sources: Sequence[Source], by: int | None) -> Any:
    """Entries of all kinds in one list, the newest first."""
    asked = Q() if by is None else Q(history_user=by or None)
    lists = [
        source.entries.order_by()
        .filter(asked)
        .annotate(at_source=Value(str(n), output_field=CharField()))
        .values_list("history_date", "history_id", "at_source")
        for n, source in enumerate(sources)
    ]
    return lists[0].union(*lists[1:], all=True).order_by("-history_date", "-history_id")


def _steps(sources: Sequence[Source], page: Page[Any]) -> list[_Step]:
    """Fetch the entries of a page and the one before each: two queries for each kind."""
    wanted: dict[int, list[int]] = defaultdict(list)
    for _at, pk, source in page:
        wanted[int(source)].append(pk)
    steps: dict[tuple[int, int], _Step] = {}
    for n, keys in wanted.items():
        model = sources[n].entries.model
        earlier = model.objects.filter(id=OuterRef("id"), history_id__lt=OuterRef("history_id"))
        last = earlier.order_by("-history_id").values("history_id")[:1]
        newest = model.objects.filter(history_id__in=keys).annotate(before=Subquery(last))
        entries = list(newest)
        before = model.objects.in_bulk({entry.before for entry in entries if entry.before})
        for entry in entries:
            kept = before.get(entry.before)
            steps[n, entry.history_id] = _Step(source=sources[n], entry=entry, before=kept)
    return [steps[int(source), pk] for _at, pk, source in page]


def _names(steps: Sequence[_Step]) -> words.Names:
    """Read every record the entries point at: one query for each model, one more where any went."""
    wanted: dict[type[Model], set[Any]] = defaultdict(set)
    for step in steps:
        for entry in filter(None, (step.entry, step.before)):
            for model, key in words.points_at(step.source.kind, entry):
                wanted[model].add(key)
    names: words.Names = {}
    for model in wanted.keys() - {Part}:  # what equipment is called stands with its part
        names[model] = _rows(model, wanted[model])
    items = names.get(EquipmentItem, {}).values()
    parts = _rows(Part, wanted[Part] | {item.part_id for item in items})
    for item in items:
        if item.part_id in parts:
            item.part = parts[item.part_id]
    return names | {Part: parts}


def _rows(model: Any, keys: set[Any]) -> dict[Any, Any]:
    """Return records by key, removed ones too; one that is gone as its history knew it last."""
    if not keys:
        return {}
    rows: dict[Any, Any] = model._base_manager.in_bulk(keys)
    gone = keys - rows.keys()
    if gone and hasattr(model, "history"):
        last = model.history.filter(id__in=gone).order_by("history_id")
        rows |= {entry.id: entry.instance for entry in last}
    return rows


def _change(step: _Step, names: words.Names, *, unseen: Set[str]) -> Change | None:
    """Say what an entry changed; nothing where it changed nothing a person reads."""
    entry, before, kind = step.entry, step.before, step.source.kind
    did, lines = _did(entry, before), []
    if did in (NEW, CHANGED, BACK):
        lines = [*_fields(step, names, unseen=unseen), *_hanging(step, names)]
    if did == CHANGED and not lines:
        return None
    return Change(
        slug=kind.slug,
        pk=entry.id,
        kind=kind.label,
        name=words.name_of(kind, entry, names),
        at=entry.history_date,
        did=did,
        lines=lines,
    )


def _did(entry: Any, before: Any) -> str:
    if entry.history_type == "-":
        return GONE
    if entry.history_type == "+":
        return NEW
    removed = getattr(entry, "removed_at", None)
    was_removed = getattr(before, "removed_at", None)
    if removed and not was_removed:
        return REMOVED
    return BACK if was_removed and not removed else CHANGED


def _fields(step: _Step, names: words.Names, *, unseen: Set[str]) -> list[tuple[str, str, str]]:
    entry, before, kind = step.entry, step.before, step.source.kind
    if before is None and entry.history_type != "+":
        return []  # the first entry that was kept of an older record
    lines = []
    for column in words.fields_of(entry, unseen=unseen):
        kept = getattr(entry, column.attname)
        was = getattr(before, column.attname) if before is not None else column.get_default()
        if kept == was or (kept in (None, "", []) and was in (None, "", [])):
            continue
        now = words.value(kind, column, entry, names)
        then = words.value(kind, column, before, names) if before is not None else ""
        if now != then:
            lines.append((words.label(kind, column), *words.cut(then, now)))
    return lines


def _hanging(step: _Step, names: words.Names) -> list[tuple[str, str, str]]:
    entry, before, kind = step.entry, step.before, step.source.kind
    kept = getattr(entry, "hanging", None)
    was = getattr(before, "hanging", None) if before is not None else None
    if kept is None or (was is None and before is not None) or kept == was:
        return []
    now = words.hanging(kind, kept, names)
    then = words.hanging(kind, was, names) if was else {}
    return [
        (label, *words.cut(then.get(label, ""), now_said))
        for label, now_said in now.items()
        if now_said != then.get(label, words.NOTHING)
    ]
