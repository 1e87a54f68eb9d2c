"""The way from the batteries to one amplifier, cut down to one voltage behind resistances.

API: `feed_of(tree, load, loaded=, resting=, bank=None) -> AmplifierFeed`: `.feed` for
`wiring.transient.sag`, `.lead` for the leads of a capacitor bank.
"""

from dataclasses import dataclass

import numpy as np

from wiring.errors import UnknownDataError
from wiring.names import Name
from wiring.network.parts import ONE_WAY, Load, Source
from wiring.network.solution import Solution
from wiring.network.transient import Feed
from wiring.network.tree import Tree


@dataclass(frozen=True, kw_only=True)
class AmplifierFeed:
    """What one amplifier sees of a whole tree.

    Attributes:
        feed: the way from the batteries to the amplifier, cut where the bank joins it
        lead: resistance of the bank's own way to that place, 0 without a bank [Ω]
    """

    feed: Feed
    lead: float


def feed_of(
    tree: Tree, load: Load, *, loaded: Solution, resting: Solution, bank: Source | None = None
) -> AmplifierFeed:
    """The tree as one amplifier sees it, every other load drawing what it draws at rest.

    Z = G⁻¹; E = (Z·i)_a; R_source = Z_ab, R_tail = Z_aa − Z_ab, R_lead = Z_bb − Z_ab, with a the
    amplifier's node, b the bank's and i what sources push in and other loads take out.

    Args:
        tree: the supply
        load: the amplifier
        loaded: a solution whose conductors are as warm as they are to be taken
        resting: a solution that says what the other loads draw
        bank: the capacitor bank, None for none

    Returns:
        the feed [V, Ω] and the bank's lead [Ω]

    Raises:
        UnknownDataError: if no battery, and no converter below its limit, reaches the amplifier
        OutOfRangeError: if the other loads alone pull the voltage to nothing

    Valid: other loads as constant currents; a converter at its limit gives that current and no
        more, one that gives nothing is left out; with other loads between amplifier and bank the
        voltage at the bank's place is taken as that at the amplifier
    Source: Thevenin's theorem; T network of a reciprocal two-port
    """
    blind = UnknownDataError(Name.BATTERY)
    if load.node not in loaded.voltages or load.node not in resting.voltages:
        raise blind
    reached = tree.reach(load.node)
    names = [node.id for node in tree.nodes if node.id in reached]
    index = {name: place for place, name in enumerate(names)}
    grid, pushed = np.zeros((len(names), len(names))), np.zeros(len(names))
    for run in tree.runs:
        if run.start in index:
            i, j = index[run.start], index[run.end]
            conductance = 1.0 / loaded.runs[run.id].resistance
            grid[[i, j], [i, j]] += conductance
            grid[[i, j], [j, i]] -= conductance
    for other in tree.loads:
        if other.node in index and other.id != load.id:
            pushed[index[other.node]] -= resting.loads[other.id].current
    held = False
    for source in tree.sources:
        if source.node in index and source.kind != "capacitor":
            given, stiff = _gives(source, loaded)
            grid[index[source.node], index[source.node]] += stiff
            pushed[index[source.node]] += given
            held = held or stiff > 0.0
    if not held:
        raise blind
    impedance = np.linalg.inv(grid)
    a = index[load.node]
    b = a if bank is None else index[bank.node]
    shared = float(impedance[a, b])
    return AmplifierFeed(
        feed=Feed(
            open_voltage=float(impedance[a] @ pushed),
            source_resistance=shared,
            tail_resistance=max(float(impedance[a, a]) - shared, 0.0),
        ),
        lead=max(float(impedance[b, b]) - shared, 0.0),
    )


def _gives(source: Source, loaded: Solution) -> tuple[float, float]:
    """Current a source pushes into a short of its node, and its conductance."""
    current = loaded.sources[source.id].current
    if source.kind in ONE_WAY:
        if current <= 0.0:
            return 0.0, 0.0
        if source.current_limit is not None and current >= source.current_limit * (1 - 1e-6):
            return source.current_limit, 0.0
    assert source.resistance is not None  # a solution knows every source
    return source.emf / source.resistance, 1.0 / source.resistance
