"""Checks of fuses: do they guard the conductor, carry the load, sit close, break the fault.

API: `check_fuses(tree, solution, ampacities)`, `check_faults(tree, ampacities)`; called by
`wiring.checks.check`.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace

from wiring.cable.conductor import Conductor
from wiring.cable.fuse import (
    CONTINUOUS_SHARE,
    FittedFuse,
    breaking_need_by_cca,
    opening_time,
    warm_rating,
)
from wiring.errors import OutOfRangeError, OutsideTableError
from wiring.findings import ABOVE, END, START, STOP, Finding
from wiring.network.faults import FarFault, Faults, cold_faults, cold_resistance, warm_faults
from wiring.network.parts import ONE_WAY
from wiring.network.short_circuit import ADIABATIC_TIME, withstand_energy
from wiring.network.states import Solved
from wiring.network.tree import Run, Tree
from wiring.protection.makers_fuses import makers_figure
from wiring.protection.protection import Protection, fuse_at
from wiring.sources import Source

HOTTEST_PVC = 105.0  # °C

NOTHING = 1e-6  # share of a fault that is no more than rounding

# Distances from the feed to the fuse, m: 7 in, 18 in and 72 in; 40 in under a sheath.
CLOSE, TRADE_HABIT, FAR, SHEATHED = 0.1778, 0.4572, 1.8288, 1.016


def check_fuses(
    tree: Tree, solved: Solved, ampacities: Mapping[str, float | None]
) -> Iterator[Finding]:
    """Findings on what each fuse guards, carries, and where it sits.

    Args:
        tree: the supply
        solved: the tree in every state
        ampacities: ampacity of the weakest conductor by run label, None if unknown [A]

    Returns:
        the findings

    Source: 33 CFR 183.455; ABYC E-11; fuse maker's application guide
    """
    protection = Protection(tree)
    batteries = {s.node for s in tree.sources if s.is_battery}
    for run in tree.runs:
        if run.contact is not None:
            continue  # no cable: its own checks
        limit = ampacities[run.id]
        yield from _unprotected(run, protection, limit)
        for node in (run.start, run.end):
            fitted = fuse_at(run, node)
            if fitted is None:
                continue
            inflow = protection.inflow(run, node)
            if inflow > (0 if limit is None else limit * ABOVE):
                yield from check_position(run, node, fitted, at_battery=node in batteries)
            state = solved.worst.runs.get(run.id)
            if state is not None:
                words = solved.run_states[run.id].words
                carried = _carries(run, node, fitted, abs(state.current), words)
                makers = makers_figure(tree, run) == fitted.fuse.rating
                # The maker's own figure goes before the 75 % of a guide.
                yield from (f for f in carried if not makers or f.severity == STOP)


def _end(run: Run, node: str) -> str:
    return START if node == run.start else END


def _unprotected(run: Run, protection: Protection, limit: float | None) -> Iterator[Finding]:
    """Each end by which a source can send more through the conductor than it may carry.

    A fuse of the run's own has to suit it even where a smaller one upstream guards it today.
    """
    entering = {node: protection.entering(run, node) for node in (run.start, run.end)}
    fused = any(0 < flow < math.inf for flow in entering.values())
    for node, most in entering.items():
        own = fuse_at(run, node)
        flow = most if own is None or most == 0 else own.fuse.rating
        if flow == math.inf:
            code = "second-source-unprotected" if fused else "unprotected-conductor"
            yield Finding(
                code=code,
                about=run.id,
                detail=(_end(run, node),),
                limit="fuse",
                source=(Source.FUSE_PLACE,),
            )
        elif limit is not None and flow > limit * ABOVE:
            yield Finding(
                code="fuse-above-conductor",
                about=run.id,
                detail=(_end(run, node),),
                value=flow,
                limit=limit,
                unit="A",
                source=(Source.FUSE_RATING,),
            )


def check_position(
    run: Run, node: str, fitted: FittedFuse, *, at_battery: bool
) -> Iterator[Finding]:
    """Findings on the length of cable ahead of a fuse that nothing else guards.

    Args:
        run: the run
        node: which of its end nodes the fuse sits at
        fitted: the fuse
        at_battery: whether that end is a battery

    Returns:
        the findings

    Source: 33 CFR 183.455(b): 7 in, 40 in sheathed; ABYC E-11: 72 in sheathed on a battery
    """
    distance, source = fitted.distance, Source.FUSE_PLACE
    # The rule's allowance, and a longer one that is a habit or holds on a battery only.
    rule, longest = (SHEATHED, SHEATHED) if fitted.sheathed else (CLOSE, TRADE_HABIT)
    if fitted.sheathed and at_battery:
        longest = FAR
    code, limit = "", rule
    if distance is None:
        code = "fuse-distance-unknown"
    elif run.length is not None and distance > run.length * ABOVE:
        code, limit = "fuse-beyond-run-end", run.length
    elif distance > longest * ABOVE:
        code, limit = "fuse-too-far", longest
    elif distance > rule * ABOVE and fitted.sheathed:
        code, source = "fuse-beyond-1016-mm", Source.FUSE_PLACE_AT_BATTERY
    elif distance > rule * ABOVE:
        code, source = "fuse-beyond-178-mm", Source.COMMON_PRACTICE
    if code:
        yield Finding(
            code=code,
            about=run.id,
            detail=(_end(run, node),),
            value=distance,
            limit=limit,
            unit="m",
            source=(source,),
        )


def _carries(
    run: Run, node: str, fitted: FittedFuse, current: float, state: tuple[str, ...]
) -> Iterator[Finding]:
    air = run.air if fitted.ambient is None else fitted.ambient
    warm = warm_rating(fitted.fuse, ambient=air)
    code = ""
    if current > warm * ABOVE:
        code, limit = "fuse-below-load", warm
    elif current > CONTINUOUS_SHARE * warm * ABOVE:
        code, limit = "fuse-load-above-75-percent", CONTINUOUS_SHARE * warm
    if code:
        yield Finding(
            code=code,
            about=run.id,
            detail=(_end(run, node),),
            value=current,
            limit=limit,
            unit="A",
            source=(Source.FUSE_GUIDE,),
            state=state,
        )


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
    protection = Protection(tree)
    least = [cold_faults(weakest) for weakest in _weakest(tree)]
    for run in tree.runs:
        for node in (run.start, run.end):
            fitted = fuse_at(run, node)
            if fitted is not None and protection.inflow(run, node) > 0:
                yield from _breaks(tree, run, node, fitted, warm)
        limit = ampacities[run.id]
        if limit is not None and not run.unknowns and run.contact is None:
            for node in (run.start, run.end):
                slow: dict[tuple[str, tuple[str, ...]], Finding] = {}
                for cold in least:
                    for finding in _opens(run, node, limit, protection, (cold, warm)):
                        slow.setdefault((finding.code, finding.detail), finding)
                yield from slow.values()


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
    need = warm.through_fuse(run, node)
    batteries = [s for s in tree.sources if s.cold_cranking is not None]
    if len(batteries) > 1:
        reached = tree.reach(node, without=run)
        batteries = [s for s in batteries if s.node in reached]
    cranking = sum(s.cold_cranking or 0.0 for s in batteries)
    if not cranking:
        return need, None
    main = any(s.node == node for s in batteries)
    try:
        return max(need, breaking_need_by_cca(cranking, main=main)), None
    except OutsideTableError:
        blind = any(s.short_circuit_current is None for s in batteries)
        return need, cranking if blind else None


def _breaks(tree: Tree, run: Run, node: str, fitted: FittedFuse, warm: Faults) -> Iterator[Finding]:
    """Breaking capacity against the larger of physics and the cold-cranking table."""
    need, beyond_table = breaking_need(tree, run, node, warm)
    if beyond_table is not None:
        yield Finding(
            code="fault-current-unknown",
            about=run.id,
            detail=(_end(run, node),),
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
            detail=(_end(run, node), *_banks(tree, run, node, capacity)),
            value=need,
            limit=capacity,
            unit="A",
            source=(Source.BREAKING,),
        )


def _banks(tree: Tree, run: Run, node: str, capacity: float | None) -> tuple[str, ...]:
    """The banks without which the fuse would break what a short drives."""
    banks = [s for s in tree.sources if s.kind == "capacitor"]
    if not banks:
        return ()
    bare = replace(tree, sources=tuple(s for s in tree.sources if s not in banks))
    if capacity is not None and breaking_need(bare, run, node, warm_faults(bare))[0] > capacity:
        return ()
    reached = tree.reach(node, without=run)
    return tuple(bank.id for bank in banks if bank.node in reached)


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
        detail = (_end(run, node),) if carrier is run else (_end(run, node), carrier.id)
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
