"""The power tree worked out: voltages, currents, fuses, and what the checks say of it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from jobs import units
from jobs.design.records.findings import Finding, adopt
from jobs.design.records.records import JobRecords
from jobs.design.wiring.amplifier_draw import fitted_amplifier, share_played
from jobs.design.wiring.cables import core, fitted, for_aluminium
from jobs.design.wiring.channels import ChannelResult
from jobs.models import PowerNode, Run
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.errors import WiringError
from wiring.network.solve import RunState, Solution, solve
from wiring.network.tree import Load, Node, Source, Tree
from wiring.network.tree import Run as TreeRun
from wiring.protection.checks import check
from wiring.protection.fuse_voltage import check_fuse_voltages

SECTION = "power"
# A DC-DC converter loses a tenth on the way; common practice, no source. It only makes the draw
# on its input side larger, which is the safe side.
CONVERTER_EFFICIENCY = 0.9
HOTTEST_ZONE = Run.Zone.ENGINE_BAY

_NODE_KIND: dict[str, str] = {PowerNode.Kind.BATTERY: "battery", PowerNode.Kind.BLOCK: "block"}


@dataclass(frozen=True, kw_only=True)
class RunResult:
    """One power run with its state in the worst case and on music."""

    run: Run
    area: float | None
    worst: RunState | None
    music: RunState | None
    start_voltage: float | None
    end_voltage: float | None


@dataclass(frozen=True, kw_only=True)
class NodeResult:
    """One node with its voltages and, for a load, what it draws."""

    node: PowerNode
    worst_voltage: float | None
    music_voltage: float | None
    worst_current: float | None


@dataclass(frozen=True, kw_only=True)
class PowerResult:
    """The tree of a job; without solutions when a finding says why it cannot be worked out."""

    nodes: list[NodeResult]
    runs: list[RunResult]
    other_runs: list[Run]
    findings: list[Finding]
    tree: Tree | None = None
    worst: Solution | None = None
    music: Solution | None = None


_NUMBER = re.compile(r" #\d+")


def name_of(node: PowerNode) -> str:
    """The tree's own name of a node: unique even when two nodes share their words."""
    return f"{node.name}" if node.pk is None else f"{node.name} #{node.pk}"


def work_out_power(records: JobRecords, channels: Sequence[ChannelResult]) -> PowerResult:
    """Draw up the tree, solve it for worst case and music, and check it."""
    power_runs = [run for run in records.runs if run.kind == Run.Kind.POWER]
    others = [run for run in records.runs if run.kind != Run.Kind.POWER]
    connected = [run for run in power_runs if run.start and run.end]
    found = [
        Finding(
            code="run-goes-nowhere",
            severity="stop",
            section=SECTION,
            where=run.label,
            record_id=run.pk,
        )
        for run in power_runs
        if run not in connected
    ]
    found += [
        Finding(code="zone-unknown", severity="look", section=SECTION, where=run.label)
        for run in connected
        if not run.zone
    ]
    silent = [node for node in records.nodes if node.is_source and node.voltage is None]
    found += [
        Finding(
            code="source-without-voltage",
            severity="stop",
            section=SECTION,
            where=node.name,
            record_id=node.pk,
        )
        for node in silent
    ]
    tree = worst = music = None
    try:
        if not silent:
            tree = _tree(records, connected, channels)
            worst, music = solve(tree, "worst"), solve(tree, "music")
            found += adopt([*check(tree), *check_fuse_voltages(tree)], section=SECTION)
    except WiringError as error:
        tree = worst = music = None
        found.append(
            Finding(
                code="tree-cannot-be",
                severity="stop",
                section=SECTION,
                where=records.job.code,
                value=str(error),
                refused=error,
            )
        )
    return PowerResult(
        nodes=[_node(node, worst, music) for node in records.nodes],
        runs=[_run(run, worst, music) for run in power_runs],
        other_runs=others,
        findings=[readable(one) for one in found],
        tree=tree,
        worst=worst,
        music=music,
    )


def readable(finding: Finding) -> Finding:
    """Take the record numbers out of the names a person reads."""
    value = finding.value
    return replace(
        finding,
        where=_NUMBER.sub("", finding.where),
        value=_NUMBER.sub("", value) if isinstance(value, str) else value,
    )


