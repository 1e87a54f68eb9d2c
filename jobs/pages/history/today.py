"""The workshop today, for its manager: in the bay, late, waiting, and who did what."""

from __future__ import annotations

import datetime as dt
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from django.db.models import Count, F, Q, QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_safe

from jobs import access
from jobs.models import EquipmentItem, Job, JobPart, Stage, User
from jobs.pages.history.kinds import KINDS

MOST = 20  # of one list, before the rest is counted
SOON = dt.timedelta(days=7)
GONE = (Stage.HANDED_OVER, Stage.AFTERCARE)
ON_THE_CAR = (Stage.BAY, Stage.SET_UP)
WANTS_PARTS = (Stage.AGREED, Stage.PARTS, *ON_THE_CAR)


@dataclass(frozen=True, kw_only=True)
class Line:
    """A job, and why it stands on the list."""

    job: Job
    says: str
    page: str = "job"


@dataclass(frozen=True, kw_only=True)
class Listed:
    """One list of the page."""

    title: str
    empty: str
    lines: Sequence[Line]
    more: int


@require_safe
def today(request: HttpRequest) -> HttpResponse:
    """Show the manager what is in the bay, late or waiting, and what was done today."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_manage(user))
    jobs = access.visible_jobs(user)
    day = timezone.localdate()
    context = {
        "day": day,
        "lists": [
            *(_in_the_bay(jobs), _late(jobs, day), _soon(jobs, day)),
            *(_for_parts(jobs), _for_the_customer(jobs, day), _stopped(jobs)),
        ],
        "people": who_did_what(user, timezone.localtime().replace(hour=0, minute=0, second=0)),
    }
    return render(request, "pages/history/today.html", context)


def _listed(title: str, empty: str, jobs: QuerySet[Job], says: Any, page: str = "job") -> Listed:
    rows = list(jobs[: MOST + 1])
    more = jobs.count() - MOST if len(rows) > MOST else 0
    lines = [Line(job=job, says=says(job), page=page) for job in rows[:MOST]]
    return Listed(title=title, empty=empty, lines=lines, more=more)


def _in_the_bay(jobs: QuerySet[Job]) -> Listed:
    steps = Q(panelsteps__removed_at=None)
    counted = jobs.filter(stage__in=ON_THE_CAR).annotate(
        all_steps=Count("panelsteps", filter=steps),
        done_steps=Count("panelsteps", filter=steps & Q(panelsteps__done_at__isnull=False)),
    )

    def says(job: Any) -> str:
        words = _("%(stage)s, %(done)s of %(all)s steps")
        stage = job.get_stage_display()
        return words % {"stage": stage, "done": job.done_steps, "all": job.all_steps}

    title, empty = _("In the bay"), _("No car is in the bay.")
    return _listed(title, empty, counted.order_by("promised_on", "pk"), says, "bay")


def _going_on(jobs: QuerySet[Job]) -> QuerySet[Job]:
    return jobs.filter(halt="").exclude(stage__in=GONE)


def _late(jobs: QuerySet[Job], day: dt.date) -> Listed:
    def says(job: Job) -> str:
        assert job.promised_on is not None
        days = (day - job.promised_on).days
        words = ngettext("%(n)s day late, %(stage)s", "%(n)s days late, %(stage)s", days)
        return words % {"n": days, "stage": job.get_stage_display()}

    late = _going_on(jobs).filter(promised_on__lt=day).order_by("promised_on", "pk")
    return _listed(_("Late"), _("Nothing is late."), late, says)


def _soon(jobs: QuerySet[Job], day: dt.date) -> Listed:
    def says(job: Job) -> str:
        return f"{_date(job.promised_on)}, {job.get_stage_display()}"

    soon = _going_on(jobs).filter(promised_on__gte=day, promised_on__lte=day + SOON)
    title, empty = _("Promised within a week"), _("Nothing is promised within a week.")
    return _listed(title, empty, soon.order_by("promised_on", "pk"), says)


def _for_parts(jobs: QuerySet[Job]) -> Listed:
    State = EquipmentItem.State
    to_come = EquipmentItem.objects.filter(
        state__in=(State.TO_ORDER, State.ORDERED), job__stage__in=WANTS_PARTS, job__halt=""
    )
    names: dict[int, list[str]] = defaultdict(list)
    for item in to_come.select_related("part"):
        names[item.job_id].append(f"{item.part} ({item.get_state_display()})")
    waiting = jobs.filter(pk__in=names).order_by("promised_on", "pk")
    title, empty = _("Waiting for parts"), _("No job waits for parts.")
    return _listed(title, empty, waiting, lambda job: ", ".join(names[job.pk]), "equipment")


def _for_the_customer(jobs: QuerySet[Job], day: dt.date) -> Listed:
    """On hold, and specs that wait for a yes."""

    def says(job: Job) -> str:
        if not job.halt:
            return _("spec: waits for a yes")
        again = job.look_again_on
        when = _("look again on %(day)s") % {"day": _date(again)} if again else ""
        due = _("look again today") if again and again <= day else when
        return " · ".join(part for part in (job.halt_why, due) if part)

    waiting = jobs.filter(Q(halt=Job.Halt.ON_HOLD) | Q(halt="", stage=Stage.SPEC))
    title, empty = _("Waiting for the customer"), _("No job waits for its customer.")
    return _listed(title, empty, waiting.order_by(F("look_again_on").asc(nulls_last=True)), says)


def _stopped(jobs: QuerySet[Job]) -> Listed:
    def says(job: Job) -> str:
        n = job.open_stops or 0
        return ngettext("%(n)s stop", "%(n)s stops", n) % {"n": n}

    stopped = _going_on(jobs).filter(open_stops__gt=0).order_by("-open_stops", "pk")
    title, empty = _("With an open stop"), _("No job has an open stop.")
    return _listed(title, empty, stopped, says, "findings")


def _date(day: dt.date | None) -> str:
    return date_format(day, "SHORT_DATE_FORMAT") if day else ""


def who_did_what(user: User, since: dt.datetime) -> list[tuple[str, list[tuple[str, int]]]]:
    """Return, by person, the jobs they wrote on since then and how often."""
    entries = [
        _written(kind.model, since) for kind in KINDS.values() if _is_of_a_job(kind.model)
    ]  # fmt: skip
    counts = Counter(entries[0].union(*entries[1:], all=True).order_by())
    people = User.objects.in_bulk({who for who, _job in counts if who})
    codes = {job.pk: job.code for job in access.visible_jobs(user).filter(pk__in=_jobs(counts))}
    by_person: dict[str, list[tuple[str, int]]] = defaultdict(list)
    for (who, job), n in sorted(counts.items(), key=lambda pair: -pair[1]):
        if who in people and job in codes:
            by_person[people[who].full_name].append((codes[job], n))
    return sorted(by_person.items())


def _jobs(counts: Iterable[tuple[int | None, int]]) -> set[int]:
    return {job for _who, job in counts}


def _is_of_a_job(model: Any) -> bool:
    return model is Job or issubclass(model, JobPart)


def _written(model: Any, since: dt.datetime) -> QuerySet[Any]:
    of = "id" if model is Job else "job_id"
    entries: QuerySet[Any] = model.history.filter(history_date__gte=since).order_by()
    return entries.values_list("history_user_id", of)


urlpatterns = [path("today/", today, name="today")]
