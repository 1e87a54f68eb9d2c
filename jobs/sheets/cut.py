"""The cut sheet: what the wood shop follows, from the list to the last screw."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.utils.safestring import SafeString

from jobs.design.job.whole import JobDesign
from jobs.design.wood.cutting import BoxPieces, SheetPlan, work_out_cutting
from jobs.design.wood.trim import TrimResult
from jobs.drawings.wood import wood_pictures

WOOD = "boxes"  # the page where wood is cured


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """Something to make, with its drawings."""

    subject: BoxPieces | TrimResult | SheetPlan
    drawings: list[tuple[str, SafeString]]


def context(design: JobDesign) -> dict[str, Any]:
    """Gather the boxes with their views, rings and trim panels, and the sheets they come from."""
    cutting = work_out_cutting(design.records, design.boxes, design.trims)
    shop = design.records.workshop
    return {
        "cut_boxes": [
            Drawn(subject=box, drawings=_box_drawings(box, number))
            for number, box in enumerate(cutting.boxes)
        ],
        "trims": [
            Drawn(subject=trim, drawings=[("", wood_pictures.alone(trim.piece, f"trim-{number}"))])
            for number, trim in enumerate(cutting.trims)
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
    # The closed box says nothing that the one drawn apart does not.
    views = wood_pictures.views(box.result, f"cut-{number}")[:2]
    return [("", wood_pictures.apart(box, f"apart-{number}")), *views]
