"""The cores of a run as its ends are made: which conductor, colour, place, terminal and torque."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from jobs.design.records.about import about
from jobs.design.wiring.cables import core, terminal
from jobs.models import Channel, Fuse, GroundPoint, Holder, PowerNode, Run, Terminal
from wiring.cable.terminals import Passage
from wiring.runs.labelled import Core, Cut, LabelledRun

PLUS, MINUS = "+", "−"
MOST = 24  # cores under one sheath


def labelled(run: Run, fuses: tuple[str, ...], passages: tuple[Passage, ...]) -> LabelledRun:
    """The run as the calculators know it."""
    assert run.conductor is not None
    return LabelledRun(
        id=about(run).id,
        label=run.label,
        start=run.goes_from,
        end=run.goes_to,
        length=run.length,
        cores=tuple(_cores(run)),
        one_sheath=run.conductor.cores > 1 or run.conductor.screened,
        fuses=fuses,
        passages=passages,
        on_battery=any(
            node is not None and node.kind == PowerNode.Kind.BATTERY
            for node in (run.start, run.end)
        ),
    )


def _cores(run: Run) -> list[Core]:
    assert run.conductor is not None
    out = Core(
        conductor=core(run.conductor),
        colour=run.colour,
        start=terminal(run.start_terminal),
        end=terminal(run.end_terminal),
        start_where=_start_where(run),
        end_where=_end_where(run),
        start_stud=_stud(run.start),
        end_stud=_stud(run.end),
        cuts=tuple(_cuts(run)),
    )
    if run.kind == Run.Kind.SPEAKER:
        return [replace(out, sign=PLUS), replace(out, sign=MINUS, colour=run.return_colour)]
    if run.kind != Run.Kind.POWER:
        return _signals(run, out)
    out = replace(out, sign=PLUS)
    return [out, _minus(run, out)] if leads_back(run) else [out]


def _signals(run: Run, first: Core) -> list[Core]:
    """Every core of a line-level or control run, and the screen round them."""
    assert run.conductor is not None
    other = replace(first, colour="", cuts=())
    more = [replace(other, colour=run.return_colour), *[other] * MOST]
    cores = [first, *more[: run.conductor.cores - 1]]
    return [*cores, replace(other, screen=True)] if run.conductor.screened else cores


def leads_back(run: Run) -> bool:
    """Whether something is laid for the minus: a cable all the way, or the lead to a stud."""
    if run.kind != Run.Kind.POWER:
        return False
    lead = run.return_length is not None or run.return_conductor_id or run.return_end_id
    return run.return_kind == Run.Return.CABLE or (
        run.return_kind == Run.Return.CHASSIS and bool(lead)
    )


def _minus(run: Run, out: Core) -> Core:
    """The core of the way back; through the body it is the lead from the part to its stud."""
    back = replace(
        out,
        sign=MINUS,
        cuts=(),
        conductor=core(run.return_conductor) if run.return_conductor else out.conductor,
        colour=run.return_colour,
        length=run.return_length,
        open_length=run.return_length is None,
        start=terminal(run.return_start_terminal) or out.start,
        end=terminal(run.return_end_terminal) or out.end,
    )
    if run.return_kind == Run.Return.CHASSIS:
        # From the part it serves to the body.
        point = run.return_end or run.return_start
        return _on(
            replace(back, start_place=run.goes_to, start_where=out.end_where, start_stud=""),
            "end",
            point,
        )
    return _on(_on(back, "start", run.return_start), "end", run.return_end)


def _on(core: Core, end: str, point: GroundPoint | None) -> Core:
    if point is None:
        return core
    if end == "start":
        return replace(
            core,
            start_place=point.name,
            start_where=point.place,
            start_stud=point.stud,
            start_torque=point.torque,
        )
    return replace(
        core,
        end_place=point.name,
        end_where=point.place,
        end_stud=point.stud,
        end_torque=point.torque,
    )


def _start_where(run: Run) -> str:
    if run.start is not None:
        return run.start.place
    amplifier = run.channel.amplifier if run.channel and not run.from_text else None
    return amplifier.place if amplifier else ""


def _end_where(run: Run) -> str:
    if run.end is not None:
        return run.end.place
    if run.channel is None or run.to_text:
        return ""
    speaker, channel = run.channel.speaker, run.channel
    side = channel.get_side_display() if channel.side != Channel.Side.BOTH else ""
    return ", ".join(word for word in (speaker.place if speaker else "", str(side)) if word)


def _stud(node: PowerNode | None) -> str:
    """The stud of a block, as its part says."""
    holder = getattr(node.equipment.part, "holder", None) if node and node.equipment else None
    return str(holder.stud) if holder else ""


@dataclass(frozen=True, kw_only=True)
class RunFuse:
    """One of the two fuses a run may have, with what stands beside it at its end of the run."""

    label: str
    part: Fuse
    at_start: bool
    node: PowerNode | None
    holder: Holder | None
    distance: float | None
    terminal: Terminal | None

    @property
    def parts_cable(self) -> bool:
        """Whether the cable is cut for it; at 0 it sits on the post or in the block itself."""
        return self.distance != 0.0


def fuses_of(run: Run) -> list[RunFuse]:
    """Return the fuses of a run, that at its start first."""
    ends = (
        (True, run.fuse, run.start, run.fuse_holder, run.fuse_distance, run.fuse_terminal),
        (
            *(False, run.end_fuse, run.end, run.end_fuse_holder),
            *(run.end_fuse_distance, run.end_fuse_terminal),
        ),
    )
    letters = ("a", "b") if run.fuse and run.end_fuse else ("", "")
    return [
        RunFuse(
            label=f"F-{run.label}{letter}",
            part=part,
            at_start=at_start,
            node=node,
            holder=holder,
            distance=distance,
            terminal=end,
        )
        for letter, (at_start, part, node, holder, distance, end) in zip(letters, ends, strict=True)
        if part is not None
    ]


def _cuts(run: Run) -> Iterator[Cut]:
    """Where the plus is cut for its fuses."""
    for fuse in fuses_of(run):
        if fuse.parts_cable:
            yield Cut(
                fuse=fuse.label,
                at_start=fuse.at_start,
                distance=fuse.distance,
                terminal=terminal(fuse.terminal),
                where=_start_where(run) if fuse.at_start else _end_where(run),
                stud=fuse.holder.stud if fuse.holder else "",
            )
