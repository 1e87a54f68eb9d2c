"""Add, edit, remove and restore one row of a job: the one way every list of a job is edited."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache, partial
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import URLPattern, path, reverse
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from jobs import access
from jobs.compiled import compiled
from jobs.design.job import board_counts
from jobs.design.records.about import about
from jobs.locks import held
from jobs.models import Job, User
from jobs.pages.forms import row_table, strip
from jobs.pages.forms.at_field import say_at_fields
from jobs.pages.forms.fields import key_of
from jobs.pages.forms.forms import RecordForm


@dataclass(frozen=True, kw_only=True)
class RowKind:
    """One kind of row: its form, the page it belongs to, who may edit it, its live preview."""

    slug: str
    form: type[RecordForm[Any]]
    section: str
    allowed: Callable[[User], bool] = access.may_spec
    # Of rows that not everybody may change who may change others of their kind.
    may_change: Callable[[User, Any], bool] = lambda user, row: True
    # Fields that not everybody who may edit a row may see.
    unseen: Callable[[User], Iterable[str]] = lambda user: ()
    # Fills in what the form does not ask for, before the first save.
    prepare: Callable[[Any], None] | None = None
    # Works out the row a form holds while the person types; the form knows what is not saved yet.
    preview: Callable[[HttpRequest, Job, Any], dict[str, Any]] | None = None
    preview_template: str = ""
    # A page with a layout of its own.
    template: str = "pages/forms/row.html"
    # Where the page has better words for it than the record.
    called: Any = ""
    # What is asked before it is removed, beside the button.
    asks: str = ""
    # What of it is typed in the table of its page; the rest stands on the page of the row.
    in_table: Sequence[row_table.Column] = ()
    # A row may have its like on the other side of the car: of these fields at least one differs.
    sided: Sequence[str] = ()
    # What a copy takes the next number of, counted among the rows of the same device, if named;
    # and what belongs to one piece and is not copied.
    counted: Mapping[str, str] = field(default_factory=dict)
    not_copied: Sequence[str] = ()
    # Makes rows of the single pieces of one that stands for several; returns the new ones.
    apart: Callable[[Any], list[Any]] | None = None

    @property
    def model(self) -> Any:
        """The record this kind edits."""
        return self.form._meta.model

    @property
    def label(self) -> str:
        """What the workshop calls one such row."""
        return str(self.called or self.model._meta.verbose_name)

    def table(
        self,
        job: Job,
        rows: Sequence[Any],
        *,
        may_type: bool,
        columns: Sequence[row_table.Column] = (),
        given: Mapping[str, str] | None = None,
        **more: Any,
    ) -> row_table.Table:
        """Return these rows as a table that is typed in; `more` as `row_table.build` takes it."""
        layout = row_table.Layout(
            slug=self.slug,
            form=self.form,
            columns=columns or self.in_table,
            given=given or {},
            two_sided=bool(self.sided),
            in_pieces=self.apart is not None,
        )
        caption = more.pop("caption", capfirst(self.label))
        initial = _after(self, rows)
        return row_table.build(
            layout, job, rows, caption=caption, may_type=may_type, initial=initial, **more
        )

    def urls(self) -> list[URLPattern]:
        """Addresses of this kind below its job."""
        base = f"jobs/<str:code>/{self.slug}/"
        name = self.slug
        routes = [
            path(f"{base}add/", partial(add, kind=self), name=f"{name}-add"),
            path(f"{base}<int:pk>/", partial(edit, kind=self), name=f"{name}-edit"),
            path(f"{base}<int:pk>/remove/", partial(remove, kind=self), name=f"{name}-remove"),
            path(f"{base}<int:pk>/restore/", partial(restore, kind=self), name=f"{name}-restore"),
        ]
        if self.preview:
            routes.append(
                path(f"{base}preview/", partial(preview, kind=self), name=f"{name}-preview")
            )
        return routes


def _find(kind: RowKind, job: Job, pk: int, *, removed: bool = False) -> Any:
    """Return a row of the job; a removed one only where that is asked for."""
    rows = _with_key(kind.model, removed)(job.pk, pk)
    if not rows:
        raise Http404
    rows[0].job = job
    return rows[0]


@cache
def _with_key(model: Any, removed: bool) -> Callable[[int, int], list[Any]]:
    """What reads the row of a job that has a key."""
    manager = model.with_removed if removed else model.objects
    return compiled(lambda job, pk: manager.filter(job=job, pk=pk))


def opened(request: HttpRequest, code: str, kind: RowKind) -> Job:
    """Return the job to somebody who may edit this kind of row."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(kind.allowed(user))
    return job


