"""Draft and issued sheets: what is printed, what is frozen with it, and under which revision."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.conf import settings
from django.db import transaction
from django.db.models import Max
from django.template.loader import render_to_string
from django.utils import timezone, translation

from jobs import units
from jobs.design.job.whole import JobDesign
from jobs.models import IssuedSheet, SheetKind, User, Workshop
from jobs.sheets import build, cables, compare, cut, engine, handover, labels, panels, templates

LANGUAGES = dict(settings.LANGUAGES)


@dataclass(frozen=True, kw_only=True)
class Options:
    """How a sheet is printed."""

    paper: str = "a4"
    language: str = "en"


# Each sheet has a module that gathers its context, and a template of the same name.
SHEETS: dict[SheetKind, Callable[..., dict[str, Any]]] = {
    SheetKind.BUILD: build.context,
    SheetKind.PANELS: panels.context,
    SheetKind.HANDOVER: handover.context,
    SheetKind.COMPARE: compare.context,
    SheetKind.CABLES: cables.context,
    SheetKind.LABELS: labels.context,
    SheetKind.CUT: cut.context,
    SheetKind.TEMPLATES: templates.context,
}

KINDS = tuple(SHEETS)


def draft(design: JobDesign, kind: SheetKind, options: Options) -> bytes:
    """Print a sheet as the job stands, marked as a draft."""
    return engine.render(_html(design, kind, options, revision=None, at=timezone.now()))


def issue(design: JobDesign, kind: SheetKind, options: Options, user: User) -> IssuedSheet:
    """Freeze a sheet with its inputs, results and decisions under the next revision."""
    with transaction.atomic():
        before = IssuedSheet.objects.filter(job=design.job, kind=kind)
        revision = (before.aggregate(top=Max("revision"))["top"] or 0) + 1
        at = timezone.now()
        data = snapshot(design)
        html = _html(design, kind, options, revision=revision, at=at)
        attached = json.dumps(data, ensure_ascii=False, indent=1, sort_keys=True).encode()
        pdf = engine.render(
            html, attachments=[(f"{design.job.code}.json", attached, "data of the job", at)]
        )
        return IssuedSheet.objects.create(
            job=design.job,
            kind=kind,
            revision=revision,
            paper=options.paper,
            language=options.language,
            data=data,
            pdf=pdf,
            sha256=hashlib.sha256(pdf).hexdigest(),
            issued_by=user,
            issued_at=at,
        )


def _html(
    design: JobDesign, kind: SheetKind, options: Options, *, revision: int | None, at: datetime
) -> str:
    workshop = Workshop.current()
    # Only templates are cut to the paper they are printed on.
    paper = {"paper": options.paper} if kind == SheetKind.TEMPLATES else {}
    with (
        translation.override(options.language),
        units.using_system(units.system_named(workshop.units)),
    ):
        context = {
            "job": design.job,
            "design": design,
            "workshop": workshop,
            "paper": options.paper,
            "language": options.language,
            "title": str(kind.label).capitalize(),
            "car": str(design.job.vehicle),
            "revision": revision,
            "draft": revision is None,
            "issued_at": at,
            "cautions": design.cautions,
            "decided": [one for one in design.findings if one.decision],
            "open": [*design.open_stops, *design.open_looks],
            **SHEETS[kind](design, **paper),
        }
        return render_to_string(f"sheets/{kind}.html", context)


def snapshot(design: JobDesign) -> dict[str, Any]:
    """Return every record and result of a job as plain data, for the archive copy."""
    from django.core import serializers

    records = design.records
    rows = [
        design.job,
        design.job.vehicle,
        design.job.vehicle.customer,
        *records.equipment,
        *records.factory_parts,
        *records.sweeps,
        *records.channels,
        *records.boxes,
        *records.rings,
        *records.trim_panels,
        *records.nodes,
        *records.runs,
        *(stretch for run in records.runs for stretch in run.route),
        *records.panels,
        *records.steps,
        *records.contents,
        *records.measurements,
        *records.cabin_curves,
    ]
    return {
        "schema": 1,
        "records": json.loads(serializers.serialize("json", rows)),
        "results": {
            "boxes": [
                {
                    "name": box.box.name,
                    "figures": {one.name: one.value for one in box.figures},
                }
                for box in design.boxes
            ],
            "power": {
                row.run.label: None
                if row.worst is None
                else {"current": row.worst.current, "drop": row.worst.drop}
                for row in design.power.runs
            },
        },
        "findings": [
            {
                "code": one.code,
                "severity": one.severity,
                "where": one.where,
                "value": one.value,
                "limit": one.limit,
                "unit": one.unit,
                "source": one.source,
                "decision": one.decision
                and {"name": one.decision.name, "reason": one.decision.reason},
            }
            for one in design.findings
        ],
    }
