"""Sharing a voltage drop among the runs of many paths with the least metal.

API: `spread(paths, drops, metal, start, allowed) -> dict[label, size index]`.
"""

from collections.abc import Iterable, Mapping, Sequence

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
    search.grow(paths)
    search.shrink(start)
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
        self.drops, self.metal = drops, metal
        self.start, self.allowed = start, allowed
        self.size = dict(start)
        self.through: dict[str, list[tuple[str, ...]]] = {label: [] for label in start}
        for path in paths:
            for label in dict.fromkeys(path):
                if label in start:
                    self.through[label].append(path)
        # Sizes before the move that is being tried, and the metal it adds.
        self.before: dict[str, int] = {}
        self.added = 0.0

    def lost(self, path: tuple[str, ...]) -> float:
        return sum(self.drops[p][self.size.get(p, 0)] for p in path)

    def worth(self, label: str) -> float:
        """Volts saved per metal added by the next size."""
        now, drops, metal = self.size[label], self.drops[label], self.metal[label]
        return (drops[now] - drops[now + 1]) / max(metal[now + 1] - metal[now], 1e-12)

    def can_grow(self, label: str) -> bool:
        return label in self.size and self.size[label] < len(self.drops[label]) - 1

    def put(self, label: str, size: int) -> None:
        self.before.setdefault(label, self.size[label])
        self.added += self.metal[label][size] - self.metal[label][self.size[label]]
        self.size[label] = size

    def grow(self, paths: Sequence[tuple[str, ...]], spared: str = "") -> None:
        for path in sorted(paths, key=self.lost, reverse=True):
            while self.lost(path) > self.allowed:
                free = [p for p in path if p != spared and self.can_grow(p)]
                if not free:
                    break
                most = max(free, key=self.worth)
                self.put(most, self.size[most] + 1)

    def shrink(self, labels: Iterable[str], spared: str = "") -> None:
        for label in sorted(labels, key=lambda p: -self.metal[p][self.size[p]]):
            while label != spared and self.size[label] > self.start[label]:
                self.put(label, self.size[label] - 1)
                if not self.holds(label):
                    self.put(label, self.size[label] + 1)
                    break

    def holds(self, label: str) -> bool:
        return all(self.lost(path) <= self.allowed for path in self.through[label])

    def total(self) -> float:
        return sum(self.metal[p][i] for p, i in self.size.items())

    def exchange(self) -> None:
        """Move one run by a size, up or down, and let the others answer; keep what saves metal."""
        for _ in range(_EXCHANGES):
            least = self.total()
            for ways in self.through.values():  # what holds a size up is then met first
                ways.sort(key=self.lost, reverse=True)
            for label in list(self.size):
                for move in (1, -1):
                    self.try_move(label, move)
            if self.total() >= least:
                break

    def try_move(self, label: str, move: int) -> None:
        if not self.start[label] <= self.size[label] + move < len(self.drops[label]):
            return
        self.before, self.added = {}, 0.0
        self.put(label, self.size[label] + move)
        # Only where it passes is more or less lost; what lies elsewhere has no answer to give.
        self.grow(self.through[label], label)
        ways = (path for moved in list(self.before) for path in self.through[moved])
        beside = dict.fromkeys(name for path in ways for name in path if name in self.size)
        self.shrink(beside, label)
        if not self.holds(label) or self.added >= 0.0:
            self.size.update(self.before)
