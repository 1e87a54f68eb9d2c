"""What a phone did without signal: sent once, in its order, under its author's sign-in.

Each act carries a key of its own. Its answer is kept with the key, so that an act whose answer was
lost on the way is answered again and not done again.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from django.contrib.auth.decorators import login_not_required
from django.contrib.staticfiles import finders
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse, QueryDict
from django.middleware.csrf import get_token
from django.urls import path
from django.utils import timezone
from django.utils.dateparse import parse_datetime
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from jobs import access, photos
from jobs.design.job.measurements import Measured
from jobs.locks import held
from jobs.models import BayAct, Job, Measurement, Panel, PanelStep, ServiceVisit, User
from jobs.pages.bay import as_built, gone
from jobs.pages.bay.bay import keep_read, set_tick, why_not
from jobs.pages.bay.looked import keep_looked
from jobs.pages.bay.measure import limits_of, set_value
from jobs.pages.bay.notes import keep_note, keep_photo
from jobs.pages.forms.fields import key_of
from jobs.units import UnreadableQuantity, parse, show

DONE, OTHER, CONFLICT, GONE, REFUSED = 200, 401, 409, 410, 422
SKEW = dt.timedelta(minutes=5)  # beyond that the clock of the device is told to be wrong


class Answer(NamedTuple):
    """What came of an act, and what the person is told."""

    status: int
    says: str = ""
    # What was likely meant instead, as it would be typed.
    meant: str = ""


@dataclass(frozen=True, kw_only=True)
class Act:
    """What was done, by whom and when; the photo that came along, or what is wrong with it."""

    job: Job
    user: User
    sent: QueryDict
    at: dt.datetime
    photo: photos.PreparedPhoto | str


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
    photo = _photo_sent(request)
    with held(job):
        kept = BayAct.objects.filter(key=key).first()
        if kept is not None:
            return _answer(Answer(kept.status, kept.says))
        did_at, skew = _when(request)
        answer = _do(Act(job=job, user=user, sent=request.POST, at=did_at, photo=photo))
        if abs(skew) > SKEW:
            clock = _("The clock of this device is wrong: the time was corrected.")
            answer = answer._replace(says=f"{answer.says} {clock}".strip())
        BayAct.objects.create(
            key=key, job=job, author=user, did_at=did_at, status=answer.status,
            says=answer.says[:400],
        )  # fmt: skip
    return _answer(answer)


def _answer(answer: Answer) -> JsonResponse:
    return JsonResponse({"says": answer.says, "meant": answer.meant}, status=answer.status)


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


def _photo_sent(request: HttpRequest) -> photos.PreparedPhoto | str:
    """The photo that came along, or what is wrong with it.

    It is prepared before the job is held: that takes seconds, and whoever writes would wait.
    """
    file = request.FILES.get("photo")
    if file is None:
        return _("No photo came along.")
    try:
        return photos.prepared(file)
    except photos.UnusablePhotoError as error:
        return f"{file.name}: {error}"


def _do(act: Act) -> Answer:
    do = _KINDS.get(act.sent.get("kind", ""))
    return do(act) if do else Answer(REFUSED, _("Not known here."))


def _tick(act: Act) -> Answer:
    pk = key_of(act.sent.get("step")) or 0
    step = PanelStep.with_removed.select_related("done_by").filter(job=act.job, pk=pk).first()
    if step is None:
        return Answer(GONE, _("This step is there no more."))
    if step.removed_at:
        return Answer(GONE, gone.sentence(step))
    wanted = act.sent.get("done") == "1"
    theirs = step.done_by if step.done_at and step.done_by != act.user else None
    words = {"who": theirs.full_name if theirs else "", "step": step.text}
    if theirs and wanted:
        return Answer(DONE, _("%(who)s has ticked this already: %(step)s") % words)
    if step.done_by and not wanted and act.sent.get("sure") != "1":
        words["who"] = step.done_by.full_name
        return Answer(CONFLICT, _("%(who)s ticked “%(step)s”. Take the tick back?") % words)
    if wanted and step.done_at is None and (refused := why_not(step, act.user, act.at)):
        return Answer(REFUSED, f"{step.text}: {refused}")
    set_tick(step, act.user, done=wanted, at=act.at)
    return Answer(DONE)


def _value(act: Act) -> Answer:
    pk = key_of(act.sent.get("value")) or 0
    row = Measurement.with_removed.select_related("measured_by").filter(job=act.job, pk=pk).first()
    if row is None:
        return Answer(GONE, _("This value is asked for no more."))
    if row.removed_at:
        return Answer(GONE, gone.sentence(row))
    text, sure = act.sent.get("text", "").strip(), act.sent.get("sure") == "1"
    try:
        value = parse(text, row.kind)
    except UnreadableQuantity as problem:
        return Answer(REFUSED, f"{row.name}: {problem.message}")
    if value == row.value:
        who = row.measured_by.full_name if row.measured_by else "–"
        return Answer(DONE, _("%(who)s has written the same down already.") % {"who": who})
    limits = limits_of(act.job, row)
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
        return Answer(CONFLICT, says % words, words["meant"])
    if row.value is not None and act.sent.get("version") != str(row.version) and not sure:
        says = _("%(name)s: %(who)s wrote %(theirs)s meanwhile; yours is %(yours)s.")
        return Answer(CONFLICT, says % words)
    set_value(act.job, row, act.user, value, act.at)
    verdict = limits.verdict(value) if limits.known else ""
    if verdict in {"look", "stop"}:
        says = _("Not as expected: %(name)s is %(yours)s, expected %(expected)s.")
        return Answer(DONE, says % words)
    return Answer(DONE)


def _panel(act: Act) -> Panel | None:
    pk = key_of(act.sent.get("panel")) or 0
    return Panel.with_removed.filter(job=act.job, pk=pk).first()


def _caution(act: Act) -> Answer:
    panel = _panel(act)
    if panel is None and act.sent.get("panel"):
        return Answer(GONE, _("This panel is there no more."))
    keep_read(act.job, panel, act.user, act.at)
    return Answer(DONE)


def _looked(act: Act) -> Answer:
    panel = _panel(act)
    if panel is None:
        return Answer(GONE, _("This panel is there no more."))
    if panel.removed_at:
        return Answer(GONE, gone.sentence(panel))
    refused = keep_looked(panel, act.sent.get("what", ""), act.sent.get("there", ""))
    return Answer(REFUSED, refused) if refused else Answer(DONE)


def _note(act: Act) -> Answer:
    sent = {
        "kind": act.sent.get("note", ""),
        **{name: act.sent.get(name, "") for name in ("text", "minutes", "fixing")},
    }
    panel = _panel(act)
    says = keep_note(act.job, act.user, panel, sent)
    return Answer(REFUSED, says) if says else Answer(DONE, gone.kept_with(panel) if panel else "")


def _photo(act: Act) -> Answer:
    if act.sent.get("visit"):
        return _photo_of_visit(act)
    panel = _panel(act)
    if panel is None:
        return Answer(GONE, _("This panel is there no more."))
    if isinstance(act.photo, str):
        return Answer(REFUSED, act.photo)
    meant = act.sent.get("step", "")
    step = PanelStep.objects.filter(panel=panel, pk=key_of(meant) or 0).first()
    keep_photo(act.job, act.user, act.photo, panel=panel, step=step, at=act.at)
    return Answer(DONE, gone.kept_with(panel, step, for_step=bool(meant)))


def _photo_of_visit(act: Act) -> Answer:
    pk = key_of(act.sent.get("visit")) or 0
    visit = ServiceVisit.with_removed.filter(job=act.job, pk=pk).first()
    if visit is None:
        return Answer(GONE, _("This visit is there no more."))
    if isinstance(act.photo, str):
        return Answer(REFUSED, act.photo)
    keep_photo(act.job, act.user, act.photo, visit=visit, at=act.at)
    return Answer(DONE, gone.kept_with(visit))


def _row(act: Act) -> Answer:
    slug, pk = act.sent.get("row", ""), key_of(act.sent.get("pk"))
    if slug not in as_built.AS_BUILT:
        return Answer(REFUSED, _("Not known here."))
    sent, sure = QueryDict(act.sent.get("form", "")), act.sent.get("sure") == "1"
    kept = as_built.keep(slug, act.job, act.user, sent, pk=pk, at=act.at, sure=sure)
    return Answer(CONFLICT if kept.asks else REFUSED if kept.refused else DONE, kept.says)


_KINDS: dict[str, Callable[[Act], Answer]] = {
    "tick": _tick,
    "caution": _caution,
    "looked": _looked,
    "value": _value,
    "note": _note,
    "photo": _photo,
    "row": _row,
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
