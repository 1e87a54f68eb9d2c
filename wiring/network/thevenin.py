"""The way from the batteries to one amplifier, cut down to a voltage behind resistances.

API: `feed_of(tree, load, loaded=, resting=, bank=None) -> LimitedFeed` for
`wiring.transient.sag`: one feed for each way in which the one-way sources can be.
"""

from collections.abc import Sequence
from itertools import product

import numpy as np

from wiring.errors import COUNT, UnknownDataError, require_between
from wiring.names import Name
from wiring.network.balance import is_diode
from wiring.network.feed import Bound, Feed, LimitedFeed
from wiring.network.parts import ONE_WAY, Load, Source
from wiring.network.shared import SharedReturn, couple
from wiring.network.solution import Solution
from wiring.network.tree import Run, Tree

MOST_ONE_WAY = 4  # sources of that kind: with each more there are three times as many ways
_HOLDS, _LIMITED, _NOTHING = "holds", "limited", "nothing"  # what a one-way source does


def feed_of(
    tree: Tree, load: Load, *, loaded: Solution, resting: Solution, bank: Source | None = None
) -> LimitedFeed:
    """The tree as one amplifier sees it, every other load drawing what it draws at rest.

    Z = G⁻¹; E = Z·i; at the amplifier u_a = E_a − Z_aa·I − Z_ab·K, at the bank
    u_b = E_b − Z_ab·I − Z_bb·K, with I into the amplifier, K into the bank, and i what sources
    push in and other loads take out. A one-way source below its limit is a voltage behind its
    resistance, at its limit a current, else nothing: each way is a feed of its own, with what has
    to hold at the source for it to be the one.

    Args:
        tree: the supply
        load: the amplifier
        loaded: a solution whose conductors are as warm as they are to be taken
        resting: a solution that says what the other loads draw
        bank: the capacitor bank, None for none

    Returns:
        the feeds

    Raises:
        UnknownDataError: if nothing that holds a voltage reaches the amplifier
        OutOfRangeError: if more than four one-way sources reach it

    Valid: other loads as constant currents; a diode stays open or shut as in the loaded solution
    Source: Thevenin's theorem; superposition
    """
    if load.node not in loaded.voltages or load.node not in resting.voltages:
        raise UnknownDataError(Name.BATTERY)
    reached = _joined(tree, load.node, loaded)
    index = {n.id: i for i, n in enumerate([n for n in tree.nodes if n.id in reached])}
    runs = [run for run in tree.runs if run.start in index and _is_open_way(run, loaded)]
    grid, pushed = _between_nodes(tree.shared, runs, loaded, index)
    for other in tree.loads:
        if other.node in index and other.id != load.id:
            pushed[index[other.node]] -= resting.loads[other.id].current
    sources = [s for s in tree.sources if s.node in index and s.kind != "capacitor"]
    batteries = [s for s in sources if s.kind not in ONE_WAY]
    limited = [s for s in sources if s.kind in ONE_WAY]
    require_between(
        name=Name.ONE_WAY_SOURCES, value=len(limited), low=0, high=MOST_ONE_WAY, unit=COUNT
    )
    for source in batteries:
        _hold(source, index[source.node], grid, pushed)
    beside = load.node if bank is None or bank.node not in index else bank.node
    at = (index[load.node], index[beside])
    ways = product((_HOLDS, _LIMITED, _NOTHING), repeat=len(limited))
    feeds = [
        _feed(dict(zip(limited, way, strict=True)), index, grid.copy(), pushed.copy(), at)
        for way in ways
        if batteries or _HOLDS in way
    ]
    if not feeds:
        raise UnknownDataError(Name.BATTERY)
    return LimitedFeed(feeds=tuple(feeds))


def _is_open_way(run: Run, loaded: Solution) -> bool:
    """Whether current may pass: no diode that is shut, and nothing that no source reaches."""
    return run.id in loaded.runs and not (is_diode(run) and loaded.runs[run.id].current <= 0)


def _joined(tree: Tree, start: str, loaded: Solution) -> set[str]:
    """Nodes joined to one; what only a shut diode leads to is another network."""
    reached, frontier = {start}, [start]
    while frontier:
        for run, other in tree.neighbours[frontier.pop()]:
            if other not in reached and _is_open_way(run, loaded):
                reached.add(other)
                frontier.append(other)
    return reached


def _between_nodes(
    shared: Sequence[SharedReturn], runs: Sequence[Run], loaded: Solution, index: dict[str, int]
) -> tuple[np.ndarray, np.ndarray]:
    """Conductances between the nodes, and what the drops of conducting diodes push into them."""
    joined, pushed = np.zeros((len(index), len(runs))), np.zeros(len(index))
    for place, run in enumerate(runs):
        joined[index[run.start], place], joined[index[run.end], place] = 1.0, -1.0
    coupling = couple(shared, [r.id for r in runs])
    own = np.array([loaded.runs[r.id].resistance for r in runs])
    conductances = np.diag(1.0 / own)
    if coupling.places.size:
        conductances[np.ix_(coupling.places, coupling.places)] = coupling.conductances(own)
    for place, run in enumerate(runs):
        if run.contact is not None and is_diode(run):
            pushed += joined[:, place] * run.contact.forward_voltage / own[place]
    return joined @ conductances @ joined.T, pushed


def _hold(
    source: Source, node: int, grid: np.ndarray, pushed: np.ndarray
) -> None:  # a voltage behind its resistance
    assert source.resistance is not None  # a solution knows every source
    grid[node, node] += 1.0 / source.resistance
    pushed[node] += source.emf / source.resistance


def _feed(
    ways: dict[Source, str],
    index: dict[str, int],
    grid: np.ndarray,
    pushed: np.ndarray,
    at: tuple[int, int],
) -> Feed:
    for source, way in ways.items():
        node = index[source.node]
        if way == _HOLDS:
            _hold(source, node, grid, pushed)
        elif way == _LIMITED:
            pushed[node] += source.current_limit or 0.0
    impedance = np.linalg.inv(grid)
    opened = impedance @ pushed
    a, b = at
    shared = float(impedance[a, b])
    bounds = []
    for source, way in ways.items():
        s = index[source.node]
        low, high = _between(source, way)
        bounds.append(
            Bound(
                open_voltage=float(opened[s]),
                per_load=float(impedance[s, a]),
                per_bank=float(impedance[s, b]),
                low=low,
                high=high,
            )
        )
    return Feed(
        open_voltage=float(opened[a]),
        source_resistance=shared,
        tail_resistance=max(float(impedance[a, a]) - shared, 0.0),
        bank_open_voltage=float(opened[b]),
        lead=max(float(impedance[b, b]) - shared, 0.0),
        bounds=tuple(bounds),
    )


def _between(source: Source, way: str) -> tuple[float, float]:
    """Between which voltages at its node a one-way source is in one of its ways [V]."""
    assert source.resistance is not None
    limit = np.inf if source.current_limit is None else source.current_limit
    full = source.emf - source.resistance * limit
    if way == _HOLDS:
        return full, source.emf
    return (-np.inf, full) if way == _LIMITED else (source.emf, np.inf)
