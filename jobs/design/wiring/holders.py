"""Distribution blocks and fuse holders as parts: ways, largest cable, what they may carry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt
from jobs.design.records.records import JobRecords
from jobs.design.wiring.cables import core
from jobs.design.wiring.cores import RunFuse, fuses_of
from jobs.design.wiring.power import SECTION, PowerResult
from jobs.design.wiring.schedule import together
from jobs.models import Conductor, Fuse, Holder, Part, PowerNode, Run, Terminal
from wiring.errors import WiringError
from wiring.findings import ABOVE, END, START
from wiring.findings import Finding as PartFinding
from wiring.sources import Source

P = TypeVar("P", bound=Part)
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
    if fuse is not None and not part.takes:
        yield _finding("holder-fuse-unknown", key, end, None, None, "")
    elif fuse is not None and part.takes != fuse.type:
        yield _finding("holder-for-other-fuse", key, end, None, None, "")
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


@dataclass(frozen=True, kw_only=True)
class AtFuse:
    """What is chosen for one fuse of a run: its holder, and the terminals of the cable cut for it.

    Where nothing of the catalogue fits, what is there stays and is named among `lacks`.
    """

    holder: Holder | None
    terminal: Terminal | None
    lacks: tuple[str, ...] = ()


def choose_at_fuse(
    run: Run, fuse: RunFuse, holders: Sequence[Holder], terminals: Sequence[Terminal]
) -> AtFuse:
    """Choose a holder for a fuse, and terminals for its stud: what is there if it fits.

    What is not known of a part is no yes: such a part is not offered.
    """
    area, lacks = _area(run), []
    holder: Holder | None = None
    if _lacks_holder(replace(fuse, holder=None)):
        fitting = [part for part in holders if _holds(part, fuse.part, area)]
        holder = _there_or_cheapest(fuse.holder, fitting)
        if holder is None:
            holder = fuse.holder
            lacks.append("holder")
    terminal: Terminal | None = None
    if fuse.parts_cable:
        metal = run.conductor.metal if run.conductor else ""
        stud = holder.stud if holder else ""
        fits = [part for part in terminals if _crimps(part, area, metal)]
        # What goes into a holder without a stud only a person knows, who may have chosen already.
        if fuse.terminal not in fits or (stud and fuse.terminal.stud != stud):
            fits = [part for part in fits if stud and part.stud == stud]
        terminal = _there_or_cheapest(fuse.terminal, fits)
        if terminal is None:
            terminal = fuse.terminal
            lacks.append("terminal")
    return AtFuse(holder=holder, terminal=terminal, lacks=tuple(lacks))


def _holds(part: Holder, fuse: Fuse, area: float | None) -> bool:
    """Whether a holder for a single fuse takes this one, its current and its cable."""
    if part.ways != 1 or part.takes != fuse.type:
        return False
    if part.rated_current is None or fuse.rating > part.rated_current * ABOVE:
        return False
    limit = part.largest_cable
    return area is not None and limit is not None and area <= limit * ROUNDED


def _crimps(part: Terminal, area: float | None, metal: str) -> bool:
    """Whether a terminal is made for this size of cable and its metal."""
    least, most = part.smallest_cable, part.largest_cable
    if part.plug or area is None or least is None or most is None:
        return False
    suits = part.metals == Terminal.Metals.BOTH or (
        part.metals == Terminal.Metals.COPPER and metal == Conductor.Metal.COPPER
    )
    return suits and least <= area * ROUNDED and area <= most * ROUNDED


def _there_or_cheapest(there: P | None, parts: Sequence[P]) -> P | None:
    return there if there in parts else min(parts, key=price_order, default=None)


def price_order(part: Part) -> tuple[bool, float, int]:
    """Sort parts by their price, those without one last."""
    return part.price is None, float(part.price or 0), part.pk
