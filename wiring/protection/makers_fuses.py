"""What the makers of loads ask of the fuses ahead of them, and what a bank's note asks of its own.

API: `check_makers_fuses(tree, worst)`, `makers_sum(tree, run)`, `note_current(tree, worst, run)`,
`makers_figure(tree, run)`, `stated_behind(tree, run)`.
"""

from collections.abc import Iterator

from wiring.findings import ABOVE, Finding
from wiring.network.parts import Load
from wiring.network.solution import Solution
from wiring.network.tree import Run, Tree
from wiring.protection.protection import Protection, fuse_at, rating
from wiring.sources import Source


def check_makers_fuses(tree: Tree, worst: Solution) -> Iterator[Finding]:
    """Findings on supply fuses against the makers' figures, on mains, and on banks.

    Args:
        tree: the supply
        worst: what its runs and loads carry at worst

    Returns:
        the findings

    Source: part maker's sheet goes first; common practice, no source, for mains and banks
    """
    protection = Protection(tree)
    for load in tree.loads:
        if load.fuse_rating is not None:
            yield from _of_load(tree, load, load.fuse_rating, protection)
    for run in tree.runs:
        wanted, fitted = makers_sum(tree, run), rating(run)
        if wanted > fitted * ABOVE:
            yield Finding(
                code="main-fuse-below-sum",
                about=run.id,
                value=fitted,
                limit=wanted,
                unit="A",
                source=(Source.PART_SHEET,),
            )
        note = note_current(tree, worst, run)
        if note > fitted * ABOVE:
            yield Finding(
                code="bank-fuse-below-note",
                about=run.id,
                value=fitted,
                limit=note,
                unit="A",
                source=(Source.COMMON_PRACTICE,),
            )


def _of_load(tree: Tree, load: Load, wanted: float, protection: Protection) -> Iterator[Finding]:
    """The most that reaches a load past the fuses of the runs that end at it."""
    passes = 0.0
    for run, other in tree.neighbours[load.node]:
        flow = protection.entering(run, other)
        own = fuse_at(run, load.node)
        passes += min(flow, rating(run)) if own is not None else flow
    if passes in (0.0, float("inf")):
        return  # no source, or no fuse at all: said of the run
    if abs(passes - wanted) <= wanted * 1e-9:
        return
    yield Finding(
        code="fuse-above-part" if passes > wanted else "fuse-below-part",
        about=load.id,
        value=passes,
        limit=wanted,
        unit="A",
        source=(Source.AMPLIFIER_SHEET if load.kind == "amplifier" else Source.PART_SHEET,),
    )


def behind(tree: Tree, run: Run) -> set[str] | None:
    """Nodes that hang on a run and on nothing else.

    Args:
        tree: the supply
        run: the run

    Returns:
        ids of the nodes on its far side; None if sources lie on both sides, or it is in a ring

    Source: definition
    """
    sides = [tree.reach(node, without=run) for node in (run.start, run.end)]
    if sides[0] == sides[1]:
        return None
    feeds = {s.node for s in tree.sources if s.kind != "capacitor"}
    dead = [side for side in sides if not side & feeds]
    return dead[0] if len(dead) == 1 else None


def stated_behind(tree: Tree, run: Run) -> list[Load]:
    """Loads behind a run whose makers say which fuse they want.

    Args:
        tree: the supply
        run: the run

    Returns:
        the loads, in the order of the tree

    Source: part makers' sheets
    """
    stated = [load for load in tree.loads if load.fuse_rating is not None]
    nodes = behind(tree, run) or set() if stated else set()
    return [load for load in stated if load.node in nodes]


def makers_figure(tree: Tree, run: Run) -> float | None:
    """What the maker of the one load at the end of a run asks for.

    Args:
        tree: the supply
        run: the run

    Returns:
        its fuse, None if none or several are stated behind the run, or it is not at its end [A]

    Source: part maker's sheet
    """
    stated = stated_behind(tree, run)
    if len(stated) == 1 and stated[0].node in (run.start, run.end):
        return stated[0].fuse_rating
    return None


def makers_sum(tree: Tree, run: Run) -> float:
    """What the makers of several loads behind a run ask for together, by the diversity stated.

    Args:
        tree: the supply
        run: the run

    Returns:
        sum of their fuses times the diversity; 0 if fewer than two of them state one [A]

    Source: part makers' sheets
    """
    fuses = [load.fuse_rating or 0.0 for load in stated_behind(tree, run)]
    return sum(fuses) * (run.diversity or 1.0) if len(fuses) > 1 else 0.0


def note_current(tree: Tree, worst: Solution, run: Run) -> float:
    """What a capacitor bank may give on a bass note through a run that leads to it alone.

    Args:
        tree: the supply
        worst: what the loads draw at worst
        run: the run

    Returns:
        the full current of every amplifier it reaches; 0 if the run leads to no bank [A]

    Valid: the first moments of a note, all of it from the bank: the safe side
    Source: common practice, no source: cable and fuse as for a battery
    """
    banks = [s for s in tree.sources if s.kind == "capacitor"]
    if not banks:
        return 0.0
    nodes = behind(tree, run) or set()
    if not any(bank.node in nodes for bank in banks):
        return 0.0
    reached = tree.reach(run.start)
    amplifiers = {
        load.id
        for load in tree.loads
        if load.kind == "amplifier" and load.node in reached and load.node not in nodes
    }
    return sum(part.current for name, part in worst.loads.items() if name in amplifiers)
