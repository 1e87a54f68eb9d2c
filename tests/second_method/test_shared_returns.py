"""Ways back that several runs share, against both rails of the car drawn apart.

The other method knows no loops: every plus and every minus is a node of its own, the studs and
their one way back too, and amplifiers are currents that are put in again until nothing moves.
"""

from __future__ import annotations

import random
from dataclasses import replace

import numpy as np
import pytest

from tests.wiring import trees
from wiring.cable.drop import ChassisReturn
from wiring.network.parts import Load
from wiring.network.shared import SharedReturn, together
from wiring.network.solve import solve
from wiring.network.thevenin import feed_of
from wiring.network.tree import Run, Tree

OHMS = 1e-6 / 58 / 21.15e-6  # Ω/m of 4 AWG copper, 20 °C


def rails(
    feed: dict[str, tuple[str, float]],
    leads: dict[str, float],
    body: float,
    watts: dict[str, float],
) -> tuple[dict[str, float], dict[str, float]]:
    """Plus against minus of each amplifier, and what each feed carries.

    A feed goes from a node to an amplifier; its minus has a lead to the one stud, whose way to
    the battery's minus, node "0", is the body.
    """
    names = [*(f"{name}+" for name in feed), *(f"{name}-" for name in feed), "stud", "E"]
    at = {name: i for i, name in enumerate(names)}
    grid = np.zeros((len(names), len(names)))

    def joined(a: str, b: str, ohms: float) -> None:
        for one, other in ((a, b), (b, a)):
            if one in at:
                grid[at[one], at[one]] += 1 / ohms
                if other in at:
                    grid[at[one], at[other]] -= 1 / ohms

    joined("E", "0", 5e-3)
    for name, (start, ohms) in feed.items():
        joined("E" if start == "battery" else f"{start}+", f"{name}+", ohms)
        joined(f"{name}-", "stud", leads[name])
    joined("stud", "0", body)
    inverse = np.linalg.inv(grid)
    volts = dict.fromkeys(feed, 12.0)
    for _ in range(200):
        pushed = np.zeros(len(names))
        pushed[at["E"]] = 12.6 / 5e-3
        for name, power in watts.items():
            pushed[at[f"{name}+"]] -= power / volts[name]
            pushed[at[f"{name}-"]] += power / volts[name]
        found = inverse @ pushed
        volts = {name: float(found[at[f"{name}+"]] - found[at[f"{name}-"]]) for name in feed}
    drawn = {name: watts.get(name, 0.0) / volts[name] for name in feed}
    through = {
        name: drawn[name] + sum(drawn[n] for n, (start, _) in feed.items() if start == name)
        for name in feed
    }
    return volts, through


def run(label: str, start: str, end: str, metres: float, lead: float, body: float) -> Run:
    """A run through the body: its lead of the minus counts as a resistance."""
    return Run(
        id=label, start=start, end=end, conductor=trees.BRANCH, length=metres,
        return_path=ChassisReturn(resistance=lead + body),
    )  # fmt: skip


def shared_tree(draw: random.Random) -> tuple[Tree, dict[str, float], dict[str, float]]:
    """Two or three amplifiers from the battery, or one behind another, with one stud in common."""
    body, count = draw.uniform(0.3e-3, 4e-3), draw.choice((2, 3))
    names = [f"a{i}" for i in range(count)]
    starts = dict.fromkeys(names, "battery")
    if count > 2:
        starts["a2"] = draw.choice(("battery", "a1"))
    metres = {name: draw.uniform(0.5, 5) for name in names}
    # What hangs behind another amplifier's plus goes back from its own stud all the same.
    leads = {name: draw.uniform(0.2e-3, 2e-3) for name in names}
    watts = {name: draw.uniform(50, 500) for name in names}
    runs = [run(f"P{n}", starts[n], n, metres[n], leads[n], body) for n in names]
    loads = [Load(id=n, node=n, kind="power", value=watts[n]) for n in names]
    tree = trees.tree(runs, [trees.battery()], loads)
    way = SharedReturn(id="stud", resistance=body, arriving=tuple(r.id for r in runs))
    feed = {n: (starts[n], metres[n] * OHMS) for n in names}
    volts, through = rails(feed, leads, body, watts)
    return Tree(**{**vars_of(tree), "shared": (way,)}), volts, through


def vars_of(tree: Tree) -> dict[str, object]:
    """What a tree is made of."""
    return {"nodes": tree.nodes, "sources": tree.sources, "runs": tree.runs, "loads": tree.loads}


