"""The sheets of a job: look at one, print one, issue one, open an issued one as it was."""

from __future__ import annotations

from dataclasses import replace

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from jobs import access, sheets
from jobs.design.box.compare import picked
from jobs.design.job.whole import JobDesign
from jobs.models import Job, SheetKind, Workshop
from jobs.pages.forms import strip


def _pdf(content: bytes, name: str) -> HttpResponse:
    response = HttpResponse(content, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{name}.pdf"'
    return response


def _options(request: HttpRequest) -> sheets.Options:
    """Read paper and language, the workshop's own where nothing was asked for."""
    asked = request.GET if request.method == "GET" else request.POST
    paper = asked.get("paper", "")
    language = asked.get("language", "")
    return sheets.Options(
        paper=paper if paper in Workshop.Paper.values else Workshop.current().paper,
        language=language if language in sheets.LANGUAGES else request.LANGUAGE_CODE,
    )


@require_safe
def overview(request: HttpRequest, code: str) -> HttpResponse:
    """List what can be printed and what was issued."""
    job = access.open_job(access.signed_in(request), code)
    options = _options(request)
    context = {
        "job": job,
        "paper": options.paper,
        "language": options.language,
        "may_spec": access.may_spec(access.signed_in(request)),
        "kinds": [(kind.value, kind.label) for kind in sheets.KINDS],
        "missing": sheets.unavailable(),
        "issued": job.issued_sheets.defer("pdf", "data").select_related("issued_by"),
        "steps": strip.steps(request, job, "sheets"),
        "papers": Workshop.Paper.choices,
        "languages": sheets.LANGUAGES,
    }
    return render(request, "pages/job/sheets.html", context)


def _kind(kind: str) -> SheetKind:
    if kind not in sheets.KINDS:
        raise Http404
    return SheetKind(kind)


def _design(request: HttpRequest, job: Job, kind: SheetKind) -> JobDesign:
    """Work the job out; side by side stand the boxes that were ticked."""
    design = strip.worked_out(request, job)
    if kind != SheetKind.COMPARE:
        return design
    asked = request.GET if request.method == "GET" else request.POST
    return replace(design, boxes=picked(design.boxes, asked.getlist("box")))


@require_safe
def draft(request: HttpRequest, code: str, kind: str) -> HttpResponse:
    """Print a sheet as the job stands now, marked as a draft."""
    job = access.open_job(access.signed_in(request), code)
    wanted = _kind(kind)
    if reason := sheets.unavailable():
        messages.error(request, reason)
        return redirect("sheets", job.code)
    content = sheets.draft(_design(request, job, wanted), wanted, _options(request))
    return _pdf(content, f"{job.code}-{wanted}-draft")


@require_POST
def issue(request: HttpRequest, code: str, kind: str) -> HttpResponse:
    """Freeze a sheet under the next revision."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    wanted = _kind(kind)
    if reason := sheets.unavailable():
        messages.error(request, reason)
        return redirect("sheets", job.code)
    issued = sheets.issue(_design(request, job, wanted), wanted, _options(request), user)
    messages.success(
        request,
        _("Issued: %(sheet)s, revision %(n)s.") % {"sheet": wanted.label, "n": issued.revision},
    )
    return redirect("sheets", job.code)


@require_safe
def issued(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Open an issued sheet exactly as it was printed."""
    sheet = access.open_issued_sheet(access.signed_in(request), code, pk)
    return _pdf(bytes(sheet.pdf), f"{code}-{sheet.kind}-{sheet.revision}")


urlpatterns = [
    path("jobs/<str:code>/sheets/", overview, name="sheets"),
    path("jobs/<str:code>/sheets/issued/<int:pk>/", issued, name="sheet-issued"),
    path("jobs/<str:code>/sheets/<str:kind>/", draft, name="sheet-draft"),
    path("jobs/<str:code>/sheets/<str:kind>/issue/", issue, name="sheet-issue"),
]
