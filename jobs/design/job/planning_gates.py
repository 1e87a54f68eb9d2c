"""What must be so before a job is agreed, gets its parts, and comes into the bay."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from decimal import Decimal
from functools import partial

from jobs.design.agreement.agreed import agreed
from jobs.design.job.due import cured_by, due_of
from jobs.design.job.gates import Gate, Judged, Missing
from jobs.design.records.findings import Finding
from jobs.models import Part, Role, Stage


def _halted(judged: Judged) -> Iterator[Missing]:
    job = judged.records.job
    if job.halt:
        figures = {"halt": job.get_halt_display(), "why": job.halt_why}
        yield Missing(keys=(f"halt {job.halt}",), figures=figures)


def _wishes(judged: Judged) -> Iterator[Missing]:
    if not judged.records.job.wishes.strip():
        yield Missing(keys=("no wishes",))


def _equipment(judged: Judged) -> Iterator[Missing]:
    if not judged.records.equipment:
        yield Missing(keys=("no equipment",))


def _lists(judged: Judged, *kinds: str) -> bool:
    return any(item.part.kind in kinds for item in judged.records.equipment)


def _channels(judged: Judged) -> Iterator[Missing]:
    plays = _lists(judged, Part.Kind.DRIVER, Part.Kind.AMPLIFIER)
    if plays and not judged.records.channels:
        yield Missing(keys=("no channels",))


def _box(judged: Judged) -> Iterator[Missing]:
    boxes = judged.records.boxes
    if boxes and not any(box.chosen for box in boxes):
        yield Missing(keys=("no box chosen",))


def _cables(judged: Judged) -> Iterator[Missing]:
    if _lists(judged, Part.Kind.AMPLIFIER) and not judged.records.runs:
        yield Missing(keys=("no cables",))


def _open(judged: Judged, severity: str) -> list[Finding]:
    return [
        finding
        for finding in judged.findings
        if finding.severity == severity and finding.is_open
    ]  # fmt: skip


def _stops(judged: Judged) -> Iterator[Missing]:
    stops = _open(judged, "stop")
    for stop in stops:
        yield Missing(
            keys=(f"stop {stop.fingerprint}",),
            figures={"says": stop.says, "n": len(stops)},
            page=stop.section,
            who=cured_by(stop),
        )


def looks_due(due: Stage, judged: Judged) -> Iterator[Missing]:
    """Count the looks to be settled before a stage, for each person apart."""
    by_person: dict[Role, list[str]] = defaultdict(list)
    for look in _open(judged, "look"):
        # What is not placed has a gate of its own, which no acceptance opens.
        if due_of(look) == due and look.code != "not-placed":
            by_person[cured_by(look)].append(f"look {look.fingerprint}")
    for who, keys in by_person.items():
        yield Missing(keys=tuple(keys), figures={"n": len(keys)}, who=who)


def _parts(judged: Judged) -> Iterator[Missing]:
    to_come = [item for item in judged.records.equipment if item.to_come]
    if to_come:
        names = ", ".join(str(item.part) for item in to_come)
        keys = tuple(f"part {item.pk}" for item in to_come)
        yield Missing(keys=keys, figures={"names": names, "n": len(to_come)})


def _panels(judged: Judged) -> Iterable[Missing]:
    return () if judged.panels else (Missing(keys=("no panels",)),)


def _agreed(judged: Judged) -> Iterator[Missing]:
    """What was offered waits for a yes; of a job nobody offered anything on there is none."""
    offers = judged.records.offers
    if offers and agreed(offers) is None:
        yield Missing(keys=(f"offer {offers[-1].pk}",), figures={"number": offers[-1].number})


def _paid(judged: Judged) -> Iterator[Missing]:
    """What was agreed is paid before the keys are handed over."""
    offer = agreed(judged.records.offers)
    paid = sum((payment.counted for payment in judged.records.payments), Decimal(0))
    if offer and paid < offer.total:
        yield Missing(keys=(f"unpaid {offer.pk}",), figures={"number": offer.number})


def _intake(judged: Judged) -> Iterator[Missing]:
    """Nothing comes off before the walk round the car is signed; what has come off has."""
    stages = tuple(Stage)
    if stages.index(Stage(judged.records.job.stage)) >= stages.index(Stage.BAY):
        return
    if not any(intake.is_signed for intake in judged.records.intakes):
        yield Missing(keys=("intake",))


CONSULTANT, DESIGNER = Role.CONSULTANT, Role.DESIGNER
PLANNING = (
    Gate(code="halted", before=None, page="halt", who=CONSULTANT, missing=_halted),
    Gate(code="wishes", before=Stage.SPEC, page="brief", who=CONSULTANT, missing=_wishes),
    Gate(code="equipment", before=Stage.AGREED, page="equipment", who=DESIGNER, missing=_equipment),
    Gate(code="channels", before=Stage.AGREED, page="channels", who=DESIGNER, missing=_channels),
    Gate(code="box", before=Stage.AGREED, page="boxes", who=DESIGNER, missing=_box),
    Gate(code="cables", before=Stage.AGREED, page="power", who=DESIGNER, missing=_cables),
    Gate(code="stops", before=Stage.AGREED, page="findings", who=DESIGNER, missing=_stops),
    Gate(
        code="looks-spec",
        before=Stage.AGREED,
        page="findings",
        who=DESIGNER,
        missing=partial(looks_due, Stage.AGREED),
    ),
    Gate(code="agreed", before=Stage.BAY, page="agreement", who=CONSULTANT, missing=_agreed),
    Gate(code="parts", before=Stage.BAY, page="equipment", who=CONSULTANT, missing=_parts),
    Gate(code="intake", before=Stage.BAY, page="intake", who=CONSULTANT, missing=_intake),
    Gate(code="panels", before=Stage.BAY, page="panels", who=DESIGNER, missing=_panels),
    Gate(
        code="looks-bay",
        before=Stage.BAY,
        page="findings",
        who=DESIGNER,
        missing=partial(looks_due, Stage.BAY),
    ),
    Gate(code="paid", before=Stage.HANDED_OVER, page="agreement", who=CONSULTANT, missing=_paid),
)
