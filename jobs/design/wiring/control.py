"""Control runs that can burn, and relays: what feeds them, what guards them."""

from __future__ import annotations

import math
from collections.abc import Container, Iterable
from contextlib import suppress
from dataclasses import replace

from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt
from jobs.design.wiring.cables import air_round, core, fitted
from jobs.design.wiring.power import SECTION, PowerResult
from jobs.models import PowerNode, Run
from wiring.errors import WiringError
from wiring.findings import Finding as RunFinding
from wiring.network.tree import Node
from wiring.network.tree import Run as TreeRun
from wiring.protection.fault_checks import check_breaking
from wiring.protection.fuse_checks import check_position
from wiring.protection.fuse_voltage import check_fuse_voltages
from wiring.protection.protection import Protection
from wiring.runs.control_runs import ControlRun, check_control_run
from wiring.runs.signal_runs import TurnOn

# Terminal numbers of DIN 72552 on which the car's own supply stands.
Contact = Run.Contact
ON_SUPPLY = {
    Contact.T15, Contact.T30, Contact.T30A, Contact.T49, Contact.T50, Contact.T56, Contact.T58,
    Contact.T58D, Contact.T75, Contact.T87, Contact.T87A, Contact.B_PLUS,
}  # fmt: skip
GROUNDS = {Contact.T31, Contact.T31B, Contact.T41}
FEEDING = {
    PowerNode.Kind.BATTERY,
    PowerNode.Kind.BLOCK,
    PowerNode.Kind.ALTERNATOR,
    *PowerNode.TWO_SIDED,
}


class OnTheTree:
    """The control runs that start in the power tree, drawn into it once for all of them."""

    def __init__(self, runs: Iterable[Run], power: PowerResult) -> None:
        self._drawn: dict[str, TreeRun] = {}
        self._protection: Protection | None = None
        self._findings: dict[str, list[RunFinding]] = {}
        if power.tree is None:
            return
        for run in runs:
            if run.kind == Run.Kind.CONTROL and run.start is not None:
                with suppress(WiringError):  # what cannot be is said of the run itself
                    self._drawn[about(run).id] = _drawn(run)
        drawn = list(self._drawn.values())
        ends = (Node(id=run.end) for run in drawn)
        tree = replace(
            power.tree, nodes=(*power.tree.nodes, *ends), runs=(*power.tree.runs, *drawn)
        )
        self._protection = Protection(tree)
        if fused := [run for run in drawn if run.fuse_start]:
            of_tree = (*check_fuse_voltages(tree), *check_breaking(tree, fused))
            for finding in of_tree:
                self._findings.setdefault(finding.about, []).append(finding)

    def upstream(self, run: Run) -> float:
        """The most that fuses of the tree let through to where it starts, infinite elsewhere."""
        drawn = self._drawn.get(about(run).id)
        if drawn is None or self._protection is None:
            return math.inf
        return self._protection.inflow(drawn, drawn.start)

    def findings(self, run: Run) -> list[RunFinding]:
        """What its fuse is held against in the tree: the voltage and the short there."""
        return self._findings.get(about(run).id, [])


def _drawn(run: Run, start: str = "start") -> TreeRun:
    """A control run as a run of a tree, from the node it starts at."""
    key = about(run).id
    return TreeRun(
        id=key,
        start=start if run.start is None else about(run.start).id,
        end=f"end of {key}",
        conductor=core(run.conductor) if run.conductor else None,
        length=run.length,
        return_path=None,
        fuse_start=fitted(run.fuse, distance=run.fuse_distance, sheathed=run.fuse_sheathed),
    )


def check_control(
    run: Run, line: TurnOn, tree: OnTheTree, *, on_supply: bool | None
) -> list[Finding]:
    """What the checks say of whether a control run can burn."""
    drawn = _drawn(run)
    fuse = drawn.fuse_start
    control = ControlRun(
        id=drawn.id,
        conductor=drawn.conductor,
        length=run.length,
        air=air_round(run),
        bundled=run.bundle,
        on_supply=on_supply,
        guard=min(math.inf if fuse is None else fuse.fuse.rating, tree.upstream(run)),
        output_limit=line.source_limit,
        current=line.source_current,
    )
    findings: list[RunFinding] = list(check_control_run(control))
    if on_supply and fuse is not None:
        at_battery = run.start is not None and run.start.kind == PowerNode.Kind.BATTERY
        findings += check_position(drawn, drawn.start, fuse, at_battery=at_battery)
        findings += tree.findings(run)
    return adopt(findings, section=SECTION, about=about(run), name=run.label)


def fed_by_supply(run: Run, supplied: Container[int | None]) -> bool | None:
    """Whether the car's supply feeds a run: as its start tells, as entered, or as was found.

    `supplied`: keys of the runs that meet supply or ground in the factory loom.
    """
    if run.start is not None and run.start.kind in FEEDING:
        return True  # whatever was entered, a battery or block is no device's output
    if run.fed_by:
        return run.fed_by == Run.Feed.SUPPLY
    if run.start_contact in ON_SUPPLY:
        return True
    if run.pk in supplied:
        return run.start_contact not in GROUNDS
    item = run.start.equipment if run.start else None
    if item is not None and (hasattr(item.part, "processor") or hasattr(item.part, "amplifier")):
        return False
    return None
