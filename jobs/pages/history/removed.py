"""What was removed from a page's lists, by whom and when, and the way back."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from typing import Any

from django.db.models import CharField, Value
from django.urls import reverse
from django.utils.translation import gettext_lazy

from jobs import access
from jobs.models import Job, Part, User
from jobs.pages.forms.record_rows import RowKind
from jobs.pages.history.kinds import ROWS
from jobs.pages.history.words import CALLED_BY, called
from jobs.pages.workshop.part_forms import FORMS

PART = gettext_lazy("part")
MOST = 60  # rows shown; the history of the job has them all


@dataclass(frozen=True, kw_only=True)
class RemovedRow:
    """One row that was removed."""

    name: str
    who: str
    at: dt.datetime
    restore: str  # where to send it back to, empty for whoever may not


@dataclass(frozen=True, kw_only=True)
class RemovedRows:
    """Those of one kind."""

    label: str
    rows: list[RemovedRow]


def removed_rows(jobs: Collection[Job], section: str, user: User) -> list[RemovedRows]:
    """What was removed from the lists of one page: one query where that is nothing."""
    kinds = {kind.slug: kind for kind in ROWS if kind.section == section}
    if not kinds:
        return []
    lists = [
        kind.model.with_removed.filter(job__in=jobs, removed_at__isnull=False)
        .order_by()
        .annotate(of_kind=Value(slug, output_field=CharField()))
        .values_list("removed_at", "pk", "of_kind")
        for slug, kind in kinds.items()
    ]
    keys_of: dict[str, list[int]] = defaultdict(list)
    for _at, pk, slug in lists[0].union(*lists[1:], all=True).order_by("-removed_at")[:MOST]:
        keys_of[slug].append(pk)
    if not keys_of:
        return []
    names = {person.pk: person.full_name for person in User.objects.all()}
    codes = {job.pk: job.code for job in jobs}
    return [
        RemovedRows(label=kind.label, rows=_rows(codes, kind, keys_of[slug], names, user))
        for slug, kind in kinds.items()
        if slug in keys_of
    ]


def removed_parts(kind: str, user: User) -> list[RemovedRows]:
    """What was removed from the catalogue, of one kind or of every."""
    removed = Part.with_removed.filter(removed_at__isnull=False).order_by("-removed_at", "pk")
    parts = list((removed.filter(kind=kind) if kind in Part.Kind.values else removed)[:MOST])
    if not parts:
        return []
    names: dict[Any, str] = {person.pk: person.full_name for person in User.objects.all()}
    who: dict[int, int | None] = {}
    for kind_of_part in sorted({part.kind for part in parts}):
        keys = [part.pk for part in parts if part.kind == kind_of_part]
        who |= _who(FORMS[kind_of_part]._meta.model, keys)
    may = access.may_spec(user)
    rows = [
        RemovedRow(
            name=called(part),
            who=names.get(who.get(part.pk), ""),
            at=part.removed_at,
            restore=reverse("part-restore", args=[part.pk]) if may else "",
        )
        for part in parts
        if part.removed_at is not None
    ]
    return [RemovedRows(label=str(PART), rows=rows)]


def _who(model: Any, keys: list[int]) -> dict[int, int | None]:
    """Return who removed each of these, by key."""
    removals = model.history.filter(id__in=keys, removed_at__isnull=False)
    return dict(removals.order_by("history_id").values_list("id", "history_user_id"))


def _rows(
    codes: dict[int, str], kind: RowKind, keys: list[int], names: dict[Any, str], user: User
) -> list[RemovedRow]:
    model = kind.model
    rows = model.with_removed.select_related(*CALLED_BY.get(model, ())).in_bulk(keys)
    who = _who(model, keys)
    may = kind.allowed(user)
    return [
        RemovedRow(
            name=called(rows[pk]),
            who=names.get(who.get(pk), ""),
            at=rows[pk].removed_at,
            restore=reverse(f"{kind.slug}-restore", args=[codes[rows[pk].job_id], pk])
            if may and kind.may_change(user, rows[pk])
            else "",
        )
        for pk in keys
    ]
