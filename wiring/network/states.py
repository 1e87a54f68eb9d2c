"""The states a car is in, each solved: engine off or on, a source away, a battery flat, starting.

API: `states_of(tree) -> tuple[State, ...]`, `in_state(tree, state) -> Tree`,
`solve_states(tree) -> Solved`; `Solved.worst` holds the largest current of each run and the lowest
voltage of each node with the state it comes from.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TypeVar

from wiring.network.parts import ONE_WAY, Load, Source
from wiring.network.solution import Solution
from wiring.network.solve import downstream, solve
from wiring.network.tree import Tree

T = TypeVar("T")


class Condition(StrEnum):
    """What is the matter with a car; the value is its stable key."""

    ENGINE_OFF = "engine-off"  # no alternator, no converter, charge relays open
    RUNNING = "running"
    IDLING = "idling"  # an alternator gives no more than it does hot at idle
    LOW_PHASE = "low-phase"  # a commanded alternator gives nothing, converters still take
    SOURCE_AWAY = "source-away"
    BATTERY_FLAT = "battery-flat"  # what charges it, with the music playing
    CHARGING = "charging"  # the same with nothing played and other converters at rest
    STARTING = "starting"
    KEY_OFF = "key-off"


# In these everything has to work; in the others only nothing may burn.
WORKS_IN = (
    Condition.ENGINE_OFF,
    Condition.RUNNING,
    Condition.IDLING,
    Condition.LOW_PHASE,
)
# They last too short, or draw too little, to count for a cable's lasting current.
PASSING = (Condition.STARTING, Condition.KEY_OFF)


@dataclass(frozen=True, kw_only=True)
class State:
    """One state of the car.

    Attributes:
        condition: what is the matter
        running: whether the engine runs: one-way sources give, charge relays are closed
        source: id of the source that is away, flat or starts the engine; empty for none
    """

    condition: Condition
    running: bool = False
    source: str = ""

    @property
    def words(self) -> tuple[str, ...]:
        """The state as findings name it: its condition, the engine, the source.

        Returns:
            words of the package's own, the last one an id where there is one
        """
        engine = () if self.condition not in _EITHER else ("running" if self.running else "off",)
        return (self.condition.value, *engine, *([self.source] if self.source else []))


_EITHER = (Condition.SOURCE_AWAY, Condition.BATTERY_FLAT)


@dataclass(frozen=True, kw_only=True)
class Solved:
    """A tree solved in every state of the car.

    Attributes:
        solutions: what each state comes to, in the order of `states_of`
        worst: for each run its state with the largest lasting current, for each node its lowest
            voltage while everything works; status and powers are those of the first state that
            has no solution or lacks a figure
        run_states: where each run's largest current comes from
        node_states: where each node's lowest voltage comes from
    """

    solutions: Mapping[State, Solution]
    worst: Solution
    run_states: Mapping[str, State]
    node_states: Mapping[str, State]

    @property
    def everyday(self) -> dict[State, Solution]:
        """The solved states in which everything has to work.

        Returns:
            what each comes to
        """
        return {
            state: solution
            for state, solution in self.solutions.items()
            if state.condition in WORKS_IN and solution.status == "solved"
        }


def states_of(tree: Tree) -> tuple[State, ...]:
    """Every state in which a run of the tree may carry more than in another.

    Args:
        tree: the supply

    Returns:
        the states, those that last and in which everything works first

    Valid: nobody takes a battery away while the engine runs: the vehicle makers forbid it
    Source: definition; common practice, no source, for what may fail: one source at a time
    """
    batteries = [s for s in tree.sources if s.is_battery]
    one_way = [s for s in tree.sources if s.kind in ONE_WAY]
    states = [State(condition=Condition.ENGINE_OFF)] if batteries else []
    relays = any(run.contact and run.contact.kind == "charge relay" for run in tree.runs)
    if one_way or relays:
        states.append(State(condition=Condition.RUNNING, running=True))
    # Without either nothing hangs on the engine but the charging itself: engine off is worse.
    if relays or any(s.input_load for s in one_way):
        if any(s.idle_limit is not None for s in one_way):
            states.append(State(condition=Condition.IDLING, running=True))
        if batteries and any(s.commanded for s in one_way):
            states.append(State(condition=Condition.LOW_PHASE, running=True))
    engine = (False, True) if one_way or relays else (False,)
    if len(batteries) > 1:
        states += [
            State(condition=Condition.SOURCE_AWAY, source=battery.id) for battery in batteries
        ]
    if len(one_way) > 1:
        states += [
            State(condition=Condition.SOURCE_AWAY, running=True, source=source.id)
            for source in one_way
        ]
    for battery in batteries:
        if _is_charged(tree, battery):
            flat, charging = Condition.BATTERY_FLAT, Condition.CHARGING
            states += [
                State(condition=flat, running=running, source=battery.id) for running in engine
            ]
            states.append(State(condition=charging, running=engine[-1], source=battery.id))
    states += [
        State(condition=Condition.STARTING, source=s.id) for s in batteries if s.starting_current
    ]
    if batteries:
        states.append(State(condition=Condition.KEY_OFF))
    return tuple(states)


def _is_charged(tree: Tree, battery: Source) -> bool:
    """Whether something at another node can send current into a battery through a run."""
    elsewhere = {s.node for s in tree.sources if s.kind != "capacitor"} - {battery.node}
    return battery.node in downstream(tree, elsewhere)


def in_state(tree: Tree, state: State) -> Tree:
    """The tree as it is in one state of the car.

    Args:
        tree: the supply with everything connected and on
        state: one of its states

    Returns:
        the tree with the sources, contacts and loads of that state

    Source: definition; a charge relay counts as closed while the engine starts: it opens late
    """
    starting, key_off = (state.condition is c for c in (Condition.STARTING, Condition.KEY_OFF))
    sources, off = [], set()
    for source in tree.sources:
        away = state.condition is Condition.SOURCE_AWAY and source.id == state.source
        away |= state.condition is Condition.LOW_PHASE and source.commanded
        away |= state.condition is Condition.CHARGING and _rests(tree, source, state.source)
        if away or (source.kind in ONE_WAY and not state.running):
            off.add(source.input_load)
            continue
        if state.source == source.id and state.condition in (
            Condition.BATTERY_FLAT,
            Condition.CHARGING,
        ):
            source = replace(source, emf=source.flat)
        if state.condition is Condition.IDLING and source.idle_limit is not None:
            source = replace(source, current_limit=source.idle_limit)
        sources.append(source)
    runs = tree.runs
    if not state.running and not starting:
        runs = tuple(r for r in runs if not (r.contact and r.contact.kind == "charge relay"))
    loads = [load for load in tree.loads if load.id not in off]
    if key_off:  # a converter that gives nothing still takes that
        loads = [Load(id=x.id, node=x.node, kind="current", value=x.standby) for x in tree.loads]
    if starting:
        loads += [
            Load(id=f"{s.id} starter", node=s.node, kind="current", value=s.starting_current)
            for s in tree.sources
            if s.id == state.source
        ]
    return replace(tree, sources=tuple(sources), runs=runs, loads=tuple(loads))


def _rests(tree: Tree, source: Source, flat: str) -> bool:
    """Whether a converter charges another battery than the flat one: it takes nothing then."""
    if not source.input_load:
        return False
    reached = downstream(tree, {source.node})
    return not any(s.id == flat and s.node in reached for s in tree.sources)


def case_in(state: State) -> str:
    """What is played in a state.

    Args:
        state: the state

    Returns:
        key of `parts.CASES`: full output, or nothing while a battery charges or the engine starts

    Source: definition: less played leaves more current for the flat battery
    """
    quiet = (Condition.CHARGING, Condition.STARTING, Condition.KEY_OFF)
    return "idle" if state.condition in quiet else "worst"


def solve_states(tree: Tree) -> Solved:
    """Solve a tree in every state of the car.

    Args:
        tree: the supply

    Returns:
        every solution, and the worst of them

    Valid: as `solve.solve`; where something has failed, loads the rest cannot carry are cut down
        to what it can, which is when its runs carry most
    Source: Kirchhoff's laws, once for each state
    """
    states = states_of(tree) or (State(condition=Condition.ENGINE_OFF),)
    solutions = {
        state: solve(
            in_state(tree, state),
            case_in(state),
            # Starting is too short to warm a cable; a cold one carries more.
            temperature=20.0 if state.condition is Condition.STARTING else None,
            cut=state.condition not in WORKS_IN,
        )
        for state in states
    }
    return _with_worst(solutions)


def _with_worst(solutions: Mapping[State, Solution]) -> Solved:
    everyday = {s: solution for s, solution in solutions.items() if s.condition in WORKS_IN}
    lasting = {s: solution for s, solution in solutions.items() if s.condition not in PASSING}
    wrong = [solution for solution in everyday.values() if solution.status != "solved"]
    # Loads are cut down in the others: what has no balance then either must not pass unsaid.
    wrong += [solution for solution in lasting.values() if solution.status == "no-solution"]
    if wrong:
        return Solved(solutions=solutions, worst=wrong[0], run_states={}, node_states={})
    runs, run_states = _most(lasting, lambda solution: solution.runs, lambda run: abs(run.current))
    sources, _ = _most(lasting, lambda solution: solution.sources, lambda part: part.current)
    loads, _ = _most(everyday, lambda solution: solution.loads, lambda part: -part.voltage)
    voltages, node_states = _most(
        everyday, lambda solution: solution.voltages, lambda volts: -volts
    )
    worst = replace(
        next(iter(solutions.values())),
        case="worst",
        voltages=voltages,
        runs=runs,
        sources=sources,
        loads=loads,
    )
    return Solved(
        solutions=solutions,
        worst=worst,
        run_states=run_states,
        node_states=node_states,
    )


def _most(
    solutions: Mapping[State, Solution],
    of: Callable[[Solution], Mapping[str, T]],
    size: Callable[[T], float],
) -> tuple[dict[str, T], dict[str, State]]:
    """For each name what is largest over the states, and the first state in which it is."""
    most: dict[str, T] = {}
    states: dict[str, State] = {}
    for state, solution in solutions.items():
        for name, part in of(solution).items():
            if name not in most or size(part) > size(most[name]) + 1e-9:
                most[name], states[name] = part, state
    return most, states
