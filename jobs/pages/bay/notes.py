"""A note, a broken clip, extra work, minutes: two taps each; and photos, several at once."""

from __future__ import annotations

import datetime as dt
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import path, reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from jobs import access, photos
from jobs.locks import held
from jobs.models import BayNote, Fixing, Job, Panel, PanelStep, Photo, ServiceVisit, User
from jobs.models.bay import LONGEST
from jobs.pages.bay import gone
from jobs.pages.bay.bay import set_tick, why_not
from jobs.pages.forms.fields import key_of
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind

MOST_AT_ONCE = 40


class NoteForm(RecordForm[BayNote]):
    """A note that is corrected."""

    class Meta:
        model = BayNote
        fields = ("panel", "kind", "fixing", "pieces", "minutes", "text")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer("panel", self.instance.job.panels.all())
        self.offer("fixing", self.instance.job.fixings.all())


@require_POST
def note(request: HttpRequest, code: str) -> HttpResponse:
    """Write down what was noticed, broken, done besides, or how long it took."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    panel = Panel.objects.filter(job=job, pk=key_of(request.POST.get("panel")) or 0).first()
    with held(job):
        says = keep_note(job, user, panel, request.POST)
    messages.add_message(request, messages.ERROR if says else messages.SUCCESS, says or _("Noted."))
    return redirect(f"{reverse('bay', args=[job.code])}{f'#panel-{panel.pk}' if panel else ''}")


def keep_note(job: Job, user: User, panel: Panel | None, sent: Any) -> str:
    """Keep a note; say in words what is wrong with it, or nothing."""
    kind, text = sent.get("kind", ""), str(sent.get("text", "")).strip()
    fixing = Fixing.objects.filter(job=job, pk=key_of(str(sent.get("fixing") or "")) or 0).first()
    minutes = key_of(str(sent.get("minutes") or ""))
    wanted = {"note": text, "extra": text, "clip": fixing or text, "time": minutes}
    if not wanted.get(kind):
        return _("There is nothing to write down yet.")
    if len(text) > LONGEST or not 1 <= (minutes or 1) <= 24 * 60:
        return _("At most %(most)s characters, and a day of minutes.") % {"most": LONGEST}
    BayNote.objects.create(
        job=job, panel=panel, kind=kind, fixing=fixing, minutes=minutes, text=text,
        written_by=user,
    )  # fmt: skip
    return ""


@require_POST
def shoot(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Keep photos of a panel or of a step."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    panel = get_object_or_404(Panel.with_removed, job=job, pk=pk)
    meant = request.POST.get("step", "")
    step = PanelStep.objects.filter(panel=panel, pk=key_of(meant) or 0).first()
    if _kept(request, job, panel=panel, step=step) and (
        elsewhere := gone.kept_with(panel, step, for_step=bool(meant))
    ):
        messages.warning(request, elsewhere)
    anchor = f"step-{step.pk}" if step else f"panel-{panel.pk}"
    return redirect(f"{reverse('bay', args=[job.code])}#{anchor}")


@require_POST
def shoot_visit(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Keep photos of a visit."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_record(user))
    visit = get_object_or_404(ServiceVisit.with_removed, job=job, pk=pk)
    if _kept(request, job, visit=visit) and visit.removed_at:
        messages.warning(request, gone.kept_with(visit))
    return redirect(f"{reverse('aftercare', args=[job.code])}#visit-{visit.pk}")


def _kept(request: HttpRequest, job: Job, **of: Any) -> int:
    """Keep the photos that came along; one that could not be kept is told, the others stay."""
    files = request.FILES.getlist("photo")
    kept = 0
    for file in files[:MOST_AT_ONCE]:
        try:
            prepared = photos.prepared(file)
        except photos.UnusablePhotoError as error:
            messages.error(request, f"{file.name}: {error}")
            continue
        with held(job):
            keep_photo(job, access.signed_in(request), prepared, **of)
        kept += 1
    if len(files) > MOST_AT_ONCE:
        words = {"most": MOST_AT_ONCE, "rest": len(files) - MOST_AT_ONCE}
        messages.error(
            request,
            _("At most %(most)s photos at once. Not taken, to be sent again: %(rest)s.") % words,
        )
    if kept:
        messages.success(request, _("Photos kept: %(n)s.") % {"n": kept})
    elif not files:
        messages.error(request, _("No photo came along."))
    return kept


def keep_photo(
    job: Job,
    user: User,
    prepared: photos.PreparedPhoto,
    *,
    panel: Panel | None = None,
    step: PanelStep | None = None,
    visit: ServiceVisit | None = None,
    at: dt.datetime | None = None,
) -> None:
    """Keep one photo while the job is held; a step that waited for it is done."""
    of: dict[str, Any] = {"panel": panel, "step": step, "visit": visit}
    Photo.objects.create(job=job, taken_by=user, **of, **prepared.fields)
    waits = step is not None and step.wants_photo and step.done_at is None
    if step is not None and waits and not why_not(step, user, at):
        set_tick(step, user, done=True, at=at)


NOTE = RowKind(slug="note", form=NoteForm, section="bay", allowed=access.may_record)

urlpatterns = [
    path("jobs/<str:code>/note/", note, name="bay-note"),
    path("jobs/<str:code>/panel/<int:pk>/photos/", shoot, name="bay-photos"),
    path("jobs/<str:code>/visit/<int:pk>/photos/", shoot_visit, name="visit-photos"),
    *(to for to in NOTE.urls() if to.name != "note-add"),
]
