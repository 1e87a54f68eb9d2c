"""Speed of the power tree."""

from dataclasses import replace
from itertools import pairwise

import pytest

from tests.bench.clock import cost
from tests.wiring import trees
from wiring.cable.conductor import awg
from wiring.cable.fuse import Fuse
from wiring.network.parts import Source
from wiring.network.shared import SharedReturn
from wiring.network.solve import solve
from wiring.network.states import solve_states, states_of
from wiring.network.tree import Contact, Node, Run, Tree
from wiring.protection.checks import check
from wiring.runs.choice import Catalogue
from wiring.runs.choose import choose
from wiring.runs.labelled import Allowance, Core, LabelledRun
from wiring.runs.schedule import FuseEntry, crimp_list, fuse_map, wire_schedule

pytestmark = pytest.mark.bench

RUNS = 40
SIZES = (6, 60, 600)


def forty_runs(count: int = RUNS) -> Tree:
    """A main, a block and an amplifier on each other run."""
    runs = [trees.run("P00", "battery", "block", awg("4/0", insulation=105), 3.0, fuse=300)]
    runs += [trees.run(f"P{i:02}", "block", f"a{i}", length=1.0, fuse=20) for i in range(1, count)]
    loads = [trees.amplifier(f"a{i}", 25.0) for i in range(1, count)]
    return trees.tree(runs, [trees.battery()], loads)


def test_solved_and_checked() -> None:
    """A 40-run tree is solved and checked within 10 ms of CPU."""
    tree = forty_runs()
    assert solve(tree).status == "solved"
    spent = cost(lambda: check(tree), times=30)
    print(f"\nsolve and check: {spent}")
    assert spent.nominal < 0.010


def many_states(runs: int = RUNS) -> Tree:
    """The same with a second battery behind a relay, a smart alternator and a stud in common."""
    one = forty_runs(runs)
    relay = Run(
        id="K1", start="a1", end="house", conductor=None, length=None, return_path=None,
        contact=Contact(kind="charge relay", rated_current=200.0),
    )  # fmt: skip
    sources = (
        *one.sources,
        Source(id="B2", node="house", kind="second battery", emf=12.7, resistance=5e-3),
        Source(
            id="ALT", node="battery", kind="alternator", emf=14.4, resistance=5e-3,
            current_limit=120.0, idle_limit=30.0, commanded=True,
        ),
    )  # fmt: skip
    stud = SharedReturn(id="stud", resistance=2e-4, arriving=("P01", "P02", "P03", "P04"))
    return replace(
        one, sources=sources, nodes=(*one.nodes, Node(id="house", kind="battery")),
        runs=(*one.runs, relay), shared=(stud,),
    )  # fmt: skip


def test_every_state() -> None:
    """A 40-run tree is solved in every state of the car within 40 ms of CPU, 60 loads in 0.2 s."""
    for runs, limit in ((RUNS, 0.040), (61, 0.200)):
        tree = many_states(runs)
        spent = cost(lambda: solve_states(tree), times=10)  # noqa: B023
        print(f"\n{runs} runs in {len(states_of(tree))} states: {spent}")
        assert spent.nominal < limit


def test_ten_times_the_rows() -> None:
    """Ten times the runs on the schedule cost at most twelve times as much."""

    def lists(count: int) -> float:
        runs = [labelled(n) for n in range(1, count + 1)]
        fuses = [
            FuseEntry(label=f"F-P{n:02}", place="", style="", rating=10.0)
            for n in range(1, count + 1)
        ]

        def work() -> None:
            fuse_map(fuses, runs)
            crimp_list(runs)
            wire_schedule(runs, ALLOWANCE)

        return cost(work, times=9).turns

    few, many = lists(60), lists(600)
    print(f"\nschedule: {many / few:.1f} times")
    assert many / few < 12


ALLOWANCE = Allowance(slack=0.1, per_end=0.05, heat_shrink=0.03)


def labelled(number: int) -> LabelledRun:
    """A fused run of two cores."""
    core = Core(conductor=awg("4", insulation=105), colour="RD")
    return LabelledRun(
        id=f"r{number}", label=f"P{number:02}", start="a", end="b", length=1.0,
        cores=(core, core), fuses=(f"F-P{number:02}",),
    )  # fmt: skip


SIZES_OFFERED = ("18", "16", "14", "12", "10", "8", "6", "4", "2", "1/0", "2/0", "4/0")
RATINGS = (3, 5, 10, 15, 20, 30, 40, 60, 80, 100, 125, 150, 200, 250, 300, 400)
STOCK = Catalogue(
    conductors=tuple(awg(size, insulation=105) for size in SIZES_OFFERED),
    fuses=tuple(
        Fuse(kind="strip", rating=r, breaking_capacity=10_000, opening=trees.CURVE) for r in RATINGS
    ),
)


def test_chosen() -> None:
    """Parts for a 40-run tree are chosen within 400 ms of CPU."""
    tree = forty_runs()
    assert choose(tree, STOCK).tree is not None
    spent = cost(lambda: choose(tree, STOCK))
    print(f"\nchoose: {spent}")
    assert spent.nominal < 0.400


def smaller(tree: Tree, count: int) -> Tree:
    """The same with as many watts in all, however many loads there are."""
    return replace(tree, loads=tuple(replace(load, value=600 / count) for load in tree.loads))


def test_ten_times_the_loads_to_choose_for() -> None:
    """Ten times the loads cost at most twelve times as much to choose for."""

    def spent(count: int) -> float:
        tree = smaller(forty_runs(count + 1), count)
        assert choose(tree, STOCK).tree is not None
        return cost(lambda: choose(tree, STOCK), times=3).turns

    ratio = spent(600) / spent(60)
    print(f"\nchoose: {ratio:.1f} times")
    assert ratio < 12


def test_ten_times_the_loads() -> None:
    """Ten times the loads cost at most twelve times as much to solve, and to check."""

    def spent(count: int) -> tuple[float, float]:
        tree = smaller(many_states(count + 1), count)
        solved = solve_states(tree)
        return tuple(
            cost(work, times=3).turns
            for work in (lambda: solve_states(tree), lambda: check(tree, solved))
        )

    for name, costs in zip(("states", "check"), zip(*map(spent, SIZES), strict=True), strict=True):
        ratios = [more / less for less, more in pairwise(costs)]
        print(f"\n{name}: {', '.join(f'{ratio:.1f} times' for ratio in ratios)}")
        assert max(ratios) < 12
