"""Smallest cables and fuses of a catalogue that pass every check.

API: `choose(tree, Catalogue(conductors=, fuses=), keep=("P03",)) -> Choice`. `Choice.tree` is the
tree with the parts filled in, or None if nothing in the catalogue passes; `Choice.picks` says for
each run what was taken and which check bound it.
"""

from collections.abc import Collection
from dataclasses import replace

import numpy as np

from wiring.cable.ampacity import ampacity
from wiring.cable.conductor import HIGHEST_TEMPERATURE
from wiring.cable.drop import DROP_LIMIT, NOMINAL_VOLTAGE, CableReturn, ChassisReturn
from wiring.cable.fuse import FittedFuse, Fuse, usable_current
from wiring.errors import Id, TreeError, WiringError
from wiring.findings import ABOVE, LOOK, STOP, Finding
from wiring.names import Name
from wiring.network.drop_shares import spread
from wiring.network.faults import Faults, warm_faults
from wiring.network.solution import Solution
from wiring.network.states import Solved, solve_states
from wiring.network.tree import Run, Tree
from wiring.protection.checks import check
from wiring.protection.fault_checks import breaking_need
from wiring.protection.fuse_checks import CLOSE
from wiring.protection.makers_fuses import Asked
from wiring.protection.protection import Protection, fuse_at
from wiring.runs.choice import Catalogue, Choice, FuseAsked, Pick, Seats

_ROUNDS = 40
# Findings that a larger cable cures, of the run they are about or of those on the way to a load.
_CURED_BY_CABLE = frozenset(
    {
        "ampacity-exceeded",
        "fuse-above-conductor",
        "drop-over-limit",
        "insulation-damaged-first",
        "fuse-may-not-open",
        "fuse-opens-slowly",
        "voltage-below-load-minimum",
        "no-solution",
    }
)


def choose(
    tree: Tree,
    catalogue: Catalogue,
    *,
    keep: Collection[str] = (),
    seats: Seats | None = None,
    drop_limit: float = DROP_LIMIT,
) -> Choice:
    """Smallest cable and fuse for every run that pass all checks together in every state.

    Each run gets the least cable for which a fuse carries the load and guards the cable; a load's
    supply fuse is its maker's, a main holds the makers' fuses behind it, a bank's the note. Where
    voltage drop binds, the cable that saves most volts per metal added grows first, then what
    grew too far shrinks again. The result is checked as a whole, and grows until no stop is left.

    Args:
        tree: the supply with lengths, returns and loads; its cables and fuses are replaced
        catalogue: what to choose from
        keep: ids of runs whose cable and fuses a person has settled
        seats: where fuses are to sit, by id of the run and of the node at that end
        drop_limit: voltage that may be lost to any run or load, as a share of 12 V [-]

    Returns:
        the choice; its tree never has a stop

    Raises:
        TreeError: if a run to keep is not in the tree

    Valid: a new fuse is to sit at the block, or within 178 mm of a battery
    Source: the checks of wiring.checks
    """
    unknown = set(keep) - {run.id for run in tree.runs}
    if unknown:
        raise TreeError(Name.RUN_TO_KEEP, Id(min(unknown)), to_be="known-run")
    return _Chooser(tree, catalogue, frozenset(keep), drop_limit, seats or {}).choose()


