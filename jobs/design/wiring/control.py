"""Control runs that can burn, and relays: what feeds them, what guards them."""

from __future__ import annotations

import math
from dataclasses import replace

from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt
from jobs.design.wiring.cables import air_round, core, fitted
from jobs.design.wiring.power import SECTION, PowerResult
from jobs.models import PowerNode, Run
from wiring.findings import Finding as RunFinding
from wiring.network.tree import Node
from wiring.network.tree import Run as TreeRun
from wiring.protection.fuse_checks import check_position
from wiring.protection.protection import Protection
from wiring.runs.control_runs import ControlRun, check_control_run
from wiring.runs.signal_runs import TurnOn

# Terminal numbers of DIN 72552 on which the car's own supply stands.
Contact = Run.Contact
ON_SUPPLY = {
    Contact.T15, Contact.T30, Contact.T30A, Contact.T49, Contact.T50, Contact.T56, Contact.T58,
    Contact.T58D, Contact.T75, Contact.T87, Contact.T87A, Contact.B_PLUS,
}  # fmt: skip
FEEDING = {
    PowerNode.Kind.BATTERY,
    PowerNode.Kind.BLOCK,
    PowerNode.Kind.ALTERNATOR,
    *PowerNode.TWO_SIDED,
}
END = "end of a control run"


def check_control(run: Run, line: TurnOn, power: PowerResult) -> list[Finding]:
    """What the checks say of whether a control run can burn."""
    fuse = fitted(run.fuse, distance=run.fuse_distance, sheathed=run.fuse_sheathed)
    guard = min(
        math.inf if fuse is None else fuse.fuse.rating,
        _upstream(run, power),
    )
    conductor = core(run.conductor) if run.conductor else None
    on_supply = fed_by_supply(run)
    control = ControlRun(
        id=about(run).id,
        conductor=conductor,
        length=run.length,
        air=air_round(run),
        bundled=run.bundle,
        on_supply=on_supply,
        guard=guard,
        output_limit=line.source_limit,
        current=line.source_current,
    )
    findings: list[RunFinding] = list(check_control_run(control))
    if on_supply and fuse is not None:
        drawn = TreeRun(
            id=control.id, start="start", end="end", conductor=conductor, length=run.length,
            return_path=None, fuse_start=fuse,
        )  # fmt: skip
        at_battery = run.start is not None and run.start.kind == PowerNode.Kind.BATTERY
        findings += check_position(drawn, "start", fuse, at_battery=at_battery)
    return adopt(findings, section=SECTION, about=about(run), name=run.label)


def fed_by_supply(run: Run) -> bool | None:
    """Whether the car's supply feeds a control run: as entered, or as its start tells."""
    if run.fed_by:
        return run.fed_by == Run.Feed.SUPPLY
    if run.start_contact in ON_SUPPLY or (run.start is not None and run.start.kind in FEEDING):
        return True
    item = run.start.equipment if run.start else None
    if item is not None and (hasattr(item.part, "processor") or hasattr(item.part, "amplifier")):
        return False
    return None


def _upstream(run: Run, power: PowerResult) -> float:
    """The most that fuses of the tree let through to where it starts; infinite without a tree."""
    if power.tree is None or run.start is None:
        return math.inf
    start = about(run.start).id
    drawn = TreeRun(
        id=about(run).id, start=start, end=END, conductor=None, length=None, return_path=None
    )
    tree = replace(
        power.tree, nodes=(*power.tree.nodes, Node(id=END)), runs=(*power.tree.runs, drawn)
    )
    return Protection(tree).inflow(drawn, start)
