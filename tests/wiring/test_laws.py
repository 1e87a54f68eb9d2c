"""What holds of every supply: drawn the other way round, in another order, at twice the voltage."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from tests.wiring.scenes.networks import TREES
from wiring.network.parts import Load, Source
from wiring.network.solve import solve
from wiring.network.states import solve_states
from wiring.network.tree import Run, Tree
from wiring.protection.checks import check

# Where nothing holds the loads up, finding how much does takes long.
NAMES = [name for name in TREES if name not in ("bare", "random-8")]
OTHER = {"start": "end", "end": "start"}


def close(value: object) -> object:
    """Within what solving to a hundredth of a kelvin leaves."""
    return pytest.approx(value, rel=2e-5, abs=2e-5)


def _reversed(run: Run) -> Run:
    if run.contact is not None and run.contact.kind == "diode":
        return run
    return replace(
        run, start=run.end, end=run.start, fuse_start=run.fuse_end, fuse_end=run.fuse_start
    )


def _told(tree: Tree, ends: dict[str, str]) -> Counter[tuple[object, ...]]:
    """What is said, but of a loop the order it is met in."""
    return Counter(
        (f.code, f.about, tuple(ends.get(d, d) for d in f.detail), f.state) for f in check(tree)
    )


@pytest.mark.parametrize("name", NAMES)
def test_a_run_drawn_the_other_way_round_is_the_same_run(name):
    """Voltages stay, currents change their sign, findings their end."""
    tree = TREES[name]()
    shared = tuple(replace(way, arriving=way.leaving, leaving=way.arriving) for way in tree.shared)
    back = replace(tree, runs=tuple(_reversed(run) for run in tree.runs), shared=shared)
    ours, theirs = solve_states(tree), solve_states(back)
    for state, solution in ours.solutions.items():
        other = theirs.solutions[state]
        assert (other.status, other.unknown) == (solution.status, solution.unknown)
        assert other.voltages == close(solution.voltages)
        for run, now in solution.runs.items():
            there = other.runs[run]
            assert abs(there.current) == close(abs(now.current))
            assert (there.drop, there.loss) == close((now.drop, now.loss))
    assert _told(back, {}) == _told(tree, OTHER)


@pytest.mark.parametrize("name", NAMES)
def test_the_order_in_which_a_supply_is_entered_changes_nothing(name):
    """Nodes, runs, sources and loads from the last to the first."""
    tree = TREES[name]()
    other = replace(
        tree, nodes=tree.nodes[::-1], runs=tree.runs[::-1], sources=tree.sources[::-1],
        loads=tree.loads[::-1],
    )  # fmt: skip
    ours, theirs = solve_states(tree).solutions, solve_states(other).solutions
    assert set(ours) == set(theirs)
    for state, solution in ours.items():
        assert theirs[state].voltages == close(solution.voltages)
        assert {k: v.current for k, v in theirs[state].sources.items()} == close(
            {k: v.current for k, v in solution.sources.items()}
        )
    assert {f.code for f in check(other)} == {f.code for f in check(tree)}


@pytest.mark.parametrize("name", NAMES)
def test_at_twice_the_voltage_four_times_the_power_flows_twice_as_much(name):
    """A network of resistances is linear; what is drawn in watts grows with the square."""
    tree = TREES[name]()

    def source(of: Source) -> Source:
        limit = None if of.current_limit is None else 2 * of.current_limit
        return replace(of, emf=2 * of.emf, current_limit=limit)

    def load(of: Load) -> Load:
        by = {"current": 2, "resistance": 1}.get(of.kind, 4)
        return replace(of, value=by * of.value, music_power=None)

    def run(of: Run) -> Run:
        if of.contact is None:
            return of
        return replace(
            of, contact=replace(of.contact, forward_voltage=2 * of.contact.forward_voltage)
        )

    plain = replace(tree, loads=tuple(replace(x, music_power=None) for x in tree.loads))
    high = replace(
        tree, sources=tuple(map(source, tree.sources)), loads=tuple(map(load, tree.loads)),
        runs=tuple(map(run, tree.runs)),
    )  # fmt: skip
    for case in ("worst", "music"):
        one, two = (solve(each, case, temperature=20.0) for each in (plain, high))
        assert two.status == one.status
        assert two.voltages == close({name: 2 * volts for name, volts in one.voltages.items()})
        for name_of_run, now in one.runs.items():
            there = two.runs[name_of_run]
            assert (there.current, there.loss) == close((2 * now.current, 4 * now.loss))
        if one.most_power:
            assert two.most_power == pytest.approx(4 * one.most_power, rel=1e-2)
