"""What a phone did without signal: sent once, in its order, under its author's sign-in.

Each act carries a key of its own. Its answer is kept with the key, so that an act whose answer was
lost on the way is answered again and not done again.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from django.contrib.auth.decorators import login_not_required
from django.contrib.staticfiles import finders
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.urls import path
from django.utils import timezone
from django.utils.dateparse import parse_datetime
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from jobs import access
from jobs.design.job import board_counts
from jobs.design.job.measurements import Measured
from jobs.locks import held
from jobs.models import BayAct, Job, Measurement, Panel, PanelStep, User
from jobs.pages.bay.bay import set_tick, why_not
from jobs.pages.bay.measure import limits_of
from jobs.pages.bay.notes import keep_note, keep_photo
from jobs.pages.forms.fields import key_of
from jobs.units import UnreadableQuantity, parse, show

DONE, OTHER, CONFLICT, GONE, REFUSED = 200, 401, 409, 410, 422
SKEW = dt.timedelta(minutes=5)  # beyond that the clock of the device is told to be wrong


class Answer(NamedTuple):
    """What came of an act, and what the person is told."""

    status: int
    says: str = ""


@require_http_methods(["GET", "POST"])
def acts(request: HttpRequest, code: str) -> HttpResponse:
    """GET: say who is signed in. POST: do one act, once."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    if request.method == "GET":
        return JsonResponse({"who": user.pk, "token": get_token(request)})
    access.require(access.may_record(user))
    # Whoever is signed in now may not be who did it: an act is signed by its author only.
    if request.POST.get("author") != str(user.pk):
        return _answer(Answer(OTHER, _("This was done under another sign-in.")))
    try:
        key = uuid.UUID(request.POST.get("key", ""))
    except ValueError:
        return _answer(Answer(REFUSED, _("This act has no key.")))
    with held(job):
        kept = BayAct.objects.filter(key=key).first()
        if kept is not None:
            return _answer(Answer(kept.status, kept.says))
        did_at, skew = _when(request)
        answer = _do(request, job, user, key, did_at)
        if abs(skew) > SKEW:
            clock = _("The clock of this device is wrong: the time was corrected.")
            answer = Answer(answer.status, f"{answer.says} {clock}".strip())
        BayAct.objects.create(
            key=key, job=job, author=user, did_at=did_at, status=answer.status,
            says=answer.says[:400],
        )  # fmt: skip
    return _answer(answer)


def _answer(answer: Answer) -> JsonResponse:
    return JsonResponse({"says": answer.says}, status=answer.status)


def _when(request: HttpRequest) -> tuple[dt.datetime, dt.timedelta]:
    """When it was done by our clock, and how far the clock of the device is off."""
    now = timezone.now()
    did, sent = (_time(request.POST.get(name, "")) for name in ("at", "sent"))
    if did is None or sent is None:
        return now, dt.timedelta()
    skew = sent - now
    return min(now, did - skew), skew


def _time(text: str) -> dt.datetime | None:
    try:
        time = parse_datetime(text)
    except ValueError:
        return None
    return time if time and time.tzinfo else None


def _do(request: HttpRequest, job: Job, user: User, key: uuid.UUID, at: dt.datetime) -> Answer:
    do = _KINDS.get(request.POST.get("kind", ""))
    return do(request, job, user, key, at) if do else Answer(REFUSED, _("Not known here."))


def _gone(row: PanelStep | Measurement | Panel) -> Answer:
    by = row.removed_by()
    words = {"row": str(row).rstrip("."), "who": by.full_name if by else "–"}
    return Answer(GONE, _("%(who)s has removed “%(row)s” meanwhile.") % words)


def _tick(request: HttpRequest, job: Job, user: User, key: uuid.UUID, at: dt.datetime) -> Answer:
    pk = key_of(request.POST.get("step")) or 0
    step = PanelStep.with_removed.select_related("done_by").filter(job=job, pk=pk).first()
    if step is None:
        return Answer(GONE, _("This step is there no more."))
    if step.removed_at:
        return _gone(step)
    wanted = request.POST.get("done") == "1"
    theirs = step.done_by if step.done_at and step.done_by != user else None
    words = {"who": theirs.full_name if theirs else "", "step": step.text}
    if theirs and wanted:
        return Answer(DONE, _("%(who)s has ticked this already: %(step)s") % words)
    if theirs and request.POST.get("sure") != "1":
        return Answer(CONFLICT, _("%(who)s ticked “%(step)s”. Take the tick back?") % words)
    if wanted and step.done_at is None and (refused := why_not(step)):
        return Answer(REFUSED, f"{step.text}: {refused}")
    set_tick(step, user, done=wanted, at=at)
    return Answer(DONE)


