"""Everything a power tree is checked for.

API: `check(tree, solved=None, drop_limit=0.03) -> tuple[Finding, ...]`, in every state of the car.
Codes and cures are in `wiring.findings.CODES`. `Finding.about` is the id of the run, node, source
or load; a detail names the end (`START`, `END`) or the way (`OUT`, `RETURN`). Of a short circuit
that a fuse upstream has to clear it is the faulted run, with the id of the run that carries the
fuse as the last detail; of a fuse that breaks too little, the banks that cause it.
"""

from collections.abc import Iterator, Mapping

from wiring.cable.ampacity import TABLE_5_CLASSES, ampacity, assumed
from wiring.cable.conductor import METALS, Conductor
from wiring.cable.drop import DROP_LIMIT, NOMINAL_VOLTAGE
from wiring.errors import InsulationTooColdError, OutsideTableError, require_positive
from wiring.findings import ABOVE, OUT, RETURN, Finding
from wiring.names import Name
from wiring.network.branches import Branches, endless
from wiring.network.parts import ONE_WAY
from wiring.network.solution import Solution
from wiring.network.solve import fed_nodes
from wiring.network.states import Condition, Solved, State, solve_states
from wiring.network.tree import Run, Tree
from wiring.protection.contacts import check_batteries, check_contacts
from wiring.protection.fault_checks import check_faults
from wiring.protection.fuse_checks import check_fuses
from wiring.protection.makers_fuses import check_makers_fuses
from wiring.protection.starting import check_starting
from wiring.protection.voltages import check_voltages
from wiring.sources import Source


def check(
    tree: Tree, solved: Solved | None = None, *, drop_limit: float = DROP_LIMIT
) -> tuple[Finding, ...]:
    """All that is unsafe, unwise or unknown about a power tree in every state of the car.

    Args:
        tree: the supply
        solved: the tree in every state if already solved
        drop_limit: voltage that may be lost to any run or load, as a share of 12 V [-]

    Returns:
        the findings, in the order of the tree

    Raises:
        OutOfRangeError: if the drop limit is not above zero

    Valid: 12 V systems; no finding means only that these checks found none
    Source: 33 CFR 183.425 and .455; ABYC E-11; IEC 60364-5-54; see each finding
    """
    require_positive(name=Name.DROP_LIMIT, value=drop_limit, unit="-")
    if solved is None:
        solved = solve_states(tree)
    ampacities = {run.id: run_ampacity(run) for run in tree.runs}
    return (
        *_structure(tree),
        *check_batteries(tree),
        *_unknown(tree),
        *check_voltages(tree),
        *_balance(tree, solved),
        *_conductors(tree, solved, ampacities),
        *check_contacts(tree, solved),
        *_drops(tree, solved, drop_limit),
        *check_starting(tree, solved),
        *check_fuses(tree, solved, ampacities),
        *check_makers_fuses(tree, solved.worst),
        *check_faults(tree, ampacities),
        *_terminals(tree),
        *_amplifiers(tree),
    )


def run_ampacity(run: Run) -> float | None:
    """Ampacity of the weakest conductor of a run where it lies.

    Args:
        run: the run

    Returns:
        current; 0 if its insulation cannot stand the air, None if no rating is to be had [A]

    Valid: unknown insulation counts as the coolest class of the table
    Source: 33 CFR 183.425, Table 5
    """
    weakest = run.contact.rated_current if run.contact else None
    for conductor in run.conductors:
        try:
            carries = ampacity(assumed(conductor), ambient=run.air, bundled=run.bundled).current
        except InsulationTooColdError:
            carries = 0.0
        except OutsideTableError:
            return None
        weakest = carries if weakest is None else min(weakest, carries)
    return weakest


