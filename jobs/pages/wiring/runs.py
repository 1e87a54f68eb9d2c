"""Every cable of a job: its form, and the record that a label leads to."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.db.models import Max
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.records.about import about
from jobs.design.wiring.schedule import work_out_schedule
from jobs.models import Part, Run, Stretch, Workshop
from jobs.pages.forms import row_acts, strip
from jobs.pages.forms.cable_form import CableForm
from jobs.pages.forms.record_rows import RowKind
from jobs.pages.forms.route_field import RouteField
from jobs.pages.wiring.power import preview

WAY_BACK, START_FUSE, END_FUSE = _("Way back"), _("Fuse at its start"), _("Fuse at its end")
LIMITS, ROUTE, CONTROL = _("Limits of its own"), _("Route"), _("Turning on and muting")
# What has an input that turns it on.
TURNED_ON = (Part.Kind.AMPLIFIER, Part.Kind.PROCESSOR)


class RunForm(CableForm[Run]):
    """One cable with its ends, its fuses, its way back and its route."""

    quantities: ClassVar = {
        "length": "cable_length",
        "return_length": "cable_length",
        "chassis_resistance": "resistance",
        "fuse_distance": "span",
        "end_fuse_distance": "span",
        "current": "current",
        "ambient": "temperature",
        "source_resistance": "resistance",
        "beside_power": "cable_length",
        "source_limit": "current",
        "relay_coil": "current",
        "drop_limit": "percent",
        "diversity": "percent",
    }
    any_sign: ClassVar = {"ambient"}
    or_zero: ClassVar = {"fuse_distance", "end_fuse_distance", "beside_power"}
    terms: ClassVar = {"fuse": "fuse", "length": "voltage_drop"}
    fieldsets: ClassVar = [
        (
            _("From here to there"),
            [
                *("kind", "start", "end", "channel", "from_text", "to_text"),
                *("start_contact", "end_contact"),
            ],
        ),
        (
            _("Cable"),
            [
                *("conductor", "colour", "return_colour", "length", "zone", "ambient", "bundle"),
                *("start_terminal", "end_terminal"),
            ],
        ),
        (
            WAY_BACK,
            [
                *("return_kind", "return_length", "return_conductor", "chassis_resistance"),
                *("return_start", "return_end", "return_start_terminal", "return_end_terminal"),
            ],
        ),
        (
            START_FUSE,
            ["fuse", "fuse_holder", "fuse_distance", "fuse_sheathed", "fuse_terminal"],
        ),
        (
            END_FUSE,
            [
                *("end_fuse", "end_fuse_holder", "end_fuse_distance", "end_fuse_sheathed"),
                "end_fuse_terminal",
            ],
        ),
        (LIMITS, ["drop_limit", "diversity"]),
        (_("Line level"), ["source_resistance", "beside_power"]),
        (
            CONTROL,
            [
                *("purpose", "fed_by", "wakes", "current", "source_limit"),
                *("relay", "relay_coil", "relay_diode"),
            ],
        ),
        (ROUTE, ["route"]),
    ]
    # Chosen by the page that chooses cables, typed in the table of the runs, or tapped on the car.
    folded: ClassVar = (WAY_BACK, START_FUSE, END_FUSE, LIMITS, ROUTE)
    only_for: ClassVar = {
        WAY_BACK: ("P",),
        START_FUSE: ("P", "C"),
        END_FUSE: ("P",),
        LIMITS: ("P",),
        _("Line level"): ("L",),
        CONTROL: ("C",),
    }
    field_only_for: ClassVar = {
        **dict.fromkeys(
            ("fuse_holder", "fuse_distance", "fuse_sheathed", "fuse_terminal"), ("fused",)
        ),
        **dict.fromkeys(
            ("end_fuse_holder", "end_fuse_distance", "end_fuse_sheathed", "end_fuse_terminal"),
            ("fused-far",),
        ),
    }
    route = RouteField(
        required=False,
        label=_("the places it passes, in order from its start"),
        help_text=_("A panel, a place in words such as “bulkhead, left”, or both."),
    )

    class Meta:
        model = Run
        exclude = ("job", "panels")
        widgets: ClassVar = {"wakes": forms.CheckboxSelectMultiple}
        labels: ClassVar = {
            "from_text": _("from, where that is no part of the power tree"),
            "to_text": _("to, where that is no part of the power tree"),
            "start_terminal": _("terminal or plug at the start"),
            "end_terminal": _("terminal or plug at the end"),
        }
        help_texts: ClassVar = {
            "colour": _("letters, base first and stripe after: RD, BK, BU, WH, GNYE"),
            "current": _("leave empty to take what the equipment ticked above draws"),
            "source_limit": _("leave empty to take what the processor at its start may give"),
            "ambient": _("leave empty to take the usual heat of the zone"),
            "fuse_distance": _("0 where it sits on the post or in the block"),
            "fuse_terminal": _("two: the cable is cut for its fuse, unless that sits at 0"),
            "return_conductor": _("leave empty for the same cable as the way out"),
            "return_start_terminal": _("leave empty for the same as the plus"),
            "return_end_terminal": _("leave empty for the same as the plus"),
            # xgettext:no-python-format
            "drop_limit": _("leave empty for 3 %; 10 % for what regulates, such as a converter"),
            "diversity": _("leave empty where its fuse is to hold all makers' fuses together"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        job = self.instance.job
        # Asked for alike, so that a table reads them once.
        for name in ("start", "end"):
            self.offer(name, job.powernodes.select_related("equipment__part__processor"))
        self.offer("channel", job.channels.all())
        for name in ("return_start", "return_end"):
            self.offer(name, job.groundpoints.all())
        awakened = job.equipmentitems.filter(part__kind__in=TURNED_ON)
        self.offer("wakes", awakened.select_related("part__amplifier"))
        route = self.fields["route"]
        assert isinstance(route, RouteField)
        route.offer(list(job.panels.all()))
        if self.instance.pk:
            route.initial = list(self.instance.stretches.all())

    def clean(self) -> dict[str, Any]:
        """Let the preview see the route and what is turned on as they are typed."""
        cleaned = super().clean()
        self.instance.typed_route = cleaned.get("route", [])
        self.instance.typed_wakes = list(cleaned.get("wakes", []))
        kind = cleaned.get("kind", self.instance.kind)
        if self.instance.pk and kind != self.instance.kind:
            # Its number is taken there, or was: as one of another kind it is a new label.
            _number(self.instance, kind)
        return cleaned

    def save(self, commit: bool = True) -> Run:
        """Save the run and its route."""
        run = super().save(commit)
        if run is not self.instance:
            return run  # sent twice: made once, and its route may have moved on since
        run.stretches.all().delete()
        for stretch in self.cleaned_data["route"]:
            stretch.run = run
        Stretch.objects.bulk_create(self.cleaned_data["route"])
        run.note_what_hangs()
        return run


def _number(run: Run, kind: str = "") -> None:
    """Give the run the next number of a kind; numbers of removed runs are not used again."""
    taken = Run.with_removed.filter(job=run.job, kind=kind or run.kind).aggregate(top=Max("number"))
    run.number = (taken["top"] or 0) + 1


@require_safe
def run(request: HttpRequest, code: str, label: str) -> HttpResponse:
    """Open the record of the cable whose label somebody reads behind a panel."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    run_read = next((run for run in design.records.runs if run.label == label), None)
    if run_read is None:
        raise Http404
    schedule = work_out_schedule(design.records, design.power, Workshop.current())
    context = {
        "job": job,
        "run": run_read,
        "line": schedule.line(run_read),
        "fuses": [fuse for fuse in schedule.fuses if run_read.label in fuse.protects],
        "result": next((run for run in design.power.runs if run.run is run_read), None),
        "findings": [
            finding for finding in design.findings_of("power") if finding.concerns(about(run_read))
        ],
        "steps": strip.steps(request, job, "power"),
        "may_spec": access.may_spec(user),
    }
    return render(request, "pages/wiring/run.html", context)


RUN = RowKind(
    slug="run",
    form=RunForm,
    section="power",
    prepare=_number,
    preview=preview,
    preview_template="pages/wiring/power_result.html",
    sided=("channel", "end", "from_text", "to_text"),
)

urlpatterns = [
    path("jobs/<str:code>/cable/<str:label>/", run, name="run"),
    *row_acts.urls(RUN),
    *RUN.urls(),
]
