"""What earlier cars of a model taught: how panels came off, where cables went, what room there is.

Each with the job it comes from and who wrote it. Nothing is taken over by itself: a cable of
another car is a proposal, and a cavity is measured once more before wood is cut.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from jobs.design.job.earlier.panel_sets import broken_clips, earlier_jobs
from jobs.design.job.panels import PanelResult, work_out_panels
from jobs.design.records.as_built import route_said
from jobs.design.records.records import JobRecords, load
from jobs.models import Box, Fixing, Job, Panel, Photo, Run, Stretch

CAVITY = ("cavity_profile", "cavity_width", "cavity_gap", "cavity_obstacles")


@dataclass(frozen=True, kw_only=True)
class TaughtPanel:
    """A panel of an earlier car: how it came off, what held it, what it looks like behind it."""

    result: PanelResult
    fixings: Sequence[tuple[Fixing, int]]  # and how many of it broke there
    photos: Sequence[Photo]
    who: str
    here: Panel | None  # the panel of that name of this job


@dataclass(frozen=True, kw_only=True)
class TaughtRoute:
    """Where a cable of an earlier car went, as it was built."""

    run: Run
    says: str
    who: str
    fits: Sequence[Run]  # cables of this job of that kind that have no route yet


@dataclass(frozen=True, kw_only=True)
class TaughtCavity:
    """The room an earlier car had for a box, as somebody measured it."""

    box: Box
    corners: int
    obstacles: Sequence[str]
    who: str
    fits: Sequence[Box]  # boxes of this job whose cavity nobody has measured


@dataclass(frozen=True, kw_only=True)
class Lesson:
    """What one earlier car taught."""

    job: Job
    panels: Sequence[TaughtPanel]
    routes: Sequence[TaughtRoute]
    cavities: Sequence[TaughtCavity]


def lessons(records: JobRecords) -> list[Lesson]:
    """What each earlier car of the model taught for this job, the newest first."""
    return [_lesson(records, load(earlier)) for earlier in earlier_jobs(records.job)]


def _lesson(records: JobRecords, earlier: JobRecords) -> Lesson:
    here = {panel.name.casefold(): panel for panel in records.panels}
    broken = broken_clips(earlier.job)
    results = work_out_panels(earlier)
    routed = [run for run in earlier.runs if run.route]
    boxes = [box for box in earlier.boxes if box.cavity_profile]
    hands = _hands(earlier.job, [*earlier.panels, *routed, *boxes])
    bare = [run for run in records.runs if not run.route]
    return Lesson(
        job=earlier.job,
        panels=[
            TaughtPanel(
                result=result,
                fixings=[(row, broken.get(row.pk, 0)) for row in result.fastenings],
                photos=[photo for photo in result.photos if not photo.shows_person],
                who=hands[result.panel],
                here=here.get(result.panel.name.casefold()),
            )
            for result in results
        ],
        routes=[
            TaughtRoute(
                run=run,
                says=route_said(run.route),
                who=run.as_built.done_by.full_name if run.as_built else hands[run],
                fits=[other for other in bare if other.kind == run.kind],
            )
            for run in routed
        ],
        cavities=[
            TaughtCavity(
                box=box,
                corners=len(box.cavity_profile),
                obstacles=[str(row["name"]) for row in box.cavity_obstacles or ()],
                who=hands[box],
                fits=[other for other in records.boxes if not other.cavity_profile],
            )
            for box in boxes
        ],
    )


def _hands(job: Job, rows: Iterable[Any]) -> Mapping[Any, str]:
    """Who wrote each row last; where no history says so, whose job it was."""
    mine = job.consultant.full_name if job.consultant else "–"
    names: dict[Any, str] = {}
    for model in (Panel, Run, Box):
        entries = model.history.filter(job=job).select_related("history_user")
        last = {entry.id: entry.history_user for entry in entries.order_by("history_id")}
        for row in rows:
            if isinstance(row, model):
                by = last.get(row.pk)
                names[row] = by.full_name if by else mine
    return names


def lay_like(run: Run, earlier: Run) -> None:
    """Lay a cable that has no route where one of an earlier car went, as that was built."""
    here = {panel.name.casefold(): panel for panel in run.job.panels.all()}
    passed = [stretch.panel for stretch in earlier.route if stretch.panel]
    lay(run, earlier.route, {panel: here.get(panel.name.casefold()) for panel in passed})
    run.version += 1
    run.save()


def lay(run: Run, route: Iterable[Stretch], panels: Mapping[Any, Any]) -> None:
    """Lay a run through these panels of its own job, after a route; no edge is guarded yet."""
    Edge = Stretch.Edge
    for position, stretch in enumerate(route, start=1):
        panel = panels.get(stretch.panel) if stretch.panel else None
        place = stretch.place or (str(stretch.panel) if stretch.panel and not panel else "")
        Stretch.objects.create(
            run=run,
            panel=panel,
            place=place,
            position=position,
            follows_loom=stretch.follows_loom,
            edge=Edge.BARE if stretch.edge == Edge.GROMMET else stretch.edge,
            note=stretch.note,
        )


def measure_like(box: Box, earlier: Box) -> None:
    """Give a box without a cavity the one that was measured in an earlier car."""
    for name in CAVITY:
        setattr(box, name, getattr(earlier, name))
    box.version += 1
    box.save()
