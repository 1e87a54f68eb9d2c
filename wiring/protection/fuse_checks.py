"""Checks of fuses: do they guard the conductor, carry the load, sit close.

API: `check_fuses(tree, solved, ampacities)`, `check_position(run, node, fitted, at_battery=)`.
"""

import math
from collections.abc import Iterator, Mapping

from wiring.cable.fuse import CONTINUOUS_SHARE, FittedFuse, warm_rating
from wiring.findings import ABOVE, STOP, Finding
from wiring.network.states import Solved
from wiring.network.tree import Run, Tree
from wiring.protection.makers_fuses import Asked
from wiring.protection.protection import Protection, end_of, fuse_at
from wiring.sources import Source

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
    protection, asked = Protection(tree), Asked(tree)
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
                makers = asked.figure(run) == fitted.fuse.rating
                # The maker's own figure goes before the 75 % of a guide.
                yield from (f for f in carried if not makers or f.severity == STOP)


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
                detail=(end_of(run, node),),
                limit="fuse",
                source=(Source.FUSE_PLACE,),
            )
        elif limit is not None and flow > limit * ABOVE:
            yield Finding(
                code="fuse-above-conductor",
                about=run.id,
                detail=(end_of(run, node),),
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
            detail=(end_of(run, node),),
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
            detail=(end_of(run, node),),
            value=current,
            limit=limit,
            unit="A",
            source=(Source.FUSE_GUIDE,),
            state=state,
        )
