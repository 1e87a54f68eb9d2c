"""The power tree worked out: voltages, currents, fuses, and what the checks say of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from jobs import units
from jobs.design.records.about import About, about
from jobs.design.records.findings import Finding, adopt
from jobs.design.records.records import JobRecords
from jobs.design.wiring.amplifier_draw import fitted_amplifier, share_played
from jobs.design.wiring.cables import core, fitted, for_aluminium
from jobs.design.wiring.channels import ChannelResult
from jobs.models import PowerNode, Run
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.errors import Id, TreeError, WiringError
from wiring.findings import END, START
from wiring.findings import Finding as TreeFinding
from wiring.names import Name
from wiring.network.parts import Load, Source
from wiring.network.solve import RunState, Solution, solve
from wiring.network.tree import Node, Tree
from wiring.network.tree import Run as TreeRun
from wiring.protection.checks import check
from wiring.protection.fuse_voltage import check_fuse_voltages

SECTION = "power"
# A DC-DC converter loses a tenth on the way; common practice, no source. It only makes the draw
# on its input side larger, which is the safe side.
CONVERTER_EFFICIENCY = 0.9
HOTTEST_ZONE = Run.Zone.ENGINE_BAY

_NODE_KIND: dict[str, str] = {PowerNode.Kind.BATTERY: "battery", PowerNode.Kind.BLOCK: "block"}


class Named(NamedTuple):
    """What an id of the tree stands for, and what people call it and the ends of a run."""

    about: About
    name: str
    ends: Mapping[str, str]


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
    # What the ids of the tree stand for.
    names: Mapping[str, Named]
    tree: Tree | None = None
    worst: Solution | None = None
    music: Solution | None = None


def input_of(node: PowerNode) -> str:
    """The tree's id of the side a converter takes from."""
    return f"{about(node).id} input"


def input_name(node: PowerNode) -> str:
    """What people call that side."""
    return f"{node.name}, input"


def work_out_power(records: JobRecords, channels: Sequence[ChannelResult]) -> PowerResult:
    """Draw up the tree, solve it for worst case and music, and check it."""
    power_runs = [run for run in records.runs if run.kind == Run.Kind.POWER]
    others = [run for run in records.runs if run.kind != Run.Kind.POWER]
    connected = [run for run in power_runs if run.start and run.end]
    silent = [node for node in records.nodes if node.is_source and node.voltage is None]
    found = [
        *(_finding(run, "run-goes-nowhere", "stop") for run in power_runs if run not in connected),
        *(_finding(run, "zone-unknown", "look") for run in connected if not run.zone),
        *(
            Finding(
                code="source-without-voltage",
                severity="stop",
                section=SECTION,
                about=about(node),
                name=node.name,
            )
            for node in silent
        ),
    ]
    names = names_of(records.nodes, connected)
    folded = [run for run in connected if _ends_where_it_starts(run)]
    found += [_folded(records, run) for run in folded]
    tree = worst = music = None
    try:
        if not silent and not folded:
            tree = _tree(records, connected, channels)
            worst, music = solve(tree, "worst"), solve(tree, "music")
            said = [*check(tree), *check_fuse_voltages(tree)]
            found += from_tree(said, names)
    except WiringError as error:
        tree = worst = music = None
        found.append(
            Finding(
                code="tree-cannot-be",
                severity="stop",
                section=SECTION,
                about=about(records.job),
                name=records.job.code,
                value=str(error),
                refused=error,
            )
        )
    return PowerResult(
        nodes=[_node(node, worst, music) for node in records.nodes],
        runs=[_run(run, worst, music) for run in power_runs],
        other_runs=others,
        findings=found,
        names=names,
        tree=tree,
        worst=worst,
        music=music,
    )


def _ends_where_it_starts(run: Run) -> bool:
    # A converter's two sides are two nodes of the tree.
    return run.start == run.end and run.end is not None and run.end.kind != PowerNode.Kind.DC_DC


def _folded(records: JobRecords, run: Run) -> Finding:
    return Finding(
        code="tree-cannot-be",
        severity="stop",
        section=SECTION,
        about=about(records.job, about(run).id),
        also=(about(run),),
        name=records.job.code,
        value="ends where it starts",
        refused=_refused(run),
    )