@pytest.mark.second_method
def test_a_shared_stud_loses_for_all_what_one_draws() -> None:
    """Voltages and currents with a stud in common are those of both rails drawn apart."""
    draw = random.Random(41)
    chained = 0
    for _ in range(60):
        tree, volts, through = shared_tree(draw)
        if any(r.start == "a1" for r in tree.runs):
            # The minus of the amplifier behind does not pass the one before: the run before it
            # counts its plus for both, its lead for both too, which only loses more.
            chained += 1
            found = solve(tree, temperature=20.0)
            assert all(found.voltages[n] <= volts[n] + 1e-6 for n in volts)
            continue
        found = solve(tree, temperature=20.0)
        for name, expected in volts.items():
            assert found.voltages[name] == pytest.approx(expected, abs=2e-3)
            assert found.runs[f"P{name}"].current == pytest.approx(through[name], rel=1e-3)
    assert 5 < chained < 55


def test_a_shared_stud_is_worse_than_one_each() -> None:
    """Two amplifiers on one stud get less than either alone by the stud times the other's amps."""
    lone = trees.tree(
        [run("P1", "battery", "a", 1.0, 1e-4, 2e-3), run("P2", "battery", "b", 1.0, 1e-4, 2e-3)],
        [trees.battery()],
        [Load(id=n, node=n, kind="current", value=50.0) for n in "ab"],
    )
    way = SharedReturn(id="stud", resistance=2e-3, arriving=("P1", "P2"))
    both = Tree(**{**vars_of(lone), "shared": (way,)})
    alone, shared = solve(lone, temperature=20.0), solve(both, temperature=20.0)
    assert alone.voltages["a"] - shared.voltages["a"] == pytest.approx(50.0 * 2e-3, abs=1e-9)


def test_the_feed_of_an_amplifier_counts_what_the_others_leave_in_the_stud() -> None:
    """Cut down to one amplifier, the tree gives the voltage it gives whole."""
    loads = [Load(id=n, node=n, kind="current", value=50.0) for n in "ab"]
    lone = trees.tree(
        [run("P1", "battery", "a", 1.0, 1e-4, 2e-3), run("P2", "battery", "b", 1.0, 1e-4, 2e-3)],
        [trees.battery()],
        loads,
    )
    way = SharedReturn(id="stud", resistance=2e-3, arriving=("P1", "P2"))
    both = Tree(**{**vars_of(lone), "shared": (way,)})
    whole = solve(both, temperature=20.0)
    feed = feed_of(both, loads[0], loaded=whole, resting=whole).feeds[0]
    resistance = feed.source_resistance + feed.tail_resistance
    assert feed.open_voltage - resistance * 50.0 == pytest.approx(whole.voltages["a"], abs=1e-9)


@pytest.mark.parametrize("drawn", [0.0, 10.0])
def test_current_that_leaves_one_battery_to_charge_another(drawn: float) -> None:
    """A battery takes its current back from the stud; while it is charged the stud carries both.

    Second method: Kirchhoff's laws by hand, two loops and one node; all values invented.
    """
    stud = 2e-3
    runs = [
        trees.run("P1", "battery", "block", trees.MAIN, 3.0),
        replace(trees.run("P2", "second", "block", length=1.0), joints=stud),
        replace(trees.run("P3", "block", "amp", length=1.0), joints=stud),
    ]
    main, flat = trees.battery(emf=12.8), trees.battery("second", emf=10.5, ohms=8e-3)
    load = Load(id="L", node="amp", kind="current", value=drawn)
    way = SharedReturn(id="stud", resistance=stud, arriving=("P3",), leaving=("P2",))
    tree = replace(trees.tree(runs, [main, flat], [load]), shared=(way,))
    solution = solve(tree, "idle", temperature=20.0)
    r1, r2 = (solution.runs[name].resistance for name in ("P1", "P2"))
    # E2 - (r2 + R2)·i2 + s·i3 = E1 - (r1 + R1)·i1 at the block, and i1 + i2 = i3.
    i2 = (10.5 - 12.8 + stud * drawn + (5e-3 + r1) * drawn) / (8e-3 + r2 + 5e-3 + r1)
    amps = {name: run.current for name, run in solution.runs.items()}
    assert amps["P2"] == pytest.approx(i2, rel=1e-6)
    assert amps["P2"] < -10  # it is charged
    assert together(way, amps) == pytest.approx(drawn - i2, rel=1e-6)
    assert together(way, amps) == pytest.approx(amps["P1"], rel=1e-6)
