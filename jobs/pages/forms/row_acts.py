"""What is done to several rows of a table at once: copies, the other side of the car, removal."""

from __future__ import annotations

import uuid
from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from django import forms
from django.contrib import messages
from django.db import models
from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect
from django.urls import URLPattern, path, reverse
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST

from jobs import access
from jobs.design.job import board_counts
from jobs.design.records.sides import other_colour, other_side
from jobs.locks import held
from jobs.models import Job
from jobs.pages.forms.fields import key_of
from jobs.pages.forms.record_rows import RowKind, opened, store
from jobs.pages.forms.route_field import RouteField
from jobs.pages.forms.shown import as_sent

MOST_AT_ONCE = 200
COPY, OTHER_SIDE, REMOVE, RESTORE = "copy", "other-side", "remove", "restore"
APART = "apart"
_SIDES = {"left": "right", "right": "left"}
COLOURS = ("colour", "return_colour")

Sent = dict[str, list[str]]


class NotMadeError(Exception):
    """Why no row came of one."""


def urls(kind: RowKind) -> list[URLPattern]:
    """The address of what is done to several rows of this kind."""
    to = f"jobs/<str:code>/{kind.slug}/rows/"
    return [path(to, partial(act, kind=kind), name=f"{kind.slug}-rows")]


@require_POST
def act(request: HttpRequest, code: str, *, kind: RowKind) -> HttpResponse:
    """Do one thing to the rows that are ticked; the way back names its rows in the address."""
    job = opened(request, code, kind)
    asked = request.GET if "act" in request.GET else request.POST
    doing = {COPY: _copied, OTHER_SIDE: _mirrored, REMOVE: _removed, RESTORE: _restored}
    if kind.apart:
        doing[APART] = _taken_apart
    if asked.get("act") not in doing:
        raise Http404
    keys = {key_of(key) for key in ",".join(asked.getlist("rows")).split(",")} - {None}
    with held(job):
        few = sorted(key for key in keys if key is not None)[:MOST_AT_ONCE]
        rows = kind.model.with_removed.filter(job=job, pk__in=few)
        if keys:
            doing[asked["act"]](request, kind, job, list(rows))
            board_counts.forget(job)
        else:
            messages.error(request, _("Tick a row first."))
    return redirect(kind.section, job.code)


def _undo(kind: RowKind, job: Job, what: str, rows: Sequence[Any]) -> str:
    keys = ",".join(str(row.pk) for row in rows)
    return f"undo:{reverse(f'{kind.slug}-rows', args=[job.code])}?act={what}&rows={keys}"


def _named(rows: Sequence[Any]) -> str:
    return "; ".join(str(row).rstrip(".") for row in rows)


def _removed(request: HttpRequest, kind: RowKind, job: Job, rows: Sequence[Any]) -> None:
    """Hide the rows and offer all of them back at once."""
    user = access.signed_in(request)
    here = [row for row in rows if row.removed_at is None and kind.may_change(user, row)]
    for row in here:
        row.remove()
    if here:
        words = {"row": _named(here)}
        messages.warning(
            request, _("Removed: %(row)s.") % words, extra_tags=_undo(kind, job, RESTORE, here)
        )


def _restored(request: HttpRequest, kind: RowKind, job: Job, rows: Sequence[Any]) -> None:
    gone = [row for row in rows if row.removed_at is not None]
    for row in gone:
        row.restore()
    if gone:
        messages.success(request, _("Back again: %(row)s.") % {"row": _named(gone)})


def _taken_apart(request: HttpRequest, kind: RowKind, job: Job, rows: Sequence[Any]) -> None:
    """Give each piece of these rows its own; what is one piece already stays as it is."""
    assert kind.apart is not None
    new = [piece for row in rows if row.removed_at is None for piece in kind.apart(row)]
    if not new:
        messages.info(request, _("Each of these is one piece, or has its rows already."))
        return
    text = ngettext(
        "%(n)s new row under “Where everything is”: each piece has its serial number and place.",
        "%(n)s new rows under “Where everything is”: each piece has its serial number and place.",
        len(new),
    )
    messages.success(request, text % {"n": len(new)})


def _copied(request: HttpRequest, kind: RowKind, job: Job, rows: Sequence[Any]) -> None:
    _more(request, kind, job, rows, lambda row, form, sent: sent)


def _mirrored(request: HttpRequest, kind: RowKind, job: Job, rows: Sequence[Any]) -> None:
    _more(request, kind, job, rows, partial(_across, kind, job))


def _more(
    request: HttpRequest,
    kind: RowKind,
    job: Job,
    rows: Sequence[Any],
    change: Callable[[Any, Any, Sent], Sent],
) -> None:
    """Make a new row like each of these; what cannot be made says why."""
    new: list[Any] = []
    token = request.POST.get("token", "")
    for row in rows:
        if row.removed_at is not None:
            continue
        try:
            new.append(_like(kind, job, row, change, token))
        except NotMadeError as trouble:
            words = {"row": row, "why": trouble}
            messages.error(request, _("Nothing made from “%(row)s”: %(why)s") % words)
    if new:
        text = ngettext("New: %(row)s.", "New, %(n)s rows: %(row)s.", len(new))
        words = {"row": _named(new), "n": len(new)}
        messages.success(request, text % words, extra_tags=_undo(kind, job, REMOVE, new))


