"""Distribution blocks and fuse holders as parts: ways, largest cable, what they may carry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt
from jobs.design.records.records import JobRecords
from jobs.design.wiring.cables import core
from jobs.design.wiring.cores import RunFuse, fuses_of
from jobs.design.wiring.power import SECTION, PowerResult
from jobs.design.wiring.schedule import together
from jobs.models import Fuse, Holder, PowerNode, Run
from wiring.errors import WiringError
from wiring.findings import ABOVE, END, START
from wiring.findings import Finding as PartFinding
from wiring.sources import Source

ROUNDED = 1.01  # a cable marked 35 mm² is one of 35 mm², whatever its strands come to


def check_holders(records: JobRecords, power: PowerResult) -> list[Finding]:
    """What the checks say of every block, and of the holder of every fuse."""
    findings = []
    for node in records.nodes:
        part = getattr(node.equipment.part, "holder", None) if node.equipment else None
        if node.kind == PowerNode.Kind.BLOCK and part is not None:
            said_of = _of_block(node, part, records.runs, power)
            findings += adopt(said_of, section=SECTION, about=about(node), name=node.name)
    missing = []
    for run in records.runs:
        for end, fuse, part in (
            (START, run.fuse, run.fuse_holder),
            (END, run.end_fuse, run.end_fuse_holder),
        ):
            if part is not None:
                said_of = _of_fuse(run, end, fuse, part)
                findings += adopt(said_of, section=SECTION, about=about(run), name=run.label)
        for fitted in (fuse for fuse in fuses_of(run) if _lacks_holder(fuse)):
            end = START if fitted.at_start else END
            none = _finding("fuse-holder-not-chosen", about(run).id, end, None, None, "")
            missing += adopt([none], section=SECTION, about=about(run), name=run.label)
    return [*findings, *together(records.job, missing)]


def _lacks_holder(fuse: RunFuse) -> bool:
    """Whether something is still to be bought: a breaker is bolted on, a block has its ways."""
    at_block = fuse.node is not None and fuse.node.kind == PowerNode.Kind.BLOCK
    held = (at_block and not fuse.parts_cable) or fuse.part.type == Fuse.Type.BREAKER
    return fuse.holder is None and not held


def _of_block(
    node: PowerNode, part: Holder, runs: Sequence[Run], power: PowerResult
) -> Iterator[PartFinding]:
    key, worst = about(node).id, power.worst.runs if power.worst else {}
    leaving = [run for run in runs if run.start == node and run.kind == Run.Kind.POWER]
    if len(leaving) > part.ways:
        yield _finding("holder-ways", key, "", float(len(leaving)), float(part.ways), "")
    meeting = [run for run in runs if node in (run.start, run.end)]
    yield from _largest(key, "", meeting, part)
    arriving = [about(run).id for run in runs if run.end == node]
    carried = sum(abs(worst[run].current) for run in arriving if run in worst)
    if part.rated_current is None:
        yield _finding("holder-rating-unknown", key, "", None, None, "A")
    elif carried > part.rated_current * ABOVE:
        yield _finding("holder-over-rating", key, "", carried, part.rated_current, "A")


def _of_fuse(run: Run, end: str, fuse: Fuse | None, part: Holder) -> Iterator[PartFinding]:
    key = about(run).id
    yield from _largest(key, end, [run], part)
    if part.rated_current is None:
        yield _finding("holder-rating-unknown", key, end, None, None, "A")
    elif fuse is not None and fuse.rating > part.rated_current * ABOVE:
        yield _finding("fuse-above-holder", key, end, fuse.rating, part.rated_current, "A")


def _largest(key: str, end: str, runs: Sequence[Run], part: Holder) -> Iterator[PartFinding]:
    areas = [area for run in runs if (area := _area(run)) is not None]
    limit = part.largest_cable
    if limit is not None and areas and max(areas) > limit * ROUNDED:
        yield _finding("holder-cable", key, end, max(areas), limit, "m²")


def _area(run: Run) -> float | None:
    """Metal of its cable; a size that cannot be is a finding of its own."""
    try:
        return core(run.conductor).area if run.conductor else None
    except WiringError:
        return None


def _finding(
    code: str, key: str, end: str, value: float | None, limit: float | None, unit: str
) -> PartFinding:
    return PartFinding(
        code=code,
        about=key,
        detail=(end,) if end else (),
        value=value,
        limit=limit,
        unit=unit,
        source=(Source.PART_SHEET,),
    )
