"""The states of a car: which there are, and that each run is held to its worst. Values invented."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.wiring import trees
from wiring.cable.conductor import awg
from wiring.network.parts import Load, Source
from wiring.network.solution import Solution
from wiring.network.solve import solve
from wiring.network.states import Condition, Solved, solve_states, states_of
from wiring.network.tree import Contact, Run, Tree
from wiring.protection.checks import check

ALTERNATOR = Source(
    id="ALT", node="starter", kind="alternator", emf=14.4, resistance=2e-3, current_limit=120.0
)


def parallel() -> Tree:
    """The camper with its engine running."""
    camper = trees.camper()
    return replace(camper, sources=(*camper.sources, ALTERNATOR))


def boosted() -> Tree:
    """A leisure battery charged by a converter alone; the amplifier hangs on it."""
    sources = [
        trees.battery("starter", emf=12.6),
        replace(trees.battery("house", emf=12.7), kind="second battery", cold_cranking=None),
        Source(
            id="DC", node="out", kind="dc-dc", emf=14.2, resistance=0.01, current_limit=60.0,
            input_load="DC in",
        ),
    ]  # fmt: skip
    runs = [
        trees.run("P01", "starter", "in", trees.MAIN, 4.0, fuse=125),
        trees.run("P02", "out", "house", trees.MAIN, 0.5, fuse=80, fuse_end=80),
        trees.run("P03", "house", "amp", trees.MAIN, 1.0, fuse=200),
    ]
    loads = [
        Load(id="DC in", node="in", kind="power", value=60 * 14.2 / 0.9),
        trees.amplifier("amp", 1000.0),
    ]
    return trees.tree(runs, sources, loads)


def carried(solved: Solved, run: str) -> dict[tuple[str, ...], float]:
    """Current of a run in each state."""
    return {
        state.words: abs(solution.runs[run].current)
        for state, solution in solved.solutions.items()
        if run in solution.runs
    }


def test_the_engine_off_takes_the_converter_with_it() -> None:
    """With the booster off its battery gives all: 12.7 V over 5 mΩ and a run want more than on."""
    by_state = carried(solve_states(boosted()), "P03")
    solved = solve_states(boosted())
    on, off = (
        next(x for s, x in solved.solutions.items() if s.condition is c)
        for c in (Condition.RUNNING, Condition.ENGINE_OFF)
    )
    assert "DC" in on.sources
    assert "DC" not in off.sources
    assert "DC in" not in off.loads
    assert off.sources["B-house"].current > on.sources["B-house"].current + 50
    assert solved.worst.runs["P03"].current == pytest.approx(max(by_state.values()))


def test_what_sleeps_is_added_up_only_where_all_of_it_is_entered() -> None:
    """Key off, 2 mA of the amplifier and 3 mA of the booster flow; one unknown leaves it open."""
    tree = boosted()
    booster, amplifier = (
        replace(load, standby=amperes)
        for load, amperes in zip(tree.loads, (3e-3, 2e-3), strict=True)
    )

    def asleep(*loads: Load) -> Solution:
        solutions = solve_states(replace(tree, loads=loads)).solutions
        return next(x for s, x in solutions.items() if s.condition is Condition.KEY_OFF)

    known = asleep(booster, amplifier)
    assert known.runs["P01"].current == pytest.approx(3e-3)
    assert known.runs["P03"].current == pytest.approx(2e-3)
    assert asleep(booster, replace(amplifier, standby=None)).status == "unknown"


def test_a_flat_battery_draws_its_charge_through_the_link() -> None:
    """14.4 V at one end, 10.5 V behind 4 mΩ at the other: Ohm's law bounds the link from above."""
    tree = parallel()
    state, current = max(
        (
            (s, abs(x.runs["P01"].current))
            for s, x in solve_states(tree).solutions.items()
            if s.condition is not Condition.KEY_OFF  # nobody said what sleeps there
        ),
        key=lambda pair: pair[1],
    )
    assert state.condition in (Condition.BATTERY_FLAT, Condition.CHARGING)
    link = 2 * 9.0 * trees.LINK.resistance_20
    assert 150 < current < (14.4 - 10.5) / (4e-3 + link)


