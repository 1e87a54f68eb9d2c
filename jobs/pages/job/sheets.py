"""The sheets of a job: what can be printed, what is to come, an issued one as it was."""

from __future__ import annotations

import logging
import uuid
from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from jobs import access, sheets
from jobs.design.records.changes import Present
from jobs.design.records.records import JobRecords
from jobs.models import CustomerPage, IssuedSheet, User, Workshop
from jobs.pages.forms import strip
from jobs.pages.job import customer_link, prints
from jobs.portable.origin import data_here

logger = logging.getLogger(__name__)


@require_safe
def overview(request: HttpRequest, code: str) -> HttpResponse:
    """List what can be printed and what was issued."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    options = prints.options(request, job)
    page = CustomerPage.objects.filter(job=job).select_related("sheet").first()
    context = {
        "job": job,
        "paper": options.paper,
        "language": options.language,
        "sheets": [
            (
                sheet.kind,
                sheet.may_issue(user),
                uuid.uuid4(),
                prints.language(request, job, sheet.kind),
            )
            for sheet in sheets.SHEETS.values()
            if sheet.may_open(user)
        ],
        "page": page,
        "page_address": customer_link.address(page) if page else "",
        "may_link": access.may_spec(user),
        "parts": sheets.parts_to_pick(strip.worked_out(request, job)),
        "missing": sheets.unavailable(),
        "to_come": job.print_orders.filter(to_issue=True).exclude(state="printed").defer("pdf"),
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
    for sheet in sorted(listed, key=lambda sheet: sheet.revision):
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
    words = {"": _("whether the job has changed since cannot be told")}
    told = {sheet.fingerprint: sheet.pk for sheet in latest if sheet.fingerprint}
    if not told:
        return words
    present = Present.of(records)
    words[present.fingerprint] = _("the job has not changed since")
    old = [pk for fingerprint, pk in told.items() if fingerprint not in words]
    copies = IssuedSheet.objects.filter(pk__in=old).select_related("origin").defer("pdf")
    for sheet in copies if old else ():
        fingerprint = sheet.fingerprint
        what = present.words_since(data_here(sheet))
        if what is None:
            words[fingerprint] = words[""]
        elif what:
            words[fingerprint] = _("changed since: %(what)s") % {"what": what}
        else:
            words[fingerprint] = words[present.fingerprint]
    return words


@require_safe
def issued(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Open an issued sheet exactly as it was printed."""
    sheet = access.open_issued_sheet(access.signed_in(request), code, pk, sheets.may_open)
    if sheet.erased_at:
        context = {"job": sheet.job, "sheet": sheet}
        return render(request, "pages/job/sheet_erased.html", context, status=410)
    pdf = sheet.content()
    if pdf is None or not sheets.is_as_issued(sheet, pdf):
        logger.error(
            "The bytes of issued sheet %s (%s) are not those it was issued with", pk, sheet
        )
        lost = {"job": sheet.job, "sheet": sheet, "lost": pdf is None}
        return render(request, "pages/job/sheet_damaged.html", lost, status=409)
    return prints.pdf(pdf, f"{code}-{sheet.kind}-{sheet.revision}")


urlpatterns = [
    path("jobs/<str:code>/sheets/", overview, name="sheets"),
    path("jobs/<str:code>/sheets/issued/<int:pk>/", issued, name="sheet-issued"),
    *prints.urlpatterns,
    *customer_link.urlpatterns,
]
