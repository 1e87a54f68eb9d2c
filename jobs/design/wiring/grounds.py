"""Ground points worked out: what meets there, how bare, how many, how much together."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt
from jobs.design.records.records import JobRecords
from jobs.design.wiring.cables import core
from jobs.design.wiring.power import SECTION, PowerResult
from jobs.design.wiring.returns import Meeting, meeting_at
from jobs.design.wiring.schedule import together as said_together
from jobs.models import GroundPoint, PowerNode, Run
from wiring.network.shared import together
from wiring.network.states import PASSING
from wiring.runs.returns import Ground, Return, check_grounds

# What source and amplifiers of sound hang on.
HEARD = (PowerNode.Kind.AMPLIFIER, PowerNode.Kind.LOAD)


@dataclass(frozen=True, kw_only=True)
class GroundResult:
    """One ground point with the runs whose minus meets there."""

    point: GroundPoint
    runs: tuple[Run, ...]
    current: float
    # What they lose there together at the most, where several share the way on.
    lost: float | None = None


def work_out_grounds(records: JobRecords, power: PowerResult) -> list[GroundResult]:
    """Gather what meets at each ground point."""
    shared = {way.id: way.resistance for way in power.tree.shared} if power.tree else {}
    return [
        GroundResult(
            point=point,
            runs=tuple(meeting.runs),
            current=current,
            lost=shared[key] * current if key in shared else None,
        )
        for point in records.grounds
        for meeting in [meeting_at(point, records, records.runs)]
        for key, current in [(about(point).id, _together(meeting, power))]
    ]


def _returns(meeting: Meeting, power: PowerResult) -> Iterator[Return]:
    """A body stud takes the lead of the part; other points the cable that comes back to them."""
    worst = power.worst.runs if power.worst else {}
    counted = {run.pk for run in meeting.counted}
    for run in meeting.runs:
        key = about(run).id
        known = key in worst and run.pk in counted
        heard = run.end is not None and run.end.kind in HEARD
        yield Return(run=key, current=abs(worst[key].current) if known else None, audio=heard)


def _together(meeting: Meeting, power: PowerResult) -> float:
    """The most that comes together there in any state that lasts."""
    if power.solved is None:
        return 0.0
    shared = {way.id: way for way in power.tree.shared} if power.tree else {}
    way = shared.get(about(meeting.point).id, meeting.shared)
    return max(
        (
            abs(together(way, {key: run.current for key, run in solution.runs.items()}))
            for state, solution in power.solved.solutions.items()
            if state.condition not in PASSING
        ),
        default=0.0,
    )


def check_returns(records: JobRecords, power: PowerResult) -> list[Finding]:
    """What the checks say of ground points and of runs whose minus ends nowhere."""
    points = {about(point).id: point for point in records.grounds}
    grounds = [
        Ground(
            id=key,
            kind=point.kind,
            bare=None if not point.surface else point.surface == GroundPoint.Surface.BARE,
            resistance=point.resistance,
            conductor=core(point.conductor) if point.conductor else None,
            length=point.length,
            returns=tuple(_returns(meeting, power)),
            together=_together(meeting, power) if power.solved else None,
        )
        for key, point in points.items()
        for meeting in [meeting_at(point, records, records.runs)]
    ]
    findings = []
    for finding in check_grounds(grounds, commanded=records.job.vehicle.smart_charging):
        also = [points[key] for key in finding.detail if key in points]
        name = ", ".join(str(point) for point in (points[finding.about], *also))
        findings += adopt([finding], section=SECTION, about=about(points[finding.about]), name=name)
    loose = [
        Finding(
            code="return-end-unknown",
            severity="look",
            section=SECTION,
            about=about(run),
            name=run.label,
        )
        for run in records.runs
        if run.kind == Run.Kind.POWER and run.return_kind and run.number and _is_loose(run)
    ]
    return [*findings, *said_together(records.job, loose)]


def _is_loose(run: Run) -> bool:
    return run.return_start is None and run.return_end is None
