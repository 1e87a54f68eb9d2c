"""Voltages and currents of a power tree.

API: `solve(tree, case="worst", temperature=None) -> Solution`. `Solution.status` is "solved",
"no-solution" (then `most_power` says what the tree can carry) or "unknown" (then `unknown` says
what is missing). `Solution.voltages[node]`, `.runs[label]: RunState`, `.sources[name]`,
`.loads[name]`.

A constant-power load makes the nodal equations F(v) = G·v + P/v + I - I_source(v) = 0 nonlinear,
with two solutions or none. F is convex in every voltage and its off-diagonal slopes are never
positive, so Newton's method started above every solution comes down to the upper, stable one
and passes it never; running below zero proves there is none (Ortega & Rheinboldt, Iterative
Solution of Nonlinear Equations, 1970, 13.3: monotone convergence).
"""

from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from wiring.cable.ampacity import ampacity
from wiring.cable.conductor import HIGHEST_TEMPERATURE, METALS, Conductor
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.errors import InsulationTooColdError, OutsideTableError, UnknownDataError
from wiring.network.parts import ONE_WAY, Load, Source
from wiring.network.solution import PartState, RunState, Solution
from wiring.network.tree import Run, Tree

Vector = NDArray[np.float64]

_TEMPERATURE_STEP = 0.01  # K, when working temperatures count as settled
_VOLTAGE_STEP = 1e-10  # V
_NEWTON_ROUNDS = 100
_HEAT_ROUNDS = 30


def solve(
    tree: Tree, case: str = "worst", *, temperature: float | None = None, cut: bool = False
) -> Solution:
    """Voltage of every node and current of every run, amplifiers as constant power.

    G·v + P/v + I = I_source(v); T = T_a + (T_class - T_a) · (I/I_z)² for each run

    Args:
        tree: the supply
        case: "worst" (full output), "loud" (1/3), "music" (1/8 of full output) or "idle"
        temperature: of every conductor, None for the working temperature of each [°C]
        cut: whether loads the tree cannot carry are cut down, all alike, to what it can

    Returns:
        the solution, or why there is none

    Raises:
        WiringError: if the case is unknown

    Valid: direct current, settled; a capacitor bank gives nothing. Each run carries its own
        return current. Insulation or ampacity unknown: the run counts as warm as its air.
    Source: Kirchhoff's laws; Ortega & Rheinboldt (1970), 13.3
    """
    live = fed_nodes(tree)
    unknown = _unknown(tree, live)
    if unknown:
        return Solution(status="unknown", case=case, unknown=unknown)
    if not live:
        return Solution(status="solved", case=case)
    network = _Network(tree, case, live)
    state = network.solve(1.0, temperature)
    wanted = float(network.power.sum())
    if state is None:
        share = network.most_share(temperature)
        most = share * wanted
        if cut and (state := network.solve(share, temperature)) is not None:
            return network.solution(state, wanted, share)
        return Solution(status="no-solution", case=case, wanted_power=wanted, most_power=most)
    return network.solution(state, wanted)


def fed_nodes(tree: Tree) -> set[str]:
    """Nodes that a battery, converter or alternator feeds.

    Args:
        tree: the supply

    Returns:
        names of the nodes

    Source: definition
    """
    live = {s.node for s in tree.sources if s.kind != "capacitor"}
    frontier = list(live)
    while frontier:
        here = frontier.pop()
        for run, other in tree.neighbours[here]:
            backwards = _is_diode(run) and run.end == here
            if other not in live and not backwards:
                live.add(other)
                frontier.append(other)
    return live


def _is_diode(run: Run) -> bool:
    return run.contact is not None and run.contact.kind == "diode"


def _forward(run: Run) -> float:
    """What a diode loses; not a number for all that passes both ways."""
    diode = run.contact if _is_diode(run) else None
    return np.nan if diode is None else diode.forward_voltage


