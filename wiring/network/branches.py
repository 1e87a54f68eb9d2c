"""Flow that can reach each end of each run from what nodes give.

API: `Branches(tree, gives, limits)`, `.inflow(run, node)`; `endless(tree)` for no limits.

A fuse limits what passes it to its rating; a source without a fuse gives without limit. The most
that can enter a run at one end for ever is the largest flow through that network from all sources
at once: the min-cut of the fuses. Without loops it is a sum of minima along the branches, found
for all runs in two passes; with loops it is sought run by run. Without limits it is the sum of
all that lies on that side of a run.
"""

import math
from collections.abc import Mapping

import numpy as np
from scipy.sparse import csr_array
from scipy.sparse.csgraph import maximum_flow

from wiring.network.tree import Run, Tree

_SCALE = 100  # the flow solver counts in whole hundredths of an ampere
_WITHOUT_LIMIT = 10**8


def endless(tree: Tree) -> dict[str, float]:
    """Every run without a limit.

    Args:
        tree: the supply

    Returns:
        infinite, by id of the run [A]

    Source: definition
    """
    return dict.fromkeys((run.id for run in tree.runs), math.inf)


class Branches:
    """Largest flows in a tree from what its nodes give, under a limit for each run.

    Source: Ford & Fulkerson (1956), maximum flow and minimum cut
    """

    def __init__(self, tree: Tree, gives: Mapping[str, float], limits: Mapping[str, float]) -> None:
        self._tree = tree
        self._gives = gives
        self._limits = limits
        self._flows: dict[tuple[str, str], float] = {}
        order, parents = _rooted(tree)
        self.has_loop = len(tree.runs) > len(parents)
        if gives and not self.has_loop:
            self._fill(order, parents)

    def inflow(self, run: Run, node: str) -> float:
        """Most that can reach one end of a run from outside the run.

        Args:
            run: the run
            node: one of its end nodes

        Returns:
            flow; 0 if nothing reaches that end, infinite if something does without a limit [A]

        Source: Ford & Fulkerson (1956)
        """
        key = (run.id, node)
        if not self._gives:
            return 0.0
        if key not in self._flows:
            self._flows[key] = self._max_flow(run, node)
        return self._flows[key]

    def _fill(self, order: list[str], parents: dict[str, tuple[Run, str]]) -> None:
        arriving = {name: [self._gives[name]] if name in self._gives else [] for name in order}
        for name in reversed(order):
            if name in parents:
                run, parent = parents[name]
                flow = math.fsum(arriving[name])
                self._flows[run.id, name] = flow
                arriving[parent].append(min(self._limits[run.id], flow))
        sums: dict[str, tuple[float, int]] = {}
        for name in order:
            flows = arriving[name]
            if name in parents:
                run, parent = parents[name]
                limit = self._limits[run.id]
                down = self._down(sums[parent], min(limit, self._flows[run.id, name]))
                self._flows[run.id, parent] = down
                flows.append(min(limit, down))
            finite = [f for f in flows if f < math.inf]
            sums[name] = (math.fsum(finite), len(flows) - len(finite))

    @staticmethod
    def _down(arriving: tuple[float, int], own: float) -> float:
        """All that arrives at a node, less what one of its branches brings."""
        finite, endless = arriving
        if own == math.inf:
            return math.inf if endless > 1 else finite
        return math.inf if endless else finite - own if finite - own > 1e-9 else 0.0

    def _max_flow(self, run: Run, node: str) -> float:
        index = {n.id: i for i, n in enumerate(self._tree.nodes)}
        feed = len(index)
        capacity = np.zeros((feed + 1, feed + 1), dtype=np.int32)
        for other in self._tree.runs:
            if other is not run:
                limit = math.ceil(min(self._limits[other.id] * _SCALE, _WITHOUT_LIMIT))
                i, j = index[other.start], index[other.end]
                for a, b in ((i, j), (j, i)):
                    capacity[a, b] = min(_WITHOUT_LIMIT, int(capacity[a, b]) + limit)
        for name, gives in self._gives.items():
            capacity[feed, index[name]] = math.ceil(min(gives * _SCALE, _WITHOUT_LIMIT))
        flow = float(maximum_flow(csr_array(capacity), feed, index[node]).flow_value)
        return math.inf if flow >= _WITHOUT_LIMIT else flow / _SCALE


def _rooted(tree: Tree) -> tuple[list[str], dict[str, tuple[Run, str]]]:
    """Nodes from the roots outwards, and for each but the roots the run to its parent."""
    order: list[str] = []
    parents: dict[str, tuple[Run, str]] = {}
    seen: set[str] = set()
    for root in tree.nodes:
        if root.id in seen:
            continue
        seen.add(root.id)
        place = len(order)
        order.append(root.id)
        while place < len(order):
            for run, other in tree.neighbours[order[place]]:
                if other not in seen:
                    seen.add(other)
                    parents[other] = (run, order[place])
                    order.append(other)
            place += 1
    return order, parents
