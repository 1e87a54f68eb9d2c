"""The power tree worked out: voltages, currents, fuses, and what the checks say of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from jobs.design.records.about import About, about
from jobs.design.records.findings import Finding, adopt
from jobs.design.records.records import JobRecords
from jobs.design.wiring.cables import core
from jobs.design.wiring.channels import ChannelResult
from jobs.design.wiring.states import CHARGING, CHARGING_NAME, StateSaid, said, state_said
from jobs.design.wiring.tree import contact_of, draw_tree, input_of
from jobs.models import PowerNode, Run
from wiring.errors import Id, TreeError, WiringError
from wiring.findings import END, START
from wiring.findings import Finding as TreeFinding
from wiring.names import Name
from wiring.network.solution import RunState, Solution
from wiring.network.solve import solve
from wiring.network.states import PASSING, Condition, Solved, State, in_state, solve_states
from wiring.network.tree import Tree
from wiring.protection.checks import check
from wiring.protection.fuse_voltage import check_fuse_voltages

SECTION = "power"
ENGINE_OFF = State(condition=Condition.ENGINE_OFF)


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
    # In which state of the car it carries most.
    state: StateSaid | None = None


@dataclass(frozen=True, kw_only=True)
class NodeResult:
    """One node with its voltages and, for a load, what it draws."""

    node: PowerNode
    worst_voltage: float | None
    music_voltage: float | None
    worst_current: float | None


@dataclass(frozen=True, kw_only=True)
class StateRow:
    """One state of the car with the current of each run; negative where it flows back."""

    name: StateSaid
    unsolved: bool
    currents: Sequence[tuple[str, float | None]]


@dataclass(frozen=True, kw_only=True)
class PowerResult:
    """The tree of a job; without solutions when a finding says why it cannot be worked out."""

    nodes: list[NodeResult]
    runs: list[RunResult]
    findings: list[Finding]
    # What the ids of the tree stand for.
    names: Mapping[str, Named]
    tree: Tree | None = None
    # Engine off, as it is played.
    music: Solution | None = None
    solved: Solved | None = None

    @property
    def worst(self) -> Solution | None:
        """The largest current of each run and the lowest voltage of each node over all states."""
        return self.solved.worst if self.solved else None

    @property
    def engine_off(self) -> Solution | None:
        """Engine off, everything at full output; None where the tree has no such state."""
        return self.solved.solutions.get(ENGINE_OFF) if self.solved else None

    @property
    def state_rows(self) -> list[StateRow]:
        """What each run carries in each state of the car, in the order of the runs."""
        return [
            StateRow(
                name=name,
                unsolved=solution.status != "solved",
                currents=[
                    (row.run.label, state.current if state else None)
                    for row in self.runs
                    for state in [solution.runs.get(about(row.run).id)]
                ],
            )
            for name, solution in self.states
        ]

    @property
    def states(self) -> list[tuple[StateSaid, Solution]]:
        """What every state of the car comes to."""
        if self.solved is None:
            return []
        called = _called(self.names)
        return [
            (state_said(state, called), solution)
            for state, solution in self.solved.solutions.items()
        ]


def input_name(node: PowerNode) -> str:
    """What people call that side."""
    return f"{node.name}, input"


def work_out_power(records: JobRecords, channels: Sequence[ChannelResult]) -> PowerResult:
    """Draw up the tree, solve it for worst case and music, and check it."""
    power_runs = [run for run in records.runs if run.kind == Run.Kind.POWER]
    connected = [run for run in power_runs if run.start and run.end]
    silent = [node for node in records.nodes if node.is_source and node.voltage is None]
    findings = [
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
    vehicle = records.job.vehicle
    names[CHARGING] = Named(about(vehicle, CHARGING), str(CHARGING_NAME), {})
    folded = [run for run in connected if _ends_where_it_starts(run)]
    findings += [_folded(records, run) for run in folded]
    tree = solved = music = None
    try:
        if not silent and not folded:
            tree = draw_tree(records, connected, channels)
            solved, music = solve_states(tree), solve(engine_off(tree), "music")
            checked = [*check(tree, solved), *check_fuse_voltages(tree)]
            findings += from_tree(checked, names, solved)
    except WiringError as error:
        tree = solved = music = None
        findings.append(
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
    worst = solved.worst if solved else None
    called = _called(names)
    return PowerResult(
        nodes=[_node(node, worst, music) for node in records.nodes],
        runs=[_run(run, solved, music, called) for run in power_runs],
        findings=findings,
        names=names,
        tree=tree,
        music=music,
        solved=solved,
    )


def engine_off(tree: Tree) -> Tree:
    """The tree as it is with the engine off."""
    return in_state(tree, ENGINE_OFF)


def _ends_where_it_starts(run: Run) -> bool:
    # The two sides of a converter or contact are two nodes of the tree.
    return run.start == run.end and run.end is not None and run.end.kind not in PowerNode.TWO_SIDED


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
        names[contact_of(node)] = Named(about(node, "contact"), node.name, {})
    for run in runs:
        ends = {START: run.start.name if run.start else "", END: _end_name(run.end)}
        label = run.label if run.number else "P–"
        names[about(run).id] = Named(about(run), label, ends)
    return names


def _end_name(node: PowerNode | None) -> str:
    if node is None:
        return ""
    return input_name(node) if node.kind in PowerNode.TWO_SIDED else node.name


def from_tree(
    findings: Iterable[TreeFinding], names: Mapping[str, Named], solved: Solved | None = None
) -> list[Finding]:
    """Take over what is found in a tree, each finding about the record its id stands for.

    The state is said where there is more than one that lasts.
    """
    lasting = [s for s in solved.solutions if s.condition not in PASSING] if solved else []
    called, of_many = _called(names), len(lasting) > 1
    return [_from_tree(finding, names, called, of_many=of_many) for finding in findings]


def _called(names: Mapping[str, Named]) -> dict[str, str]:
    """What people call what every id of a tree stands for."""
    return {key: named.name for key, named in names.items()}


# A source reaches an end of these, which the sentence names.
_AT_AN_END = {"unprotected-conductor", "second-source-unprotected"}


def _from_tree(
    finding: TreeFinding, names: Mapping[str, Named], called: Mapping[str, str], *, of_many: bool
) -> Finding:
    subject = names[finding.about]
    # A fuse on another run that has to clear a short of this one, or what takes part in it.
    carriers = [names[word] for word in finding.detail if word in names]
    name = " > ".join(named.name for named in (*carriers, subject))
    adopted = adopt([finding], section=SECTION, about=subject.about, name=name)[0]
    state = said(finding.state, called)
    passing = bool(finding.state) and finding.state[0] in PASSING
    return replace(
        adopted,
        also=tuple(named.about for named in carriers),
        place=(state,) if state and (of_many or passing) else (),
        value_said=subject.ends[finding.detail[0]] if finding.code in _AT_AN_END else None,
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


def _run(
    run: Run, solved: Solved | None, music: Solution | None, called: Mapping[str, str]
) -> RunResult:
    worst = solved.worst if solved else None
    state = solved.run_states.get(about(run).id) if solved else None
    return RunResult(
        run=run,
        area=_area(run),
        worst=worst.runs.get(about(run).id) if worst else None,
        music=music.runs.get(about(run).id) if music else None,
        start_voltage=_at(worst, run.start),
        end_voltage=_at(worst, run.end),
        state=state_said(state, called) if state else None,
    )
