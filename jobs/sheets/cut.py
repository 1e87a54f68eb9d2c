"""The cut sheet: what the wood shop follows, from the list to the last screw."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from django.utils.safestring import SafeString

from jobs.design.job.whole import JobDesign
from jobs.design.wood.cutting import BoxPieces, SheetPlan, work_out_cutting
from jobs.design.wood.marking import Mark, Tube, marks_of, tubes_of
from jobs.design.wood.pieces import Piece
from jobs.design.wood.trim import TrimResult, rolls_of
from jobs.drawings.wood import wood_pictures

WOOD = "boxes"  # the page where wood is cured


@dataclass(frozen=True, kw_only=True)
class MarkedOut:
    """A piece that its size alone does not say: its drawing, and every mark on it."""

    piece: Piece
    drawing: SafeString
    marks: list[Mark]


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """Something to make, with its drawings."""

    subject: BoxPieces | TrimResult | SheetPlan
    drawings: list[tuple[str, SafeString]]
    marked: list[MarkedOut] = field(default_factory=list)
    tubes: list[Tube] = field(default_factory=list)

    @property
    def has_seats(self) -> bool:
        """Whether a part stands on another."""
        return any(marked.piece.seats for marked in self.marked)


def context(design: JobDesign) -> dict[str, Any]:
    """Gather the boxes with their views, rings and trim panels, and the sheets they come from."""
    cutting = work_out_cutting(design.records, design.boxes, design.trims)
    shop = design.records.workshop
    return {
        "cut_boxes": [
            Drawn(
                subject=box,
                drawings=_box_drawings(box, number),
                marked=_marked(box.pieces),
                tubes=tubes_of(box.result.wood.carcass, box.pieces) if box.result.wood else [],
            )
            for number, box in enumerate(cutting.boxes)
        ],
        "trims": [
            Drawn(subject=trim, drawings=[], marked=_marked(trim.pieces))
            for trim in cutting.trims
            if trim.piece
        ],
        "plans": [
            Drawn(
                subject=plan,
                drawings=[
                    ("", drawing)
                    for drawing in wood_pictures.nested(plan, f"nest-{number}", shop.sheet_trim)
                ],
            )
            for number, plan in enumerate(cutting.plans)
        ],
        "rolls": [
            (order, wood_pictures.on_roll(order, f"roll-{number}"))
            for number, order in enumerate(rolls_of(cutting.trims))
        ],
        "shop": shop,
        # Every stop stands on every sheet; what else is open, only where wood can cure it.
        "open": [
            *design.open_stops,
            *(finding for finding in design.open_looks if finding.section == WOOD),
        ],
        "decided": [
            finding for finding in design.findings if finding.decision and finding.section == WOOD
        ],
    }


def _box_drawings(box: BoxPieces, number: int) -> list[tuple[str, SafeString]]:
    # The closed box says nothing that the one drawn apart does not; the panel with the driver is
    # drawn among the parts, where its places count from its own corner.
    return [
        ("", wood_pictures.apart(box, f"apart-{number}")),
        wood_pictures.section(box.result, f"cut-{number}"),
    ]


def _marked(pieces: Iterable[Piece]) -> list[MarkedOut]:
    return [
        MarkedOut(
            piece=piece,
            drawing=wood_pictures.alone(piece, f"part-{piece.label.lower()}", "half"),
            marks=marks,
        )
        for piece in pieces
        if (marks := marks_of(piece))
    ]
