"""Speed of the power tree."""

import pytest

from tests.bench.clock import cost
from tests.wiring import trees
from wiring.cable.conductor import awg
from wiring.cable.fuse import Fuse
from wiring.network.solve import solve
from wiring.network.tree import Tree
from wiring.protection.checks import check
from wiring.runs.choice import Catalogue
from wiring.runs.choose import choose

pytestmark = pytest.mark.bench

RUNS = 40


def forty_runs() -> Tree:
    """A main, a block and 39 amplifiers."""
    runs = [trees.run("P00", "battery", "block", awg("4/0", insulation=105), 3.0, fuse=300)]
    runs += [trees.run(f"P{i:02}", "block", f"a{i}", length=1.0, fuse=20) for i in range(1, RUNS)]
    loads = [trees.amplifier(f"a{i}", 25.0) for i in range(1, RUNS)]
    return trees.tree(runs, [trees.battery()], loads)


def test_solved_and_checked() -> None:
    """A 40-run tree is solved and checked within 10 ms of CPU."""
    tree = forty_runs()
    assert solve(tree).status == "solved"
    spent = cost(lambda: check(tree), times=30)
    print(f"\nsolve and check: {spent}")
    assert spent.nominal < 0.010


def test_chosen() -> None:
    """Parts for a 40-run tree are chosen within 200 ms of CPU."""
    sizes = ("18", "16", "14", "12", "10", "8", "6", "4", "2", "1/0", "2/0", "4/0")
    ratings = (3, 5, 10, 15, 20, 30, 40, 60, 80, 100, 125, 150, 200, 250, 300, 400)
    stock = Catalogue(
        conductors=tuple(awg(size, insulation=105) for size in sizes),
        fuses=tuple(
            Fuse(kind="strip", rating=r, breaking_capacity=10_000, opening=trees.CURVE)
            for r in ratings
        ),
    )
    tree = forty_runs()
    assert choose(tree, stock).tree is not None
    spent = cost(lambda: choose(tree, stock))
    print(f"\nchoose: {spent}")
    assert spent.nominal < 0.200
