"""Panels bent over saw kerfs: the bend of a record, and its kerfs as they lie on the piece."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely.geometry import LineString, MultiLineString, box

from acoustics.carcass.panels.kerf_bend import KerfBend
from acoustics.carcass.shape.errors import CarcassError, metres
from acoustics.carcass.shape.outline import Figure, Loop
from acoustics.findings import Finding as CalculatorFinding
from jobs.design.box.checks import SECTION
from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt
from jobs.design.wood.on_piece import Kerf
from jobs.design.wood.outlines import need
from jobs.design.wording.names import Needed
from jobs.models import TrimPanel

TOUCH = 1e-6


@dataclass(frozen=True, kw_only=True)
class Bent:
    """A bend and where it begins on the flat panel."""

    bend: KerfBend
    start: float

    @property
    def end(self) -> float:
        """Where it ends on the flat panel."""
        return self.start + self.bend.length


def bent_of(panel: TrimPanel, thickness: float, width: float, by: float) -> Bent | None:
    """Return the bend of a panel moved by so much; None of a flat one."""
    if panel.kind != TrimPanel.Kind.TRIM or not panel.bend_radius:
        return None
    bend = KerfBend(
        thickness=thickness,
        skin=need(panel.bend_skin, Needed.BEND_SKIN),
        blade=need(panel.bend_blade, Needed.BEND_BLADE),
        radius=panel.bend_radius,
        angle=need(panel.bend_angle, Needed.BEND_ANGLE),
    )
    bent = Bent(bend=bend, start=need(panel.bend_at, Needed.BEND_AT) + by)
    if bent.start < -TOUCH or bent.end > width + TOUCH:
        raise CarcassError(
            code="bend-off-panel",
            start=metres(bent.start),
            end=metres(bent.end),
            width=metres(width),
        )
    return bent


def kerfs_of(bent: Bent | None, outline: Loop) -> tuple[Kerf, ...]:
    """Return the kerfs of a bend from edge to edge of its panel."""
    if bent is None:
        return ()
    wood, bend = outline.polygon, bent.bend
    _left, low, _right, high = wood.bounds
    kerfs = []
    for u in bend.places(bent.start):
        cut = wood.intersection(LineString([(u, low), (u, high)]))
        # Where the outline is hollow a saw runs on over the gap.
        ends = cut.bounds if isinstance(cut, LineString | MultiLineString) else ()
        if ends:
            start, end = (float(u), float(ends[1])), (float(u), float(ends[3]))
            kerfs.append(Kerf(start=start, end=end, depth=bend.depth, width=bend.blade))
    return tuple(kerfs)


def bend_findings(
    panel: TrimPanel, bent: Bent | None, outline: Loop, openings: Sequence[Figure]
) -> list[Finding]:
    """Find openings that lie where the board is bent."""
    if bent is None:
        return []
    _left, low, _right, high = outline.polygon.bounds
    bend = box(bent.start, low, bent.end, high)
    if not any(bend.intersects(opening.polygon) for opening in openings):
        return []
    torn = [CalculatorFinding(code="opening-in-bend")]
    return adopt(torn, section=SECTION, about=about(panel), name=panel.name)
