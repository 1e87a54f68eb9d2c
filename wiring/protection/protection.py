"""Which fuses guard a run, from every source on every path.

API: `Protection(tree)`: `.inflow(run, node)`, `.entering(run, node)`, `.guards(run, node)`;
`fuse_at`, `end_of`, `rating`.
"""

import math

from wiring.cable.fuse import FittedFuse
from wiring.findings import END, START
from wiring.network.branches import Branches
from wiring.network.tree import Run, Tree


class Protection:
    """The fuses of a tree seen from any run."""

    def __init__(self, tree: Tree) -> None:
        self._tree = tree
        gives = {s.node: math.inf for s in tree.sources}
        self._branches = Branches(tree, gives, {r.id: rating(r) for r in tree.runs})
        self.has_loop = self._branches.has_loop

    def inflow(self, run: Run, node: str) -> float:
        """Most current that can reach one end of a run from outside the run.

        Args:
            run: the run
            node: one of its end nodes

        Returns:
            current; 0 if no source reaches that end, infinite if one does without a fuse [A]

        Source: Ford & Fulkerson (1956), maximum flow and minimum cut
        """
        return self._branches.inflow(run, node)

    def entering(self, run: Run, node: str) -> float:
        """Most current that can enter the conductor at one end, past its own fuse there.

        Args:
            run: the run
            node: one of its end nodes

        Returns:
            current [A]

        Source: Ford & Fulkerson (1956), maximum flow and minimum cut
        """
        own = fuse_at(run, node)
        flow = self.inflow(run, node)
        return flow if own is None else min(flow, own.fuse.rating)

    def guards(self, run: Run, node: str) -> list[tuple[Run, FittedFuse]]:
        """Fuses that have to open when the run is shorted, for what comes from one end.

        Args:
            run: the run
            node: the end node that feeds it

        Returns:
            each fuse with the run it sits on; its own, or else the nearest ones upstream
        """
        own = fuse_at(run, node)
        if own is not None:
            return [(run, own)]
        guards: list[tuple[Run, FittedFuse]] = []
        seen = {run.id}
        frontier = [node]
        while frontier:
            for other, beyond in self._tree.neighbours[frontier.pop()]:
                if other.id in seen:
                    continue
                seen.add(other.id)
                fitted = [f for f in (other.fuse_start, other.fuse_end) if f is not None]
                if not fitted:
                    frontier.append(beyond)
                elif self.has_loop or self.inflow(other, beyond) > 0:
                    guards.append((other, min(fitted, key=lambda f: f.fuse.rating)))
        return guards


def fuse_at(run: Run, node: str) -> FittedFuse | None:
    """Fuse of a run at one of its end nodes.

    Args:
        run: the run
        node: one of its end nodes

    Returns:
        the fuse, None if there is none

    Source: definition
    """
    return run.fuse_start if node == run.start else run.fuse_end


def end_of(run: Run, node: str) -> str:
    """Which end of a run one of its end nodes is.

    Args:
        run: the run
        node: one of its end nodes

    Returns:
        `findings.START` or `findings.END`

    Source: definition
    """
    return START if node == run.start else END


def rating(run: Run) -> float:
    """Smallest fuse rating on a run.

    Args:
        run: the run

    Returns:
        current, infinite without a fuse [A]

    Source: definition
    """
    fitted = (run.fuse_start, run.fuse_end)
    return min((f.fuse.rating for f in fitted if f is not None), default=math.inf)
