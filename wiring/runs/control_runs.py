"""Control runs that can burn: what feeds them, what guards them, what their thin cable carries."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from wiring.cable.ampacity import ambient_factor, ampacity, assumed, bundle_factor
from wiring.cable.conductor import Conductor
from wiring.cable.drop import DROP_LIMIT, NOMINAL_VOLTAGE, voltage_drop
from wiring.errors import InsulationTooColdError, OutsideTableError
from wiring.findings import ABOVE, Finding
from wiring.sources import Source

# Below 18 AWG no table of law goes. m² and A: thick-wall PVC by a UK guidance page, and the trade's
# 3 A for the thinnest (common practice, no source).
SMALL = ((0.65e-6, 5.75), (0.5e-6, 3.0))


@dataclass(frozen=True, kw_only=True)
class ControlRun:
    """A control run as far as it can burn; None means unknown.

    Attributes:
        id: what the run is known by; findings hand it back
        conductor: its core
        length: one way [m]
        air: temperature of the air around it [°C]
        bundled: current-carrying conductors lying together [-]
        on_supply: whether a battery, block or circuit of the car feeds it, and not the output of
            a device with a limit of its own
        guard: the most the fuses ahead of it and at its start let through, infinite for none [A]
        output_limit: most the device at its start gives [A]
        current: what flows in it [A]
    """

    id: str
    conductor: Conductor | None
    length: float | None
    air: float
    on_supply: bool | None
    bundled: int = 2
    guard: float = math.inf
    output_limit: float | None = None
    current: float | None = None


def control_ampacity(conductor: Conductor, *, ambient: float, bundled: int) -> float | None:
    """Current a thin core may carry for ever in its surroundings.

    Args:
        conductor: the core
        ambient: temperature of the air around it [°C]
        bundled: current-carrying conductors lying together, this one included [-]

    Returns:
        current; 0 if its insulation cannot stand the air, None below 0.5 mm² [A]

    Valid: unknown insulation counts as the coolest class of the table
    Source: 33 CFR 183.425, Table 5; below it thick-wall cable by a UK towing guidance page
        (0.65 mm²: 5.75 A), 3 A for 0.5 mm² by common practice, both taken as for air of 30 °C
    """
    core = assumed(conductor)
    assert core.insulation is not None
    try:
        return ampacity(core, ambient=ambient, bundled=bundled).current
    except InsulationTooColdError:
        return 0.0
    except OutsideTableError:
        pass
    try:
        heat = ambient_factor(insulation=core.insulation, ambient=ambient)
    except InsulationTooColdError:
        return 0.0
    for area, current in SMALL:
        if core.area * (1 + 1e-6) >= area:
            return current * heat * bundle_factor(bundled)
    return None


def check_control_run(run: ControlRun) -> Iterator[Finding]:
    """Findings on one control run: can it burn, does enough arrive.

    Args:
        run: the run

    Returns:
        the findings

    Valid: the way back counts as long and as thin as the way out
    Source: 33 CFR 183.455 and 183.425; see control_ampacity
    """
    if run.on_supply is None:
        yield Finding(code="control-feed-unknown", about=run.id, source=(Source.FUSE_PLACE,))
    if run.conductor is None:
        return
    carries = control_ampacity(run.conductor, ambient=run.air, bundled=run.bundled)
    if carries is None:
        yield Finding(
            code="control-cable-unrated",
            about=run.id,
            value=run.conductor.label,
            source=(Source.CONDUCTOR_TABLE, Source.SMALL_CABLE),
        )
        carries = 0.0
    elif run.current is not None and run.current > carries * ABOVE:
        yield _above("control-over-ampacity", run, run.current, carries)
    yield from _guarded(run, carries)
    if run.current is not None and run.length is not None:
        lost = voltage_drop(current=run.current, length=run.length, conductor=run.conductor)
        allowed = DROP_LIMIT * NOMINAL_VOLTAGE
        if lost > allowed * ABOVE:
            yield Finding(
                code="drop-over-limit",
                about=run.id,
                value=lost,
                limit=allowed,
                unit="V",
                source=(Source.THREE_PERCENT,),
            )


def _guarded(run: ControlRun, carries: float) -> Iterator[Finding]:
    if run.on_supply:
        if run.guard == math.inf:
            yield Finding(
                code="control-unprotected", about=run.id, limit="fuse", source=(Source.FUSE_PLACE,)
            )
        elif run.guard > carries * ABOVE:
            yield _above("control-fuse-above-cable", run, run.guard, carries)
        return
    limit = run.output_limit
    if limit is not None and min(limit, run.guard) > carries * ABOVE:
        yield _above("control-output-above-cable", run, limit, carries)


def _above(code: str, run: ControlRun, value: float, limit: float) -> Finding:
    sources = (Source.CONDUCTOR_TABLE, Source.SMALL_CABLE)
    return Finding(code=code, about=run.id, value=value, limit=limit, unit="A", source=sources)
