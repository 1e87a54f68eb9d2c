"""What goes with an issued sheet as data: figures a machine may read, none that is not printed.

Every field is named here: one that is added to a record is attached to nothing until somebody has
thought about who will hold the sheet. No customer, no money and no notes of the house: a sheet
leaves it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from django.db.models import Model

from jobs.design.box.boxes import BoxResult
from jobs.design.job.whole import JobDesign
from jobs.design.records.findings import Finding
from jobs.models import Panel, Run, User
from jobs.models.box.box_wood import BoxWood

SCHEMA = 2
BOX = ("pk", "name", "kind")
# Choices and measures alone: a shape has no free text.
SHAPE = (
    *(field.name for field in BoxWood._meta.get_fields() if field.name != "material"),
    *BoxWood.lists(),
)
EQUIPMENT = ("pk", "part", "quantity", "place", "serial")
FACTORY = ("pk", "kind", "place", "fate", "kept_where")
FUSES = ("fuse.rating", "fuse.type", "end_fuse.rating", "end_fuse.type")
CABLE = ("conductor.size", "conductor.metal", "length")
RUN = ("pk", "label", "goes_from", "goes_to", *CABLE, *FUSES)
ENDS = (
    *("start_contact", "end_contact", "start_terminal", "end_terminal"),
    *("fuse_terminal", "end_fuse_terminal"),
    *("return_start_terminal", "return_end_terminal", "return_start", "return_end"),
)
GROUND = ("pk", "name", "kind", "place", "stud", "torque")
JOIN = ("pk", "connector", "pin", "colour", "how", "carries", "signal", "level")
PANEL = ("pk", "position", "name", "removal", "fixings", "tools", *Panel.DANGERS)
STEP = ("panel_id", "phase", "text", "done_by", "done_at")
FILTERS = ("highpass_frequency", "highpass_shape", "lowpass_frequency", "lowpass_shape")
RING = (
    *("pk", "quantity", "layers", "tilt", "outer_diameter", "inner_diameter", "bolt_circle"),
    *("screws", "screw_diameter"),
)


def _fused(run: Run) -> bool:
    return bool(run.fuse or run.end_fuse)


def _behind_a_panel(run: Run) -> bool:
    return any(stretch.panel_id for stretch in run.route)


@dataclass(frozen=True, kw_only=True)
class Attached:
    """Which fields of which lists of a job go with a sheet, and which results."""

    records: dict[str, tuple[str, ...]]
    # Of a list that the sheet prints in part: which of its rows.
    only: dict[str, Callable[[Any], bool]] = field(default_factory=dict)
    # Whether what is open and what was decided stands on the sheet.
    findings: bool = True
    figures: bool = False
    currents: bool = False


BUILD = Attached(
    records={
        "equipment": EQUIPMENT,
        "channels": ("pk", "name", "inverted", "speaker_count"),
        "boxes": (*BOX, "place"),
        "runs": ("pk", "label"),
        "panels": PANEL,
        "steps": STEP,
        "fixings": ("panel_id", "name", "part_number", "spares"),
        "measurements": ("name", "kind", "expected", "value", "measured_by", "measured_at"),
    },
    only={"runs": _behind_a_panel},
)
WORKINGS = Attached(
    records={
        "boxes": (*BOX, "place"),
        "runs": ("pk", "label", "goes_from", "goes_to", *CABLE, *FUSES),
    },
    only={"runs": lambda run: run.kind == Run.Kind.POWER},
    figures=True,
    currents=True,
)
PANELS = Attached(
    records={
        "panels": (*PANEL, "damping_note", "rattle_note"),
        "damping": ("panel_id", "where", "part", "layers"),
        "contents": ("panel_id", "elsewhere", "what", "number", "fixing"),
        "runs": (*RUN, "colour", "return_colour"),
        "factory_parts": FACTORY,
        "fixings": ("panel_id", "name", "part_number", "quantity"),
        "grounds": GROUND,
        "joins": JOIN,
    },
    only={"runs": _behind_a_panel},
)
# It is all money, and money goes inside no file.
SPEC = Attached(records={}, findings=False)
# It is all of the customer: their words, what they left in the car, their signature.
INTAKE = Attached(records={}, findings=False)
HANDOVER = Attached(
    records={
        "equipment": EQUIPMENT,
        # As each was set, or planned: the figures stand on the sheet alone.
        "channels": ("pk", "name"),
        "runs": ("pk", "label", *FUSES),
        "factory_parts": FACTORY,
    },
    only={"runs": _fused},
    # The customer reads no codes and no reasons of the house.
    findings=False,
)
GLOVEBOX = Attached(records={"runs": ("pk", *FUSES)}, only={"runs": _fused}, findings=False)
# What is within brings its own; what is open and decided stands on the cover of a pack once.
PACK = Attached(records={})
PACK_OF_THE_CUSTOMER = Attached(records={}, findings=False)
SETUP = Attached(
    records={"channels": ("pk", "name", *FILTERS, "distance")},
    only={"channels": lambda channel: channel.amplifier_id is not None},
)
COMPARE = Attached(records={"boxes": BOX}, figures=True)
CABLES = Attached(
    records={
        "runs": (*RUN, "colour", "return_colour", *ENDS),
        "grounds": (*GROUND, "resistance"),
        "joins": JOIN,
    },
    currents=True,
)
LABELS = Attached(records={"runs": RUN}, findings=False)
WOOD = Attached(
    records={
        "boxes": (*BOX, "place", "material", *SHAPE),
        "rings": (*RING, "name", "place", "material"),
        "trim_panels": (
            "pk",
            "name",
            "place",
            "material",
            "width",
            "height",
            "outline",
            "openings",
            "kind",
            "level",
            "supports",
            "hatches",
            "mounts",
            "beneath",
            "cover",
        ),
    }
)
PIECES = Attached(
    records={
        "boxes": ("pk", "kind", *SHAPE),
        "rings": RING,
        "trim_panels": ("pk", "width", "height"),
    },
    findings=False,
)


def attachment(design: JobDesign, what: Attached, printed: dict[str, Any]) -> dict[str, Any]:
    """Return the data that go with a sheet; `printed` is what its template was filled with."""
    boxes = _boxes(design, printed)
    rows = vars(design.records)
    data: dict[str, Any] = {
        "schema": SCHEMA,
        "job": design.job.code,
        "revision": printed["revision"],
        "issued_at": _plain(printed["issued_at"]),
        "records": {
            name: [
                {path: _plain(_at(row, path)) for path in paths}
                for row in (rows | {"boxes": [box.box for box in boxes]})[name]
                if what.only.get(name, bool)(row)
            ]
            for name, paths in what.records.items()
        },
    }
    if what.findings:
        data["findings"] = [
            _finding(finding) for finding in (*printed["open"], *printed["decided"])
        ]
    if what.figures:
        data["figures"] = {
            str(box.box.pk): {figure.name: figure.value for figure in box.figures} for box in boxes
        }
    if what.currents:
        data["currents"] = {
            row.run.label: {"current": row.worst.current, "drop": row.worst.drop}
            for row in design.power.runs
            if row.worst is not None
        }
    return data


def _boxes(design: JobDesign, printed: dict[str, Any]) -> list[BoxResult]:
    """Those that are built, or those that stand side by side."""
    if "comparison" in printed:
        return [candidate.result for candidate in printed["comparison"].candidates]
    return design.chosen_boxes


def _finding(finding: Finding) -> dict[str, Any]:
    decision = finding.decision
    return {
        "code": finding.code,
        "severity": finding.severity,
        "says": finding.says,
        "decision": decision and {"name": decision.name, "reason": decision.reason},
    }


def _at(row: object, path: str) -> object:
    """Follow a path such as `fuse.rating`; nothing where there is no fuse."""
    for name in path.split("."):
        row = getattr(row, name) if row is not None else None
    return row


def _plain(value: object) -> Any:
    if isinstance(value, User):
        return value.full_name
    if isinstance(value, Model):
        return str(value)
    return value.isoformat() if isinstance(value, datetime) else value