def _unknown(tree: Tree, live: set[str]) -> tuple[str, ...]:
    missing = [run.id for run in tree.runs if run.start in live and run.unknowns]
    missing += [s.id for s in tree.sources if s.node in live and _is_unknown(s)]
    missing += [load.id for load in tree.loads if load.node in live and not load.is_known]
    return tuple(missing)


def _is_unknown(source: Source) -> bool:
    if source.kind == "capacitor":
        return False
    return source.resistance is None or (source.kind in ONE_WAY and source.current_limit is None)


@dataclass(frozen=True)
class _State:
    voltages: Vector
    source_currents: Vector
    temperatures: Vector
    resistances: Vector


class _Network:
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
        self.emf = np.array([s.emf for s in self.sources])
        self.inner = np.array([s.resistance for s in self.sources], dtype=float)
        self.limit = np.array([_limit(s) for s in self.sources])
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

    def solve(self, share: float, temperature: float | None) -> _State | None:
        """Solve with the constant powers scaled, or None if nothing balances."""
        hot = self.air if temperature is None else np.full(len(self.runs), float(temperature))
        voltages = np.full(len(self.names), self.emf.max())
        for _ in range(_HEAT_ROUNDS):
            resistance = self.fixed + self.slope * hot
            found = self._voltages(resistance, share * self.power, voltages)
            if found is None:
                return None
            voltages, given = found
            if temperature is not None:
                return _State(voltages, given, hot, resistance)
            currents = self._currents(voltages, resistance)
            warmer = np.minimum(self.air + self.rise * currents**2, HIGHEST_TEMPERATURE)
            settled = np.abs(warmer - hot).max(initial=0.0) < _TEMPERATURE_STEP
            hot = warmer
            if settled:
                return _State(voltages, given, hot, resistance)
        return None  # at constant power the cables would only grow hotter

    def most_share(self, temperature: float | None) -> float:
        """Largest scale of the constant powers that still balances, from below, within 0.1 %."""
        low, high = 0.0, 1.0
        while high - low > 1e-3 * high > 1e-9:
            middle = (low + high) / 2
            low, high = (low, middle) if self.solve(middle, temperature) is None else (middle, high)
        return low

    def _voltages(
        self, resistance: Vector, power: Vector, start: Vector
    ) -> tuple[Vector, Vector] | None:
        """Voltages and source currents; what would pass current the wrong way is left out.

        With every one-way source and diode also allowed to pass current backwards the equations
        are convex. Which ones are in is then settled by trying, all of them first.
        """
        one_way = np.isfinite(self.limit)
        count = int(one_way.sum())
        for choice in product((True, False), repeat=count + int(self.diodes.sum())):
            used = np.ones(len(self.sources), dtype=bool)
            used[one_way] = choice[:count]
            passing = np.ones(len(self.runs), dtype=bool)
            passing[self.diodes] = choice[count:]
            grid, offset = self._grid(1 / resistance, passing)
            voltages = self._newton(grid, power, self.current + offset, used, start)
            if voltages is None:
                continue
            given = self._given(voltages)[0] * used
            spare = voltages[self.place] >= self.emf - 1e-9
            fits = np.where(used, given >= -1e-9, spare)[one_way].all()
            if fits and self._diodes_fit(voltages, passing):
                return voltages, given
        return None

    def _grid(self, conductance: Vector, passing: NDArray[np.bool_]) -> tuple[Vector, Vector]:
        """Nodal conductances, and the currents that the drops of the diodes stand for."""
        count = len(self.names)
        grid, offset = np.zeros((count, count)), np.zeros(count)
        conductance = np.where(passing, conductance, 0.0)
        np.add.at(grid, (self.start, self.end), -conductance)
        np.add.at(grid, (self.end, self.start), -conductance)
        grid[np.diag_indices(count)] = self.conductance - grid.sum(axis=1)
        if self.diodes.any():
            lost = np.where(self.diodes, conductance * np.nan_to_num(self.forward), 0.0)
            np.subtract.at(offset, self.start, lost)
            np.add.at(offset, self.end, lost)
        return grid, offset

    def _diodes_fit(self, voltages: Vector, passing: NDArray[np.bool_]) -> bool:
        across = voltages[self.start] - voltages[self.end] - self.forward
        return bool(np.where(passing, across >= -1e-9, across <= 1e-9)[self.diodes].all())

    def _currents(self, voltages: Vector, resistance: Vector) -> Vector:
        across = voltages[self.start] - voltages[self.end]
        through = np.maximum(across - np.nan_to_num(self.forward), 0.0)
        current: Vector = np.where(self.diodes, through, across) / resistance
        return current

    def _given(self, voltages: Vector) -> tuple[Vector, Vector]:
        """Current of each source and its slope over voltage."""
        free = (self.emf - voltages[self.place]) / self.inner
        return np.minimum(free, self.limit), np.where(free < self.limit, -1 / self.inner, 0.0)

    def _newton(
        self,
        grid: Vector,
        power: Vector,
        current: Vector,
        used: NDArray[np.bool_],
        start: Vector,
    ) -> Vector | None:
        """Upper solution by monotone Newton, or None if there is none.

        One step from any point with an M-matrix lands above every solution, because F is convex;
        a start without one is replaced by the highest open-circuit voltage.
        """
        count = len(grid)
        diagonal = np.arange(count)
        place = self.place[used]
        right = np.ones((count, 2))
        top = float(self.emf.max())
        voltages, may_restart = start.copy(), bool(start.min() < top)
        for _ in range(_NEWTON_ROUNDS):
            given, slope = self._given(voltages)
            right[:, 0] = grid @ voltages + power / voltages + current
            np.subtract.at(right[:, 0], place, given[used])
            jacobian = grid.copy()
            jacobian[diagonal, diagonal] -= power / voltages**2
            np.subtract.at(jacobian, (place, place), slope[used])
            try:
                step, probe = np.linalg.solve(jacobian, right).T
            except np.linalg.LinAlgError:
                step, probe = right.T * 0
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

    def solution(self, state: _State, wanted: float, share: float = 1.0) -> Solution:
        """Name the numbers."""
        at = dict(zip(self.names, state.voltages.tolist(), strict=True))
        across = state.voltages[self.start] - state.voltages[self.end]
        amperes = self._currents(state.voltages, state.resistances)
        rows = zip(
            self.runs,
            amperes.tolist(),
            across.tolist(),
            state.temperatures.tolist(),
            state.resistances.tolist(),
            strict=True,
        )
        runs = {
            run.id: RunState(
                current=current, drop=abs(drop), loss=current * drop, temperature=hot, resistance=r
            )
            for run, current, drop, hot, r in rows
        }
        sources = {
            source.id: PartState(
                voltage=at[source.node], current=given, power=given * at[source.node]
            )
            for source, given in zip(self.sources, state.source_currents.tolist(), strict=True)
        }
        loads = {x.id: _load_state(x, self.case, at[x.node], share) for x in self.loads}
        return Solution(
            status="solved",
            case=self.case,
            voltages=at,
            runs=runs,
            sources=sources,
            loads=loads,
            wanted_power=wanted,
        )


def _limit(source: Source) -> float:
    limit = source.current_limit if source.kind in ONE_WAY else None
    return np.inf if limit is None else limit


def _load_state(load: Load, case: str, voltage: float, share: float) -> PartState:
    draw = load.draw(case)
    if load.kind == "current":
        return PartState(voltage=voltage, current=draw, power=draw * voltage)
    if load.kind == "resistance":
        return PartState(voltage=voltage, current=voltage / draw, power=voltage**2 / draw)
    return PartState(voltage=voltage, current=share * draw / voltage, power=share * draw)


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
