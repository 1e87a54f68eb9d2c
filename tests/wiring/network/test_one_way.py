"""Sources and diodes that pass current one way only: however many, the balance obeys their laws."""

from __future__ import annotations

import itertools
import random
from dataclasses import replace

import pytest

from tests.wiring import trees
from wiring.errors import OutOfRangeError
from wiring.network.parts import Load, Source
from wiring.network.solution import Solution
from wiring.network.solve import solve
from wiring.network.thevenin import feed_of
from wiring.network.tree import Contact, Run, Tree

CLOSE = 1e-6


def converter(number: int, node: str, volts: float, amperes: float) -> Source:
    """A converter at a node."""
    return Source(
        id=f"C{number}", node=node, kind="dc-dc", emf=volts, resistance=8e-3, current_limit=amperes
    )


def diode(label: str, start: str, end: str) -> Run:
    """An isolator from one node to another."""
    return Run(
        id=label, start=start, end=end, conductor=None, length=None, return_path=None,
        contact=Contact(kind="diode", rated_current=200.0),
    )  # fmt: skip


def random_tree(draw: random.Random, converters: int, diodes: int) -> Tree:
    """A battery and a chain of nodes with converters, loads and diodes hung about it."""
    nodes = [f"n{i}" for i in range(6)]
    runs = [
        trees.run(f"P{i}", a, b, length=draw.uniform(0.5, 3))
        for i, (a, b) in enumerate(itertools.pairwise(nodes))
    ]
    sources = [trees.battery("n0", emf=12.6)]
    for i in range(diodes):
        runs.append(diode(f"D{i}", draw.choice(nodes), f"d{i}"))
        sources.append(trees.battery(f"d{i}", emf=draw.uniform(11.5, 13.5)))
    sources += [
        converter(i, draw.choice(nodes), draw.uniform(11.5, 14.8), draw.uniform(5, 80))
        for i in range(converters)
    ]
    loads = [Load(id=f"L{n}", node=n, kind="power", value=draw.uniform(10, 400)) for n in nodes[1:]]
    return trees.tree(runs, sources, loads)


def broken_laws(tree: Tree, solution: Solution) -> list[str]:
    """Every node, source and diode that does not do what it has to."""
    volts, broken = solution.voltages, []
    into = dict.fromkeys(volts, 0.0)
    for run in tree.runs:
        state = solution.runs[run.id]
        into[run.start] -= state.current
        into[run.end] += state.current
        lost = volts[run.start] - volts[run.end]
        if run.contact is not None:
            lost -= run.contact.forward_voltage
            law = max(lost, 0.0) / state.resistance
        else:
            law = lost / state.resistance
        if abs(law - state.current) > 1e-4:
            broken.append(run.id)
    for source in tree.sources:
        free = (source.emf - volts[source.node]) / source.resistance
        if source.kind == "dc-dc":
            free = min(max(free, 0.0), source.current_limit)
        if abs(free - solution.sources[source.id].current) > 1e-4:
            broken.append(source.id)
        into[source.node] += solution.sources[source.id].current
    for load in tree.loads:
        into[load.node] -= load.value / volts[load.node]
    return broken + [node for node, left in into.items() if abs(left) > 1e-4]


def test_every_law_holds_at_once() -> None:
    """No one-way source takes current or gives more than it can, no diode passes it back."""
    draw = random.Random(51)
    seen = {"idle": 0, "limited": 0, "shut": 0}
    for _ in range(150):
        tree = random_tree(draw, converters=3, diodes=2)
        solution = solve(tree)
        assert solution.status == "solved"
        assert broken_laws(tree, solution) == []
        gives = {s.id: solution.sources[s.id].current for s in tree.sources}
        seen["idle"] += any(gives[f"C{i}"] == 0 for i in range(3))
        full = [s for s in tree.sources if s.current_limit]
        seen["limited"] += any(gives[s.id] >= s.current_limit - CLOSE for s in full)
        seen["shut"] += any(solution.runs[f"D{i}"].current == 0 for i in range(2))
    assert min(seen.values()) > 10, seen


def test_many_are_solved_as_well() -> None:
    """Two dozen converters and a dozen diodes take no longer than their number asks for."""
    tree = random_tree(random.Random(52), converters=24, diodes=12)
    solution = solve(tree)
    assert solution.status == "solved"
    assert broken_laws(tree, solution) == []


def test_a_low_converter_does_not_hide_the_balance() -> None:
    """A one-way source far below the battery is left out, however much it would drag down."""
    tree = trees.tree(
        [trees.run("P1", "battery", "a", length=1.0)],
        [trees.battery(), replace(converter(1, "a", 5.0, 50.0), resistance=1e-4)],
        [trees.amplifier("a", 400.0)],
    )
    solution = solve(tree)
    assert solution.status == "solved"
    assert solution.sources["C1"].current == 0
    assert broken_laws(replace(tree, loads=(Load(id="L", node="a", kind="power", value=500.0),)),
                       solution) == []  # fmt: skip


def test_a_feed_with_too_many_one_way_sources_is_refused() -> None:
    """Each can hold, be at its limit or rest: beyond four the ways to look through are refused."""
    tree = random_tree(random.Random(53), converters=5, diodes=0)
    solution = solve(tree)
    with pytest.raises(OutOfRangeError):
        feed_of(tree, tree.loads[0], loaded=solution, resting=solution)
    few = replace(tree, sources=tree.sources[:5])
    solution = solve(few)
    assert len(feed_of(few, few.loads[0], loaded=solution, resting=solution).feeds) == 3**4
