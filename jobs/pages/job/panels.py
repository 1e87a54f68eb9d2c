"""Panels: what is behind each, the runs that pass it, the steps to take and the photos."""

from __future__ import annotations

from collections.abc import Iterable, Sequence, Set
from typing import Any, ClassVar

from django.conf import settings
from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST, require_safe

from jobs import access
from jobs.design.job import board_counts
from jobs.design.job.earlier.panel_sets import BODIES, earlier_jobs
from jobs.design.job.panels import PanelResult, work_out_panels
from jobs.design.job.whereabouts import elsewhere, work_out_whereabouts
from jobs.design.records.pieces import take_apart
from jobs.design.records.records import load
from jobs.locks import held
from jobs.models import DampingLayer, Fixing, Job, Panel, PanelContent, PanelStep
from jobs.pages.forms import row_acts, strip
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind


class PanelForm(RecordForm[Panel]):
    """A panel, how it comes off and what to mind there."""

    fieldsets: ClassVar = [
        (gettext_lazy("The panel"), ["position", "name", "side", "removal", "fixings", "tools"]),
        (gettext_lazy("What to mind"), [*Panel.DANGERS]),
        (gettext_lazy("Against noise"), ["damping_note", "rattle_note"]),
    ]

    class Meta:
        model = Panel
        fields = (
            *("position", "name", "side", "removal", "fixings", "tools"),
            *Panel.DANGERS,
            *("damping_note", "rattle_note"),
        )


class StepForm(RecordForm[PanelStep]):
    """One thing to do behind a panel."""

    class Meta:
        model = PanelStep
        fields = ("panel", "phase", "position", "text", "minutes", "wants_photo")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer("panel", self.instance.job.panels.all())


THINGS = ("equipment", "box", "factory_part", "description")


