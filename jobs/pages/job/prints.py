"""Drafts and sheets to be issued: asked for, waited for on a calm page, opened when printed."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Any
from urllib.parse import urlencode

from django.conf import settings
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from jobs import access, sheets
from jobs.design.job.stages import may_hand_over
from jobs.design.records.changes import Present
from jobs.design.records.records import JobRecords, load
from jobs.models import IssuedSheet, Job, PrintOrder, SheetKind, User, Workshop
from jobs.models.sheets import LONGEST_REASON
from jobs.pages.forms import strip
from jobs.pages.forms.fields import written
from jobs.panel_codes import give_codes
from jobs.portable.origin import data_here

MOST_BOXES, LONGEST_KEY = 20, 18  # of those ticked, and digits of a key
MOST_PARTS, LONGEST_NUMBER = 500, 8  # of those picked, and signs of the number of a part
# Whoever has waited so long is told when nothing prints at all.
PATIENCE = dt.timedelta(seconds=30)


def pdf(content: bytes, name: str) -> HttpResponse:
    """Answer with a printed sheet."""
    response = HttpResponse(content, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{name}.pdf"'
    return response


def options(request: HttpRequest) -> sheets.Options:
    """Read paper, language and ticked boxes, the workshop's own where nothing was asked for."""
    asked = request.POST if request.method == "POST" else request.GET
    paper = asked.get("paper", "")
    language = asked.get("language", "")
    boxes = [key for key in asked.getlist("box") if key.isdecimal() and len(key) <= LONGEST_KEY]
    parts = [part for part in asked.getlist("part") if part.isalnum()]
    kept = [key for key in asked.getlist("option") if key.isdecimal() and len(key) <= LONGEST_KEY]
    return sheets.Options(
        paper=paper if paper in Workshop.Paper.values else Workshop.current().paper,
        language=language if language in sheets.LANGUAGES else request.LANGUAGE_CODE,
        boxes=tuple(boxes[:MOST_BOXES]),
        parts=tuple(part for part in parts[:MOST_PARTS] if len(part) <= LONGEST_NUMBER),
        options=tuple(kept[:MOST_BOXES]),
        reason=written(request, "reason")[:LONGEST_REASON],
    )


def _sheet(user: User, kind: str) -> sheets.Sheet:
    """Return the entry of a sheet to somebody who may open it."""
    if kind not in sheets.KINDS:
        raise Http404
    sheet = sheets.SHEETS[SheetKind(kind)]
    access.require(sheet.may_open(user))
    return sheet


@require_safe
def draft(request: HttpRequest, code: str, kind: str) -> HttpResponse:
    """Show a sheet as the job stands now, or that it is being printed.

    The address stays the same: loaded again, it shows the sheet as soon as there is one.
    """
    user = access.signed_in(request)
    job = access.open_job(user, code)
    sheet = _sheet(user, kind)
    if reason := sheets.unavailable():
        messages.error(request, reason)
        return redirect("sheets", job.code)
    order = sheets.ask_for_draft(load(job), sheet.kind, options(request), user)
    if order.state == PrintOrder.State.PRINTED:
        return pdf(bytes(order.pdf or b""), f"{job.code}-{sheet.kind}-draft")
    return _page(request, job, order)


@require_POST
def issue(request: HttpRequest, code: str, kind: str) -> HttpResponse:
    """Ask for a sheet to be frozen under the next revision."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    sheet = _sheet(user, kind)
    access.require(sheet.may_issue(user))
    if reason := sheets.unavailable():
        messages.error(request, reason)
        return redirect("sheets", job.code)
    design = strip.worked_out(request, job)
    if sheet.refuses and (reason := sheet.refuses(design)):
        messages.error(request, reason)
        return redirect("agreement", job.code)
    if sheet.kind == SheetKind.HANDOVER and not may_hand_over(design):
        messages.error(
            request, _("Not before the gate is open: see “Before hand-over” in the bay.")
        )
        return redirect("gate", job.code)
    again = job.issued_sheets.filter(kind=sheet.kind).exists()
    if (again or design.open_stops or design.open_looks) and "sure" not in request.POST:
        address = reverse("sheet-ask", args=[job.code, kind])
        return redirect(f"{address}?{urlencode(_query(options(request)))}")
    token = _token(request.POST.get("entry_token", ""))
    if settings.PUBLIC and sheet.kind == SheetKind.PANELS:
        give_codes(job)
    order = sheets.ask_to_issue(job, sheet.kind, options(request), user, token)
    return redirect("sheet-print", job.code, order.pk)


@require_safe
def ask(request: HttpRequest, code: str, kind: str) -> HttpResponse:
    """Show what a sheet would be printed with that is open; asked once before it is frozen."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    sheet = _sheet(user, kind)
    access.require(sheet.may_issue(user))
    design = strip.worked_out(request, job)
    last = job.issued_sheets.filter(kind=sheet.kind).defer("pdf").order_by("revision").last()
    context = {
        "job": job,
        "kind": sheet.kind,
        "open": [*design.open_stops, *design.open_looks],
        "options": options(request),
        "token": uuid.uuid4(),
        "again": last is not None,
        "new": _new_since(design.records, last),
        "steps": strip.steps(request, job, "sheets"),
    }
    return render(request, "pages/job/issue.html", context)


