"""The wiring page: the power tree, its nodes, every run by kind, and the ground points."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.db.models import prefetch_related_objects
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from jobs import access, units
from jobs.design.job.whole import JobDesign
from jobs.design.wiring.grounds import GroundResult, work_out_grounds
from jobs.design.wiring.power import PowerResult
from jobs.drawings.wiring import wiring_pictures
from jobs.models import Job, Run
from jobs.pages.forms import strip
from jobs.pages.forms.row_table import Column, Table
from jobs.pages.wiring.grounds import GROUND
from jobs.pages.wiring.power import NODE
from jobs.pages.wiring.runs import RUN

# What is typed most of each kind of run.
CELLS: dict[str, Sequence[Column]] = {
    Run.Kind.POWER: (
        *(("start", "end"), "conductor", "length", "fuse", "fuse_distance"),
        ("return_kind", "return_length"),
    ),
    Run.Kind.SPEAKER: ("channel", "conductor", ("colour", "return_colour"), "length"),
    Run.Kind.LINE: (("from_text", "to_text"), "conductor", "length", "beside_power"),
    Run.Kind.CONTROL: (("from_text", "to_text"), "fed_by", "conductor", "length"),
}

Beside = tuple[list[str], dict[int, list[str]]]


def _of_nodes(power: PowerResult) -> Beside:
    return [_("voltage, worst"), _("current, worst")], {
        result.node.pk: [
            units.show(result.worst_voltage, "voltage"),
            units.show(result.worst_current, "current"),
        ]
        for result in power.nodes
    }


def _of_runs(power: PowerResult) -> Beside:
    return [_("current"), _("lost"), _("voltage there")], {
        result.run.pk: [
            units.show(result.worst.current if result.worst else None, "current"),
            units.show(result.worst.drop if result.worst else None, "voltage"),
            units.show(result.end_voltage, "voltage"),
        ]
        for result in power.runs
    }


def _of_grounds(grounds: Sequence[GroundResult]) -> Beside:
    return [_("runs"), _("current"), _("lost by all together")], {
        result.point.pk: [
            ", ".join(run.label for run in result.runs),
            units.show(result.current, "current"),
            units.show(result.lost, "voltage"),
        ]
        for result in grounds
    }


def _run_tables(job: Job, design: JobDesign, *, may_type: bool, **offered: Any) -> list[Table]:
    """A table for each kind of run: what means nothing for a kind is not asked of it."""
    tables = []
    for kind, columns in CELLS.items():
        # What is typed is the plan; what was built otherwise is worked out beside it.
        runs = [run.designed or run for run in design.records.runs if run.kind == kind]
        more = {"beside": _of_runs(design.power)} if kind == Run.Kind.POWER else {}
        if runs or may_type:
            tables.append(
                RUN.table(
                    job,
                    runs,
                    may_type=may_type,
                    columns=columns,
                    given={"kind": str(kind)},
                    caption=str(Run.Kind(kind).label),
                    tags={run.pk: run.label for run in runs},
                    **offered,
                    **more,
                )
            )
    return tables


@require_safe
def wiring(request: HttpRequest, code: str) -> HttpResponse:
    """Show the power tree with its voltages, and every run."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    prefetch_related_objects([job], "panels")  # the route of each kind of run offers them
    offered: dict[Any, Any] = {}
    records = design.records
    at_hand = {
        **dict.fromkeys(("start", "end"), records.nodes),
        "channel": records.channels,
        "panel": records.panels,
    }
    may_type = access.may_spec(user)
    nodes = [result.node for result in design.power.nodes]
    grounds = work_out_grounds(design.records, design.power)
    context = {
        "job": job,
        "power": design.power,
        "picture": wiring_pictures.power(design),
        "nodes": NODE.table(
            job, nodes, may_type=may_type, beside=_of_nodes(design.power), offered=offered
        ),
        "runs": _run_tables(job, design, may_type=may_type, offered=offered, at_hand=at_hand),
        "grounds": GROUND.table(
            job,
            [result.point for result in grounds],
            may_type=access.may_record(user),
            beside=_of_grounds(grounds),
            offered=offered,
            at_hand=at_hand,
        ),
        "joins": design.records.joins,
        "findings": design.findings_of("power"),
        "steps": strip.steps(request, job, "power"),
        "may_spec": may_type,
        "complete": design.state_of("power").state == "done",
    }
    return render(request, "pages/wiring/power.html", context)


urlpatterns = [path("jobs/<str:code>/power/", wiring, name="power")]
