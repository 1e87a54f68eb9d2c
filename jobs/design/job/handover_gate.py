"""The gate before hand-over: what must be signed, closed and measured before the car goes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs.design.job.closing import closing_of
from jobs.design.job.electronics import questions
from jobs.design.job.whole import JobDesign
from jobs.design.records.records import JobRecords
from jobs.models import FactoryPart, GateSign, HandOverRelease, Run

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


@dataclass(frozen=True, kw_only=True)
class Open:
    """Something that is open: in words, and by keys that are the same in every language."""

    says: str
    keys: tuple[str, ...]
    # Whether it waits for a signature, which is given in the list of these.
    to_sign: bool = False


def open_before_handover(design: JobDesign) -> list[Open]:
    """Say what is open; an empty list opens the gate."""
    records = design.records
    stops = [
        Open(says=_("Stop: %(says)s") % {"says": stop.says}, keys=(f"stop {stop.fingerprint}",))
        for stop in design.open_stops
    ]
    steps = [f"step {step.pk}" for step in records.steps if step.done_at is None]
    values = [f"value {row.pk}" for row in records.measurements if row.value is None]
    off = [
        result.panel
        for result in design.panels
        if closing_of(result.panel.pk, records.closings) is None
    ]
    names = ", ".join(panel.name for panel in off)
    # What nobody planned was not done: it is open, and no sign that all is well.
    unplanned = [
        (_("No panel is listed."), [] if design.panels else ["no panels"]),
        (_("No value to measure is planned."), [] if records.measurements else ["no values"]),
    ]
    groups = [
        *unplanned,
        (_("Steps not ticked: %(n)s") % {"n": len(steps)}, steps),
        (_("Values not measured: %(n)s") % {"n": len(values)}, values),
        (_("Panels not closed: %(names)s") % {"names": names}, [f"panel {p.pk}" for p in off]),
    ]
    return [
        *stops,
        *(Open(says=says, keys=tuple(keys)) for says, keys in groups if keys),
        *(
            Open(says=check.says, keys=(f"{check.code} {check.key}".strip(),), to_sign=True)
            for check in gate_checks(records)
            if check.sign is None
        ),
        *(
            Open(says=question.says, keys=(f"electronics {question.code}",))
            for question in questions(records)
            if question.answer is None
        ),
    ]


def let_go(still: Sequence[Open], releases: Sequence[HandOverRelease]) -> list[Open]:
    """What of it the manager's last word lets the car go with."""
    covered = set(releases[-1].left_open["keys"]) if releases else set()
    return [item for item in still if covered.issuperset(item.keys)]


def may_hand_over(design: JobDesign) -> bool:
    """Whether the gate is open: nothing is, or the manager said why the car goes all the same.

    What came to be open after that word was given is not covered by it.
    """
    still = open_before_handover(design)
    return let_go(still, design.records.releases) == still