def test_a_charge_relay_is_open_with_the_engine_off() -> None:
    """Behind an open relay nothing flows between the batteries, and no isolator is asked for."""
    tree = parallel()
    starter = replace(tree.sources[0], starting_current=400.0)
    tree = replace(tree, sources=(starter, *tree.sources[1:]))
    assert "no-isolator" in {f.code for f in check(tree)}
    runs = [replace(r, end="gate") if r.id == "P01" else r for r in tree.runs]
    relay = Run(
        id="R", start="gate", end="house", conductor=None, length=None, return_path=None,
        contact=Contact(kind="charge relay", rated_current=100.0),
    )  # fmt: skip
    apart = trees.tree([*runs, relay], list(tree.sources), list(tree.loads))
    off = next(
        x for s, x in solve_states(apart).solutions.items() if s.condition is Condition.ENGINE_OFF
    )
    assert "R" not in off.runs
    assert abs(off.runs["P01"].current) < 1e-6
    codes = {f.code for f in check(apart)}
    assert "no-isolator" not in codes
    assert "contact-over-rating" in codes  # charging a flat battery takes more than 100 A


def test_a_diode_passes_one_way_and_costs_its_drop() -> None:
    """At 14.2 V 13.5 V arrive behind 0.7 V, less the runs; from behind nothing comes back."""
    runs = [
        trees.run("P01", "alternator", "gate", trees.MAIN, 1.0, fuse=200),
        trees.run("P02", "behind", "house", trees.MAIN, 1.0, fuse=200, fuse_end=200),
        Run(
            id="D", start="gate", end="behind", conductor=None, length=None, return_path=None,
            contact=Contact(kind="diode", rated_current=200.0, resistance=1e-4),
        ),
    ]  # fmt: skip
    source = Source(
        id="ALT", node="alternator", kind="alternator", emf=14.2, resistance=1e-3,
        current_limit=300.0,
    )  # fmt: skip
    lamp = Load(id="lamp", node="house", kind="current", value=10.0)
    tree = trees.tree(runs, [source], [lamp])
    (solution,) = (
        x for s, x in solve_states(tree).solutions.items() if s.condition is Condition.RUNNING
    )
    way = 2 * 2.0 * trees.MAIN.resistance(41) + 1e-4 + 1e-3
    assert solution.voltages["house"] == pytest.approx(14.2 - 0.7 - 10 * way, abs=2e-3)
    back = replace(tree, sources=(trees.battery("house", emf=13.0),))
    assert "alternator" not in solve_states(back).worst.voltages


def test_starting_is_judged_by_time() -> None:
    """300 A for seconds through a 300 A fuse is no stop; a fuse of 60 A opens; both are no load."""
    tree = trees.camper()
    sources = (replace(tree.sources[0], starting_current=800.0), tree.sources[1])
    strong = replace(tree, sources=sources)
    assert not [f for f in check(strong) if "start" in f.code]
    weak = replace(
        strong,
        runs=tuple(
            replace(r, fuse_start=trees.fused(60), fuse_end=trees.fused(60)) if r.id == "P01" else r
            for r in strong.runs
        ),
    )
    found = [f for f in check(weak) if f.code == "fuse-opens-on-start"]
    assert {f.state[0] for f in found} == {"starting"}
    assert {f.about for f in found} == {"P01"}


def test_one_battery_and_nothing_else_has_two_states() -> None:
    """Engine off and key off: nothing else can happen to it."""
    assert [s.condition for s in states_of(trees.estate())] == [
        Condition.ENGINE_OFF,
        Condition.KEY_OFF,
    ]


def test_a_bank_beside_two_batteries_is_no_guard_that_never_opens() -> None:
    """What gives nothing lasting has no part in a short that lasts, and none in the finding."""
    tree = trees.camper()
    bank = Source(id="C", node="bank", kind="capacitor", emf=12.6, resistance=2e-3)
    run = trees.run("P09", "house", "bank", trees.MAIN, 0.5, fuse=200, fuse_end=200)
    with_bank = trees.tree([*tree.runs, run], [*tree.sources, bank], list(tree.loads))
    assert "fuse-may-not-open" not in {f.code for f in check(with_bank)}
    small = trees.run("P09", "house", "bank", trees.MAIN, 0.5, fuse=5, fuse_end=5)
    weak = trees.tree([*tree.runs, small], [*tree.sources, bank], list(tree.loads))
    (note,) = [f for f in check(weak) if f.code == "bank-fuse-below-note"]
    assert note.value == 5
    assert note.limit == pytest.approx(solve_states(weak).worst.loads["A-amp"].current)


