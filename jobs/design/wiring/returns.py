"""Whose minus passes which ground point, and what several of them share on the way on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from jobs.design.records.about import about
from jobs.design.records.records import JobRecords
from jobs.design.wiring.cables import core
from jobs.models import GroundPoint, PowerNode, Run
from wiring.network.shared import SharedReturn
from wiring.runs.returns import hot_resistance


@dataclass(frozen=True, kw_only=True)
class Meeting:
    """The power runs whose minus ends at one ground point."""

    point: GroundPoint
    runs: Sequence[Run]
    # The battery to whose minus ground points are measured: the one that starts the engine.
    main: PowerNode | None

    @property
    def trunks(self) -> list[Run]:
        """Runs that feed another of them: what they carry is what their branches carry.

        A second battery's run to the same block is none: it takes its share from here, or brings
        what charges that battery.
        """
        return [run for run in self._feeding if not self._is_of_another(run)]

    @property
    def counted(self) -> list[Run]:
        """Runs whose current comes together here, each once."""
        trunks = {run.pk for run in self.trunks}
        return [run for run in self.runs if run.pk not in trunks]

    @property
    def leaving(self) -> list[Run]:
        """Runs whose source takes its current back from here."""
        feeding = {run.pk for run in self._feeding}
        return [
            run
            for run in self.counted
            if self._is_of_another(run) and (self.point == run.return_start or run.pk in feeding)
        ]

    @property
    def shared(self) -> SharedReturn:
        """What passes here together, whichever way, without a resistance."""
        leaving = self.leaving
        arriving = [run for run in self.counted if run not in leaving]
        return SharedReturn(
            id=about(self.point).id,
            resistance=0.0,
            arriving=tuple(about(run).id for run in arriving),
            leaving=tuple(about(run).id for run in leaving),
        )

    @property
    def _feeding(self) -> list[Run]:
        starts = {run.start_id for run in self.runs if not _gives(run)} - {None}
        return [run for run in self.runs if run.end_id in starts]

    def _is_of_another(self, run: Run) -> bool:
        """Whether another source than the battery that starts the engine is at its start."""
        return _gives(run) and run.start != self.main


def meeting_at(point: GroundPoint, records: JobRecords, runs: Sequence[Run]) -> Meeting:
    """Gather the power runs whose minus ends at a point."""
    return Meeting(
        point=point,
        main=_main_battery(records),
        runs=[
            run
            for run in runs
            if run.kind == Run.Kind.POWER and point in (run.return_start, run.return_end)
        ],
    )


def passed(run: Run) -> list[GroundPoint]:
    """Ground points whose own way to the battery's minus the return of a run takes, each once."""
    chassis = run.return_kind == Run.Return.CHASSIS
    # A cable of its own ends at its start; from there it may go on through metal.
    ends = [run.return_start, run.return_end if chassis else None]
    return list(dict.fromkeys(point for point in ends if point is not None))


def lead_resistance(point: GroundPoint) -> float | None:
    """The one cable that leads on from a point, warm; None where none is entered in full."""
    if point.conductor is None or point.length is None:
        return None
    return hot_resistance(core(point.conductor), point.length)


def shared_returns(records: JobRecords, runs: Sequence[Run]) -> Iterator[SharedReturn]:
    """Ground points that several runs take on the way back, with what they lose there together."""
    for point in records.grounds:
        meeting = meeting_at(point, records, runs)
        known = lead_resistance(point) if point.resistance is None else point.resistance
        passing = {about(run).id for run in meeting.counted if point in passed(run)}
        # The return of a trunk is the way on, and carries what its branches do already.
        if known is None or len(passing) < 2 or meeting.trunks:
            continue
        way = meeting.shared
        yield replace(
            way,
            resistance=known,
            arriving=tuple(run for run in way.arriving if run in passing),
            leaving=tuple(run for run in way.leaving if run in passing),
        )


def _main_battery(records: JobRecords) -> PowerNode | None:
    """The battery to whose minus ground points are measured: the one that starts the engine."""
    batteries = [node for node in records.nodes if node.kind == PowerNode.Kind.BATTERY]
    return next((node for node in batteries if node.cca), next(iter(batteries), None))


def _gives(run: Run) -> bool:
    return run.start is not None and run.start.is_source
