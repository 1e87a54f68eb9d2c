"""The bay: today's cars; on one car, tick what was done and see what the others ticked."""

from __future__ import annotations

import datetime as dt

from django.contrib import messages
from django.db.models import Count, Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from jobs import access
from jobs.design.job.barred import bars_of
from jobs.design.job.closing import closing_of
from jobs.locks import held
from jobs.models import CautionRead, Job, Panel, PanelClosing, PanelStep, Stage, User
from jobs.pages.bay import gone
from jobs.pages.bay.page import newest, page, read_on
from jobs.pages.forms.fields import key_of

STEP_KIND = "step"
IN_HAND = (Stage.BAY, Stage.SET_UP)
MOST_NEWS = 50  # steps that others ticked since, in one answer


@require_safe
def cars(request: HttpRequest) -> HttpResponse:
    """List the cars that are in the bay today."""
    user = access.signed_in(request)
    access.require_member(user)
    here = Q(panelsteps__removed_at=None, panelsteps__panel__removed_at=None)
    rows = (
        access.visible_jobs(user)
        .filter(stage__in=IN_HAND)
        .annotate(
            all_steps=Count("panelsteps", filter=here),
            done_steps=Count("panelsteps", filter=here & Q(panelsteps__done_at__isnull=False)),
        )
        .order_by("promised_on", "number")
    )
    return render(request, "pages/bay/cars.html", {"rows": rows})


@require_safe
def bay(request: HttpRequest, code: str) -> HttpResponse:
    """Show what is to do behind each panel and what is to measure."""
    return page(request, code)


@require_POST
def read(request: HttpRequest, code: str) -> HttpResponse:
    """Fold the cautions for today: this person has read them."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_record(user))
    keep_read(job, None, user)
    return redirect("bay", job.code)


@require_safe
def news(request: HttpRequest, code: str) -> HttpResponse:
    """Answer a page that is open with the steps others have ticked since."""
    job = access.open_job(access.signed_in(request), code)
    after = key_of(request.GET.get("after")) or 0
    entries = PanelStep.history.filter(job=job, history_id__gt=after)
    keys = set(entries.values_list("id", flat=True)[:MOST_NEWS])
    context = {
        "job": job,
        "seen": newest(job) if keys else after,
        "changed": PanelStep.objects.filter(pk__in=keys, panel__removed_at=None).select_related(
            "done_by"
        ),
    }
    return render(request, "parts/bay/news.html", context)


@require_POST
def tick(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Tick a step, or take the tick back once that is said again: a thumb taps twice."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    wanted = request.POST.get("done") == "1"
    with held(job):
        step = get_object_or_404(PanelStep.with_removed.select_related("done_by"), job=job, pk=pk)
        if step.removed_at:
            return gone.told(request, job, step, STEP_KIND)
        theirs = step.done_at is not None and step.done_by != user
        asks = step.done_at is not None and not wanted and "sure" not in request.POST
        refused = why_not(step, user) if wanted and step.done_at is None else ""
        if not asks and not refused:
            set_tick(step, user, done=wanted)
    if request.headers.get("HX-Request"):
        told = theirs and wanted
        context = {"job": job, "step": step, "asked": step if asks else None, "told": told}
        return render(request, "parts/bay/tick.html", context | {"refused": refused})
    if asks:
        return page(request, code, asked=step)
    if refused:
        messages.error(request, refused)
    if theirs and wanted:
        done = {"who": step.done_by and step.done_by.full_name, "step": step}
        messages.info(request, _("%(who)s has ticked this already: %(step)s") % done)
    return redirect(f"{reverse('bay', args=[job.code])}#step-{step.pk}")


def keep_read(job: Job, panel: Panel | None, user: User, at: dt.datetime | None = None) -> None:
    """Write down that somebody has read the cautions of a panel, or of the car, on that day."""
    day = timezone.localdate(at)
    CautionRead.objects.get_or_create(job=job, panel=panel, read_by=user, read_on=day)


@require_POST
def caution(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Let somebody begin behind a panel today: they have read what to mind there."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_record(user))
    with held(job):
        panel = get_object_or_404(Panel, job=job, pk=pk)
        keep_read(job, panel, user)
    return redirect(f"{reverse('bay', args=[job.code])}#panel-{panel.pk}")


def set_tick(step: PanelStep, user: User, *, done: bool, at: dt.datetime | None = None) -> None:
    """Write a tick down, or take it back; the first name stays."""
    if done != (step.done_at is not None):
        step.done_by, step.done_at = (user, at or timezone.now()) if done else (None, None)
        step.version += 1
        step.save()


def why_not(step: PanelStep, user: User, at: dt.datetime | None = None) -> str:
    """Why a step cannot be ticked now, in words; empty where it can."""
    if bars := bars_of(step.panel):
        return _("Not behind this panel yet: %(says)s") % {"says": bars[0].says}
    if closing_of(step.panel_id, list(PanelClosing.objects.filter(panel=step.panel_id))):
        return _("This panel is closed: open it again first, with the reason.")
    day = timezone.localdate(at)
    if step.panel.has_cautions and step.panel_id not in read_on(step.panel.job, user, day):
        return _("Read the cautions of this panel first, and say so there.")
    if step.wants_photo and not step.photos.filter(removed_at=None).exists():
        return _("This step is not done without a photo: take it here.")
    return ""


urlpatterns = [
    path("bay/", cars, name="bay-cars"),
    path("jobs/<str:code>/bay/", bay, name="bay"),
    path("jobs/<str:code>/bay/read/", read, name="bay-read"),
    path("jobs/<str:code>/panel/<int:pk>/cautions/", caution, name="bay-caution"),
    path("jobs/<str:code>/bay/news/", news, name="bay-news"),
    path("jobs/<str:code>/step/<int:pk>/tick/", tick, name="tick"),
]
