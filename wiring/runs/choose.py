"""Smallest cables and fuses of a catalogue that pass every check.

API: `choose(tree, Catalogue(conductors=, fuses=), keep=("P03",)) -> Choice`. `Choice.tree` is the
tree with the parts filled in, or None if nothing in the catalogue passes; `Choice.picks` says for
each run what was taken and which check bound it.
"""

from collections.abc import Collection
from dataclasses import dataclass, replace

from wiring.cable.ampacity import ampacity
from wiring.cable.conductor import HIGHEST_TEMPERATURE, Conductor
from wiring.cable.drop import DROP_LIMIT, NOMINAL_VOLTAGE, CableReturn, ChassisReturn
from wiring.cable.fuse import FittedFuse, Fuse, usable_current
from wiring.errors import COUNT, Id, TreeError, UnknownDataError, WiringError
from wiring.findings import LOOK, STOP, Finding
from wiring.names import Name
from wiring.network.drop_shares import spread
from wiring.network.faults import Faults, warm_faults
from wiring.network.solve import Solution, solve
from wiring.network.tree import Run, Tree
from wiring.protection.checks import check
from wiring.protection.fuse_checks import ABOVE, CLOSE, breaking_need
from wiring.protection.protection import Protection, fuse_at

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


@dataclass(frozen=True, kw_only=True)
class Catalogue:
    """What the workshop has to choose from.

    Attributes:
        conductors: cable cores, each with its insulation class
        fuses: fuses and breakers

    Raises:
        WiringError: if there is no conductor or no fuse, or a class is unknown
    """

    conductors: tuple[Conductor, ...]
    fuses: tuple[Fuse, ...]

    def __post_init__(self) -> None:
        for name, parts in (
            (Name.CONDUCTORS_OFFERED, self.conductors),
            (Name.FUSES_OFFERED, self.fuses),
        ):
            if not parts:
                raise WiringError(name, 0, COUNT, at_least=1)
        for conductor in self.conductors:
            if conductor.insulation is None:
                raise UnknownDataError(Name.INSULATION_CLASS, about=conductor.label)


@dataclass(frozen=True, kw_only=True)
class Pick:
    """What was taken for one run.

    Attributes:
        run: id
        conductor: cable core, None if nothing fits
        fuse_start: fuse at the start, None if none is needed
        fuse_end: fuse at the end, None if none is needed
        bound: finding code that the next smaller cable would bring, "smallest" or "kept"
    """

    run: str
    conductor: Conductor | None
    fuse_start: FittedFuse | None
    fuse_end: FittedFuse | None
    bound: str


@dataclass(frozen=True, kw_only=True)
class Choice:
    """The outcome of choosing.

    Attributes:
        tree: the tree with parts filled in, None if a stop remains
        picks: what was taken for each run, in the order of the tree
        findings: what remains to be said about the tree, or what stood in the way
    """

    tree: Tree | None
    picks: tuple[Pick, ...]
    findings: tuple[Finding, ...]


