"""What starting the engine does to cables, fuses and voltages: short, so judged by time.

API: `check_starting(tree, solved)`, `START_TIME`.
"""

import math
from collections.abc import Iterator

from wiring.cable.ampacity import assumed
from wiring.cable.conductor import Conductor
from wiring.cable.fuse import FittedFuse, opening_time
from wiring.errors import OutOfRangeError
from wiring.findings import END, START, Finding
from wiring.network.short_circuit import adiabatic_constant
from wiring.network.solution import RunState
from wiring.network.states import Condition, Solved
from wiring.network.tree import Run, Tree
from wiring.sources import Source

START_TIME = 10.0  # s, longest time at the cranking voltage in VW 80000:2013, E-11
HOLDS = 1.10  # of its rating a fuse carries for ever; ISO 8820, from memory


def check_starting(tree: Tree, solved: Solved) -> Iterator[Finding]:
    """Findings on the state in which the engine starts.

    I²·t ≤ k²·S² with k from the air's to the class temperature; a fuse within 110 % of its rating
    stays, one that opens within the time does not.

    Args:
        tree: the supply
        solved: the tree in every state

    Returns:
        the findings

    Valid: 10 s of cranking; beyond 5 s the adiabatic heat is on the high side, the safe one
    Source: VW 80000:2013, E-11 (10 s); IEC 60364-5-54:2011, Annex A; ISO 8820 (110 %, from memory)
    """
    least = {load.id: load.minimum_voltage for load in tree.loads}
    for state, solution in solved.solutions.items():
        if state.condition is not Condition.STARTING:
            continue
        for run in tree.runs:
            if run.id in solution.runs:
                yield from _of_run(run, solution.runs[run.id], state.words)
        for name, load in solution.loads.items():
            limit = least.get(name)
            if limit is not None and load.voltage < limit:
                yield Finding(
                    code="low-voltage-on-start",
                    about=name,
                    value=load.voltage,
                    limit=limit,
                    unit="V",
                    source=(Source.CRANKING,),
                    state=state.words,
                )


def _of_run(run: Run, now: RunState, words: tuple[str, ...]) -> Iterator[Finding]:
    current = abs(now.current)
    heat = current**2 * START_TIME
    stands = min((_stands(c, run.air) for c in run.conductors), default=math.inf)
    if heat > stands:
        yield Finding(
            code="start-overheats-run",
            about=run.id,
            value=current,
            limit=math.sqrt(stands / START_TIME),
            unit="A",
            source=(Source.ADIABATIC, Source.CRANKING),
            state=words,
        )
    for end, fitted in ((START, run.fuse_start), (END, run.fuse_end)):
        if fitted is not None and current > HOLDS * fitted.fuse.rating:
            yield _of_fuse(run, end, fitted, current, words)


def _of_fuse(
    run: Run, end: str, fitted: FittedFuse, current: float, words: tuple[str, ...]
) -> Finding:
    opens = opening_time(fitted.fuse, current) if fitted.fuse.opening else math.inf
    sure = opens <= START_TIME
    return Finding(
        code="fuse-opens-on-start" if sure else "fuse-may-open-on-start",
        about=run.id,
        detail=(end,),
        value=current,
        limit=HOLDS * fitted.fuse.rating,
        unit="A",
        source=(Source.FUSE_STANDARD, Source.CRANKING),
        state=words,
    )


def _stands(conductor: Conductor, air: float) -> float:
    """Let-through that warms a conductor from its air to its class temperature, A²·s."""
    final = assumed(conductor).insulation
    assert final is not None
    try:
        k = adiabatic_constant(metal=conductor.metal, start=air, final=final)
    except OutOfRangeError:
        return 0.0
    return (k * conductor.area) ** 2
