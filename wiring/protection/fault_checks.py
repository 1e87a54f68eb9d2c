"""Short circuits: does each fuse break the largest, and open soon enough on the least.

API: `check_faults(tree, ampacities)`, `check_breaking(tree, runs)`,
`breaking_need(tree, run, node, warm)`.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cached_property

from wiring.cable.conductor import Conductor
from wiring.cable.fuse import FittedFuse, breaking_need_by_cca, opening_time
from wiring.errors import OutOfRangeError, OutsideTableError
from wiring.findings import ABOVE, Finding
from wiring.network.faults import FarFault, Faults, cold_faults, cold_resistance, warm_faults
from wiring.network.parts import ONE_WAY
from wiring.network.short_circuit import ADIABATIC_TIME, withstand_energy
from wiring.network.tree import Run, Tree
from wiring.protection.protection import Protection, end_of, fuse_at
from wiring.sources import Source

HOTTEST_PVC = 105.0  # °C
NOTHING = 1e-6  # share of a fault that is no more than rounding


def check_faults(tree: Tree, ampacities: Mapping[str, float | None]) -> Iterator[Finding]:
    """Findings on short circuits: fuse breaks the largest, opens soon enough on the least.

    Args:
        tree: the supply
        ampacities: ampacity of the weakest conductor by run label, None if unknown [A]

    Returns:
        the findings

    Source: IEC 60364-4-43:2008, 434; ABYC E-11, Table V-A
    """
    warm = warm_faults(tree)
    yield from _unknown_sources(tree)
    protection, banks = Protection(tree), _Banks(tree)
    least = [cold_faults(weakest) for weakest in _weakest(tree)]
    for run in tree.runs:
        yield from _breaks(tree, run, (protection, warm, banks))
        limit = ampacities[run.id]
        if limit is not None and not run.unknowns and run.contact is None:
            for node in (run.start, run.end):
                slow: dict[tuple[str, tuple[str, ...]], Finding] = {}
                for cold in least:
                    for finding in _opens(run, node, limit, protection, (cold, warm)):
                        slow.setdefault((finding.code, finding.detail), finding)
                yield from slow.values()


def check_breaking(tree: Tree, runs: Sequence[Run]) -> Iterator[Finding]:
    """Findings on whether the fuses of some runs break the largest short there.

    Args:
        tree: the supply
        runs: the runs, all of the tree

    Returns:
        the findings

    Source: IEC 60364-4-43:2008, 434; ABYC E-11, Table V-A
    """
    known = Protection(tree), warm_faults(tree), _Banks(tree)
    for run in runs:
        yield from _breaks(tree, run, known)


def _weakest(tree: Tree) -> list[Tree]:
    """The tree with each of its batteries away, then whole: a short draws least from the few."""
    batteries = [s for s in tree.sources if cold_resistance(s) is not None]
    if len(batteries) < 2:
        return [tree]
    away = [
        replace(tree, sources=tuple(s for s in tree.sources if s is not battery))
        for battery in batteries
    ]
    return [*away, tree]


def _unknown_sources(tree: Tree) -> Iterator[Finding]:
    for source in tree.sources:
        if source.kind in ONE_WAY:
            continue
        if source.resistance is None and source.short_circuit_current is None:
            yield Finding(code="fault-current-unknown", about=source.id, source=(Source.BREAKING,))
        if source.kind != "capacitor" and cold_resistance(source) is None:
            yield Finding(
                code="cold-resistance-unknown", about=source.id, source=(Source.ADIABATIC,)
            )


def breaking_need(tree: Tree, run: Run, node: str, warm: Faults) -> tuple[float, float | None]:
    """Breaking capacity a fuse needs at one end of a run.

    I_cn ≥ max(E / (R_warm + R_out), table by cold-cranking current of all batteries that feed it)

    Args:
        tree: the supply
        run: the run the fuse sits on
        node: which of its end nodes
        warm: the largest fault currents of the tree

    Returns:
        least breaking capacity [A]; the cold-cranking current if it is beyond the table and a
        maker's short-circuit figure is missing, else None [A]

    Source: Ohm's law; ABYC E-11, Table V-A
    """
    need, cranking = warm.through_fuse(run, node), warm.cranking(run, node)
    if not cranking:
        return need, None
    batteries = [s for s in tree.sources if s.cold_cranking is not None]
    main = any(s.node == node for s in batteries)
    try:
        return max(need, breaking_need_by_cca(cranking, main=main)), None
    except OutsideTableError:
        reached = tree.reach(node, without=run)
        feeding = [s for s in batteries if s.node in reached]
        blind = any(s.short_circuit_current is None for s in feeding)
        return need, cranking if blind else None


class _Banks:
    """Capacitor banks, and the tree as it would be without them."""

    def __init__(self, tree: Tree) -> None:
        self._tree = tree
        self._all = [s for s in tree.sources if s.kind == "capacitor"]

    @cached_property
    def _without(self) -> tuple[Tree, Faults]:
        rest = tuple(s for s in self._tree.sources if s not in self._all)
        bare = replace(self._tree, sources=rest)
        return bare, warm_faults(bare)

    def causing(self, run: Run, node: str, capacity: float | None) -> tuple[str, ...]:
        """The banks without which the fuse would break what a short drives."""
        if not self._all:
            return ()
        bare, warm = self._without
        if capacity is not None and breaking_need(bare, run, node, warm)[0] > capacity:
            return ()
        reached = self._tree.reach(node, without=run)
        return tuple(bank.id for bank in self._all if bank.node in reached)


def _breaks(tree: Tree, run: Run, known: tuple[Protection, Faults, _Banks]) -> Iterator[Finding]:
    """Breaking capacity of each fuse of a run that a source reaches."""
    protection, warm, banks = known
    for node in (run.start, run.end):
        fitted = fuse_at(run, node)
        if fitted is not None and protection.inflow(run, node) > 0:
            needed = breaking_need(tree, run, node, warm)
            yield from _enough(run, node, fitted, needed, banks)


def _enough(
    run: Run,
    node: str,
    fitted: FittedFuse,
    needed: tuple[float, float | None],
    banks: _Banks,
) -> Iterator[Finding]:
    """Breaking capacity against the larger of physics and the cold-cranking table."""
    need, beyond_table = needed
    if beyond_table is not None:
        yield Finding(
            code="fault-current-unknown",
            about=run.id,
            detail=(end_of(run, node),),
            value=beyond_table,
            limit=2200.0,
            unit="A",
            source=(Source.BREAKING,),
        )
    capacity = fitted.fuse.breaking_capacity
    if capacity is None or need > capacity * ABOVE:
        code = "breaking-capacity-unknown" if capacity is None else "breaking-capacity-low"
        yield Finding(
            code=code,
            about=run.id,
            detail=(end_of(run, node), *banks.causing(run, node, capacity)),
            value=need,
            limit=capacity,
            unit="A",
            source=(Source.BREAKING,),
        )


def _opens(
    run: Run, node: str, ampacity: float, protection: Protection, faults: tuple[Faults, Faults]
) -> Iterator[Finding]:
    """Short at the far end of a run: its guards open before the insulation is damaged."""
    cold, warm = (f.far_end(run, node) for f in faults)
    guards = protection.guards(run, node)
    if cold is None or warm is None or not guards or warm.current <= ampacity:
        return
    if cold.current <= ampacity:  # the cable stands that for ever
        cold, faults = warm, (faults[1], faults[1])
    energy = min(_energy(conductor) for conductor in run.conductors)
    for carrier, fitted in guards:
        least = _share(carrier, run, cold, faults[0])
        if least < NOTHING * cold.current:
            continue  # only what gives nothing lasting is behind it, such as a bank
        most = max(least, _share(carrier, run, warm, faults[1]))
        detail = (end_of(run, node),) if carrier is run else (end_of(run, node), carrier.id)
        slow = _opens_in_time(fitted, (least, cold.current), (most, warm.current), energy)
        yield from (replace(finding, about=run.id, detail=detail) for finding in slow)


def _energy(conductor: Conductor) -> float:
    """Energy its insulation survives; an unknown class counts as hot PVC, no margin as none."""
    if conductor.insulation is None:
        conductor = replace(conductor, insulation=HOTTEST_PVC)
    try:
        return withstand_energy(conductor)
    except OutOfRangeError:
        return 0.0


def _share(carrier: Run, run: Run, fault: FarFault, faults: Faults) -> float:
    """Fault current through the run a guard sits on."""
    if carrier is run:
        return fault.current
    return faults.through_run(carrier, fault)


def _opens_in_time(
    fitted: FittedFuse,
    least: tuple[float, float],
    most: tuple[float, float],
    energy: float,
) -> Iterator[Finding]:
    """Hold the fuse's curve against the conductor between the least and the largest fault.

    Along a straight piece of the curve I²t is monotone, so its ends and the points between
    suffice.
    """
    fuse = fitted.fuse
    if not fuse.opening:
        yield Finding(code="fuse-curve-unknown", source=(Source.ADIABATIC,))
        return
    first = fuse.opening[0][0] * fuse.rating
    if least[0] < first:
        yield Finding(
            code="fuse-may-not-open",
            value=least[0],
            limit=first,
            unit="A",
            source=(Source.ADIABATIC,),
        )
        return
    slowest = opening_time(fuse, least[0])
    if slowest > ADIABATIC_TIME:
        yield Finding(
            code="fuse-opens-slowly",
            value=slowest,
            limit=ADIABATIC_TIME,
            unit="s",
            source=(Source.ADIABATIC,),
        )
    knots = [m * fuse.rating for m, _ in fuse.opening]
    currents = [least[0], *(i for i in knots if least[0] < i < most[0]), most[0]]
    through = max(least[1] / least[0], most[1] / most[0])
    times = [(i, opening_time(fuse, i)) for i in currents]
    worst = max(((i * through) ** 2 * t for i, t in times if t <= ADIABATIC_TIME), default=0.0)
    if worst > energy * ABOVE:
        yield Finding(
            code="insulation-damaged-first",
            value=worst,
            limit=energy,
            unit="A²·s",
            source=(Source.ADIABATIC,),
        )
