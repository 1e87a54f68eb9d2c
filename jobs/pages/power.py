"""The wiring page: the power tree, every run with its label, and what they come to."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.db.models import Max
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from jobs import access, units
from jobs.design.job import JobDesign, load, work_out
from jobs.drawings import pictures
from jobs.models import Job, Panel, PowerNode, Run, Stretch
from jobs.pages import strip
from jobs.pages.forms import RecordForm
from jobs.pages.rows import RowKind


class NodeForm(RecordForm[PowerNode]):
    """A point of the power tree."""

    quantities: ClassVar = {
        "voltage": "voltage",
        "internal_resistance": "resistance",
        "cca": "current",
        "charge": "charge",
        "current_limit": "current",
        "capacitance": "capacitance",
        "current": "current",
    }
    fieldsets: ClassVar = [
        (_("What it is"), ["kind", "name", "place", "equipment"]),
        (
            _("If current comes from here"),
            ["voltage", "internal_resistance", "cca", "charge", "current_limit", "capacitance"],
        ),
        (_("If it takes current and is no amplifier"), ["current"]),
    ]

    class Meta:
        model = PowerNode
        exclude = ("job",)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer("equipment", self.instance.job.equipmentitems.select_related("part"))


class RunForm(RecordForm[Run]):
    """One cable with its fuses, its way back and its route."""

    quantities: ClassVar = {
        "length": "cable_length",
        "return_length": "cable_length",
        "chassis_resistance": "resistance",
        "fuse_distance": "length",
        "end_fuse_distance": "length",
        "current": "current",
    }
    any_sign: ClassVar = {"fuse_distance", "end_fuse_distance"}
    terms: ClassVar = {"fuse": "fuse", "length": "voltage_drop"}
    fieldsets: ClassVar = [
        (
            _("From here to there"),
            ["kind", "start", "end", "channel", "from_text", "to_text"],
        ),
        (_("Cable"), ["conductor", "colour", "length", "zone", "bundle", "current"]),
        (_("Way back"), ["return_kind", "return_length", "chassis_resistance"]),
        (
            _("Fuses"),
            ["fuse", "fuse_distance", "fuse_sheathed", "end_fuse", "end_fuse_distance"],
        ),
        (_("Route"), ["route", "follows_loom"]),
    ]
    route = forms.ModelMultipleChoiceField(
        queryset=Panel.objects.none(),
        required=False,
        label=_("panels it passes behind"),
        widget=forms.CheckboxSelectMultiple,
    )
    follows_loom = forms.BooleanField(required=False, label=_("follows the factory loom"))

    class Meta:
        model = Run
        exclude = ("job", "panels")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        job = self.instance.job
        self.offer("start", job.powernodes.all())
        self.offer("end", job.powernodes.all())
        self.offer("channel", job.channels.all())
        self.offer("route", job.panels.all())
        if self.instance.pk:
            stretches = list(self.instance.stretches.all())
            self.fields["route"].initial = [stretch.panel_id for stretch in stretches]
            self.fields["follows_loom"].initial = all(s.follows_loom for s in stretches)

    def save(self, commit: bool = True) -> Run:
        """Save the run and its route, in the order of the panels."""
        run = super().save(commit)
        run.stretches.all().delete()
        Stretch.objects.bulk_create(
            Stretch(
                run=run,
                panel=panel,
                position=position,
                follows_loom=self.cleaned_data["follows_loom"],
            )
            for position, panel in enumerate(self.cleaned_data["route"], start=1)
        )
        return run


def _number(run: Run) -> None:
    """Give the run the next number of its kind; numbers of removed runs are not used again."""
    taken = Run.with_removed.filter(job=run.job, kind=run.kind).aggregate(top=Max("number"))
    run.number = (taken["top"] or 0) + 1


def _results(design: JobDesign) -> list[tuple[str, str, str]]:
    """Return (label, value, "") of what the tree comes to."""
    loads = [one for one in design.power.nodes if one.worst_current is not None]
    lowest = min((one.worst_voltage or 0.0 for one in loads), default=None)
    total = sum(one.worst_current or 0.0 for one in loads) if loads else None
    return [
        (gettext("lowest voltage at a load"), units.show(lowest, "voltage"), ""),
        (gettext("all loads, worst case"), units.show(total, "current"), ""),
        (gettext("stops"), str(len(design.open_stops)), ""),
    ]


def _preview(request: HttpRequest, job: Job, row: Run | PowerNode) -> dict[str, Any]:
    """Work the tree out with the unsaved row in it."""
    design = work_out(load(job).with_unsaved(row))
    return {
        "power": design.power,
        "results": _results(design),
        "pictures": {"tree": pictures.power(design)},
        "findings": design.findings_of("power"),
    }


@require_safe
def power(request: HttpRequest, code: str) -> HttpResponse:
    """Show the power tree with its voltages, and every run."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    context = {
        "job": job,
        "power": design.power,
        "picture": pictures.power(design),
        "findings": design.findings_of("power"),
        "steps": strip.steps(request, job, "power"),
        "may_spec": access.may_spec(user),
    }
    return render(request, "pages/power.html", context)


@require_safe
def run(request: HttpRequest, code: str, label: str) -> HttpResponse:
    """Open the record of the cable whose label somebody reads behind a panel."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    found = next((one for one in design.records.runs if one.label == label), None)
    if found is None:
        raise Http404
    context = {
        "job": job,
        "run": found,
        "result": next((one for one in design.power.runs if one.run is found), None),
        "stretches": found.stretches.all(),
        "steps": strip.steps(request, job, "power"),
        "may_spec": access.may_spec(user),
    }
    return render(request, "pages/run.html", context)


urlpatterns = [
    path("jobs/<str:code>/cable/<str:label>/", run, name="run"),
    path("jobs/<str:code>/power/", power, name="power"),
    *RowKind(
        slug="node",
        form=NodeForm,
        section="power",
        preview=_preview,
        preview_template="pages/power_result.html",
    ).urls(),
    *RowKind(
        slug="run",
        form=RunForm,
        section="power",
        prepare=_number,
        preview=_preview,
        preview_template="pages/power_result.html",
    ).urls(),
]