def _structure(tree: Tree) -> Iterator[Finding]:
    fed = fed_nodes(tree)
    if Branches(tree, {}, endless(tree)).has_loop:
        for run in tree.runs:
            if run.end in tree.reach(run.start, without=run):
                yield Finding(code="loop", about=run.id, source=(Source.KIRCHHOFF,))
    loaded = {load.node for load in tree.loads}
    for load in tree.loads:
        if load.node not in fed:
            yield Finding(code="load-without-source", about=load.id, source=(Source.KIRCHHOFF,))
    for node in tree.nodes:
        if node.id not in fed and node.id not in loaded:
            yield Finding(code="node-without-source", about=node.id, source=(Source.KIRCHHOFF,))
        lugs = len(tree.neighbours[node.id])
        if node.kind == "battery" and lugs > node.studs:
            yield Finding(
                code="two-mains-on-one-stud",
                about=node.id,
                value=float(lugs),
                limit=float(node.studs),
                unit="",
                source=(Source.COMMON_PRACTICE,),
            )


def _unknown(tree: Tree) -> Iterator[Finding]:
    for run in tree.runs:
        for code, part in run.unknowns:
            yield Finding(code=code, about=run.id, detail=(part,), value=part)
    for source in tree.sources:
        if source.resistance is None:
            yield Finding(code="source-resistance-unknown", about=source.id)
        if source.kind in ONE_WAY and source.current_limit is None:
            yield Finding(code="current-limit-unknown", about=source.id)
    for load in tree.loads:
        if not load.is_known:
            yield Finding(code="load-draw-unknown", about=load.id)


def _balance(tree: Tree, solved: Solved) -> Iterator[Finding]:
    solution = solved.worst
    if solution.status == "no-solution":
        yield Finding(
            code="no-solution",
            about=tree.sources[0].id,
            value=solution.wanted_power,
            limit=solution.most_power,
            unit="W",
            source=(Source.KIRCHHOFF,),
            state=next((s.words for s, x in solved.solutions.items() if x is solution), ()),
        )
    for load in tree.loads:
        state = solution.loads.get(load.id)
        least = load.minimum_voltage
        if state is not None and least is not None and state.voltage < least / ABOVE:
            yield Finding(
                code="voltage-below-load-minimum",
                about=load.id,
                value=state.voltage,
                limit=least,
                unit="V",
                source=(Source.AMPLIFIER_SHEET,),
                state=_state(solved.node_states, load.node),
            )
    for source in tree.sources:
        given, limit = solution.sources.get(source.id), source.current_limit
        # An alternator at its limit on peaks is a matter of averages: of the supply budget.
        if given is None or limit is None or source.kind != "dc-dc":
            continue
        if given.current >= limit / ABOVE and _helped(tree, solved, source.node):
            yield Finding(
                code="converter-at-limit",
                about=source.id,
                value=given.current,
                limit=limit,
                unit="A",
                source=(Source.KIRCHHOFF,),
            )


def _helped(tree: Tree, solved: Solved, node: str) -> bool:
    """Whether a battery gives too while a converter does all it can; else it charges one."""
    reached = tree.reach(node)
    batteries = [s.id for s in tree.sources if s.is_battery and s.node in reached]
    running = [x for s, x in solved.solutions.items() if s.condition is Condition.RUNNING]
    gives = [
        x.sources[name].current > 0 for x in running for name in batteries if name in x.sources
    ]
    return any(gives) or not batteries


def _state(states: Mapping[str, State], name: str) -> tuple[str, ...]:
    """The state a figure comes from; with one source there is only one to speak of."""
    return states[name].words if name in states else ()


def _conductors(
    tree: Tree, solved: Solved, ampacities: dict[str, float | None]
) -> Iterator[Finding]:
    for run in tree.runs:
        for way, conductor in _unlike(run):
            if conductor.insulation is None:
                yield Finding(
                    code="insulation-unknown",
                    about=run.id,
                    detail=(way,),
                    limit=float(TABLE_5_CLASSES[0]),
                    unit="°C",
                    source=(Source.CONDUCTOR_TABLE,),
                )
            hottest = assumed(conductor).insulation
            if hottest is not None and hottest <= run.air:
                yield Finding(
                    code="insulation-below-ambient",
                    about=run.id,
                    detail=(way,),
                    value=hottest,
                    limit=run.air,
                    unit="°C",
                    source=(Source.CONDUCTOR_TABLE,),
                )
        limit = ampacities[run.id]
        state = solved.worst.runs.get(run.id)
        if limit is None and run.conductors:
            yield Finding(
                code="ampacity-outside-table",
                about=run.id,
                value=run.conductors[0].label,
                source=(Source.CONDUCTOR_TABLE,),
            )
        elif limit is not None and state is not None and abs(state.current) > limit * ABOVE:
            yield Finding(
                code="ampacity-exceeded",
                about=run.id,
                value=abs(state.current),
                limit=limit,
                unit="A",
                source=(Source.CONDUCTOR_TABLE,),
                state=_state(solved.run_states, run.id),
            )


