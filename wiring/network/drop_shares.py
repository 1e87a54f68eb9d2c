"""Sharing a voltage drop among the runs of many paths with the least metal.

API: `spread(paths, drops, metal, start, allowed) -> dict[label, size index]`.
"""

from collections.abc import Mapping, Sequence

from wiring.errors import require_positive
from wiring.names import Name

_EXCHANGES = 6


def spread(
    *,
    paths: Sequence[tuple[str, ...]],
    drops: Mapping[str, Sequence[float]],
    metal: Mapping[str, Sequence[float]],
    start: Mapping[str, int],
    allowed: float,
) -> dict[str, int]:
    """Sizes that keep every path within a drop, with little metal.

    First the size that saves most volts per metal grows wherever a path loses too much; then
    whatever grew too far shrinks; then each run in turn moves by one size if the others can answer
    with less metal in all.

    Args:
        paths: labels of the runs from a source to a load, for each source and load
        drops: voltage each run loses with each size, by label [V]
        metal: metal each size takes, by label [m³]
        start: least size index of each run, by label [-]
        allowed: most a path may lose [V]

    Returns:
        size index by label; where nothing suffices the largest sizes of that path [-]

    Raises:
        OutOfRangeError: if the allowed drop is not above zero

    Valid: a label that is in a path but not in start loses the single drop given for it
    Source: greedy search with exchange; common practice, no source
    """
    require_positive(name=Name.ALLOWED_DROP, value=allowed, unit="V")
    search = _Search(paths, drops, metal, start, allowed)
    search.grow()
    search.shrink()
    search.exchange()
    return search.size


class _Search:
    def __init__(
        self,
        paths: Sequence[tuple[str, ...]],
        drops: Mapping[str, Sequence[float]],
        metal: Mapping[str, Sequence[float]],
        start: Mapping[str, int],
        allowed: float,
    ) -> None:
        self.paths, self.drops, self.metal = paths, drops, metal
        self.start, self.allowed = start, allowed
        self.size = dict(start)
        self.through = {label: [p for p in paths if label in p] for label in start}

    def lost(self, path: tuple[str, ...]) -> float:
        return sum(self.drops[p][self.size.get(p, 0)] for p in path)

    def worth(self, label: str) -> float:
        """Volts saved per metal added by the next size."""
        now, drops, metal = self.size[label], self.drops[label], self.metal[label]
        return (drops[now] - drops[now + 1]) / max(metal[now + 1] - metal[now], 1e-12)

    def can_grow(self, label: str) -> bool:
        return label in self.size and self.size[label] < len(self.drops[label]) - 1

    def grow(self, spared: str = "") -> None:
        for path in sorted(self.paths, key=self.lost, reverse=True):
            while self.lost(path) > self.allowed:
                free = [p for p in path if p != spared and self.can_grow(p)]
                if not free:
                    break
                self.size[max(free, key=self.worth)] += 1

    def shrink(self, spared: str = "") -> None:
        for label in sorted(self.size, key=lambda p: -self.metal[p][self.size[p]]):
            while label != spared and self.size[label] > self.start[label]:
                self.size[label] -= 1
                if not self.holds(label):
                    self.size[label] += 1
                    break

    def holds(self, label: str) -> bool:
        return all(self.lost(path) <= self.allowed for path in self.through[label])

    def total(self) -> float:
        return sum(self.metal[p][i] for p, i in self.size.items())

    def exchange(self) -> None:
        """Move one run by a size, up or down, and let the others answer; keep what saves metal."""
        for _ in range(_EXCHANGES):
            least = self.total()
            for label in list(self.size):
                for move in (1, -1):
                    self.try_move(label, move)
            if self.total() >= least:
                break

    def try_move(self, label: str, move: int) -> None:
        before, metal = dict(self.size), self.total()
        if not self.start[label] <= self.size[label] + move < len(self.drops[label]):
            return
        self.size[label] += move
        self.grow(label)
        self.shrink(label)
        if not self.holds(label) or self.total() >= metal:
            self.size = before
