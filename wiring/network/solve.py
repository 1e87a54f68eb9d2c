"""Voltages and currents of a power tree.

API: `solve(tree, case="worst", temperature=None) -> Solution`. `Solution.status` is "solved",
"no-solution" (then `most_power` says what the tree can carry) or "unknown" (then `unknown` says
what is missing). `Solution.voltages[node]`, `.runs[label]: RunState`, `.sources[name]`,
`.loads[name]`.

A constant-power load makes the nodal equations F(v) = G·v + P/v + I - I_source(v) = 0 nonlinear,
with two solutions or none. F is convex in every voltage and its off-diagonal slopes are never
positive, so Newton's method started above every solution comes down to the upper, stable one
and passes it never; running below zero proves there is none (Ortega & Rheinboldt, Iterative
Solution of Nonlinear Equations, 1970, 13.3: monotone convergence).
"""

from wiring.network.balance import Network, State, is_diode
from wiring.network.parts import ONE_WAY, Load, Source
from wiring.network.solution import PartState, RunState, Solution
from wiring.network.tree import Tree


def solve(
    tree: Tree, case: str = "worst", *, temperature: float | None = None, cut: bool = False
) -> Solution:
    """Voltage of every node and current of every run, amplifiers as constant power.

    G·v + P/v + I = I_source(v); T = T_a + (T_class - T_a) · (I/I_z)² for each run

    Args:
        tree: the supply
        case: "worst" (full output), "loud" (1/3), "music" (1/8 of full output) or "idle"
        temperature: of every conductor, None for the working temperature of each [°C]
        cut: whether loads the tree cannot carry are cut down, all alike, to what it can

    Returns:
        the solution, or why there is none

    Raises:
        WiringError: if the case is unknown

    Valid: direct current, settled; a capacitor bank gives nothing. Each run carries its own
        return current. Insulation or ampacity unknown: the run counts as warm as its air.
    Source: Kirchhoff's laws; Ortega & Rheinboldt (1970), 13.3
    """
    live = fed_nodes(tree)
    unknown = _unknown(tree, live)
    if unknown:
        return Solution(status="unknown", case=case, unknown=unknown)
    if not live:
        return Solution(status="solved", case=case)
    network = Network(tree, case, live)
    state = network.solve(1.0, temperature)
    wanted = float(network.power.sum())
    if state is None:
        share = network.most_share(temperature)
        most = share * wanted
        if cut and (state := network.solve(share, temperature)) is not None:
            return _named(network, state, wanted, share)
        return Solution(status="no-solution", case=case, wanted_power=wanted, most_power=most)
    return _named(network, state, wanted)


def fed_nodes(tree: Tree) -> set[str]:
    """Nodes that a battery, converter or alternator feeds.

    Args:
        tree: the supply

    Returns:
        names of the nodes

    Source: definition
    """
    return downstream(tree, {s.node for s in tree.sources if s.kind != "capacitor"})


def downstream(tree: Tree, nodes: set[str]) -> set[str]:
    """Nodes into which current can flow from some nodes, through a diode one way only.

    Args:
        tree: the supply
        nodes: ids of the nodes to begin at

    Returns:
        ids of the nodes, those to begin at included

    Source: definition
    """
    live, frontier = set(nodes), list(nodes)
    while frontier:
        here = frontier.pop()
        for run, other in tree.neighbours[here]:
            backwards = is_diode(run) and run.end == here
            if other not in live and not backwards:
                live.add(other)
                frontier.append(other)
    return live


def _unknown(tree: Tree, live: set[str]) -> tuple[str, ...]:
    missing = [run.id for run in tree.runs if run.start in live and run.unknowns]
    missing += [s.id for s in tree.sources if s.node in live and _is_unknown(s)]
    missing += [load.id for load in tree.loads if load.node in live and not load.is_known]
    return tuple(missing)


def _is_unknown(source: Source) -> bool:
    if source.kind == "capacitor":
        return False
    return source.resistance is None or (source.kind in ONE_WAY and source.current_limit is None)


def _named(network: Network, state: State, wanted: float, share: float = 1.0) -> Solution:
    """Name the numbers."""
    at = dict(zip(network.names, state.voltages.tolist(), strict=True))
    across = state.voltages[network.start] - state.voltages[network.end]
    amperes = network.currents(state.voltages, state.resistances)
    rows = zip(
        network.runs,
        amperes.tolist(),
        across.tolist(),
        state.temperatures.tolist(),
        state.resistances.tolist(),
        strict=True,
    )
    runs = {
        run.id: RunState(
            current=current, drop=abs(drop), loss=current * drop, temperature=hot, resistance=r
        )
        for run, current, drop, hot, r in rows
    }
    sources = {
        source.id: PartState(voltage=at[source.node], current=given, power=given * at[source.node])
        for source, given in zip(network.sources, state.source_currents.tolist(), strict=True)
    }
    loads = {x.id: _load_state(x, network.case, at[x.node], share) for x in network.loads}
    return Solution(
        status="solved",
        case=network.case,
        voltages=at,
        runs=runs,
        sources=sources,
        loads=loads,
        wanted_power=wanted,
    )


def _load_state(load: Load, case: str, voltage: float, share: float) -> PartState:
    draw = load.draw(case)
    if load.kind == "current":
        return PartState(voltage=voltage, current=draw, power=draw * voltage)
    if load.kind == "resistance":
        return PartState(voltage=voltage, current=voltage / draw, power=voltage**2 / draw)
    return PartState(voltage=voltage, current=share * draw / voltage, power=share * draw)
