"""The gate before hand-over: what must be signed, closed and measured before the car goes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy

from jobs.design.job.closing import closing_of
from jobs.design.job.electronics import questions
from jobs.design.job.gates import Gate, Judged, Missing
from jobs.design.job.planning_gates import looks_due
from jobs.design.job.whereabouts import work_out_whereabouts
from jobs.design.records.records import JobRecords
from jobs.models import FactoryPart, GateSign, PanelStep, Role, Run, SheetKind, Stage

# What a person signs, by code; a code is stored, its words are for people.
SIGNED: dict[str, Promise] = {
    "insulated": gettext_lazy("Every unused connector is insulated and tied back."),
    "fuses": gettext_lazy("Every fuse is fitted as planned: rating, type, place."),
    "polarity": gettext_lazy("Polarity is right:"),
    "torque": gettext_lazy("Every lug and ground is tightened to its torque."),
    "lamps": gettext_lazy("No warning lamp is lit, the airbag lamp above all."),
    "function": gettext_lazy("Works as it did before:"),
    "rattle": gettext_lazy("Swept through the bass: nothing rattles."),
    "photos": gettext_lazy("The photos are complete."),
    "tools": gettext_lazy("The tools are counted: none is left in the car."),
}
# Of the factory, and touched by what we do; each is tried by itself. The key stands in signatures:
# a function that comes later takes a key of its own wherever it stands, and no key is used again.
FUNCTIONS: dict[str, Promise] = {
    "function 1": gettext_lazy("windows and locks"),
    "function 2": gettext_lazy("hands-free and its microphone"),
    "function 3": gettext_lazy("parking sensors and camera"),
    "function 4": gettext_lazy("reversing, navigation and warning sounds"),
    "function 5": gettext_lazy("steering-wheel buttons"),
    "function 6": gettext_lazy("interior and boot lights"),
    "function 7": gettext_lazy("seat belts, seats and their heating"),
    "function 8": gettext_lazy("start, stop and charging"),
}


@dataclass(frozen=True, kw_only=True)
class Check:
    """One thing a person signs before hand-over."""

    code: str
    subject: str
    key: str  # what of it, the same in every language
    sign: GateSign | None

    @property
    def says(self) -> str:
        """It in one sentence."""
        return f"{SIGNED[self.code]} {self.subject}".strip()


def gate_checks(records: JobRecords) -> list[Check]:
    """Everything that is signed before hand-over, with who has signed it."""
    signs = {(row.code, row.subject): row for row in records.gate_signs}
    return [
        Check(code=code, key=key, subject=subject, sign=signs.get((code, key)))
        for code, key, subject in _asked(records)
    ]


def _asked(records: JobRecords) -> Iterator[tuple[str, str, str]]:
    unplugged = FactoryPart.Fate.UNPLUGGED
    fused = any(run.fuse or run.end_fuse for run in records.runs)
    powered = any(run.kind == Run.Kind.POWER for run in records.runs)
    if any(part.fate == unplugged for part in records.factory_parts):
        yield "insulated", "", ""
    if fused:
        yield "fuses", "", ""
    for channel in records.channels:
        yield "polarity", f"channel {channel.pk}", channel.name
    if powered:
        yield "torque", "", ""
    yield "lamps", "", ""
    for key, function in FUNCTIONS.items():
        yield "function", key, str(function)
    yield "rattle", "", ""
    yield "photos", "", ""
    yield "tools", "", ""


def _work(records: JobRecords) -> dict[str, int]:
    """How much of what is done on the car is done: steps and values, counted together."""
    ticked = sum(step.done_at is not None for step in records.steps)
    measured = sum(row.value is not None for row in records.measurements)
    return {"ready": ticked + measured, "all": len(records.steps) + len(records.measurements)}


def _steps(judged: Judged) -> Iterator[Missing]:
    """Panels may be off while a car is set up: refitting is asked for when it leaves."""
    return _unticked(judged, refit=False)


def _refit(judged: Judged) -> Iterator[Missing]:
    return _unticked(judged, refit=True)


def _unticked(judged: Judged, *, refit: bool) -> Iterator[Missing]:
    left = tuple(
        f"step {row.pk}"
        for row in judged.records.steps
        if row.done_at is None and (row.phase == PanelStep.Phase.REFIT) == refit
    )
    if left:
        yield Missing(keys=left, figures={"n": len(left), **_work(judged.records)})


def _values_planned(judged: Judged) -> Iterator[Missing]:
    # What nobody planned was not done: it is open, and no sign that all is well.
    if not judged.records.measurements:
        yield Missing(keys=("no values",))


def _values(judged: Judged) -> Iterator[Missing]:
    left = tuple(f"value {row.pk}" for row in judged.records.measurements if row.value is None)
    if left:
        yield Missing(keys=left, figures={"n": len(left), **_work(judged.records)})


def _placed(judged: Judged) -> Iterator[Missing]:
    things = work_out_whereabouts(judged.records)
    missing = [thing for thing in things if thing.missing]
    if missing:
        pieces = sum(thing.pieces for thing in things)
        yield Missing(
            keys=tuple(f"place {thing.asked_as} {thing.thing.pk}" for thing in missing),
            figures={
                "names": ", ".join(f"{thing.missing} × {thing.name}" for thing in missing),
                "ready": pieces - sum(thing.missing for thing in missing),
                "all": pieces,
            },
        )


def _closed(judged: Judged) -> Iterator[Missing]:
    closings = judged.records.closings
    off = [row.panel for row in judged.panels if closing_of(row.panel.pk, closings) is None]
    if off:
        names = ", ".join(panel.name for panel in off)
        keys = tuple(f"panel {panel.pk}" for panel in off)
        yield Missing(keys=keys, figures={"names": names, "n": len(off)})


def _signed(judged: Judged) -> Iterator[Missing]:
    left = [check for check in gate_checks(judged.records) if check.sign is None]
    for check in left:
        key = f"{check.code} {check.key}".strip()
        yield Missing(keys=(key,), figures={"what": check.says, "n": len(left)}, to_sign=True)


def _electronics(judged: Judged) -> Iterator[Missing]:
    left = [question for question in questions(judged.records) if question.answer is None]
    for question in left:
        key = f"electronics {question.code}"
        yield Missing(keys=(key,), figures={"what": question.says, "n": len(left)})


def _sheets(judged: Judged) -> Iterator[Missing]:
    """What the customer and whoever opens a panel later are given."""
    issued = {kind for sheet in judged.records.issued for kind in SheetKind(sheet.kind).holds}
    wanted = (SheetKind.HANDOVER, SheetKind.PANELS)
    left = [kind for kind in wanted if kind not in issued]
    if left:
        names = ", ".join(str(kind.label) for kind in left)
        figures = {"names": names, "ready": len(wanted) - len(left), "all": len(wanted)}
        yield Missing(keys=tuple(f"sheet {kind}" for kind in left), figures=figures)


INSTALLER = Role.INSTALLER
GONE = Stage.HANDED_OVER
HAND_OVER = (
    Gate(code="steps", before=Stage.SET_UP, page="bay", who=INSTALLER, missing=_steps),
    Gate(code="placed", before=GONE, page="panels", who=INSTALLER, missing=_placed),
    Gate(code="values-planned", before=GONE, page="bay", who=INSTALLER, missing=_values_planned),
    Gate(code="values", before=GONE, page="bay", who=INSTALLER, missing=_values),
    Gate(code="refit", before=GONE, page="bay", who=INSTALLER, missing=_refit),
    Gate(code="closed", before=GONE, page="bay", who=INSTALLER, missing=_closed),
    Gate(code="signed", before=GONE, page="gate", who=INSTALLER, missing=_signed),
    Gate(code="electronics", before=GONE, page="gate", who=INSTALLER, missing=_electronics),
    Gate(
        code="looks-handover",
        before=GONE,
        page="findings",
        who=Role.DESIGNER,
        missing=partial(looks_due, GONE),
    ),
    Gate(
        code="sheets", before=Stage.AFTERCARE, page="sheets", who=Role.CONSULTANT, missing=_sheets
    ),
)
