"""Supplies that between them take every branch of a network, and every figure of one."""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial

from tests.told import findings, refusal, row, rows
from tests.wiring import trees
from tests.wiring.random_supplies import random_tree
from wiring.cable.conductor import awg, metric
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.cable.fuse import FittedFuse, Fuse
from wiring.network.faults import Faults, cold_faults, warm_faults
from wiring.network.parts import CASES, Load, Source
from wiring.network.shared import SharedReturn, together
from wiring.network.solution import Solution
from wiring.network.solve import solve
from wiring.network.states import in_state, solve_states
from wiring.network.thevenin import feed_of
from wiring.network.tree import Contact, Run, Tree
from wiring.protection.checks import check, run_ampacity
from wiring.protection.fault_checks import check_breaking
from wiring.protection.fuse_checks import check_position
from wiring.protection.fuse_voltage import check_fuse_voltages
from wiring.protection.makers_fuses import Asked
from wiring.protection.protection import Protection, rating

STRIP = Fuse(
    kind="strip", rating=80.0, breaking_capacity=2000.0, opening=trees.CURVE, voltage=32.0,
    rerating=0.002,
)  # fmt: skip
BLADE = Fuse(kind="blade", rating=20.0, breaking_capacity=None)
FOUR, TWO = awg("4", insulation=105), awg("2")
CLAD = awg("1/0", metal="copper_clad_aluminium_15", insulation=75, fault_temperature=140.0)


def _contact(run: str, start: str, end: str, kind: str, rated: float | None, **more: float) -> Run:
    return Run(
        id=run, start=start, end=end, conductor=None, length=None, return_path=None,
        contact=Contact(kind=kind, rated_current=rated, **more),
    )  # fmt: skip


def van() -> Tree:
    """Two batteries, a relay, a diode, a converter, a bank, an alternator, a shared ground."""
    strip = FittedFuse(fuse=STRIP, distance=0.3, ambient=60.0, sheathed=True)
    runs = [
        trees.run("P01", "starter", "bar", CLAD, 4.0, fuse=150, fuse_end=125, zone="engine bay"),
        _contact("P02", "bar", "gate", "charge relay", 100.0),
        replace(trees.run("P03", "gate", "house", FOUR, 1.5, chassis=0.0008), fuse_start=strip,
                fuse_end=FittedFuse(fuse=replace(STRIP, rating=60.0), distance=0.6), joints=0.0004),
        _contact("P04", "house", "block", "switch", None, resistance=0.001),
        trees.run("P05", "block", "sub", FOUR, 0.9, fuse=80),
        replace(trees.run("P06", "block", "front", TWO, 1.2, fuse=60), bundled=4, drop_limit=0.02,
                diversity=0.8, aluminium_terminals=None),
        trees.run("P07", "block", "bank", FOUR, 0.4, fuse=100),
        _contact("P08", "block", "shore", "diode", 40.0, forward_voltage=0.5),
        trees.run("P09", "block", "converter", awg("8", insulation=90), 1.1, fuse=40),
        trees.run("P10", "far", "lamp", awg("12", insulation=60), 6.0, fuse=15, zone="outside"),
        replace(trees.run("P11", "shore", "fan", awg("16", insulation=105), 3.0),
                fuse_start=FittedFuse(fuse=BLADE, distance=None),
                return_path=ChassisReturn(resistance=0.004, conductor=awg("14"), length=0.5)),
    ]  # fmt: skip
    sources = [
        replace(trees.battery("starter", emf=12.7), starting_current=240.0,
                short_circuit_current=2400.0),
        Source(id="H", node="house", kind="second battery", emf=12.9, resistance=0.004,
               cold_resistance=0.011, flat_voltage=11.2),
        Source(id="ALT", node="starter", kind="alternator", emf=14.3, resistance=0.006,
               current_limit=110.0, idle_limit=45.0, commanded=True),
        Source(id="DC", node="far", kind="dc-dc", emf=14.0, resistance=0.01, current_limit=12.0,
               input_load="DC in"),
        Source(id="C", node="bank", kind="capacitor", emf=12.6, resistance=0.003),
    ]  # fmt: skip
    loads = [
        Load(id="sub", node="sub", kind="amplifier", value=500.0, efficiency=0.82,
             music_power=90.0, minimum_voltage=12.2, fuse_rating=80.0, standby=0.002,
             connected_ohms=1.9, lowest_ohms=2.0, highest_voltage=14.0),
        Load(id="front", node="front", kind="amplifier", value=300.0, efficiency=0.7,
             fuse_rating=50.0, standby=0.001, connected_ohms=4.0),
        Load(id="DC in", node="converter", kind="power", value=190.0, standby=0.003),
        Load(id="lamp", node="lamp", kind="resistance", value=1.6, standby=0.0, fuse_rating=15.0),
        Load(id="fan", node="fan", kind="current", value=2.4, standby=0.0),
    ]  # fmt: skip
    tree = trees.tree(runs, sources, loads)
    shared = SharedReturn(id="stud", resistance=0.002, arriving=("P05", "P06"), leaving=("P03",))
    return replace(tree, shared=(shared,))