def _seen(request: HttpRequest, kind: RowKind, form: Any) -> Any:
    """Take out of a form what this person may not see; the row keeps it."""
    for name in kind.unseen(access.signed_in(request)):
        del form.fields[name]
    return form


def _page(
    request: HttpRequest, kind: RowKind, job: Job, form: Any, status: int = 200
) -> HttpResponse:
    context = {
        "job": job,
        "kind": kind,
        "form": form,
        "row": form.instance,
        "back": reverse(kind.section, args=[job.code]),
        "steps": strip.steps(request, job, kind.section),
    }
    row = form.instance
    if row.pk:
        context["may_change"] = kind.may_change(access.signed_in(request), row)
        context["remove_url"] = reverse(f"{kind.slug}-remove", args=[job.code, row.pk])
    if row.removed_at:
        context["removed_by"] = row.removed_by()
    elif kind.preview:
        # Of a row nobody has typed anything into there is nothing to say yet.
        context["untouched"] = not form.instance.pk and not form.is_bound
        if not context["untouched"]:
            context |= kind.preview(request, job, form)
            say_at_fields(form, context.get("findings", ()))
        context["preview_url"] = reverse(f"{kind.slug}-preview", args=[job.code])
        context["preview_template"] = kind.preview_template
        context["price_now"] = strip.price_now(request, job, context.get("changed"))
    elif row.pk:
        every = strip.worked_out(request, job).findings
        say_at_fields(form, [finding for finding in every if finding.concerns(about(row))])
    return render(request, kind.template, context, status=status)


def _save(request: HttpRequest, kind: RowKind, job: Job, form: Any) -> HttpResponse:
    """Check and save; called while the job is held, so that nobody saves in between."""
    # Removed while somebody typed: the text stays, and with a word of theirs the row is back.
    if form.instance.removed_at and "bring_back" not in request.POST:
        return _refused(request, kind, job, form, status=409)
    if not form.is_valid():
        return _refused(request, kind, job, form, status=422)
    row = store(kind, form)
    board_counts.forget(job)
    if row_table.CELLS not in request.POST:
        messages.success(request, _("Saved: %(row)s.") % {"row": _called(row)})
    tell_of_kept(request, form)
    if "stay" in request.POST:
        return redirect(f"{kind.slug}-edit", job.code, row.pk)
    return redirect(kind.section, job.code)


def store(kind: RowKind, form: Any) -> Any:
    """Save a valid form while its job is held; a row that was removed is back with it."""
    form.instance.removed_at = None
    if kind.prepare and not form.instance.pk:
        kind.prepare(form.instance)
    return form.save()


def _refused(request: HttpRequest, kind: RowKind, job: Job, form: Any, status: int) -> HttpResponse:
    """Say what is wrong: to a row of a table at its cells, else on the page of the row."""
    if "HX-Request" not in request.headers or row_table.CELLS not in request.POST:
        return _page(request, kind, job, form, status=status)
    if status != 409:
        return JsonResponse(row_table.wrong(form), status=status)
    by = form.instance.removed_by()
    words = {"who": by.full_name if by else "–"}
    sentence = _("%(who)s has removed this meanwhile. What you typed is still here, not saved.")
    return JsonResponse({"cells": {}, "row": [sentence % words], "removed": True}, status=status)


def tell_of_kept(request: HttpRequest, form: RecordForm[Any]) -> None:
    """Say what somebody else changed meanwhile and this person did not touch."""
    if form.kept:
        fields = ", ".join(str(form.fields[name].label) for name in form.kept)
        sentence = _("Somebody else changed this meanwhile, and that stays: %(fields)s.")
        messages.info(request, sentence % {"fields": fields})


def _after(kind: RowKind, rows: Iterable[Any]) -> dict[str, int]:
    """A new row of an ordered list goes to its end."""
    if "position" not in kind.form.base_fields:
        return {}
    return {"position": max((row.position for row in rows), default=0) + 1}