class ContentForm(RecordForm[PanelContent]):
    """Where something is: equipment, a box, a factory part, or in words."""

    fieldsets: ClassVar = [
        (
            gettext_lazy("What"),
            ["equipment", "box", "factory_part", "description", "pieces", "serial"],
        ),
        (gettext_lazy("Where"), ["panel", "elsewhere", "fixing", "private"]),
    ]

    class Meta:
        model = PanelContent
        fields = (
            *("equipment", "box", "factory_part", "description", "pieces", "serial"),
            *("panel", "elsewhere", "fixing", "private"),
        )
        labels: ClassVar = {"equipment": gettext_lazy("equipment, as it is on the list")}
        help_texts: ClassVar = {
            "pieces": gettext_lazy("pieces with numbers of their own get a line each"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        job = self.instance.job
        self.offer("panel", job.panels.all())
        self.offer("equipment", job.equipmentitems.select_related("part"))
        self.offer("box", job.boxes.filter(chosen=True))
        self.offer("factory_part", job.factory_parts.all())

    def clean(self) -> dict[str, Any]:
        """Say one thing, and where it is."""
        cleaned = super().clean()
        things = [name for name in THINGS if cleaned.get(name)]
        if not things:
            self.add_error("description", _("Say what is there, or choose it above."))
        for name in things[1:]:
            self.add_error(name, _("One line says where one thing is: give this its own."))
        # A piece whose number was read when it came in has it before it has its place.
        read = cleaned.get("equipment") and cleaned.get("serial")
        if not (cleaned.get("panel") or cleaned.get("elsewhere") or read):
            self.add_error("elsewhere", _("Choose a panel, or say where else it is."))
        item, pieces = cleaned.get("equipment"), cleaned.get("pieces") or 1
        if cleaned.get("serial") and item and pieces > 1:
            self.add_error("pieces", _("A piece with a number of its own gets its own line."))
        return cleaned


class FixingForm(RecordForm[Fixing]):
    """One kind of clip, screw or nut that holds a panel."""

    class Meta:
        model = Fixing
        fields = ("panel", "name", "part_number", "quantity", "place", "breaks", "spares")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer("panel", self.instance.job.panels.all())


class LayerForm(RecordForm[DampingLayer]):
    """Damping of one kind on one panel."""

    quantities: ClassVar = {"area": "surface", "coverage": "percent"}

    class Meta:
        model = DampingLayer
        fields = ("panel", "part", "where", "area", "coverage", "layers")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer("panel", self.instance.job.panels.all())

    def clean_coverage(self) -> float:
        """No more than all of it."""
        coverage: float = self.cleaned_data["coverage"]
        if coverage > 1:
            raise ValidationError(_("At most all of it: 100 %."))
        return coverage


@require_safe
def panels(request: HttpRequest, code: str) -> HttpResponse:
    """Show every panel with what is behind it."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    records, may_spec, may_record = design.records, access.may_spec(user), access.may_record(user)
    there = {None, *(panel.pk for panel in records.panels)}
    steps = _there(records.steps, there)
    at_hand = {
        "panel": records.panels,
        "box": [box for box in records.boxes if box.chosen],
        "factory_part": records.factory_parts,
    }
    context = {
        "job": job,
        "panels": design.panels,
        "panel_table": PANEL.table(job, records.panels, may_type=may_spec),
        "content_table": CONTENT.table(
            job, _there(records.contents, there), may_type=may_record, at_hand=at_hand
        ),
        "step_table": STEP.table(
            job, steps, may_type=may_spec, beside=_done(steps), at_hand=at_hand
        ),
        "fixing_table": FIXING.table(
            job, _there(records.fixings, there), may_type=may_record, at_hand=at_hand
        ),
        "elsewhere": elsewhere(design.records),
        "bodies": [(key, words) for key, (words, _panels) in BODIES.items()],
        "earlier": earlier_jobs(job),
        "not_placed": [thing for thing in work_out_whereabouts(design.records) if thing.missing],
        "damping": design.damping,
        "findings": design.findings_of("panels"),
        "steps": strip.steps(request, job, "panels"),
        "may_spec": may_spec,
        "public": settings.PUBLIC,
    }
    return render(request, "pages/job/panels.html", context)


def _there(rows: Sequence[Any], panels: Set[int | None]) -> list[Any]:
    """What is on a removed panel is out of sight with it."""
    return [row for row in rows if row.panel_id in panels]


def _done(steps: Iterable[PanelStep]) -> tuple[list[str], dict[int, list[str]]]:
    """Say of each step who has done it."""
    by = {step.pk: step.done_by.full_name if step.done_by else "" for step in steps}
    return [_("done by")], {pk: [name] for pk, name in by.items()}


@require_POST
def empty(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Write down that somebody looked and found nothing of ours behind a panel, or take it back."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_record(user))
    with held(job):
        panel = get_object_or_404(Panel, job=job, pk=pk)
        is_empty = request.POST.get("empty") == "1"
        if is_empty and any(row.is_listed for row in _of(job, panel)):
            messages.error(request, _("Something is listed behind it: correct the list first."))
        elif is_empty != (panel.empty_at is not None):
            panel.empty_by, panel.empty_at = (user, timezone.now()) if is_empty else (None, None)
            panel.version += 1
            panel.save()
            board_counts.forget(job)
    return redirect(f"{reverse('panels', args=[job.code])}#panel-{panel.pk}")


def _of(job: Job, panel: Panel) -> list[PanelResult]:
    return [row for row in work_out_panels(load(job)) if row.panel.pk == panel.pk]


PANEL = RowKind(
    slug="panel",
    form=PanelForm,
    section="panels",
    in_table=("position", "name", "airbag_near", ("drilled", "glass_near"), ("fixings", "tools")),
    sided=("name",),
    counted={"position": ""},
    # Looked up for each panel by itself, never taken over from another.
    not_copied=Panel.DANGERS,
)
STEP = RowKind(
    slug="step",
    form=StepForm,
    section="panels",
    in_table=(("panel", "phase"), "position", "text", "wants_photo"),
    sided=("panel", "text"),
    counted={"position": "panel"},
)
CONTENT = RowKind(
    slug="content",
    form=ContentForm,
    section="panels",
    allowed=access.may_record,
    in_table=(
        ("equipment", "box"),
        ("factory_part", "description"),
        ("panel", "elsewhere"),
        ("pieces", "serial"),
        "fixing",
    ),
    sided=("panel", "elsewhere"),
    not_copied=("serial",),
    apart=take_apart,
)
FIXING = RowKind(
    slug="fixing",
    form=FixingForm,
    section="panels",
    allowed=access.may_record,
    in_table=("panel", ("name", "part_number"), "quantity", "place", ("breaks", "spares")),
    sided=("panel", "place"),
)
LAYER = RowKind(slug="layer", form=LayerForm, section="panels", allowed=access.may_record)


urlpatterns = [
    path("jobs/<str:code>/panels/", panels, name="panels"),
    path("jobs/<str:code>/panel/<int:pk>/empty/", empty, name="panel-empty"),
    *(to for kind in (PANEL, STEP, CONTENT, FIXING) for to in (*row_acts.urls(kind), *kind.urls())),
    *LAYER.urls(),
]