def _tree(records: JobRecords, runs: Sequence[Run], channels: Sequence[ChannelResult]) -> Tree:
    nodes, sources, loads = [], [], []
    for node in records.nodes:
        name = name_of(node)
        if node.kind == PowerNode.Kind.DC_DC:
            # It takes from one side and gives to the other: two nodes that share a housing.
            nodes += [Node(name=input_of(node), kind="load"), Node(name=name, kind="block")]
            loads.append(_converter_input(node))
        else:
            nodes.append(Node(name=name, kind=_NODE_KIND.get(node.kind, "load"), studs=2))
        if node.is_source:
            sources.append(_source(node, name))
        load = _load(node, name, records, channels)
        if load is not None:
            loads.append(load)
    return Tree(
        nodes=tuple(nodes),
        sources=tuple(sources),
        loads=tuple(loads),
        runs=tuple(_tree_run(run) for run in runs),
    )


def input_of(node: PowerNode) -> str:
    """The tree's name of the side a converter takes from."""
    return f"{name_of(node)}, input"


def _converter_input(node: PowerNode) -> Load:
    given = (
        None
        if node.current_limit is None or node.voltage is None
        else node.current_limit * node.voltage / CONVERTER_EFFICIENCY
    )
    return Load(name=input_of(node), node=input_of(node), kind="power", value=given)


_SOURCE_KIND: dict[str, str] = {
    PowerNode.Kind.DC_DC: "dc-dc",
    PowerNode.Kind.CAPACITOR: "capacitor",
}


def _source(node: PowerNode, name: str) -> Source:
    assert node.voltage is not None  # without it no tree is drawn up
    kind = _SOURCE_KIND.get(node.kind)
    return Source(
        name=name,
        node=name,
        kind=kind or ("starter battery" if node.cca else "second battery"),
        emf=node.voltage,
        resistance=node.internal_resistance,
        cold_cranking=node.cca,
        current_limit=node.current_limit,
    )


def _load(
    node: PowerNode, name: str, records: JobRecords, channels: Sequence[ChannelResult]
) -> Load | None:
    if node.kind == PowerNode.Kind.LOAD:
        return Load(name=name, node=name, kind="current", value=node.current)
    if node.kind != PowerNode.Kind.AMPLIFIER:
        return None
    part, power, amplifier = fitted_amplifier(node, name, records, channels)
    played = share_played(records.job)
    return Load(
        name=name,
        node=name,
        kind="amplifier",
        value=power,
        efficiency=amplifier.efficiency if amplifier else None,
        music_power=float(amplifier.input_power(played)) if amplifier else None,
        minimum_voltage=part.minimum_voltage if part else None,
    )


def _tree_run(run: Run) -> TreeRun:
    assert run.start is not None
    assert run.end is not None
    conductor = core(run.conductor) if run.conductor else None
    back: CableReturn | ChassisReturn | None = None
    if run.return_kind == Run.Return.CABLE:
        back = CableReturn(conductor=conductor, length=run.return_length)
    elif run.return_kind == Run.Return.CHASSIS:
        back = ChassisReturn(resistance=run.chassis_resistance)
    return TreeRun(
        label=run.label if run.number else "P–",
        start=name_of(run.start),
        end=input_of(run.end) if run.end.kind == PowerNode.Kind.DC_DC else name_of(run.end),
        conductor=conductor,
        length=run.length,
        return_path=back,
        fuse_start=fitted(run.fuse, distance=run.fuse_distance, sheathed=run.fuse_sheathed),
        fuse_end=fitted(run.end_fuse, distance=run.end_fuse_distance, sheathed=False),
        zone=run.zone or HOTTEST_ZONE,
        ambient=None if run.ambient is None else units.celsius(run.ambient),
        bundled=run.bundle,
        aluminium_terminals=for_aluminium([run.start_terminal, run.end_terminal]),
    )


def _at(solution: Solution | None, node: PowerNode | None) -> float | None:
    if solution is None or node is None:
        return None
    return solution.voltages.get(name_of(node))


def _node(node: PowerNode, worst: Solution | None, music: Solution | None) -> NodeResult:
    load = worst.loads.get(name_of(node)) if worst else None
    return NodeResult(
        node=node,
        worst_voltage=_at(worst, node),
        music_voltage=_at(music, node),
        worst_current=load.current if load else None,
    )


def _area(run: Run) -> float | None:
    """Metal of the cable; a size or class that cannot be is a finding of the tree already."""
    try:
        return core(run.conductor).area if run.conductor else None
    except WiringError:
        return None


def _run(run: Run, worst: Solution | None, music: Solution | None) -> RunResult:
    return RunResult(
        run=run,
        area=_area(run),
        worst=worst.runs.get(run.label) if worst else None,
        music=music.runs.get(run.label) if music else None,
        start_voltage=_at(worst, run.start),
        end_voltage=_at(worst, run.end),
    )
