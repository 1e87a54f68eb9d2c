"""Thousands of random supplies against a checker that shares no code with the package.

It knows only printed tables (33 CFR 183.425 Table 5 at 105 °C, ASTM B258 areas, ρ = 1/58), walks
every path from every source, and solves by repeated substitution instead of Newton's method.
"""

import random
from collections import Counter
from dataclasses import dataclass

import numpy as np
import pytest

from tests.wiring import trees
from wiring.cable.conductor import awg
from wiring.cable.drop import CableReturn
from wiring.cable.fuse import FittedFuse, Fuse
from wiring.findings import Finding
from wiring.network.parts import Load, Source
from wiring.network.tree import Run, Tree
from wiring.protection.checks import check

AREA = {"14": 2.081, "10": 5.261, "8": 8.366, "4": 21.15, "1/0": 53.48}  # mm², ASTM B258
CARRIES = {"14": 35, "10": 60, "8": 80, "4": 160, "1/0": 285}  # A, Table 5, 105 °C
CABLES = {size: awg(size, insulation=105) for size in AREA}
MARGIN = 1.002  # the tables above are rounded


def fuse(draw: random.Random) -> FittedFuse | None:
    """A fuse, or none."""
    if draw.random() < 0.3:
        return None
    part = Fuse(
        kind="strip",
        rating=draw.choice((10, 30, 60, 80, 125, 200)),
        breaking_capacity=draw.choice((1000, 2000, 6000)),
        opening=trees.CURVE,
    )
    return FittedFuse(fuse=part, distance=0.1)


def random_tree(draw: random.Random) -> Tree:
    """One to five runs, one or two batteries, a ring now and then."""
    count = draw.choice((2, 3, 3, 4, 5))
    ends = [(f"n{draw.randrange(i)}", f"n{i}") for i in range(1, count)]
    if count > 2 and draw.random() < 0.05:
        ends.append(("n0", f"n{count - 1}"))
    runs = []
    for i, (start, end) in enumerate(ends):
        cable, metres = CABLES[draw.choice(list(CABLES))], draw.uniform(0.2, 6)
        runs.append(
            Run(
                id=f"P{i}",
                start=start,
                end=end,
                conductor=cable,
                length=metres,
                return_path=CableReturn(conductor=cable, length=metres),
                fuse_start=fuse(draw),
                fuse_end=fuse(draw) if draw.random() < 0.4 else None,
                ambient=draw.choice((30.0, 50.0, 80.0)),
                bundled=draw.choice((2, 2, 3, 8)),
            )
        )
    sources = [battery("n0", draw)]
    if draw.random() < 0.3:
        sources.append(battery(f"n{count - 1}", draw))
    loads = [
        Load(id=f"A{i}", node=f"n{i}", kind="power", value=10 ** draw.uniform(1, 2.7))
        for i in range(1, count)
        if draw.random() < 0.7
    ]
    return trees.tree(runs, sources, loads)


def battery(node: str, draw: random.Random) -> Source:
    """A battery of some strength; the cold-cranking table is left to another test."""
    return Source(
        id=f"B-{node}",
        node=node,
        kind="starter battery",
        emf=12.6,
        resistance=draw.uniform(3e-3, 8e-3),
        cold_resistance=12e-3,
    )


@dataclass
class Worked:
    """What the other method found."""

    volts: dict[str, float]
    amps: dict[str, float]


def carries(run: Run) -> float:
    """Ampacity: table, square-root law, bundle table."""
    bundle = {2: 1.0, 3: 0.7, 8: 0.5}[run.bundled]
    return CARRIES[run.conductor.size] * ((105 - run.ambient) / 75) ** 0.5 * bundle


def work_out(tree: Tree) -> Worked | None:
    """Repeated substitution v = G⁻¹·(E/R - P/v), cables warming as they carry; None if it fails."""
    names = [n.id for n in tree.nodes]
    at = {n: i for i, n in enumerate(names)}
    watts, given = np.zeros(len(names)), np.zeros(len(names))
    for load in tree.loads:
        watts[at[load.node]] += load.value
    for source in tree.sources:
        given[at[source.node]] += source.emf / source.resistance
    hot = {r.id: r.ambient for r in tree.runs}
    volts = np.full(len(names), 12.6)
    for _ in range(60):
        ohms = {r.id: loop_ohms(r, hot[r.id]) for r in tree.runs}
        grid = np.zeros((len(names), len(names)))
        for r in tree.runs:
            i, j = at[r.start], at[r.end]
            grid[[i, j], [i, j]] += 1 / ohms[r.id]
            grid[[i, j], [j, i]] -= 1 / ohms[r.id]
        for source in tree.sources:
            grid[at[source.node], at[source.node]] += 1 / source.resistance
        inverse, before = np.linalg.inv(grid), volts
        for _ in range(60):
            last, volts = volts, inverse @ (given - watts / volts)
            if volts.min() < 2:
                return None
            if np.abs(volts - last).max() < 1e-7:
                break
        amps = {r.id: (volts[at[r.start]] - volts[at[r.end]]) / ohms[r.id] for r in tree.runs}
        hot = {
            r.id: min(250, r.ambient + (105 - r.ambient) * (amps[r.id] / carries(r)) ** 2)
            for r in tree.runs
        }
        if np.abs(volts - before).max() < 1e-5:
            return Worked(dict(zip(names, volts.tolist(), strict=True)), amps)
    return None