def choose(
    tree: Tree,
    catalogue: Catalogue,
    *,
    keep: Collection[str] = (),
    drop_limit: float = DROP_LIMIT,
) -> Choice:
    """Smallest cable and fuse for every run that pass all checks together.

    Each run gets the least cable for which a fuse carries the load and guards the cable. Where
    voltage drop binds, the cable that saves most volts per metal added grows first, then what
    grew too far shrinks again. The result is checked as a whole, and grows until no stop is left.

    Args:
        tree: the supply with lengths, returns and loads; its cables and fuses are replaced
        catalogue: what to choose from
        keep: ids of runs whose cable and fuses a person has settled
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
    return _Chooser(tree, catalogue, frozenset(keep), drop_limit).choose()


class _Chooser:
    """One search: a size index for each free run."""

    def __init__(
        self, tree: Tree, catalogue: Catalogue, keep: frozenset[str], drop_limit: float
    ) -> None:
        self.tree, self.drop_limit = tree, drop_limit
        self.sizes = sorted(catalogue.conductors, key=lambda c: (-c.resistance_20, c.area))
        self.fuses = sorted(catalogue.fuses, key=_fuse_order)
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
        self.bound = {r.id: "smallest" if r in self.free else "kept" for r in tree.runs}
        self.carried: dict[tuple[str, int], float] = {}

    def choose(self) -> Choice:
        """Grow from the least sizes until no stop is left, or nothing larger is left."""
        largest = self._with(dict.fromkeys(self.index, len(self.sizes) - 1))
        solution = solve(largest)
        if solution.status == "solved":
            self._at_least(solution)
            solution = self._settle()
            self._spread_drop(solution)
        for _ in range(_ROUNDS):
            built = self._fused(self._with(self.index))
            findings = check(built, drop_limit=self.drop_limit)
            if not self._grow(built, findings):
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
                if isinstance(back, CableReturn):
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
                found = ampacity(self.sizes[size], ambient=run.air, bundled=run.bundled).current
            except WiringError:
                found = 0.0
            self.carried[key] = found
        return self.carried[key]

    def _at_least(self, solution: Solution) -> None:
        """Least size for which some fuse carries the load and guards the cable."""
        for run in self.free:
            state = solution.runs.get(run.id)
            current = 0.0 if state is None else abs(state.current)
            ratings = [f.rating for f in self.fuses if self._fits(run, f, current)]
            least = min(ratings, default=float("inf"))
            need = max(current, least if self.fed[run.id] else 0.0)
            while self.index[run.id] < len(self.sizes) - 1:
                if self._carries(run, self.index[run.id]) * ABOVE >= need:
                    break
                self.index[run.id] += 1
                self.bound[run.id] = (
                    "fuse-above-conductor" if need > current else "ampacity-exceeded"
                )

    def _settle(self) -> Solution:
        """Least sizes again at the larger currents that smaller cables bring."""
        for _ in range(4):
            before = dict(self.index)
            solution = solve(self._with(self.index))
            if solution.status != "solved":
                return solution
            self._at_least(solution)
            if before == self.index:
                break
        return solution

    def _fits(self, run: Run, fuse: Fuse, current: float) -> bool:
        airs = [run.air]
        airs += [f.ambient for f in (run.fuse_start, run.fuse_end) if f and f.ambient is not None]
        return usable_current(fuse.rating, ambient=max(airs)) * ABOVE >= current

    # -- voltage drop: currents held, sizes moved ------------------------------------------

    def _spread_drop(self, solution: Solution) -> None:
        """Share the allowed drop among the runs at the currents of a solution."""
        if solution.status != "solved":
            solution = solve(self._with(dict.fromkeys(self.index, len(self.sizes) - 1)))
        current = {label: abs(state.current) for label, state in solution.runs.items()}
        runs = {run.id: run for run in self.free if run.id in current}
        drops = {label: [state.drop] for label, state in solution.runs.items()}
        sizes = range(len(self.sizes))
        for label, run in runs.items():
            drops[label] = [self._drop(run, i, current[label]) for i in sizes]
        found = spread(
            paths=self._paths(solution),
            drops=drops,
            metal={label: [self._metal(run, i) for i in sizes] for label, run in runs.items()},
            start={label: self.index[label] for label in runs},
            allowed=self.drop_limit * NOMINAL_VOLTAGE,
        )
        for label, size in found.items():
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

    def _paths(self, solution: Solution) -> list[tuple[str, ...]]:
        """Runs from every giving source down to every load, and every run by itself."""
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
                    if other not in way and volts[other] <= volts[here]:
                        way[other] = (*way[here], run.id)
                        frontier.append(other)
            paths += [path for node, path in way.items() if path and node in loaded]
        return paths

    # -- fuses and the whole ---------------------------------------------------------------

    def _fused(self, bare: Tree) -> Tree:
        """The tree with the smallest fuse that serves at every end a source reaches."""
        solution, faults = solve(bare), warm_faults(bare)
        runs = []
        for run in bare.runs:
            if run.id in self.index:
                state = solution.runs.get(run.id)
                current = 0.0 if state is None else abs(state.current)
                ends = {
                    node: self._fuse(bare, run, node, current, faults) for node in self.fed[run.id]
                }
                run = replace(run, fuse_start=ends.get(run.start), fuse_end=ends.get(run.end))
            runs.append(run)
        return replace(bare, runs=tuple(runs))

    def _fuse(
        self, bare: Tree, run: Run, node: str, current: float, faults: Faults
    ) -> FittedFuse | None:
        need, _ = breaking_need(bare, run, node, faults)
        fits = [f for f in self.fuses if self._fits(run, f, current)]
        breaks = [f for f in fits if f.breaking_capacity and f.breaking_capacity * ABOVE >= need]
        unknown = [f for f in fits if f.breaking_capacity is None]
        best = (breaks or unknown or fits)[:1]
        if not best:
            return None
        seat = fuse_at(next(r for r in self.tree.runs if r.id == run.id), node)
        if seat is not None:
            return replace(seat, fuse=best[0])
        at_battery = any(n.id == node and n.kind == "battery" for n in bare.nodes)
        return FittedFuse(fuse=best[0], distance=CLOSE if at_battery else 0.0)

    def _grow(self, built: Tree, findings: tuple[Finding, ...]) -> bool:
        """Enlarge what a finding names; false if nothing is named or nothing larger is left."""
        grown = False
        paths: list[tuple[str, ...]] | None = None
        for found in findings:
            if found.code not in _CURED_BY_CABLE or found.severity not in (STOP, LOOK):
                continue
            if found.about in self.index:
                wanted = [found.about]
            elif found.about in self.bound:
                continue
            else:
                paths = self._paths_of(built) if paths is None else paths
                wanted = self._on_the_way(built, found.about, paths)
            wanted = [p for p in wanted if self.index[p] < len(self.sizes) - 1]
            if wanted and not grown:
                runs = {r.id: r for r in built.runs}
                best = min(
                    wanted,
                    key=lambda p: (
                        self._metal(runs[p], self.index[p] + 1)
                        - self._metal(runs[p], self.index[p])
                    ),
                )
                self.index[best] += 1
                self.bound[best] = found.code
                grown = True
        return grown

    def _paths_of(self, built: Tree) -> list[tuple[str, ...]]:
        solution = solve(built)
        return self._paths(solution) if solution.status == "solved" else [tuple(self.index)]

    def _on_the_way(self, built: Tree, load: str, paths: list[tuple[str, ...]]) -> list[str]:
        """Free runs on the way to a load, or all of them if the tree does not balance."""
        node = next((x.node for x in built.loads if x.id == load), None)
        ends = {r.id: (r.start, r.end) for r in built.runs}
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
    if isinstance(back, CableReturn):
        metres += back.length or 0.0
    elif isinstance(back, ChassisReturn):
        fixed = back.resistance or 0.0
    return metres, fixed
