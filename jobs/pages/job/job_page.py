"""One job at a glance: where it stands, who does what next, whom to call; and its stage."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.contrib import messages
from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST, require_safe

from jobs import access
from jobs.compiled import compiled
from jobs.design.agreement.agreed import work_out_account
from jobs.design.job import board_counts
from jobs.design.job.due import cured_by
from jobs.design.job.gates import Open
from jobs.design.job.stages import (
    as_left,
    let_go,
    next_stage,
    open_before,
    open_before_handover,
    release_of,
)
from jobs.design.job.whole import JobDesign, load, work_out
from jobs.drawings.wiring import wiring_pictures
from jobs.drawings.wood import wood_pictures
from jobs.locks import held
from jobs.models import Job, Photo, Role, Stage, StageRelease, User
from jobs.models.bay import LONGEST
from jobs.pages.forms import strip
from jobs.pages.forms.fields import written

MOST_TASKS = 5  # of one person, before the rest is counted


@dataclass(frozen=True, kw_only=True)
class Task:
    """Something somebody does next: in words, and the page where it is done."""

    says: str
    page: str
    mark: str = "missing"
    query: str = ""


@dataclass(frozen=True, kw_only=True)
class Person:
    """What waits for the people of one role."""

    role: Role
    name: str
    tasks: Sequence[Task]
    more: int


@dataclass(frozen=True, kw_only=True)
class Asked:
    """A stage that was asked for, and what stands in its way."""

    stage: Stage
    still: Sequence[Open]
    reason: str = ""
    wrong: str = ""


@require_safe
def job(request: HttpRequest, code: str) -> HttpResponse:
    """Show one job at a glance: where it stands, what comes next, and for whom."""
    opened = access.open_job(access.signed_in(request), code)
    return _page(request, opened)


def _page(request: HttpRequest, opened: Job, asked: Asked | None = None) -> HttpResponse:
    user = access.signed_in(request)
    design = strip.worked_out(request, opened)
    to = next_stage(opened.stage)
    still = open_before(to, design) if to else []
    word = release_of(to, design) if to else None
    context = {
        "job": opened,
        "steps": strip.steps(request, opened, ""),
        "stages": Stage.labels,
        "stage_choices": [(stage, stage.label) for stage in Stage if stage != opened.stage],
        "to": to,
        "missing": still,
        "release": word if word and still and let_go(still, word) == still else None,
        "people": _people(design, still),
        "at_the_end": len(open_before_handover(design)),
        "visits": _visits(opened.vehicle_id, opened.pk),
        "photo": _photo(design.records.photos),
        "pictures": _pictures(design),
        "account": access.may_see_prices(user) and work_out_account(design.records, design.price),
        "asked": asked,
        "may_spec": access.may_spec(user),
        "may_release": access.may_release(user),
    }
    status = 200 if asked is None else 422 if asked.wrong else 409
    return render(request, "pages/job/job.html", context, status=status)


@compiled
def _visits(vehicle: int, but: int) -> QuerySet[Job]:
    return Job.objects.filter(vehicle=vehicle).exclude(pk=but)


def _photo(photos: Sequence[Photo]) -> Photo | None:
    """The newest photo of the job that shows nobody."""
    shown = [photo for photo in photos if photo.small and not photo.shows_person]
    return max(shown, key=lambda photo: photo.pk, default=None)


def _pictures(design: JobDesign) -> list[tuple[str, str, SafeString]]:
    """The box that is built and the power tree, small: address, words, drawing."""
    built = (row for row in design.boxes if row.box.chosen and row.wood)
    box = next(built, None)
    pictures = [("boxes", box.box.name, wood_pictures.whole(box, "glance")[1])] if box else []
    pictures += [
        ("power", _("Power tree"), tree) for tree in wiring_pictures.power(design, brief=True)[:1]
    ]
    return pictures


def _people(design: JobDesign, still: Sequence[Open]) -> list[Person]:
    """What each person does next: what the next stage lacks, and findings that are open."""
    consultant = design.job.consultant
    people = []
    for role in Role:
        tasks = _tasks(role, design, still)
        if tasks:
            name = consultant.full_name if consultant and role == Role.CONSULTANT else ""
            more = len(tasks) - MOST_TASKS
            people.append(Person(role=role, name=name, tasks=tasks[:MOST_TASKS], more=more))
    return people


def _tasks(role: Role, design: JobDesign, still: Sequence[Open]) -> list[Task]:
    stops = [
        Task(says=stop.says, page=stop.section, mark="stop")
        for stop in design.open_stops
        if cured_by(stop) == role
    ]
    # Findings are counted below, whatever stage they keep shut.
    lacks = [
        Task(says=item.says, page=item.page)
        for item in still
        if item.who == role and item.page != "findings" and item.code != "stops"
    ]
    looks = sum(cured_by(look) == role for look in design.open_looks)
    words = ngettext("%(n)d finding to decide", "%(n)d findings to decide", looks)
    says = words % {"n": looks}
    decide = [Task(says=says, page="findings", mark="look", query=f"?who={role}")] if looks else []
    return [*stops, *lacks, *decide]


@require_POST
def move(request: HttpRequest, code: str) -> HttpResponse:
    """Take a job to another stage: through its gates, or on the manager's word."""
    user = access.signed_in(request)
    access.open_job(user, code)
    access.require(access.may_spec(user))
    to = request.POST.get("to", "")
    if to not in Stage.values:
        raise Http404
    opened = access.open_job(user, code)
    with held(opened):
        opened.refresh_from_db()
        if request.POST.get("from", opened.stage) != opened.stage:
            words = {"stage": opened.get_stage_display()}
            messages.info(request, _("Somebody moved this job meanwhile: %(stage)s.") % words)
            return redirect("job", code)
        asked = _asked(request, opened, Stage(to), user)
        if asked is None:
            opened.stage = to
            if to == Stage.HANDED_OVER or (to == Stage.AFTERCARE and not opened.left_on):
                opened.left_on = timezone.localdate()
            opened.version += 1
            opened.save()
            board_counts.forget(opened)
            messages.success(request, _("Now: %(stage)s.") % {"stage": Stage(to).label})
            return redirect("job", code)
    return _page(request, opened, asked)


def _asked(request: HttpRequest, opened: Job, to: Stage, user: User) -> Asked | None:
    """Return what stands in the way; nothing where the manager says why it goes on."""
    design = work_out(load(opened))
    still = open_before(to, design)
    if let_go(still, release_of(to, design)) == still:
        return None
    reason = written(request, "reason")
    if "reason" not in request.POST:
        return Asked(stage=to, still=still)
    access.require(access.may_release(user))
    if not reason or len(reason) > LONGEST:
        wrong = _("Say why, in %(most)s characters at most: it is printed.") % {"most": LONGEST}
        return Asked(stage=to, still=still, reason=reason, wrong=wrong)
    StageRelease.objects.create(
        job=opened,
        stage=to,
        left_open=as_left(still),
        reason=reason,
        released_by=user,
        released_at=timezone.now(),
    )
    return None


urlpatterns = [
    path("jobs/<str:code>/", job, name="job"),
    path("jobs/<str:code>/stage/", move, name="stage"),
]
