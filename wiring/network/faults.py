"""Short-circuit currents anywhere in a power tree, warm and cold.

API: `warm_faults(tree)`, `cold_faults(tree)` -> `Faults`; `Faults.through_fuse(run, node)`,
`Faults.far_end(run, node)`.

Every battery is a voltage behind a resistance, so a short is one linear network: with
Z = G^-1 and v = Z·(E/R), a dead short at node x takes I = v_x / Z_xx.
"""

import math
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csc_array
from scipy.sparse.linalg import splu

from wiring.cable.conductor import METALS
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.network.branches import Branches, endless
from wiring.network.parts import ONE_WAY, Source
from wiring.network.short_circuit import cold_resistance_by_cca
from wiring.network.tree import Run, Tree

Vector = NDArray[np.float64]

# A run of unknown length or cable counts as this in a warm fault: the largest current.
_NEXT_TO_NOTHING = 1e-6  # Ω
_UNCHOSEN_CLASS = 105.0  # °C, when the insulation class is not entered: a hot conductor


@dataclass(frozen=True, kw_only=True)
class FarFault:
    """A dead short at the far end of a run, fed from one end.

    Attributes:
        current: into the run [A]
        voltages: of every node that batteries feed, while the short lasts, in tree order [V]
    """

    current: float
    voltages: Vector


class Faults:
    """Short-circuit currents of one tree at one temperature.

    Source: Thevenin's theorem
    """

    def __init__(
        self, tree: Tree, resistances: dict[str, float], inner: dict[str, float], steady: bool
    ) -> None:
        self._tree = tree
        self.resistances = resistances
        self.behind = {s.id: s for s in tree.sources if s.id in inner}
        fed: set[str] = set()
        for source in self.behind.values():
            if source.node not in fed:
                fed |= tree.reach(source.node)
        self._index = {n.id: i for i, n in enumerate([n for n in tree.nodes if n.id in fed])}
        self._grid = _Grid(tree, self._index, resistances, self.behind.values(), inner)
        injected = np.zeros(len(self._index))
        for source in self.behind.values():
            injected[self._index[source.node]] += source.emf / inner[source.id]
        self._open = self._grid.solve(injected)
        feeds = dict.fromkeys((s.node for s in self.behind.values()), math.inf)
        self._branches = Branches(tree, feeds, endless(tree))
        # What a converter can add is its limit, wherever the short is. It counts when the
        # largest current is sought, not when the least is.
        limits: defaultdict[str, float] = defaultdict(float)
        cranking: defaultdict[str, float] = defaultdict(float)
        for source in tree.sources:
            if source.kind in ONE_WAY and source.current_limit and not steady:
                limits[source.node] += source.current_limit
            if source.cold_cranking:
                cranking[source.node] += source.cold_cranking
        self._limits = Branches(tree, limits, endless(tree))
        self._cranking = Branches(tree, cranking, endless(tree))

    def cranking(self, run: Run, node: str) -> float:
        """Cold-cranking amperes of all batteries that feed one end of a run.

        Args:
            run: the run
            node: which of its end nodes

        Returns:
            their sum, 0 where none is entered [A]

        Source: definition
        """
        return self._cranking.inflow(run, node)

    def through_fuse(self, run: Run, node: str) -> float:
        """Current through a fuse at one end of a run when the run is shorted right behind it.

        Args:
            run: the run
            node: which of its end nodes the fuse sits at

        Returns:
            current [A]

        Valid: the run counts as already open at its other end: that fuse may be the first to go
        Source: Thevenin's theorem
        """
        added = self._limits.inflow(run, node)
        if node not in self._index or not self._branches.inflow(run, node):
            return added
        column, opened = self._without(run, node)
        x = self._index[node]
        return float(opened[x] / column[x]) + added

    def far_end(self, run: Run, node: str) -> FarFault | None:
        """Short at the far end of a run, fed from one end only.

        Args:
            run: the run
            node: the end node that feeds it

        Returns:
            the fault, or None if no battery feeds that end

        Valid: what feeds the short from the far side is left out: that side has its own fuse
        Source: Thevenin's theorem; Sherman & Morrison (1950), for taking one run out
        """
        if node not in self._index or not self._branches.inflow(run, node):
            return None
        column, opened = self._without(run, node)
        x, resistance = self._index[node], self.resistances[run.id]
        current = float(opened[x] / (column[x] + resistance))
        return FarFault(current=current, voltages=opened - column * current)

    def _without(self, run: Run, node: str) -> tuple[Vector, Vector]:
        """Column of Z for a node, and open voltages, with one run taken out of the network."""
        x, other = self._index[node], self._index[_other(run, node)]
        column, opened = self._grid.column(x), self._open
        if self._branches.inflow(run, _other(run, node)):
            across = column - self._grid.column(other)
            left = self.resistances[run.id] - (across[x] - across[other])
            column = column + across * (across[x] / left)
            opened = opened + across * ((opened[x] - opened[other]) / left)
        return column, opened

    def through_run(self, run: Run, fault: FarFault) -> float:
        """Current through another run while a far-end short lasts.

        Args:
            run: the run looked at
            fault: the short

        Returns:
            current [A]

        Source: Ohm's law
        """
        start, end = self._index[run.start], self._index[run.end]
        across = float(fault.voltages[start] - fault.voltages[end])
        return abs(across) / self.resistances[run.id]


