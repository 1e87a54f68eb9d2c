"""A supplier's list: sent, read step by step, shown as what it would do, written on a yes."""

from __future__ import annotations

import datetime as dt
import time
from typing import Any

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from jobs import access
from jobs.locks import held
from jobs.models import Part, PartList, User
from jobs.pages.workshop.list_columns import columns_of, kind_called, lacking, readable, unread
from jobs.pages.workshop.list_file import UnreadableFileError, read
from jobs.pages.workshop.list_rows import Judge
from jobs.pages.workshop.list_writing import ChangedMeanwhileError, write
from jobs.pages.workshop.part_forms import FORMS

State = PartList.State
KEPT = dt.timedelta(days=2)
A_STEP = 1.5  # seconds of one step
ROWS = 250  # judged between two looks at the clock
SHOWN = 200  # troubles, and rows that are to be written


class ListForm(forms.Form):
    """A file, and what is true of every row of it."""

    file = forms.FileField(
        label=gettext_lazy("file"),
        help_text=gettext_lazy("CSV, or the first sheet of a workbook (.xlsx)."),
    )
    kind = forms.ChoiceField(
        label=gettext_lazy("kind of every part in it"),
        choices=[("", gettext_lazy("a column says it")), *Part.Kind.choices],
        required=False,
    )
    supplier = forms.CharField(
        label=gettext_lazy("whose list it is"),
        help_text=gettext_lazy("The supplier of every row, where no column says it."),
        max_length=60,
        required=False,
    )


def _allowed(request: HttpRequest) -> User:
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_manage(user))
    return user


@require_http_methods(["GET", "POST"])
def lists(request: HttpRequest) -> HttpResponse:
    """Take a list in; nothing in the catalogue changes by that."""
    user = _allowed(request)
    form = ListForm(request.POST or None, request.FILES or None)
    if request.method == "POST" and form.is_valid():
        try:
            part_list = _take_in(form.cleaned_data, user)
        except UnreadableFileError as problem:
            form.add_error("file", str(problem))
        else:
            return redirect("part-list", part_list.pk)
    context = {"form": form, "lists": PartList.objects.defer("rows", "to_write", "troubles")[:10]}
    status = 422 if request.method == "POST" else 200
    return render(request, "pages/workshop/lists.html", context, status=status)


def _take_in(sent: dict[str, Any], user: User) -> PartList:
    table = read(sent["file"].read())
    if trouble := lacking(table.head, sent["kind"]):
        raise UnreadableFileError(trouble)
    PartList.objects.filter(sent_at__lt=timezone.now() - KEPT).delete()
    return PartList.objects.create(
        name=sent["file"].name[:100], kind=sent["kind"], supplier=sent["supplier"], sent_by=user,
        encoding=table.encoding, head=table.head, rows=table.rows, count=len(table.rows),
    )  # fmt: skip


@require_safe
def part_list(request: HttpRequest, pk: int) -> HttpResponse:
    """Show how far a list is read, or what it would do, or what it did."""
    _allowed(request)
    return _page(request, get_object_or_404(PartList, pk=pk))


def _page(request: HttpRequest, row: PartList, status: int = 200) -> HttpResponse:
    kinds = [row.kind] if row.kind else _kinds_of(row)
    context = {
        "list": row,
        "unread": unread(row.head, kinds),
        "columns": _columns(row, kinds),
        "troubles": row.troubles[:SHOWN],
        "more_troubles": max(len(row.troubles) - SHOWN, 0),
        "bad_rows": len({number for number, _column, _words in row.troubles}),
        "changes": [_in_words(change) for change in row.to_write if change["pk"]][:SHOWN],
        "names": [_called(change) for change in row.to_write if not change["pk"]][:SHOWN],
        "more_names": max(row.new - SHOWN, 0),
        "more_changes": max(row.changed - SHOWN, 0),
    }
    return render(request, "pages/workshop/list.html", context, status=status)


