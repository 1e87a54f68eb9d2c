"""Before hand-over: each check signed by a person; the manager alone lets a car go without."""

from __future__ import annotations

from dataclasses import dataclass

from django.contrib import messages
from django.core.files.base import ContentFile
from django.http import FileResponse, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from jobs import access, tester_files
from jobs.design.job.electronics import BY_YES_OR_NO, WITH_FILE, questions
from jobs.design.job.handover_gate import Check, gate_checks
from jobs.design.job.stages import as_left, let_go, open_before_handover, release_of
from jobs.design.job.whole import load, work_out
from jobs.locks import held
from jobs.models import CarAnswer, GateSign, Job, Stage, StageRelease
from jobs.models.bay import LONGEST
from jobs.pages.forms import strip
from jobs.pages.forms.fields import written

MOST_WORDS = 4000
YES_OR_NO = {"1": True, "0": False}


@dataclass(frozen=True, kw_only=True)
class Refused:
    """An answer that was not taken: what was typed, and why."""

    question: str
    text: str
    says: str


@require_safe
def gate(request: HttpRequest, code: str) -> HttpResponse:
    """Show what is signed and what is open before the car goes."""
    return _page(request, code)


def _page(
    request: HttpRequest,
    code: str,
    *,
    reason: str = "",
    wrong: str = "",
    refused: Refused | None = None,
    asked: Check | None = None,
) -> HttpResponse:
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    still = open_before_handover(design)
    word = release_of(Stage.HANDED_OVER, design)
    context = {
        "job": job,
        "checks": gate_checks(design.records),
        "asked": asked,
        "questions": questions(design.records),
        "refused": refused,
        "open": still,
        "to_sign": sum(item.to_sign for item in still),
        "may_go": let_go(still, word) == still,
        "release": word,
        "may_release": access.may_release(user),
        "reason": reason,
        "wrong": wrong,
        "steps": strip.steps(request, job, "bay"),
    }
    status = 422 if wrong or refused else 409 if asked else 200
    return render(request, "pages/bay/gate.html", context, status=status)


@require_POST
def sign(request: HttpRequest, code: str) -> HttpResponse:
    """Sign one check, or take a word back once that is said again: a thumb taps twice."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    named = (request.POST.get("check", ""), request.POST.get("of", ""))
    takes_back = request.POST.get("signed") == "0"
    with held(job):
        checks = {(check.code, check.key): check for check in gate_checks(load(job))}
        check = checks.get(named)
        sign = check.sign if check else None
        theirs = sign if sign and sign.signed_by != user else None
        asks = sign is not None and takes_back and "sure" not in request.POST
        if check is None:
            messages.error(request, _("This is not asked of this car any more."))
        elif sign and takes_back and not asks:
            sign.remove()
        elif sign is None and not takes_back:
            GateSign.objects.create(
                job=job, code=check.code, subject=check.key, signed_by=user,
                signed_at=timezone.now(),
            )  # fmt: skip
    if asks:
        return _page(request, code, asked=check)
    if check and theirs and not takes_back:
        words = {"who": theirs.signed_by.full_name, "check": check.says}
        messages.info(request, _("%(who)s has signed this already: %(check)s") % words)
    return redirect("gate", job.code)


@require_POST
def answer(request: HttpRequest, code: str) -> HttpResponse:
    """Write down what was read or taught; what was written before stays in the history."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    asked, text = request.POST.get("question", ""), written(request, "text")
    yes = YES_OR_NO.get(request.POST.get("yes", "")) if asked in BY_YES_OR_NO else None
    file, says = _report(request, asked)
    with held(job):
        known = {question.code: question.answer for question in questions(load(job))}
        row = known.get(asked)
        changed = row is None or (row.text, row.yes) != (text, yes) or file is not None
        if says:
            pass  # what was typed stays, with what is wrong with the file
        elif asked not in known or not _is_answer(asked, yes, text or file, row):
            messages.error(request, _("There is nothing to write down yet."))
        elif len(text) > MOST_WORDS:
            says = _("At most %(most)s characters.") % {"most": MOST_WORDS}
        elif row and changed and request.POST.get("version") != str(row.version):
            says = _(
                "%(who)s wrote “%(theirs)s” meanwhile. Send again to put yours in its place; "
                "theirs stays in the history."
            ) % {"who": row.written_by.full_name, "theirs": row.says}
        elif changed:
            row = row or CarAnswer(job=job, code=asked)
            if file is not None:
                row.report, row.report_name = file, file.name or ""
            row.text, row.yes = text, yes
            row.written_by, row.written_at = user, timezone.now()
            row.version += row.pk is not None
            row.save()
    if says:
        return _page(request, code, refused=Refused(question=asked, text=text, says=says))
    return redirect("gate", job.code)


def _is_answer(asked: str, yes: bool | None, sent: object, row: CarAnswer | None) -> bool:
    """Whether anything was said; a file that was kept before still answers."""
    if asked in BY_YES_OR_NO:
        return yes is not None
    return bool(sent or (row and row.report))


def _report(request: HttpRequest, asked: str) -> tuple[ContentFile[bytes] | None, str]:
    """The tester's file that came along, and what is wrong with it."""
    sent = request.FILES.get("report")
    if sent is None or asked not in WITH_FILE:
        return None, ""
    try:
        return tester_files.prepared(sent), ""
    except tester_files.UnusableFileError as error:
        return None, f"{sent.name}: {error}"


@require_safe
def report(request: HttpRequest, code: str, pk: int) -> FileResponse:
    """Hand out a tester's file, to be kept and not to be shown: a browser runs none of it."""
    job = access.open_job(access.signed_in(request), code)
    row = get_object_or_404(CarAnswer.objects.exclude(report=""), job=job, pk=pk)
    return FileResponse(
        row.report.open("rb"), as_attachment=True, filename=row.report_name,
        content_type="application/octet-stream",
    )  # fmt: skip


@require_POST
def release(request: HttpRequest, code: str) -> HttpResponse:
    """Let the car go with something open: the manager only, with a reason that is printed."""
    user = access.signed_in(request)
    job: Job = access.open_job(user, code)
    access.require(access.may_release(user))
    reason = written(request, "reason")
    if not reason or len(reason) > LONGEST:
        wrong = _("Say why, in %(most)s characters at most: it is printed.") % {"most": LONGEST}
        return _page(request, code, reason=reason, wrong=wrong)
    with held(job):
        still = open_before_handover(work_out(load(job)))
        if still:
            StageRelease.objects.create(
                job=job,
                left_open=as_left(still),
                reason=reason,
                released_by=user,
                released_at=timezone.now(),
            )
    return redirect("gate", job.code)


urlpatterns = [
    path("jobs/<str:code>/before-hand-over/", gate, name="gate"),
    path("jobs/<str:code>/before-hand-over/sign/", sign, name="gate-sign"),
    path("jobs/<str:code>/before-hand-over/answer/", answer, name="gate-answer"),
    path("jobs/<str:code>/before-hand-over/answer/<int:pk>/file/", report, name="gate-report"),
    path("jobs/<str:code>/before-hand-over/release/", release, name="gate-release"),
]
