"""The wood shop's work: what is done for each box and panel, ticked with one tap."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from jobs import access
from jobs.locks import held
from jobs.models import Box, Job, TrimPanel, WoodStep
from jobs.pages.forms import strip
from jobs.pages.forms.fields import key_of
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind
from jobs.pages.wood.supplies import wanted

Kind = WoodStep.Kind
# The order of the work: common practice, no source. How long it takes the workshop says itself.
USUAL = {
    "box": (Kind.MOCK_UP, Kind.CUT, Kind.GLUE, Kind.CURE, Kind.SEAL, Kind.WRAP, Kind.FIT),
    "trim_panel": (Kind.MOCK_UP, Kind.CUT, Kind.WRAP, Kind.CURE, Kind.FIT),
}


class WoodStepForm(RecordForm[WoodStep]):
    """One piece of work, for a box or for a panel."""

    class Meta:
        model = WoodStep
        fields = ("box", "trim_panel", "position", "kind", "minutes", "text")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer("box", self.instance.job.boxes.all())
        self.offer("trim_panel", self.instance.job.trim_panels.all())

    def clean(self) -> dict[str, Any]:
        """Work is done on one thing."""
        cleaned = super().clean()
        if bool(cleaned.get("box")) == bool(cleaned.get("trim_panel")):
            self.add_error("box", _("Choose the box or the trim panel it is done on, one of both."))
        return cleaned


@dataclass(frozen=True, kw_only=True)
class Work:
    """Something to build, with its steps."""

    subject: Box | TrimPanel
    field: str
    steps: Sequence[WoodStep]

    @property
    def minutes(self) -> int:
        """Work that is planned, curing left out."""
        return sum(step.minutes or 0 for step in self.steps if step.kind != Kind.CURE)

    @property
    def untimed(self) -> int:
        """Steps of which nobody has said how long they take."""
        return sum(step.minutes is None for step in self.steps)

    @property
    def done(self) -> int:
        """Steps that are ticked."""
        return sum(step.done_at is not None for step in self.steps)


def _work(job: Job) -> list[Work]:
    steps = list(job.wood_steps.select_related("done_by"))
    boxes = [box for box in job.boxes.all() if box.chosen]
    return [
        Work(
            subject=subject,
            field=name,
            steps=[step for step in steps if getattr(step, f"{name}_id") == subject.pk],
        )
        for name, subjects in (("box", boxes), ("trim_panel", job.trim_panels.all()))
        for subject in subjects
    ]


@require_safe
def shop(request: HttpRequest, code: str) -> HttpResponse:
    """List the work on each box that is built and on each panel."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    context = {
        "job": job,
        "works": _work(job),
        "steps": strip.steps(request, job, "boxes"),
        "built_boxes": design.built,
        "wanted": wanted(design),
        "may_record": access.may_record(user),
        "may_spec": access.may_spec(user),
        "section": "shop",
        "asked": key_of(request.GET.get("asked")),
    }
    return render(request, "pages/wood/shop.html", context)


@require_POST
def plan_usual(request: HttpRequest, code: str, what: str, pk: int) -> HttpResponse:
    """Plan the usual steps of a box or panel that has none; a second tap adds nothing."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    with held(job):
        subject = get_object_or_404(job.boxes if what == "box" else job.trim_panels, pk=pk)
        if not job.wood_steps.filter(**{what: subject}).exists():
            for position, kind in enumerate(USUAL[what], start=1):
                WoodStep.objects.create(job=job, position=position, kind=kind, **{what: subject})
    return redirect(f"{reverse('shop', args=[job.code])}#{what}-{subject.pk}")


@require_POST
def tick(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Tick a step, or take the tick back once that is said again: a thumb taps twice."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    wanted = request.POST.get("done") == "1"
    with held(job):
        step = get_object_or_404(job.wood_steps, pk=pk)
        asks = step.done_at is not None and not wanted and "sure" not in request.POST
        if not asks and wanted != (step.done_at is not None):
            step.done_by = user if wanted else None
            step.done_at = timezone.now() if wanted else None
            step.save()
    asked = f"?asked={step.pk}" if asks else ""
    return redirect(f"{reverse('shop', args=[job.code])}{asked}#work-{step.pk}")


WOOD_STEP = RowKind(slug="wood-step", form=WoodStepForm, section="shop")

urlpatterns = [
    path("jobs/<str:code>/shop/", shop, name="shop"),
    *(
        path(
            f"jobs/<str:code>/shop/usual/{what}/<int:pk>/",
            plan_usual,
            {"what": what},
            name=f"shop-usual-{what.replace('_', '-')}",
        )
        for what in USUAL
    ),
    path("jobs/<str:code>/shop/<int:pk>/tick/", tick, name="shop-tick"),
    *WOOD_STEP.urls(),
]
