"""The build sheet: what the bay follows, from the cautions to the sign-off."""

from __future__ import annotations

from typing import Any

from jobs.design.job.panels import work_out_spares
from jobs.design.job.whole import JobDesign
from jobs.design.records.records import otherwise
from jobs.drawings.box.box_pictures import box_pictures
from jobs.drawings.wiring import wiring_pictures


def context(design: JobDesign) -> dict[str, Any]:
    """Gather the views of the boxes that are built, the power tree and the signal path."""
    records = design.records
    return {
        "boxes": [(result, box_pictures(result).views) for result in design.chosen_boxes],
        "power": wiring_pictures.power(design),
        "built": otherwise(records),
        "signal": wiring_pictures.signal(design),
        "spares": work_out_spares(records.fixings),
        # What came off last goes on first.
        "refit": [result for result in reversed(design.panels) if result.refit],
    }