def bare() -> Tree:
    """Half of it is not entered, and what is has faults."""
    runs = [
        Run(id="P01", start="battery", end="block", conductor=None, length=None, return_path=None),
        Run(id="P02", start="block", end="a", conductor=awg("10", insulation=60), length=3.0,
            return_path=ChassisReturn(resistance=None), ambient=70.0),
        Run(id="P03", start="block", end="b", conductor=awg("20", insulation=105), length=1.0,
            return_path=CableReturn(conductor=None, length=None),
            fuse_start=FittedFuse(fuse=BLADE, distance=1.5)),
        replace(trees.run("P04", "battery", "c", FOUR, 1.0, fuse=300),
                aluminium_terminals=False, conductor=CLAD),
        trees.run("P05", "lonely", "alone", FOUR, 1.0),
        trees.run("P06", "c", "second", FOUR, 1.0),
    ]  # fmt: skip
    sources = [
        Source(id="B", node="battery", kind="starter battery", emf=25.2, cold_cranking=2300.0),
        Source(id="S", node="second", kind="second battery", emf=12.8, resistance=0.005),
        Source(id="D", node="second", kind="dc-dc", emf=14.4, resistance=0.01),
        Source(id="C", node="c", kind="capacitor", emf=12.6),
    ]
    loads = [
        Load(id="a", node="a", kind="amplifier", value=200.0),
        Load(id="b", node="b", kind="power", value=None),
        Load(id="c", node="c", kind="amplifier", value=200.0, efficiency=0.8, fuse_rating=200.0),
        Load(id="d", node="alone", kind="current", value=1.0),
    ]
    tree = trees.tree(runs, sources, loads)
    return replace(tree, nodes=tuple(replace(node, studs=1) for node in tree.nodes))


def loop() -> Tree:
    """Two ways to one amplifier, fused where they part."""
    runs = [
        trees.run("P01", "battery", "bar", trees.MAIN, 3.0, fuse=200),
        trees.run("P02", "bar", "left", FOUR, 2.0, fuse=60),
        trees.run("P03", "bar", "right", FOUR, 2.5, fuse=80),
        trees.run("P04", "left", "amp", FOUR, 1.0),
        trees.run("P05", "right", "amp", FOUR, 0.7, fuse_end=50),
    ]
    return trees.tree(runs, [trees.battery()], [trees.amplifier("amp", 900.0)])


def weak() -> Tree:
    """More is asked for than its cables pass on."""
    thin = awg("14", insulation=105)
    runs = [trees.run("P01", "battery", "amp", thin, 6.0, fuse=100)]
    return trees.tree(runs, [trees.battery()], [trees.amplifier("amp", 900.0)])