def test_the_breaking_need_names_the_bank_that_causes_it() -> None:
    """A fuse that breaks what the batteries drive, but not the bank's share, names the bank."""
    tree = trees.estate()
    bank = Source(id="C", node="sub", kind="capacitor", emf=12.6, resistance=4e-3)
    runs = [
        replace(r, fuse_end=trees.fused(80, breaking=3000.0)) if r.id == "P02" else r
        for r in tree.runs
    ]
    with_bank = trees.tree(runs, [*tree.sources, bank], list(tree.loads))
    (low,) = [f for f in check(with_bank) if f.code == "breaking-capacity-low"]
    assert low.detail == ("end", "C")


COMMANDED = Source(
    id="ALT", node="starter", kind="alternator", emf=15.2, resistance=2e-3, current_limit=120.0,
    idle_limit=20.0, commanded=True,
)  # fmt: skip


def test_at_idle_and_while_charging_is_let_down_the_converter_still_takes() -> None:
    """A 60 A booster draws more from a low network: worst for its run, and nowhere worse hidden."""
    tree = replace(boosted(), sources=(*boosted().sources, COMMANDED))
    solved = solve_states(tree)
    by_state = carried(solved, "P01")
    running, idling, low = (by_state[name,] for name in ("running", "idling", "low-phase"))
    assert running < idling < low
    assert solved.run_states["P01"].condition is Condition.LOW_PHASE
    at_idle = next(x for s, x in solved.solutions.items() if s.condition is Condition.IDLING)
    assert at_idle.sources["ALT"].current == pytest.approx(20.0)
    assert {Condition.IDLING, Condition.LOW_PHASE} & {
        s.condition for s in states_of(parallel())
    } == (set())


def test_a_battery_charged_from_a_commanded_alternator_is_a_look() -> None:
    """12.5 V fills no second battery: said where no converter regulates what reaches it."""
    straight = replace(parallel(), sources=(*trees.camper().sources, COMMANDED))
    straight = replace(
        straight,
        sources=tuple(
            replace(s, starting_current=300.0) if s.node == "starter" and s.is_battery else s
            for s in straight.sources
        ),
    )
    assert [f.about for f in check(straight) if f.code == "commanded-charge-falls"] == ["B-house"]
    regulated = replace(boosted(), sources=(*boosted().sources, COMMANDED))
    assert "commanded-charge-falls" not in {
        f.code for f in check(regulated) if f.about == "B-house"
    }


def test_a_cable_that_swings_between_hot_and_cold_settles() -> None:
    """A converter charging a flat battery through thin cable heats it to one temperature.

    Second method, closed form: I = (14.4 - 10.5) / (r + R20·(1 + 0.004·(T - 20))) with T = 30 +
    75·(I / 80)² for 8 AWG of Table 5 at 105 °C, solved by bisection.
    """
    thin, length = awg("8", insulation=105), 4.0
    charger = Source(
        id="DC", node="gate", kind="dc-dc", emf=14.4, resistance=5e-3, current_limit=200.0
    )
    flat = trees.battery("second", emf=10.5, ohms=4e-3)
    run = replace(trees.run("P1", "gate", "second", thin, length), ambient=30.0)
    solution = solve(trees.tree([run], [charger, flat], []), "idle")
    low, high = 0.0, 400.0
    while high - low > 1e-9:
        amps = (low + high) / 2
        hot = min(30 + 75 * (amps / 80) ** 2, 250)
        ohms = 9e-3 + 2 * length * thin.resistance_20 * (1 + 0.004 * (hot - 20))
        low, high = (amps, high) if amps < (14.4 - 10.5) / ohms else (low, amps)
    assert solution.status == "solved"
    assert solution.runs["P1"].current == pytest.approx(low, rel=2e-3)
