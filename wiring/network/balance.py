"""The balance of a power tree as arrays: Newton's method, working temperatures, one-way parts.

API: `Network(tree, case, live)`, `.solve(share, temperature)`, `.most_share(temperature)`.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csc_array, diags_array
from scipy.sparse.linalg import splu

from wiring.cable.ampacity import ampacity
from wiring.cable.conductor import HIGHEST_TEMPERATURE, METALS, Conductor
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.errors import InsulationTooColdError, OutsideTableError, UnknownDataError
from wiring.network.parts import ONE_WAY, Source
from wiring.network.shared import couple
from wiring.network.tree import Run, Tree

Vector = NDArray[np.float64]
Chosen = NDArray[np.bool_]

_TEMPERATURE_STEP = 0.01  # K, when working temperatures count as settled
_VOLTAGE_STEP = 1e-10  # V
_CLOSE = 1e-9  # V or A, within which a one-way part counts as just turning over
_NEWTON_ROUNDS = 100
_HEAT_ROUNDS = 100
_SPARSE_FROM = 100  # nodes
_TURNS = 20  # most times each diode is turned over, on average, before nothing is said to balance


@dataclass(frozen=True)
class State:
    """Numbers of a balance, in the order of the network's nodes, sources and runs.

    Attributes:
        voltages: of the nodes [V]
        source_currents: given by the sources [A]
        temperatures: of the runs' conductors [°C]
        resistances: of the runs, warm [Ω]
    """

    voltages: Vector
    source_currents: Vector
    temperatures: Vector
    resistances: Vector


Balance = tuple[Vector, Vector]
Grid = Vector | csc_array


class Network:
    """The tree as arrays, one entry per live node, run, source and load."""

    def __init__(self, tree: Tree, case: str, live: set[str]) -> None:
        self.case = case
        self.names = [n.id for n in tree.nodes if n.id in live]
        index = {name: i for i, name in enumerate(self.names)}
        self.runs = [r for r in tree.runs if r.start in live and r.end in live]
        self.sources = [s for s in tree.sources if s.kind != "capacitor"]
        self.loads = [x for x in tree.loads if x.node in live]
        self.start = np.array([index[r.start] for r in self.runs], dtype=np.intp)
        self.end = np.array([index[r.end] for r in self.runs], dtype=np.intp)
        lines = np.array([_line(r) for r in self.runs]).reshape(-1, 4)
        self.fixed, self.slope, self.air, self.rise = lines.T
        # What a diode loses whatever its current; others lose nothing and pass both ways.
        drops = [_forward(r) for r in self.runs]
        self.forward = np.array(drops, dtype=float)
        self.diodes = np.isfinite(self.forward)
        self.lost = np.nan_to_num(self.forward)
        self.coupling = couple(tree.shared, [r.id for r in self.runs])
        self.emf = np.array([s.emf for s in self.sources])
        self.inner = np.array([s.resistance for s in self.sources], dtype=float)
        self.limit = np.array([_limit(s) for s in self.sources])
        self.one_way = np.isfinite(self.limit)
        self.place = np.array([index[s.node] for s in self.sources], dtype=np.intp)
        count = len(self.names)
        self.power, self.current, self.conductance = np.zeros((3, count))
        for load in self.loads:
            draw, at = load.draw(case), index[load.node]
            if load.kind == "current":
                self.current[at] += draw
            elif load.kind == "resistance":
                self.conductance[at] += 1 / draw
            else:
                self.power[at] += draw

    def solve(self, share: float, temperature: float | None) -> State | None:
        """Solve with the constant powers scaled.

        Args:
            share: of the constant powers that is drawn [-]
            temperature: of every conductor, None for the working temperature of each [°C]

        Returns:
            the balance, None if there is none

        Valid: one-way sources of one network, whose voltages do not drag each other down
        Source: Kirchhoff's laws; Howard (1960); Murty (1974)
        """
        hot = self.air if temperature is None else np.full(len(self.runs), float(temperature))
        voltages = np.full(len(self.names), self.emf.max())
        before = np.zeros(len(self.runs))
        for _ in range(_HEAT_ROUNDS):
            resistance = self.fixed + self.slope * hot
            balance = self._voltages(resistance, share * self.power, voltages)
            if balance is None:
                return None
            voltages, given = balance
            if temperature is not None:
                return State(voltages, given, hot, resistance)
            currents = self.currents(voltages, resistance)
            warmer = np.minimum(self.air + self.rise * currents**2, HIGHEST_TEMPERATURE)
            step = warmer - hot
            settled = np.abs(step).max(initial=0.0) < _TEMPERATURE_STEP
            # Between two batteries a hotter cable carries less: what swings goes half the way.
            hot = hot + np.where(step * before < 0, step / 2, step)
            before = step
            if settled:
                return State(voltages, given, hot, resistance)
        return None  # at constant power the cables would only grow hotter

    def most_share(self, temperature: float | None) -> float:
        """Largest scale of the constant powers that still balances, from below, within 0.1 %.

        Args:
            temperature: of every conductor, None for the working temperature of each [°C]

        Returns:
            share of the constant powers [-]

        Source: bisection
        """
        low, high = 0.0, 1.0
        while high - low > 1e-3 * high > 1e-9:
            middle = (low + high) / 2
            low, high = (low, middle) if self.solve(middle, temperature) is None else (middle, high)
        return low

    def _voltages(self, resistance: Vector, power: Vector, start: Vector) -> Balance | None:
        """Voltages and source currents; a diode that would pass current backwards is shut.

        Of the diodes that are the wrong way the first is turned over, all open at the start: the
        currents of diodes behind resistances are a complementarity problem with a P-matrix, for
        which that never goes round in a circle (Murty 1974).
        """
        for opened in (True, False) if self.diodes.any() else (True,):
            passing = np.where(self.diodes, opened, True)
            for _ in range(_TURNS * (1 + int(self.diodes.sum()))):
                grid, offset = self._grid(resistance, passing)
                balance = self._settled(grid, power, self.current + offset, start)
                if balance is None:
                    break
                wrong = self._wrong_diodes(balance[0], passing)
                if not wrong.any():
                    return balance
                first = int(wrong.argmax())
                passing[first] = not passing[first]
        return None

    def _settled(self, grid: Grid, power: Vector, current: Vector, start: Vector) -> Balance | None:
        """Voltages and source currents; a one-way source that would take current is left out.

        With the set of those that give held, the equations are convex; the true balance is the
        highest over all sets. Each step takes those that give at the voltages at hand, which
        only lifts the voltages (Howard's policy iteration), so no more steps are needed than
        there are sources.
        """
        for used in self._first_guesses():
            for _ in range(len(used) + 1):
                voltages = self._newton(grid, power, current, used, start)
                if voltages is None:
                    break
                given = self._given(voltages)[0]
                gives = ~self.one_way | np.where(used, given >= -_CLOSE, given > _CLOSE)
                if (gives == used).all():
                    return voltages, given * used
                used = gives
        return None

    def _first_guesses(self) -> Iterator[Chosen]:
        """Sets of sources to begin with: all; then, should they drag each other down, the high."""
        everything = np.ones(len(self.sources), dtype=bool)
        yield everything
        for level in np.unique(self.emf[self.one_way]):
            yield ~self.one_way | (self.emf > level)

    def _grid(self, resistance: Vector, passing: Chosen) -> tuple[Grid, Vector]:
        """Nodal conductances, and the currents that the drops of the diodes stand for."""
        count, places = len(self.names), self.coupling.places
        conductance = np.where(passing, 1 / resistance, 0.0)
        lost = np.where(self.diodes, conductance * self.lost, 0.0)
        offset = np.zeros(count)
        np.add.at(offset, self.end, lost)
        np.subtract.at(offset, self.start, lost)
        first = second = np.arange(len(self.runs))
        if places.size:  # what a run's voltage drives through another
            conductance[places] = 0.0
            between = self.coupling.conductances(resistance)
            first = np.concatenate([first, np.repeat(places, places.size)])
            second = np.concatenate([second, np.tile(places, places.size)])
            conductance = np.concatenate([conductance, between.ravel()])
        start, end, diagonal = self.start, self.end, np.arange(count)
        rows = np.concatenate([start[first], end[first], start[first], end[first], diagonal])
        columns = np.concatenate([start[second], end[second], end[second], start[second], diagonal])
        values = np.concatenate([conductance, conductance, -conductance, -conductance])
        values = np.concatenate([values, self.conductance])
        if count >= _SPARSE_FROM:  # of a large tree hardly any two nodes are joined
            return csc_array((values, (rows, columns)), shape=(count, count)), offset
        grid = np.zeros((count, count))
        np.add.at(grid, (rows, columns), values)
        return grid, offset

    def _wrong_diodes(self, voltages: Vector, passing: Chosen) -> Chosen:
        across = voltages[self.start] - voltages[self.end] - self.forward
        wrong = np.where(passing, across < -_CLOSE, across > _CLOSE)
        return np.asarray(wrong & self.diodes)

    def currents(self, voltages: Vector, resistance: Vector) -> Vector:
        """Current of each run from its start to its end.

        Args:
            voltages: of the nodes [V]
            resistance: of the runs [Ω]

        Returns:
            currents [A]

        Source: Kirchhoff's laws
        """
        across = voltages[self.start] - voltages[self.end]
        through = np.maximum(across - self.lost, 0.0)
        return self.coupling.currents(np.where(self.diodes, through, across), resistance)

    def _given(self, voltages: Vector) -> tuple[Vector, Vector]:
        """Current of each source and its slope over voltage."""
        free = (self.emf - voltages[self.place]) / self.inner
        return np.minimum(free, self.limit), np.where(free < self.limit, -1 / self.inner, 0.0)

    def _newton(
        self,
        grid: Grid,
        power: Vector,
        current: Vector,
        used: Chosen,
        start: Vector,
    ) -> Vector | None:
        """Upper solution by monotone Newton, or None if there is none.

        One step from any point with an M-matrix lands above every solution, because F is convex;
        a start without one is replaced by the highest open-circuit voltage.
        """
        count, place = len(power), self.place[used]
        right = np.ones((count, 2))
        top = float(self.emf.max())
        voltages, may_restart = start.copy(), bool(start.min() < top)
        for _ in range(_NEWTON_ROUNDS):
            given, slope = self._given(voltages)
            right[:, 0] = grid @ voltages + power / voltages + current
            np.subtract.at(right[:, 0], place, given[used])
            added = -power / voltages**2
            np.subtract.at(added, place, slope[used])
            step, probe = _step(grid, added, right).T
            # A Z-matrix with a positive x and J·x > 0 is an M-matrix: the stable branch. Above
            # a solution the Jacobian is always one, so losing that proves there is none.
            if not (probe.min() > 0 and (voltages - step).min() > 0):
                if not may_restart:
                    return None
                voltages, may_restart = np.full(count, top), False
                continue
            voltages -= step
            if np.abs(step).max() < _VOLTAGE_STEP:
                return voltages
        return None


def _step(grid: Grid, added: Vector, right: Vector) -> Vector:
    """x of (G + a diagonal)·x = b; zeros where there is none."""
    try:
        if not isinstance(grid, np.ndarray):
            return np.asarray(splu((grid + diags_array(added)).tocsc()).solve(right))
        jacobian = grid.copy()
        jacobian[np.diag_indices(len(added))] += added
        return np.asarray(np.linalg.solve(jacobian, right))
    except (np.linalg.LinAlgError, RuntimeError):  # exactly singular, as either says it
        return np.zeros_like(right)


def _limit(source: Source) -> float:
    limit = source.current_limit if source.kind in ONE_WAY else None
    return np.inf if limit is None else limit


def is_diode(run: Run) -> bool:
    """Whether a run is a diode.

    Args:
        run: the run

    Returns:
        true for a diode

    Source: definition
    """
    return run.contact is not None and run.contact.kind == "diode"


def _forward(run: Run) -> float:
    """What a diode loses; not a number for all that passes both ways."""
    diode = run.contact if is_diode(run) else None
    return np.nan if diode is None else diode.forward_voltage


def _line(run: Run) -> tuple[float, float, float, float]:
    """Resistance as fixed + slope · T, the air, and the temperature rise per square ampere."""
    if run.contact is not None:
        return run.contact.resistance, 0.0, run.air, 0.0
    fixed, slope, rise = run.joints, 0.0, 0.0
    back = run.return_path
    pieces: list[tuple[Conductor | None, float | None]] = [(run.conductor, run.length)]
    if isinstance(back, ChassisReturn):
        assert back.resistance is not None
        fixed += back.resistance
    if isinstance(back, CableReturn) or (back is not None and back.conductor is not None):
        pieces.append((back.conductor, back.length))
    for conductor, length in pieces:
        assert conductor is not None
        assert length is not None
        cold = length * conductor.resistance_20
        alpha = METALS[conductor.metal].alpha
        fixed += cold * (1 - 20 * alpha)
        slope += cold * alpha
        rise = max(rise, _rise(conductor, run))
    return fixed, slope, run.air, rise


def _rise(conductor: Conductor, run: Run) -> float:
    try:
        carries = ampacity(conductor, ambient=run.air, bundled=run.bundled).current
    except (UnknownDataError, InsulationTooColdError, OutsideTableError):
        return 0.0  # a finding of its own in checks; the heat of the air remains
    assert conductor.insulation is not None
    return float((conductor.insulation - run.air) / carries**2)