def trickle() -> Tree:
    """Less than an ampere through a diode, and a switch that never carries more."""
    runs = [
        trees.run("P01", "battery", "bar", FOUR, 2.0, fuse=100),
        _contact("P02", "bar", "gate", "diode", 1.0, forward_voltage=0.4),
        _contact("P03", "gate", "lamp", "switch", 0.5),
        trees.run("P04", "bar", "amp", FOUR, 1.0, fuse=60),
    ]
    loads = [Load(id="lamp", node="lamp", kind="current", value=0.6), trees.amplifier("amp", 90.0)]
    return trees.tree(runs, [trees.battery()], loads)


def faulty() -> Tree:
    """Batteries joined for good, a converter that feeds itself, fuses too small and too low."""
    low = FittedFuse(fuse=replace(STRIP, voltage=14.0, rating=70.0), distance=0.1)
    hot = awg("8", insulation=250)
    runs = [
        replace(trees.run("P01", "starter", "house", FOUR, 2.0), fuse_start=low),
        replace(trees.run("P02", "house", "bar", FOUR, 1.0, fuse=60),
                fuse_end=FittedFuse(fuse=replace(BLADE, voltage=32.0), distance=0.2)),
        trees.run("P03", "bar", "bank", hot, 0.5, fuse=40),
        trees.run("P04", "bank", "amp", awg("8"), 0.5, fuse=30),
        trees.run("P05", "bank", "second", awg("10", insulation=60), 5.0, fuse=25),
        trees.run("P06", "lonely", "island", FOUR, 1.0, fuse=50),
        trees.run("P07", "bar", "third", awg("6", insulation=90), 0.7),
    ]  # fmt: skip
    sources = [
        replace(trees.battery("starter", ohms=0.008), starting_current=420.0),
        Source(id="H", node="house", kind="second battery", emf=12.6, resistance=0.03,
               cold_resistance=0.3, cold_cranking=900.0, short_circuit_current=900.0),
        Source(id="C", node="bank", kind="capacitor", emf=12.6, resistance=0.002,
               short_circuit_current=6000.0),
        Source(id="DC", node="house", kind="dc-dc", emf=14.6, resistance=0.01, current_limit=20.0,
               input_load="in"),
    ]  # fmt: skip
    loads = [
        Load(id="amp", node="amp", kind="amplifier", value=350.0, efficiency=0.8, fuse_rating=40.0,
             minimum_voltage=11.8, standby=0.01),
        Load(id="second", node="second", kind="amplifier", value=200.0, efficiency=0.8,
             fuse_rating=30.0, minimum_voltage=9.0, standby=0.01),
        Load(id="in", node="third", kind="power", value=60.0, standby=0.01),
    ]  # fmt: skip
    return trees.tree(runs, sources, loads)


def large() -> Tree:
    """So many nodes that they are solved as a sparse system."""
    runs = [trees.run("P000", "battery", "n0", trees.LINK, 3.0, fuse=300)]
    loads = []
    for n in range(105):
        runs.append(
            trees.run(f"P{n + 1:03}", f"n{n // 3}", f"n{n + 1}", metric(6e-6, insulation=90), 0.5)
        )
        if n % 15 == 7:
            loads.append(Load(id=f"L{n}", node=f"n{n + 1}", kind="power", value=20.0 + n))
    return trees.tree(runs, [trees.battery()], loads)


TREES: dict[str, Callable[[], Tree]] = {
    "estate": trees.estate,
    "camper": trees.camper,
    "van": van,
    "bare": bare,
    "loop": loop,
    "weak": weak,
    "trickle": trickle,
    "faulty": faulty,
    "random-8": lambda: random_tree(random.Random(8)),
    "random-11": lambda: random_tree(random.Random(11)),
    "random-14": lambda: random_tree(random.Random(14)),
}


def states(tree: Tree) -> Mapping[str, object]:
    """Give every state's voltages and currents, and the worst of them."""
    solved = solve_states(tree)
    told = {row(state.words): _solution(each) for state, each in solved.solutions.items()}
    return {
        **told,
        "worst": _solution(solved.worst),
        "worst runs": rows((run, *vars(s).values()) for run, s in solved.worst.runs.items()),
        "run states": row([(run, state.words) for run, state in solved.run_states.items()]),
        "node states": row([(node, state.words) for node, state in solved.node_states.items()]),
        "everyday": row(state.words for state in solved.everyday),
        "findings": findings(check(tree, solved)),
        "strict": len(check(tree, solved, drop_limit=0.003)),
        "voltages": findings(check_fuse_voltages(tree)),
    }


