"""Each panel with everything that is behind it: contents, runs that pass, steps, photos."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from jobs.design.records.records import JobRecords
from jobs.models import (
    DampingLayer,
    Fixing,
    GroundPoint,
    LoomJoin,
    Panel,
    PanelContent,
    PanelStep,
    Photo,
    Run,
    Stretch,
)


@dataclass(frozen=True, kw_only=True)
class PassingRun:
    """A run behind a panel, and how it lies there."""

    run: Run
    stretch: Stretch


@dataclass(frozen=True, kw_only=True)
class PanelResult:
    """One panel."""

    panel: Panel
    contents: Sequence[PanelContent]
    runs: Sequence[PassingRun]
    steps: Sequence[PanelStep]
    photos: Sequence[Photo]
    grounds: Sequence[GroundPoint]
    joins: Sequence[LoomJoin]
    fastenings: Sequence[Fixing]
    damping: Sequence[DampingLayer]

    @property
    def before_refit(self) -> list[PanelStep]:
        """What is done before it goes back on."""
        return [step for step in self.steps if step.phase != PanelStep.Phase.REFIT]

    @property
    def refit(self) -> list[PanelStep]:
        """What is done to put it back."""
        return [step for step in self.steps if step.phase == PanelStep.Phase.REFIT]

    @property
    def is_listed(self) -> bool:
        """Whether anything of ours, or of the factory's, is written down behind it."""
        panel = self.panel
        listed = (self.contents, self.runs, self.grounds, self.joins, self.damping)
        return any((*listed, panel.damping_note, panel.rattle_note))

    @property
    def listed(self) -> int:
        """How many things are written down behind it: what sits there and what passes."""
        return sum(map(len, (self.contents, self.runs, self.grounds, self.joins, self.damping)))

    @property
    def state(self) -> str:
        """What is known of it: "listed", "empty" on somebody's word, or "silent"."""
        if self.is_listed:
            return "listed"
        return "empty" if self.panel.empty_at else "silent"


@dataclass(frozen=True, kw_only=True)
class Spares:
    """Clips, screws or nuts of one kind to lay out before the panels come off."""

    name: str
    part_number: str
    # None where one of them breaks easily and nobody has said how many to have.
    pieces: int | None


def work_out_spares(fixings: Sequence[Fixing]) -> list[Spares]:
    """Add up what is to be laid out, by kind and part number."""
    kinds: dict[tuple[str, str], list[int | None]] = {}
    for row in fixings:
        if row.spares or (row.breaks and row.spares is None):
            kinds.setdefault((row.name, row.part_number), []).append(row.spares)
    return [
        Spares(
            name=name,
            part_number=part_number,
            pieces=None if None in pieces else sum(n for n in pieces if n),
        )
        for (name, part_number), pieces in kinds.items()
    ]


def work_out_panels(records: JobRecords) -> list[PanelResult]:
    """Gather what is behind each panel; a run's route fills its panels by itself."""
    return [
        PanelResult(
            panel=panel,
            contents=[placed for placed in records.contents if placed.panel_id == panel.pk],
            runs=[
                PassingRun(run=run, stretch=stretch)
                for run in records.runs
                for stretch in run.route
                if stretch.panel_id == panel.pk
            ],
            steps=[step for step in records.steps if step.panel_id == panel.pk],
            photos=[photo for photo in records.photos if photo.panel_id == panel.pk],
            grounds=[point for point in records.grounds if point.panel_id == panel.pk],
            joins=[join for join in records.joins if join.panel_id == panel.pk],
            fastenings=[row for row in records.fixings if row.panel_id == panel.pk],
            damping=[row for row in records.damping if row.panel_id == panel.pk],
        )
        for panel in records.panels
    ]
