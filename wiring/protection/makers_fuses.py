"""What the makers of loads ask of the fuses ahead of them, and what a bank's note asks of its own.

API: `check_makers_fuses(tree, worst)`; `Asked(tree)`: `.figure(run)`, `.total(run)`, `.sum(run)`,
`.note(run, worst)`.
"""

from collections import Counter
from collections.abc import Iterator

from wiring.findings import ABOVE, Finding
from wiring.network.branches import Branches, endless
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
    protection, asked = Protection(tree), Asked(tree)
    for load in tree.loads:
        if load.fuse_rating is not None:
            yield from _of_load(tree, load, load.fuse_rating, protection)
    for run in tree.runs:
        wanted, fitted = asked.sum(run), rating(run)
        if wanted > fitted * ABOVE:
            yield Finding(
                code="main-fuse-below-sum",
                about=run.id,
                value=fitted,
                limit=wanted,
                unit="A",
                source=(Source.PART_SHEET,),
            )
        note = asked.note(run, worst)
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


class Asked:
    """What is asked of the fuse of each run by what hangs on that run and on nothing else.

    Source: part makers' sheets; common practice, no source, for a bank
    """

    def __init__(self, tree: Tree) -> None:
        self._tree = tree
        self._stated = {x.node: x for x in tree.loads if x.fuse_rating is not None}
        lasting: Counter[str] = Counter()
        banks: Counter[str] = Counter()
        for source in tree.sources:
            (banks if source.kind == "capacitor" else lasting)[source.node] += 1
        number: Counter[str] = Counter()
        ratings: dict[str, float] = {}
        for load in tree.loads:
            if load.fuse_rating is not None:
                number[load.node] += 1
                ratings[load.node] = ratings.get(load.node, 0.0) + load.fuse_rating
        self._lasting, self._banks, self._number, self._ratings = (
            Branches(tree, gives, endless(tree)) for gives in (lasting, banks, number, ratings)
        )

    def figure(self, run: Run) -> float | None:
        """What the maker of the one load at the end of a run asks for.

        Args:
            run: the run

        Returns:
            its fuse, None if none or several are stated behind the run, or it is not at its end [A]

        Source: part maker's sheet
        """
        end = self._dead_end(run)
        if end is None or self._number.inflow(run, end) != 1 or end not in self._stated:
            return None
        return self._stated[end].fuse_rating

    def total(self, run: Run) -> float:
        """What the makers of all loads behind a run ask for together, by the diversity stated.

        Args:
            run: the run

        Returns:
            sum of their fuses times the diversity; 0 if none of them states one [A]

        Source: part makers' sheets
        """
        end = self._dead_end(run)
        return 0.0 if end is None else self._ratings.inflow(run, end) * (run.diversity or 1.0)

    def sum(self, run: Run) -> float:
        """The same where several loads hang behind the run.

        Args:
            run: the run

        Returns:
            sum of their fuses times the diversity; 0 if fewer than two of them state one [A]

        Source: part makers' sheets
        """
        end = self._dead_end(run)
        several = end is not None and self._number.inflow(run, end) > 1
        return self.total(run) if several else 0.0

    def note(self, run: Run, worst: Solution) -> float:
        """What a capacitor bank may give on a bass note through a run that leads to it alone.

        Args:
            run: the run
            worst: what the loads draw at worst

        Returns:
            the full current of every amplifier it reaches; 0 if the run leads to no bank [A]

        Valid: the first moments of a note, all of it from the bank: the safe side
        Source: common practice, no source: cable and fuse as for a battery
        """
        end = self._dead_end(run)
        if end is None or not self._banks.inflow(run, end):
            return 0.0
        beyond = self._tree.reach(run.start) - self._tree.reach(end, without=run)
        amplifiers = [x for x in self._tree.loads if x.kind == "amplifier" and x.node in beyond]
        return sum(worst.loads[x.id].current for x in amplifiers if x.id in worst.loads)

    def _dead_end(self, run: Run) -> str | None:
        """The end behind which no lasting source is; None if both are, or neither."""
        dead = [node for node in (run.start, run.end) if not self._lasting.inflow(run, node)]
        return dead[0] if len(dead) == 1 else None