def _solution(solution: Solution) -> str:
    return row(
        solution.status,
        solution.wanted_power,
        solution.most_power,
        solution.unknown,
        list(solution.voltages.items()),
        [(run, state.current, state.drop) for run, state in solution.runs.items()],
        [(name, part.current, part.power) for name, part in solution.sources.items()],
        [(name, part.voltage, part.current, part.power) for name, part in solution.loads.items()],
    )


def cases(tree: Tree) -> Mapping[str, object]:
    """Give each case as it is fed, cold, and cut to what can be had."""
    out: dict[str, object] = {
        case: _solution(solve(tree, case, temperature=20.0)) for case in CASES
    }
    out["cut"] = _solution(solve(tree, cut=True))
    bank = next((s for s in tree.sources if s.kind == "capacitor"), None)
    for state in list(solve_states(tree).solutions)[:2]:
        there = in_state(tree, state)
        loaded, resting = solve(there, "music"), solve(there, "idle")
        for load in there.loads if loaded.status == "solved" else ():
            of = partial(feed_of, there, load, loaded=loaded, resting=resting, bank=bank)
            out[f"feed of {load.id} {row(state.words)}"] = refusal(of)
    currents = {run: state.current for run, state in loaded.runs.items()}
    out["shared"] = row(together(way, currents) for way in tree.shared)
    return out  # fmt: skip


def faults(tree: Tree) -> Mapping[str, object]:
    """Give what flows into each run at each end, in a fault and through fuses."""
    warm, cold, protection, asked = (
        warm_faults(tree),
        cold_faults(tree),
        Protection(tree),
        Asked(tree),
    )
    worst = solve_states(tree).worst
    out: dict[str, object] = {}
    for run in tree.runs:
        for node in (run.start, run.end):
            guards = [
                (other.id, fitted.fuse.rating) for other, fitted in protection.guards(run, node)
            ]
            out[f"{run.id} at {node}"] = row(
                warm.through_fuse(run, node), _far(warm, run, node), _far(cold, run, node),
                warm.cranking(run, node), protection.inflow(run, node),
                protection.entering(run, node), guards,
            )  # fmt: skip
        out[f"{run.id} asked"] = row(
            asked.figure(run), asked.total(run), asked.sum(run), asked.note(run, worst),
            rating(run), run_ampacity(run), run.air, run.unknowns,
        )  # fmt: skip
    fed = [run for run in tree.runs if run.fuse_start]
    out["breaking"] = findings(check_breaking(tree, fed[:3]))
    return out


def _far(faults: Faults, run: Run, node: str) -> object:
    fault = faults.far_end(run, node)
    return None if fault is None else (fault.current, faults.through_run(run, fault))


def positions() -> Mapping[str, object]:
    """Show fuses at every distance from a battery and from a block."""
    run = trees.run("P01", "battery", "block", length=4.0)
    out: dict[str, object] = {}
    for sheathed in (False, True):
        for at_battery in (False, True):
            for distance in (None, 0.1778, 0.2, 0.46, 1.016, 1.02, 1.8288, 1.83, 4.1):
                fitted = FittedFuse(fuse=STRIP, distance=distance, sheathed=sheathed)
                said = check_position(run, "battery", fitted, at_battery=at_battery)
                out[f"{distance} {sheathed} {at_battery}"] = row(
                    (f.code, f.value, f.limit, f.source) for f in said
                )
    out["large"] = _solution_of_large()
    return out


def _solution_of_large() -> str:
    solution = solve(large())
    volts, currents = list(solution.voltages.values()), [r.current for r in solution.runs.values()]
    return row(solution.status, volts[::9], currents[::9], min(volts), solution.wanted_power)