def _kinds_of(row: PartList) -> list[str]:
    """The kinds of part the file names."""
    column = next((c for c in columns_of(row.head, Part.Kind.OTHER) if c.field == "kind"), None)
    if column is None:
        return []
    named = {kind_called(cells[column.index]) for cells in row.rows if column.index < len(cells)}
    return sorted(named - {""}) or [*FORMS]


def _columns(row: PartList, kinds: list[str]) -> list[tuple[str, str, str]]:
    """(head, what it is read as, unit named in it), each once."""
    columns = {
        (column.title, str(readable(kind)[column.field].label or _("kind")), column.unit): None
        for kind in kinds
        for column in columns_of(row.head, kind)
    }
    return list(columns)


def _called(change: dict[str, Any]) -> str:
    values = change["values"]
    return " ".join(part for part in (values.get("maker"), values.get("name")) if part)


def _in_words(change: dict[str, Any]) -> dict[str, Any]:
    fields = readable(change["kind"])
    return {
        "row": change["row"],
        "pk": change["pk"],
        "fields": [
            (str(fields[name].label), change["before"][name], value)
            for name, value in change["values"].items()
        ],
    }


@require_POST
def go_on(request: HttpRequest, pk: int) -> HttpResponse:
    """Judge some rows more: as many as go into a step."""
    _allowed(request)
    row = get_object_or_404(PartList, pk=pk)
    until = time.monotonic() + A_STEP
    with held(row):
        row.refresh_from_db()
        if row.state == State.READING:
            _step(row, until)
    if "HX-Request" in request.headers and row.state == State.READING:
        return render(request, "parts/workshop/list_progress.html", {"list": row})
    if "HX-Request" in request.headers:
        return HttpResponse(headers={"HX-Redirect": reverse("part-list", args=[pk])})
    return redirect("part-list", pk)


def _step(row: PartList, until: float) -> None:
    judge = Judge(row)
    while row.judged < row.count and time.monotonic() < until:
        end = min(row.judged + ROWS, row.count)
        judge.judge(row.judged, end)
        row.judged = end
    row.to_write += judge.to_write
    row.troubles += judge.troubles
    row.unchanged += judge.unchanged
    row.new = sum(change["pk"] is None for change in row.to_write)
    row.changed = len(row.to_write) - row.new
    if row.judged == row.count:
        row.state = State.READ
    row.save(
        update_fields=["judged", "to_write", "troubles", "unchanged", "new", "changed", "state"]
    )


@require_POST
def stop(request: HttpRequest, pk: int) -> HttpResponse:
    """Put a list away; the catalogue is as it was."""
    _allowed(request)
    row = get_object_or_404(PartList, pk=pk)
    with held(row):
        row.refresh_from_db()
        is_written = row.state == State.WRITTEN
        row.delete()
    if is_written:
        messages.success(request, _("Put away; what it wrote stays."))
    else:
        messages.success(request, _("Put away; nothing in the catalogue was changed."))
    return redirect("part-lists")


@require_POST
def take_over(request: HttpRequest, pk: int) -> HttpResponse:
    """Write what was judged into the catalogue, once and whole."""
    user = _allowed(request)
    row = get_object_or_404(PartList, pk=pk)
    try:
        with held(row):
            row.refresh_from_db()
            if row.state == State.READ and row.to_write:
                write(row, user)
                messages.success(request, _("Written into the catalogue."))
    except ChangedMeanwhileError:
        PartList.objects.filter(pk=pk).update(
            state=State.READING, judged=0, to_write=[], troubles=[], unchanged=0, new=0, changed=0
        )
        words = _("Somebody changed the catalogue meanwhile: the list is read once more.")
        messages.warning(request, words)
    return redirect("part-list", pk)


urlpatterns = [
    path("catalogue/lists/", lists, name="part-lists"),
    path("catalogue/lists/<int:pk>/", part_list, name="part-list"),
    path("catalogue/lists/<int:pk>/go-on/", go_on, name="part-list-step"),
    path("catalogue/lists/<int:pk>/stop/", stop, name="part-list-stop"),
    path("catalogue/lists/<int:pk>/write/", take_over, name="part-list-write"),
]
