"""What panels are covered with: a rectangle for each, the metres of roll they take together."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from acoustics.carcass.panels.floor import cover_size
from acoustics.carcass.sheets.roll import Cut, Roll, lay_on_roll
from jobs.design.box.checks import SECTION
from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.wood.pieces import Piece
from jobs.models import Cover, TrimPanel


@dataclass(frozen=True, kw_only=True)
class CoverCut:
    """The rectangle of cover for one piece, as it lies on the panel."""

    label: str
    title: str
    size: tuple[float, float]
    # Its size across the roll and along it.
    across: float
    along: float
    turns: bool

    @property
    def on_roll(self) -> Cut:
        """The rectangle as the roll takes it."""
        return Cut(name=self.label, across=self.across, along=self.along, turns=self.turns)

    @property
    def least_across(self) -> float:
        """How wide the roll must be for it."""
        return min(self.across, self.along) if self.turns else self.across


@dataclass(frozen=True, kw_only=True)
class RollOrder:
    """One cover material of a job: its pieces, where each is cut, the metres to order."""

    cover: Cover
    cuts: tuple[CoverCut, ...]
    # None while nobody knows how wide the roll is.
    roll: Roll | None
    # Panels whose cover is wider than the roll.
    left_out: tuple[str, ...] = ()

    def takes(self, cuts: Sequence[CoverCut]) -> bool:
        """Whether any of these is cut from it."""
        return any(cut in self.cuts for cut in cuts)


def cover_of(panel: TrimPanel, pieces: Sequence[Piece]) -> tuple[CoverCut, ...]:
    """Return the cover of each piece of a panel that is covered: the board and its lids."""
    if panel.cover is None:
        return ()
    cuts = []
    for piece in pieces:
        width, height = piece.size
        size = cover_size(
            width=width,
            height=height,
            thickness=piece.thickness,
            turned=panel.turned,
            rounded=piece.round_over,
        )
        upright = panel.cover_runs == TrimPanel.CoverRuns.UP
        cuts.append(
            CoverCut(
                label=piece.label,
                title=piece.title,
                size=size,
                across=size[0] if upright else size[1],
                along=size[1] if upright else size[0],
                turns=not panel.cover.directed,
            )
        )
    return tuple(cuts)


def work_out_rolls(covered: Iterable[tuple[Cover, Sequence[CoverCut]]]) -> list[RollOrder]:
    """Lay all that is covered with one material on its roll together."""
    by_cover: dict[Cover, list[CoverCut]] = defaultdict(list)
    for cover, of_it in covered:
        by_cover[cover] += of_it
    orders = []
    for cover, cuts in by_cover.items():
        width = cover.roll_width
        roll, out = None, []
        if width is not None:
            out = [cut.label for cut in cuts if cut.least_across > width]
            roll = lay_on_roll([cut.on_roll for cut in cuts if cut.label not in out], width=width)
        orders.append(RollOrder(cover=cover, cuts=tuple(cuts), roll=roll, left_out=tuple(out)))
    return orders


def cover_findings(panel: TrimPanel, cuts: Sequence[CoverCut]) -> list[Finding]:
    """What is not known or not settled of a panel's cover."""
    cover = panel.cover
    if cover is None:
        return []
    width = cover.roll_width
    unsettled = {
        "cover-sample-open": not panel.sample.strip(),
        "cover-thickness-unknown": panel.finish is None and cover.thickness is None,
        "cover-roll-unknown": width is None,
    }
    findings = [
        Finding(
            code=code,
            severity="look",
            section=SECTION,
            about=about(panel),
            name=panel.name,
            value=str(cover),
        )
        for code, is_so in unsettled.items()
        if is_so
    ]
    if width is None:
        return findings
    return findings + [
        Finding(
            code="cover-wider-than-roll",
            severity="look",
            section=SECTION,
            about=about(panel).at(cut.label),
            name=f"{panel.name}, {cut.label}",
            value=cut.least_across,
            limit=width,
            unit="m",
        )
        for cut in cuts
        if cut.least_across > width
    ]
