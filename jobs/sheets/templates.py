"""Paper templates at full size: every part a pencil and a square are not enough for."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _

from jobs.design.job.whole import JobDesign
from jobs.design.wood.cutting import work_out_cutting
from jobs.drawings.wood import wood_pictures
from jobs.drawings.wood.tiles import Template, tiles

# What fits between the margins and above the block at the foot of each paper [m].
ROOM = {"a4": (0.178, 0.246), "letter": (0.184, 0.229), "a3": (0.265, 0.368)}


def context(design: JobDesign, paper: str) -> dict[str, Any]:
    """Cut each part that needs one into pages of the paper asked for."""
    cutting = work_out_cutting(design.records, design.boxes, design.trims)
    # xgettext:no-python-format
    caption = _("Print at 100 %, not fitted to the page. The bar must measure 100 mm.")
    return {
        "templates": [
            (
                piece,
                tiles(
                    Template(
                        key=f"template-{piece.label.lower()}",
                        title=f"{piece.label} {piece.name}",
                        part=wood_pictures.part(piece),
                        caption=caption,
                        paper=ROOM[paper],
                    )
                ),
            )
            for piece in cutting.pieces
            if piece.needs_template
        ]
    }