def _unlike(run: Run) -> list[tuple[str, Conductor]]:
    """The cable out, and the one back where it is another: of one cable each thing is said once."""
    back = None if run.return_path is None else run.return_path.conductor
    ways = [(OUT, run.conductor), (RETURN, None if back == run.conductor else back)]
    return [(way, conductor) for way, conductor in ways if conductor is not None]


def _drops(tree: Tree, solved: Solved, drop_limit: float) -> Iterator[Finding]:
    """Loss in any one run, and from any source that gives to any load it reaches downhill."""
    limits = {run.id: run.drop_limit or drop_limit for run in tree.runs if not run.contact}
    for load in tree.loads:
        # What the part at the end of a run stands holds for the whole way to it.
        stated = [run.drop_limit for run, _ in tree.neighbours[load.node] if run.drop_limit]
        limits[load.id] = max(stated, default=drop_limit)
    worst: dict[str, tuple[float, State]] = {}
    for state, solution in solved.everyday.items():
        for about, drop in _lost(tree, solution).items():
            if about not in worst or drop > worst[about][0]:
                worst[about] = drop, state
    for about, (drop, state) in worst.items():
        if about in limits and drop > limits[about] * NOMINAL_VOLTAGE * ABOVE:
            yield Finding(
                code="drop-over-limit",
                about=about,
                value=drop,
                limit=limits[about] * NOMINAL_VOLTAGE,
                unit="V",
                source=(Source.THREE_PERCENT,),
                state=state.words,
            )


def _lost(tree: Tree, solution: Solution) -> dict[str, float]:
    lost = {label: state.drop for label, state in solution.runs.items()}
    highest = _highest_feed(tree, solution)
    for load in tree.loads:
        if load.id in solution.loads:
            lost[load.id] = highest[load.node] - solution.voltages[load.node]
    return lost


def _highest_feed(tree: Tree, solution: Solution) -> dict[str, float]:
    """For each node, the highest source voltage from which current flows down to it."""
    voltages = solution.voltages
    highest = dict(voltages)
    for source in tree.sources:
        state = solution.sources.get(source.id)
        if state is None or state.current <= 0:
            continue
        reached, frontier = {source.node}, [source.node]
        while frontier:
            here = frontier.pop()
            highest[here] = max(highest[here], voltages[source.node])
            for _, other in tree.neighbours[here]:
                fed = other in voltages
                if fed and other not in reached and voltages[other] <= voltages[here]:
                    reached.add(other)
                    frontier.append(other)
    return highest


def _terminals(tree: Tree) -> Iterator[Finding]:
    for run in tree.runs:
        metals = [c.metal for c in run.conductors if not METALS[c.metal].copper_terminals]
        if metals and not run.aluminium_terminals:
            unknown = run.aluminium_terminals is None
            yield Finding(
                code="terminal-metal-unknown" if unknown else "terminal-unsuited-to-metal",
                about=run.id,
                value=metals[0],
                source=(Source.TERMINAL_MAKERS,),
            )


def _amplifiers(tree: Tree) -> Iterator[Finding]:
    for load in tree.loads:
        if load.connected_ohms is None:
            continue
        lowest = load.lowest_ohms
        if lowest is None or load.connected_ohms < lowest / ABOVE:
            code = "amplifier-lowest-unknown" if lowest is None else "load-below-amplifier-lowest"
            yield Finding(
                code=code,
                about=load.id,
                value=load.connected_ohms,
                limit=lowest,
                unit="Ω",
                source=(Source.AMPLIFIER_SHEET,),
            )