def loop_ohms(run: Run, celsius: float) -> float:
    """Out and back."""
    return 2 * one_way(run) * (1 + 0.004 * (celsius - 20))


def one_way(run: Run) -> float:
    """One way at 20 °C."""
    return run.length * 1e-6 / 58 / (AREA[run.conductor.size] * 1e-6)


def paths(tree: Tree, node: str, used: tuple[Run, ...]) -> list[tuple[Run, ...]]:
    """Every way from a node to a source that uses no run twice, the runs in `used` left out."""
    found: list[tuple[Run, ...]] = []
    if any(s.node == node for s in tree.sources):
        found.append(())
    for run in tree.runs:
        if run not in used and node in (run.start, run.end):
            other = run.end if node == run.start else run.start
            found += [(run, *rest) for rest in paths(tree, other, (*used, run))]
    return found


def violations(tree: Tree) -> set[tuple[str, str]]:
    """Everything wrong that this checker can see, as (kind, place)."""
    wrong = {fault for run in tree.runs for fault in unguarded(tree, run)}
    worked = work_out(tree)
    if worked is None:
        return wrong | {("balance", tree.sources[0].id)}
    for run in tree.runs:
        if abs(worked.amps[run.id]) > carries(run) * MARGIN:
            wrong.add(("ampacity", run.id))
        if abs(worked.volts[run.start] - worked.volts[run.end]) > 0.36 * MARGIN:
            wrong.add(("drop", run.id))
    for load in tree.loads:
        lost = worked.volts["n0"] - worked.volts[load.node]
        if len(tree.sources) == 1 and lost > 0.36 * MARGIN:
            wrong.add(("drop", load.id))
    return wrong


def unguarded(tree: Tree, run: Run) -> set[tuple[str, str]]:
    """What is wrong with the fuses of one run, on every path from every source."""
    wrong = set()
    for node, own in ((run.start, run.fuse_start), (run.end, run.fuse_end)):
        for path in paths(tree, node, (run,)):
            fuses = [own, *(f for r in path for f in (r.fuse_start, r.fuse_end))]
            if not any(f is not None and f.fuse.rating <= carries(run) * MARGIN for f in fuses):
                wrong.add(("protection", run.id))
            source = next(s for s in tree.sources if s.node == end_of(path, node))
            short = source.emf / (source.resistance + sum(one_way(r) for r in path))
            if own is not None and short > own.fuse.breaking_capacity * 1.02:
                wrong.add(("breaking", run.id))
    return wrong


def end_of(path: tuple[Run, ...], node: str) -> str:
    """Node at the end of a path."""
    for run in path:
        node = run.end if node == run.start else run.start
    return node


ANSWERS = {
    "protection": {
        "unprotected-conductor", "second-source-unprotected", "fuse-above-conductor",
    },
    "breaking": {"breaking-capacity-low"},
    "ampacity": {"ampacity-exceeded"},
    "drop": {"drop-over-limit"},
    "balance": {"no-solution"},
}  # fmt: skip


def answered(wrong: tuple[str, str], findings: tuple[Finding, ...]) -> bool:
    """Whether some finding of the right kind names the place."""
    kind, where = wrong
    return any(f.code in ANSWERS[kind] and f.about == where for f in findings)


@pytest.mark.second_method
@pytest.mark.parametrize("number", [200, pytest.param(5000, marks=pytest.mark.long)])
def test_nothing_unsafe_passes(number: int) -> None:
    """No conductor over its ampacity or unprotected, no weak fuse, no large drop goes unsaid."""
    draw = random.Random(11)
    seen: Counter[str] = Counter()
    for _ in range(number):
        tree = random_tree(draw)
        findings, wrong = check(tree), violations(tree)
        for one in wrong:
            assert answered(one, findings), (one, tree, findings)
        seen.update({kind for kind, _ in wrong} or {"sound"})
    # The search is worth something only if it met every kind of fault, and sound trees too.
    assert all(seen[kind] >= number / 250 for kind in ("sound", *ANSWERS)), seen


def test_sound_trees_are_not_blamed() -> None:
    """Where the other checker sees nothing wrong, no finding of these kinds is raised on a tree."""
    draw = random.Random(12)
    ours = set().union(*ANSWERS.values())
    for _ in range(200):
        tree = random_tree(draw)
        ring = len(tree.runs) >= len(tree.nodes)
        if ring or len(tree.sources) > 1 or violations(tree):
            continue
        blamed = [f for f in check(tree) if f.code in ours and not _own_fuse_above(tree, f)]
        tight = [f for f in blamed if float(f.value or 0) > float(f.limit or 1) * 1.03]
        assert not tight, (tight, tree)


def _own_fuse_above(tree: Tree, finding: Finding) -> bool:
    """A fuse above its own cable is blamed even where one upstream guards it today."""
    run = next((r for r in tree.runs if r.id == finding.about), None)
    return finding.code == "fuse-above-conductor" and run is not None and run.fuse_start is not None