def _like(
    kind: RowKind, job: Job, row: Any, change: Callable[[Any, Any, Sent], Sent], token: str
) -> Any:
    """Return a new row with what this one holds, changed; asked for twice it is made once."""
    shown = kind.form(instance=row)
    blank = kind.form(instance=kind.model(job=job))
    names = [name for name in blank.fields if name not in kind.not_copied and name in shown.fields]
    sent = as_sent(blank, kind.not_copied) | change(row, shown, as_sent(shown, names))
    sent |= {name: [_next(kind, job, row, name, within)] for name, within in kind.counted.items()}
    typed = QueryDict(mutable=True)
    for name, values in {**sent, "entry_token": [_token(token, row)]}.items():
        typed.setlist(name, values)
    # Begun from the row itself, so that a figure keeps the digits that are not shown.
    form = kind.form(typed, instance=kind.model(job=job), initial=shown.initial)
    if not form.is_valid():
        raise NotMadeError(
            " ".join(
                f"{capfirst(str(form.fields[name].label))}: {message}"
                if name in form.fields
                else str(message)
                for name, errors in form.errors.items()
                for message in errors
            )
        )
    return store(kind, form)


def _token(token: str, row: Any) -> str:
    """The token of a row made from this one: the same whenever the same page asks again."""
    try:
        return str(uuid.uuid5(uuid.UUID(token), str(row.pk)))
    except ValueError:
        return str(uuid.uuid4())


def _next(kind: RowKind, job: Job, row: Any, name: str, within: str) -> str:
    """Return the number after the highest taken; of the same device, where it counts there."""
    if getattr(row, name) is None:
        return ""
    taken = kind.model.objects.filter(job=job)
    if within:
        taken = taken.filter(**{within: getattr(row, within)})
    return str(taken.aggregate(top=models.Max(name))["top"] + 1)


def _across(kind: RowKind, job: Job, row: Any, form: Any, sent: Sent) -> Sent:
    """Return what the same row would be on the other side of the car."""
    over = dict(sent)
    for name, choice in form.fields.items():
        if isinstance(choice, RouteField):
            over |= _route(choice, name, sent)
        elif isinstance(choice, forms.ModelMultipleChoiceField):
            continue
        elif isinstance(choice, forms.ModelChoiceField) and name in sent:
            over[name] = [_counterpart(choice, sent[name][0], empty=name in kind.sided)]
        elif name == "side" and name in sent:
            over[name] = [_SIDES.get(sent[name][0], sent[name][0])]
        elif name in COLOURS and getattr(row, "kind", "") == "S":
            over[name] = [other_colour(sent[name][0])]
        elif name in sent and isinstance(choice.widget, forms.TextInput | forms.Textarea):
            over[name] = [other_side(sent[name][0])]
    mirrored = {name: over[name] for name in kind.sided if over.get(name) != sent.get(name)}
    if not mirrored:
        raise NotMadeError(_("it names no side, left or right."))
    stored = {field.name for field in row._meta.concrete_fields}
    there: dict[str, str | None] = {
        name: values[0] for name, values in over.items() if name in kind.sided and name in stored
    }
    there = {name: value or None for name, value in there.items() if value or name in mirrored}
    if any(there.get(name) for name in mirrored) and _is_there(kind, job, there):
        raise NotMadeError(_("the other side is there already."))
    return over


def _is_there(kind: RowKind, job: Job, values: dict[str, Any]) -> bool:
    return bool(kind.model.objects.filter(job=job, **values).exists())


def _counterpart(choice: forms.ModelChoiceField[Any], key: str, *, empty: bool) -> str:
    """Return the row of the other side that is offered; without one the same, or none."""
    offered = {str(row.pk): str(row) for row in choice.queryset or ()}
    words = offered.get(key, "")
    there = other_side(words)
    if there == words:
        return key
    match = next((other for other, name in offered.items() if name == there), None)
    return match or ("" if empty else key)


def _route(choice: RouteField, name: str, sent: Sent) -> Sent:
    """Return a route on the other side; where no panel is entered there, its place in words."""
    names = {str(panel.pk): panel.name for panel in choice.panels}
    keys = {panel_name: key for key, panel_name in names.items()}
    panels, places = [], []
    for key, place in zip(sent[f"{name}-panel"], sent[f"{name}-place"], strict=True):
        there = other_side(names.get(key, ""))
        missing = bool(key) and there not in keys
        panels.append("" if missing else keys.get(there, ""))
        places.append(other_side(place) or (there if missing else ""))
    return {f"{name}-panel": panels, f"{name}-place": places}