@require_http_methods(["GET", "POST"])
def add(request: HttpRequest, code: str, *, kind: RowKind) -> HttpResponse:
    """Make a new row from what was typed."""
    job = opened(request, code, kind)
    initial = _after(kind, kind.model.objects.filter(job=job).only("position")) | request.GET.dict()
    blank = _seen(request, kind, kind.form(instance=kind.model(job=job), initial=initial))
    if request.method != "POST":
        return _page(request, kind, job, blank)
    with held(job):
        typed_in = row_table.filled(blank, request.POST)
        form = kind.form(typed_in, request.FILES or None, instance=kind.model(job=job))
        return _save(request, kind, job, _seen(request, kind, form))


@require_http_methods(["GET", "POST"])
def edit(request: HttpRequest, code: str, pk: int, *, kind: RowKind) -> HttpResponse:
    """Change a row; an invalid form keeps everything typed."""
    job = opened(request, code, kind)
    if request.method != "POST":
        form = kind.form(instance=_find(kind, job, pk))
        return _page(request, kind, job, _seen(request, kind, form))
    with held(job):
        row = _find(kind, job, pk, removed=True)
        access.require(kind.may_change(access.signed_in(request), row))
        typed_in = row_table.filled(kind.form(instance=row), request.POST)
        form = kind.form(typed_in, request.FILES or None, instance=row)
        return _save(request, kind, job, _seen(request, kind, form))


def _called(row: Any) -> str:
    """Return a row's name within a sentence, which brings a full stop of its own."""
    return str(row).rstrip(".")


@require_POST
def remove(request: HttpRequest, code: str, pk: int, *, kind: RowKind) -> HttpResponse:
    """Hide a row and offer to bring it back."""
    job = opened(request, code, kind)
    with held(job):
        row = _find(kind, job, pk)
        access.require(kind.may_change(access.signed_in(request), row))
        row.remove()
        board_counts.forget(job)
    undo = reverse(f"{kind.slug}-restore", args=[job.code, pk])
    messages.warning(
        request, _("Removed: %(row)s.") % {"row": _called(row)}, extra_tags=f"undo:{undo}"
    )
    return redirect(kind.section, job.code)


@require_POST
def restore(request: HttpRequest, code: str, pk: int, *, kind: RowKind) -> HttpResponse:
    """Bring a removed row back."""
    job = opened(request, code, kind)
    with held(job):
        row = _find(kind, job, pk, removed=True)
        access.require(kind.may_change(access.signed_in(request), row))
        row.restore()
        board_counts.forget(job)
    messages.success(request, _("Back again: %(row)s.") % {"row": _called(row)})
    return redirect(kind.section, job.code)


def beside_saved(
    now: Iterable[tuple[str, str]], saved: Iterable[tuple[str, str]]
) -> list[tuple[str, str, str]]:
    """Return (label, value, last saved value) of what an instrument keeps in sight."""
    was = dict(saved)
    return [(label, value, was.get(label, "")) for label, value in now]


def _stand_in(kind: RowKind, instance: Any) -> None:
    """Call an unsaved row something, so that what is said of it can be read."""
    if getattr(instance, "name", None) == "":
        instance.name = capfirst(kind.label)
    if kind.prepare:
        kind.prepare(instance)


def typed(request: HttpRequest, code: str, kind: RowKind) -> tuple[Job, Any]:
    """Return the job and the form as it is being typed; its row holds every figure read so far."""
    job = opened(request, code, kind)
    pk = key_of(request.POST.get("row"))
    instance = kind.model(job=job) if pk is None else _find(kind, job, pk)
    form = kind.form(request.POST, instance=instance)
    form.is_valid()  # fills the instance with every figure that could be read
    if not instance.pk:
        _stand_in(kind, instance)
    return job, form


@require_POST
def preview(request: HttpRequest, code: str, *, kind: RowKind) -> HttpResponse:
    """Work out an unsaved row; what could not be read is said beside its field."""
    assert kind.preview is not None
    job, form = typed(request, code, kind)
    context = {"job": job, "kind": kind, "form": form, "row": form.instance, "live": True}
    # What it is comes first: a run that is neither power nor signal cannot be worked out.
    context["untouched"] = getattr(form.instance, "kind", None) == ""
    if not context["untouched"]:
        context |= kind.preview(request, job, form)
        say_at_fields(form, context.get("findings", ()))
    context["preview_template"] = kind.preview_template
    if "changed" in context:
        context["price_now"] = strip.price_now(request, job, context["changed"])
    return render(request, "pages/forms/row_preview.html", context)