class _Grid:
    """Nodal conductances, factored once; columns of their inverse as they are asked for."""

    def __init__(
        self,
        tree: Tree,
        index: dict[str, int],
        resistances: dict[str, float],
        sources: Iterable[Source],
        inner: dict[str, float],
    ) -> None:
        count = len(index)
        rows: list[int] = []
        columns: list[int] = []
        values: list[float] = []
        for run in (run for run in tree.runs if run.start in index):
            i, j, g = index[run.start], index[run.end], 1 / resistances[run.id]
            rows += (i, j, i, j)
            columns += (i, j, j, i)
            values += (g, g, -g, -g)
        for source in sources:
            rows.append(index[source.node])
            columns.append(index[source.node])
            values.append(1 / inner[source.id])
        grid = csc_array((values, (rows, columns)), shape=(count, count))
        self._count = count
        self._factors = splu(grid) if count else None
        self._columns: dict[int, Vector] = {}

    def solve(self, right: Vector) -> Vector:
        return right if self._factors is None else np.asarray(self._factors.solve(right))

    def column(self, place: int) -> Vector:
        if place not in self._columns:
            unit = np.zeros(self._count)
            unit[place] = 1.0
            self._columns[place] = self.solve(unit)
        return self._columns[place]


def warm_faults(tree: Tree) -> Faults:
    """Largest short-circuit currents: warm batteries, cables at 20 °C, return through bare metal.

    I_k = E / (R_warm + R_out)

    Args:
        tree: the supply

    Returns:
        the faults

    Valid: a source whose inner resistance and maker's figure are both unknown is left out
    Source: Ohm's law; conservative: the body of the car shortcuts any return cable
    """
    resistances = {}
    for run in tree.runs:
        out = None if run.contact is None else run.contact.resistance
        if run.conductor is not None and run.length is not None:
            out = run.length * run.conductor.resistance_20
        resistances[run.id] = _NEXT_TO_NOTHING if out is None else out
    inner = {}
    for source in tree.sources:
        resistance = _warm(source)
        if resistance is not None:
            inner[source.id] = resistance
    return Faults(tree, resistances, inner, steady=False)


def cold_faults(tree: Tree) -> Faults:
    """Least short-circuit currents: cold batteries, cables at their class temperature, real return.

    I_k = E / (R_cold + R_out + R_return)

    Args:
        tree: the supply

    Returns:
        the faults

    Valid: a battery of unknown cold resistance is left out, as are converters and capacitors;
        a run whose resistance is unknown counts as open
    Source: Ohm's law
    """
    resistances = {run.id: _hot(run) for run in tree.runs}
    inner = {}
    for source in tree.sources:
        resistance = cold_resistance(source)
        if resistance is not None:
            inner[source.id] = resistance
    return Faults(tree, resistances, inner, steady=True)


def cold_resistance(source: Source) -> float | None:
    """Inner resistance of a battery in deep cold: entered, or by its cold-cranking rating.

    Args:
        source: the source

    Returns:
        resistance, None if unknown or not a battery [Ω]

    Source: cold-cranking test, 30 s at -18 °C to 7.2 V
    """
    if source.kind in (*ONE_WAY, "capacitor"):
        return None
    if source.cold_resistance is not None:
        return source.cold_resistance
    if source.cold_cranking is not None:
        return cold_resistance_by_cca(source.cold_cranking)
    return None


def _warm(source: Source) -> float | None:
    if source.kind in ONE_WAY:
        return None
    known = [r for r in (source.resistance,) if r is not None]
    if source.short_circuit_current is not None:
        known.append(source.emf / source.short_circuit_current)
    return min(known) if known else None


def _hot(run: Run) -> float:
    if run.contact is not None:
        return run.contact.resistance
    if run.unknowns:
        return 1 / _NEXT_TO_NOTHING
    total = run.joints
    pieces = [(run.conductor, run.length)]
    back = run.return_path
    if isinstance(back, ChassisReturn):
        total += back.resistance or math.inf
    if isinstance(back, CableReturn) or (back is not None and back.conductor is not None):
        pieces.append((back.conductor, back.length))
    for conductor, length in pieces:
        assert conductor is not None
        assert length is not None
        hottest = _UNCHOSEN_CLASS if conductor.insulation is None else conductor.insulation
        alpha = METALS[conductor.metal].alpha
        total += length * conductor.resistance_20 * (1 + alpha * (hottest - 20))
    return total


def _other(run: Run, node: str) -> str:
    return run.end if node == run.start else run.start