class _Chooser:
    """One search: a size index for each free run."""

    def __init__(
        self,
        tree: Tree,
        catalogue: Catalogue,
        keep: frozenset[str],
        drop_limit: float,
        seats: Seats,
    ) -> None:
        keep |= {run.id for run in tree.runs if run.contact is not None}
        self.tree, self.drop_limit, self.seats = tree, drop_limit, seats
        self.sizes = sorted(catalogue.conductors, key=lambda c: (-c.resistance_20, c.area))
        self.fuses = sorted(catalogue.fuses, key=_fuse_order)
        self.as_drawn = {run.id: run for run in tree.runs}
        self.batteries = {node.id for node in tree.nodes if node.kind == "battery"}
        self.free = [r for r in tree.runs if r.id not in keep]
        bare = [
            replace(r, fuse_start=None, fuse_end=None) if r.id not in keep else r for r in tree.runs
        ]
        protection = Protection(replace(tree, runs=tuple(bare)))
        self.fed = {
            run.id: [n for n in (run.start, run.end) if protection.inflow(bare_run, n) > 0]
            for run, bare_run in zip(tree.runs, bare, strict=True)
        }
        self.index = {run.id: 0 for run in self.free}
        self.bound = {r.id: "smallest" if r.id in self.index else "kept" for r in tree.runs}
        self.carried: dict[tuple[str, int], float] = {}
        self.behind = Asked(tree)
        self.asked = {run.id: FuseAsked.of(self.behind, run) for run in self.free}

    def choose(self) -> Choice:
        """Grow from the least sizes until no stop is left, or nothing larger is left."""
        largest = self._with(dict.fromkeys(self.index, len(self.sizes) - 1))
        solved = solve_states(largest)
        if solved.worst.status == "solved":
            self._at_least(solved.worst)
            self._spread_drop(self._settle(solved))
        for _ in range(_ROUNDS):
            bare = self._with(self.index)
            solved = solve_states(bare)
            built = self._fused(bare, solved.worst)
            findings = check(built, solved, drop_limit=self.drop_limit)
            if not self._grow(solved, findings):
                break
        stopped = any(f.severity == STOP for f in findings)
        picks = tuple(self._pick(run) for run in built.runs)
        return Choice(tree=None if stopped else built, picks=picks, findings=findings)

    def _with(self, index: dict[str, int]) -> Tree:
        """The tree with cables of these sizes out and back."""
        runs = []
        for run in self.tree.runs:
            if run.id in index:
                size = self.sizes[index[run.id]]
                back = run.return_path
                led = isinstance(back, CableReturn) or (back is not None and back.conductor)
                if back is not None and led and not back.settled:
                    back = replace(back, conductor=size)
                clad = size.metal != "copper"
                run = replace(
                    run,
                    conductor=size,
                    return_path=back,
                    aluminium_terminals=run.aluminium_terminals if clad else None,
                )
            runs.append(run)
        return replace(self.tree, runs=tuple(runs))

    def _carries(self, run: Run, size: int) -> float:
        key = (run.id, size)
        if key not in self.carried:
            try:
                carries = ampacity(self.sizes[size], ambient=run.air, bundled=run.bundled).current
            except WiringError:
                carries = 0.0
            self.carried[key] = carries
        return self.carried[key]

    def _at_least(self, solution: Solution) -> None:
        """Least size for which some fuse carries the load and guards the cable."""
        for run in self.free:
            state = solution.runs.get(run.id)
            current = 0.0 if state is None else abs(state.current)
            suited = self._suited(run, current, solution)
            least = suited[0].rating if suited else float("inf")
            need = max(current, least if self.fed[run.id] else 0.0)
            while self.index[run.id] < len(self.sizes) - 1:
                if self._carries(run, self.index[run.id]) * ABOVE >= need:
                    break
                self.index[run.id] += 1
                self.bound[run.id] = (
                    "fuse-above-conductor" if need > current else "ampacity-exceeded"
                )

    def _settle(self, largest: Solved) -> Solved:
        """Least sizes again at the larger currents that smaller cables bring."""
        for _ in range(4):
            before = dict(self.index)
            solved = solve_states(self._with(self.index))
            if solved.worst.status != "solved":
                return largest
            self._at_least(solved.worst)
            if before == self.index:
                break
        return solved

    def _suited(self, run: Run, current: float, worst: Solution) -> list[Fuse]:
        """Fuses that carry a current and suit what the makers ask, the one to take first."""
        airs = [run.air]
        airs += [f.ambient for f in (run.fuse_start, run.fuse_end) if f and f.ambient is not None]
        carry = [f for f in self.fuses if usable_current(f, ambient=max(airs)) * ABOVE >= current]
        asked = self.asked[run.id]
        floor = max(asked.at_least, self.behind.note(run, worst))
        allowed = [f for f in carry if f.rating * ABOVE >= floor]
        if asked.at_most is None:
            return allowed
        # As near the maker's figure as there is one, never above it: it goes before the 75 %.
        below = [f for f in self.fuses if f.rating <= asked.at_most * ABOVE]
        return sorted(below, key=lambda f: -f.rating) or carry

    # -- voltage drop: currents held, sizes moved ------------------------------------------

    def _spread_drop(self, solved: Solved) -> None:
        """Share the allowed drop among the runs at the currents of everyday states."""
        current: dict[str, float] = {}
        drops: dict[str, list[float]] = {}
        for solution in solved.everyday.values():
            for label, state in solution.runs.items():
                current[label] = max(current.get(label, 0.0), abs(state.current))
                drops[label] = [max([state.drop, *drops.get(label, [])])]
        runs = {run.id: run for run in self.free if run.id in current}
        sizes = range(len(self.sizes))
        for label, run in runs.items():
            drops[label] = [self._drop(run, i, current[label]) for i in sizes]
        spent = spread(
            paths=self._paths(solved),
            drops=drops,
            metal={label: [self._metal(run, i) for i in sizes] for label, run in runs.items()},
            start={label: self.index[label] for label in runs},
            allowed=self.drop_limit * NOMINAL_VOLTAGE,
        )
        for label, size in spent.items():
            if size > self.index[label]:
                self.index[label], self.bound[label] = size, "drop-over-limit"

    def _drop(self, run: Run, size: int, current: float) -> float:
        conductor, carries = self.sizes[size], self._carries(run, size)
        if carries == 0 or conductor.insulation is None:
            return float("inf")
        hot = run.air + (conductor.insulation - run.air) * (current / carries) ** 2
        metres, fixed = _metres(run)
        per_metre = conductor.resistance(min(hot, HIGHEST_TEMPERATURE))
        return current * (metres * per_metre + fixed + run.joints)

    def _metal(self, run: Run, size: int) -> float:
        return self.sizes[size].area * _metres(run)[0]

    def _metal_of_next(self, name: str) -> float:
        """Metal that the next size adds to a run."""
        run, size = self.as_drawn[name], self.index[name]
        return self._metal(run, size + 1) - self._metal(run, size)

    def _paths(self, solved: Solved) -> list[tuple[str, ...]]:
        """Runs from every giving source down to every load, and every run by itself.

        Where a run may lose another share, its findings make it grow.
        """
        own = {run.id for run in self.tree.runs if run.drop_limit is not None}
        paths = [path for solution in solved.everyday.values() for path in self._paths_in(solution)]
        return [path for path in dict.fromkeys(paths) if path[-1] not in own]

    def _paths_in(self, solution: Solution) -> list[tuple[str, ...]]:
        volts = solution.voltages
        loaded = {load.node for load in self.tree.loads}
        paths: list[tuple[str, ...]] = [(r.id,) for r in self.tree.runs if r.id in solution.runs]
        for source in self.tree.sources:
            state = solution.sources.get(source.id)
            if state is None or state.current <= 0:
                continue
            way: dict[str, tuple[str, ...]] = {source.node: ()}
            frontier = [source.node]
            while frontier:
                here = frontier.pop()
                for run, other in self.tree.neighbours[here]:
                    if other not in way and volts.get(other, np.inf) <= volts[here]:
                        way[other] = (*way[here], run.id)
                        frontier.append(other)
            paths += [path for node, path in way.items() if path and node in loaded]
        return paths

    # -- fuses and the whole ---------------------------------------------------------------

    def _fused(self, bare: Tree, worst: Solution) -> Tree:
        """The tree with the smallest fuse that serves at every end a source reaches."""
        faults = warm_faults(bare)
        runs = []
        for run in bare.runs:
            if run.id in self.index:
                state = worst.runs.get(run.id)
                suited = self._suited(run, 0.0 if state is None else abs(state.current), worst)
                ends = {
                    node: self._fuse(bare, run, node, suited, faults) for node in self.fed[run.id]
                }
                run = replace(run, fuse_start=ends.get(run.start), fuse_end=ends.get(run.end))
            runs.append(run)
        return replace(bare, runs=tuple(runs))

    def _fuse(
        self, bare: Tree, run: Run, node: str, suited: list[Fuse], faults: Faults
    ) -> FittedFuse | None:
        need, _ = breaking_need(bare, run, node, faults)
        breaks = [f for f in suited if f.breaking_capacity and f.breaking_capacity * ABOVE >= need]
        unknown = [f for f in suited if f.breaking_capacity is None]
        best = (breaks or unknown or suited)[:1]
        if not best:
            return None
        seat = fuse_at(self.as_drawn[run.id], node)
        if seat is not None:
            return replace(seat, fuse=best[0])
        typed = self.seats.get((run.id, node))
        if typed is not None:
            return FittedFuse(fuse=best[0], distance=typed.distance, sheathed=typed.sheathed)
        return FittedFuse(fuse=best[0], distance=CLOSE if node in self.batteries else 0.0)

    def _grow(self, solved: Solved, findings: tuple[Finding, ...]) -> bool:
        """Enlarge what a finding names; false if nothing is named or nothing larger is left."""
        grown = False
        paths: list[tuple[str, ...]] | None = None
        for finding in findings:
            if finding.code not in _CURED_BY_CABLE or finding.severity not in (STOP, LOOK):
                continue
            if finding.about in self.index:
                wanted = [finding.about]
            elif finding.about in self.bound:
                continue
            else:
                paths = self._all_paths(solved) if paths is None else paths
                wanted = self._on_the_way(finding.about, paths)
            wanted = [p for p in wanted if self.index[p] < len(self.sizes) - 1]
            if wanted and not grown:
                best = min(wanted, key=self._metal_of_next)
                self.index[best] += 1
                self.bound[best] = finding.code
                grown = True
        return grown

    def _all_paths(self, solved: Solved) -> list[tuple[str, ...]]:
        if solved.worst.status != "solved":
            return [tuple(self.index)]
        return [path for solution in solved.everyday.values() for path in self._paths_in(solution)]

    def _on_the_way(self, load: str, paths: list[tuple[str, ...]]) -> list[str]:
        """Free runs on the way to a load, or all of them if the tree does not balance."""
        node = next((x.node for x in self.tree.loads if x.id == load), None)
        ends = {r.id: (r.start, r.end) for r in self.tree.runs}
        ways = [p for p in paths if node is None or node in ends[p[-1]]]
        return [p for p in dict.fromkeys(x for way in ways for x in way) if p in self.index]

    def _pick(self, run: Run) -> Pick:
        return Pick(
            run=run.id,
            conductor=run.conductor,
            fuse_start=run.fuse_start,
            fuse_end=run.fuse_end,
            bound=self.bound[run.id],
        )


def _fuse_order(fuse: Fuse) -> tuple[float, bool, float]:
    """Smallest rating first; of equals the one whose curve is known, then the lesser breaker."""
    return fuse.rating, not fuse.opening, fuse.breaking_capacity or 0.0


def _metres(run: Run) -> tuple[float, float]:
    """Metres of chosen cable out and back, and ohms that no cable changes."""
    metres, fixed = run.length or 0.0, 0.0
    back = run.return_path
    if back is not None and not back.settled:
        metres += back.length or 0.0
    if isinstance(back, ChassisReturn):
        fixed = back.resistance or 0.0
    return metres, fixed
