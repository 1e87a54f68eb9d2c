"""The sheets of a job: look at one, print one, issue one, open an issued one as it was."""

from __future__ import annotations

import logging
from dataclasses import dataclass

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from jobs import access, sheets
from jobs.design.records.changes import Present, in_words
from jobs.design.records.records import JobRecords
from jobs.models import IssuedSheet, SheetKind, User, Workshop
from jobs.pages.forms import strip

logger = logging.getLogger(__name__)


def _pdf(content: bytes, name: str) -> HttpResponse:
    response = HttpResponse(content, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{name}.pdf"'
    return response


def _options(request: HttpRequest) -> sheets.Options:
    """Read paper, language and ticked boxes, the workshop's own where nothing was asked for."""
    asked = request.GET if request.method == "GET" else request.POST
    paper = asked.get("paper", "")
    language = asked.get("language", "")
    return sheets.Options(
        paper=paper if paper in Workshop.Paper.values else Workshop.current().paper,
        language=language if language in sheets.LANGUAGES else request.LANGUAGE_CODE,
        boxes=tuple(asked.getlist("box")),
    )


@require_safe
def overview(request: HttpRequest, code: str) -> HttpResponse:
    """List what can be printed and what was issued."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    options = _options(request)
    context = {
        "job": job,
        "paper": options.paper,
        "language": options.language,
        "sheets": [
            (sheet.kind, sheet.may_issue(user))
            for sheet in sheets.SHEETS.values()
            if sheet.may_open(user)
        ],
        "missing": sheets.unavailable(),
        "issued": _issued(user, strip.worked_out(request, job).records),
        "steps": strip.steps(request, job, "sheets"),
        "papers": Workshop.Paper.choices,
        "languages": sheets.LANGUAGES,
    }
    return render(request, "pages/job/sheets.html", context)


@dataclass(frozen=True, kw_only=True)
class Issued:
    """An issued sheet as the page lists it."""

    sheet: IssuedSheet
    may_open: bool
    says: str


def _issued(user: User, records: JobRecords) -> list[Issued]:
    """List what was issued, and what has changed since the latest of each kind."""
    listed = list(records.job.issued_sheets.defer("pdf", "data").select_related("issued_by"))
    latest: dict[str, IssuedSheet] = {}
    for sheet in sorted(listed, key=lambda one: one.revision):
        latest[sheet.kind] = sheet
    since = _since(records, list(latest.values()))
    return [
        Issued(
            sheet=sheet,
            may_open=sheets.may_open(user, sheet),
            says=since[sheet.fingerprint]
            if sheet == latest[sheet.kind]
            else _("replaced by revision %(n)d") % {"n": latest[sheet.kind].revision},
        )
        for sheet in listed
    ]


def _since(records: JobRecords, latest: list[IssuedSheet]) -> dict[str, str]:
    """Say by fingerprint whether a sheet still holds what the job is.

    Sheets that were made from the same records are compared once; nothing is compared with what
    has the fingerprint of now.
    """
    said = {"": _("whether the job has changed since cannot be told")}
    told = {sheet.fingerprint: sheet.pk for sheet in latest if sheet.fingerprint}
    if not told:
        return said
    present = Present.of(records)
    said[present.fingerprint] = _("the job has not changed since")
    old = [pk for fingerprint, pk in told.items() if fingerprint not in said]
    copies = IssuedSheet.objects.filter(pk__in=old).values_list("fingerprint", "data")
    for fingerprint, data in copies if old else ():
        changes = present.changes_since(data)
        said[fingerprint] = (
            _("changed since: %(what)s") % {"what": in_words(changes)}
            if changes
            else _("the job has not changed since")
        )
    return said


def _sheet(user: User, kind: str) -> sheets.Sheet:
    """Return the entry of a sheet to somebody who may open it."""
    if kind not in sheets.KINDS:
        raise Http404
    sheet = sheets.SHEETS[SheetKind(kind)]
    access.require(sheet.may_open(user))
    return sheet


@require_safe
def draft(request: HttpRequest, code: str, kind: str) -> HttpResponse:
    """Print a sheet as the job stands now, marked as a draft."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    sheet = _sheet(user, kind)
    if reason := sheets.unavailable():
        messages.error(request, reason)
        return redirect("sheets", job.code)
    content = sheets.draft(strip.worked_out(request, job), sheet.kind, _options(request))
    return _pdf(content, f"{job.code}-{sheet.kind}-draft")


@require_POST
def issue(request: HttpRequest, code: str, kind: str) -> HttpResponse:
    """Freeze a sheet under the next revision."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    sheet = _sheet(user, kind)
    access.require(sheet.may_issue(user))
    if reason := sheets.unavailable():
        messages.error(request, reason)
        return redirect("sheets", job.code)
    issued = sheets.issue(strip.worked_out(request, job), sheet.kind, _options(request), user)
    messages.success(
        request,
        _("Issued: %(sheet)s, revision %(n)s.") % {"sheet": sheet.kind.label, "n": issued.revision},
    )
    return redirect("sheets", job.code)


@require_safe
def issued(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Open an issued sheet exactly as it was printed."""
    sheet = access.open_issued_sheet(access.signed_in(request), code, pk, sheets.may_open)
    if not sheets.is_intact(sheet):
        logger.error(
            "The bytes of issued sheet %s (%s) are not those it was issued with", pk, sheet
        )
        context = {"job": sheet.job, "sheet": sheet}
        return render(request, "pages/job/sheet_damaged.html", context, status=409)
    return _pdf(bytes(sheet.pdf), f"{code}-{sheet.kind}-{sheet.revision}")


urlpatterns = [
    path("jobs/<str:code>/sheets/", overview, name="sheets"),
    path("jobs/<str:code>/sheets/issued/<int:pk>/", issued, name="sheet-issued"),
    path("jobs/<str:code>/sheets/<str:kind>/", draft, name="sheet-draft"),
    path("jobs/<str:code>/sheets/<str:kind>/issue/", issue, name="sheet-issue"),
]