def _new_since(records: JobRecords, last: IssuedSheet | None) -> str:
    """Return what has changed since, as the reason somebody may write otherwise."""
    what = Present.of(records).words_since(data_here(last)) if last else None
    if what is None:
        return ""
    return what[:LONGEST_REASON] or _("nothing; printed again")


def _token(text: str) -> uuid.UUID:
    """Return what the button carries; without one each press counts for itself."""
    try:
        return uuid.UUID(text)
    except ValueError:
        return uuid.uuid4()


@require_safe
def follow(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Show how far a print is, or what came of it."""
    user = access.signed_in(request)
    order = access.open_print_order(user, code, pk, sheets.may_follow)
    if not order.to_issue and order.state == PrintOrder.State.PRINTED:
        return redirect(_draft_address(code, order))
    return _page(request, access.open_job(user, code), order)


@require_safe
def state(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Answer the page that waits: 202 while the print is still to come, else 200."""
    order = access.open_print_order(access.signed_in(request), code, pk, sheets.may_follow)
    context = _context(order, code)
    return render(request, "parts/job/print_state.html", context, status=_status(order))


@require_POST
def again(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Ask once more for a print that failed."""
    user = access.signed_in(request)
    order = access.open_print_order(user, code, pk, sheets.may_follow)
    if order.to_issue:
        access.require(sheets.SHEETS[SheetKind(order.kind)].may_issue(user))
    sheets.ask_again(order, user)
    return redirect("sheet-print", code, order.pk)


def _page(request: HttpRequest, job: Job, order: PrintOrder) -> HttpResponse:
    context = {"job": job, **_context(order, job.code), "may_issue": _may_issue(request, order)}
    return render(request, "pages/job/print.html", context, status=_status(order))


def _may_issue(request: HttpRequest, order: PrintOrder) -> bool:
    may_issue = sheets.SHEETS[SheetKind(order.kind)].may_issue
    return not order.to_issue or may_issue(access.signed_in(request))


def _status(order: PrintOrder) -> int:
    return 202 if order.is_open else 200


def _context(order: PrintOrder, code: str) -> dict[str, Any]:
    waits_long = order.is_open and timezone.now() - order.asked_at > PATIENCE
    return {
        "order": order,
        "code": code,
        "ahead": sheets.ahead_of(order) if order.state == PrintOrder.State.WAITING else 0,
        "pages": sheets.pages_last_time(order) if order.is_open else 0,
        "nobody_prints": waits_long and not sheets.is_alive(),
        "opens": reverse("sheet-issued", args=[code, order.issued_id])
        if order.issued_id
        else _draft_address(code, order),
    }


def _draft_address(code: str, order: PrintOrder) -> str:
    query = urlencode(_query(sheets.options_of(order)))
    return f"{reverse('sheet-draft', args=[code, order.kind])}?{query}"


def _query(how: sheets.Options) -> list[tuple[str, str]]:
    query = [("paper", how.paper), ("language", how.language)]
    query += [("box", key) for key in how.boxes] + [("part", part) for part in how.parts]
    return query + [("option", key) for key in how.options]


urlpatterns = [
    path("jobs/<str:code>/sheets/print/<int:pk>/", follow, name="sheet-print"),
    path("jobs/<str:code>/sheets/print/<int:pk>/state/", state, name="sheet-print-state"),
    path("jobs/<str:code>/sheets/print/<int:pk>/again/", again, name="sheet-print-again"),
    path("jobs/<str:code>/sheets/<str:kind>/", draft, name="sheet-draft"),
    path("jobs/<str:code>/sheets/<str:kind>/ask/", ask, name="sheet-ask"),
    path("jobs/<str:code>/sheets/<str:kind>/issue/", issue, name="sheet-issue"),
]
