"""The cut sheet: what the wood shop follows, from the list to the last screw."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.utils.safestring import SafeString

from jobs.design.cutting import BoxPieces, SheetPlan, work_out_cutting
from jobs.design.job import JobDesign
from jobs.design.trim import TrimResult
from jobs.drawings import wood_pictures
from jobs.models import SheetKind, Workshop


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """Something to make, with its drawings."""

    made: BoxPieces | TrimResult | SheetPlan
    drawings: list[tuple[str, SafeString]]


def context(design: JobDesign) -> dict[str, Any]:
    """Gather the boxes with their views, rings and trim panels, and the sheets they come from."""
    cutting = work_out_cutting(design.records, design.boxes, design.trims)
    shop = design.records.workshop
    return {
        "cut_boxes": [
            Drawn(made=box, drawings=_box_drawings(box, number))
            for number, box in enumerate(cutting.boxes)
        ],
        "trims": [
            Drawn(made=one, drawings=[("", wood_pictures.alone(one.piece, f"trim-{number}"))])
            for number, one in enumerate(cutting.trims)
            if one.piece
        ],
        "plans": [
            Drawn(
                made=plan,
                drawings=[
                    ("", one)
                    for one in wood_pictures.nested(plan, f"nest-{number}", shop.sheet_trim)
                ],
            )
            for number, plan in enumerate(cutting.plans)
        ],
        "shop": shop,
        "sawn": shop.cutting == Workshop.Cutting.PANEL_SAW,
        "sheet_kind": SheetKind.CUT,
    }


def _box_drawings(box: BoxPieces, number: int) -> list[tuple[str, SafeString]]:
    views = wood_pictures.views(box.result, f"cut-{number}", "screen")
    return [("", wood_pictures.apart(box, f"apart-{number}")), *views]