def _value(request: HttpRequest, job: Job, user: User, key: uuid.UUID, at: dt.datetime) -> Answer:
    pk = key_of(request.POST.get("value")) or 0
    row = Measurement.with_removed.select_related("measured_by").filter(job=job, pk=pk).first()
    if row is None:
        return Answer(GONE, _("This value is asked for no more."))
    if row.removed_at:
        return _gone(row)
    text, sure = request.POST.get("text", "").strip(), request.POST.get("sure") == "1"
    try:
        value = parse(text, row.kind)
    except UnreadableQuantity as problem:
        return Answer(REFUSED, f"{row.name}: {problem.message}")
    if value == row.value:
        who = row.measured_by.full_name if row.measured_by else "–"
        return Answer(DONE, _("%(who)s has written the same down already.") % {"who": who})
    limits = limits_of(job, row)
    meant = limits.slip(value)
    words = {
        "name": row.name,
        "yours": show(value, row.kind),
        "meant": show(meant, row.kind) if meant is not None else "",
        "expected": Measured(row=row, limits=limits).expected,
        "theirs": show(row.value, row.kind) if row.value is not None else "",
        "who": row.measured_by.full_name if row.measured_by else "–",
    }
    if meant is not None and not sure:
        says = _("%(name)s: %(yours)s; %(expected)s is expected. Was it %(meant)s?")
        return Answer(CONFLICT, says % words)
    if row.value is not None and request.POST.get("version") != str(row.version) and not sure:
        says = _("%(name)s: %(who)s wrote %(theirs)s meanwhile; yours is %(yours)s.")
        return Answer(CONFLICT, says % words)
    row.value, row.measured_by, row.measured_at = value, user, at
    row.version += 1
    row.save()
    board_counts.refresh(job)
    verdict = limits.verdict(value) if limits.known else ""
    if verdict in {"look", "stop"}:
        says = _("Not as expected: %(name)s is %(yours)s, expected %(expected)s.")
        return Answer(DONE, says % words)
    return Answer(DONE)


def _panel(request: HttpRequest, job: Job) -> Panel | None:
    pk = key_of(request.POST.get("panel")) or 0
    return Panel.with_removed.filter(job=job, pk=pk).first()


def _note(request: HttpRequest, job: Job, user: User, key: uuid.UUID, at: dt.datetime) -> Answer:
    sent = {
        "kind": request.POST.get("note", ""),
        **{name: request.POST.get(name, "") for name in ("text", "minutes", "fixing")},
    }
    says = keep_note(job, user, _panel(request, job), sent, key)
    return Answer(REFUSED, says) if says else Answer(DONE)


def _photo(request: HttpRequest, job: Job, user: User, key: uuid.UUID, at: dt.datetime) -> Answer:
    panel, file = _panel(request, job), request.FILES.get("photo")
    if panel is None:
        return Answer(GONE, _("This panel is there no more."))
    if file is None:
        return Answer(REFUSED, _("No photo came along."))
    step = PanelStep.objects.filter(panel=panel, pk=key_of(request.POST.get("step")) or 0).first()
    says = keep_photo(job, user, panel, step, file, key)
    return Answer(REFUSED, f"{file.name}: {says}") if says else Answer(DONE)


_KINDS: dict[str, Callable[[HttpRequest, Job, User, uuid.UUID, dt.datetime], Answer]] = {
    "tick": _tick,
    "value": _value,
    "note": _note,
    "photo": _photo,
}


@login_not_required
@require_safe
def worker(request: HttpRequest) -> HttpResponse:
    """Send the script that keeps the bay open without signal; from the root, so for every car."""
    path_of = finders.find("jobs/js/worker.js")
    if not isinstance(path_of, str):
        raise Http404
    response = HttpResponse(Path(path_of).read_bytes(), content_type="text/javascript")
    response["Cache-Control"] = "no-cache"
    return response


urlpatterns = [
    path("jobs/<str:code>/bay/acts/", acts, name="bay-acts"),
    path("worker.js", worker, name="worker"),
]