def _refused(run: Run) -> TreeError:
    return TreeError(Name.RUN_END, Id(str(run.end)), about=run.label, to_be="another-node")


def _finding(run: Run, code: str, severity: str) -> Finding:
    return Finding(code=code, severity=severity, section=SECTION, about=about(run), name=run.label)


def names_of(nodes: Iterable[PowerNode], runs: Iterable[Run]) -> dict[str, Named]:
    """What every id of a tree stands for."""
    names = {}
    for node in nodes:
        names[about(node).id] = Named(about(node), node.name, {})
        names[input_of(node)] = Named(about(node, "input"), input_name(node), {})
    for run in runs:
        ends = {START: run.start.name if run.start else "", END: _end_name(run.end)}
        label = run.label if run.number else "P–"
        names[about(run).id] = Named(about(run), label, ends)
    return names


def _end_name(node: PowerNode | None) -> str:
    if node is None:
        return ""
    return input_name(node) if node.kind == PowerNode.Kind.DC_DC else node.name


def from_tree(found: Iterable[TreeFinding], names: Mapping[str, Named]) -> list[Finding]:
    """Take over what is found in a tree, each finding about the record its id stands for."""
    return [_from_tree(one, names) for one in found]


# A source reaches an end of these, which the sentence names.
_AT_AN_END = {"unprotected-conductor", "second-source-unprotected"}


def _from_tree(found: TreeFinding, names: Mapping[str, Named]) -> Finding:
    subject = names[found.about]
    # A fuse on another run that has to clear a short of this one.
    carriers = [names[word] for word in found.detail if word in names]
    name = " > ".join(one.name for one in (*carriers, subject))
    adopted = adopt([found], section=SECTION, about=subject.about, name=name)[0]
    return replace(
        adopted,
        also=tuple(one.about for one in carriers),
        value_said=subject.ends[found.detail[0]] if found.code in _AT_AN_END else None,
    )


def _tree(records: JobRecords, runs: Sequence[Run], channels: Sequence[ChannelResult]) -> Tree:
    nodes, sources, loads = [], [], []
    for node in records.nodes:
        name = about(node).id
        if node.kind == PowerNode.Kind.DC_DC:
            # It takes from one side and gives to the other: two nodes that share a housing.
            nodes += [Node(id=input_of(node), kind="load"), Node(id=name, kind="block")]
            loads.append(_converter_input(node))
        else:
            nodes.append(Node(id=name, kind=_NODE_KIND.get(node.kind, "load"), studs=2))
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


def _converter_input(node: PowerNode) -> Load:
    given = (
        None
        if node.current_limit is None or node.voltage is None
        else node.current_limit * node.voltage / CONVERTER_EFFICIENCY
    )
    return Load(id=input_of(node), node=input_of(node), kind="power", value=given)


_SOURCE_KIND: dict[str, str] = {
    PowerNode.Kind.DC_DC: "dc-dc",
    PowerNode.Kind.CAPACITOR: "capacitor",
}


def _source(node: PowerNode, name: str) -> Source:
    assert node.voltage is not None  # without it no tree is drawn up
    kind = _SOURCE_KIND.get(node.kind)
    return Source(
        id=name,
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
        return Load(id=name, node=name, kind="current", value=node.current)
    if node.kind != PowerNode.Kind.AMPLIFIER:
        return None
    part, power, amplifier = fitted_amplifier(node, records, channels)
    played = share_played(records.job)
    return Load(
        id=name,
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
        id=about(run).id,
        start=about(run.start).id,
        end=input_of(run.end) if run.end.kind == PowerNode.Kind.DC_DC else about(run.end).id,
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
    return solution.voltages.get(about(node).id)


def _node(node: PowerNode, worst: Solution | None, music: Solution | None) -> NodeResult:
    load = worst.loads.get(about(node).id) if worst else None
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
        worst=worst.runs.get(about(run).id) if worst else None,
        music=music.runs.get(about(run).id) if music else None,
        start_voltage=_at(worst, run.start),
        end_voltage=_at(worst, run.end),
    )
