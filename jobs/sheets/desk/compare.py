"""Boxes side by side on one page: what a customer chooses from."""

from __future__ import annotations

from typing import Any

from jobs.design.box.cabin import cabin_of
from jobs.design.box.compare import compare, picked
from jobs.design.job.whole import JobDesign
from jobs.drawings.box.compare_pictures import comparison_charts


def context(design: JobDesign, boxes: tuple[str, ...]) -> dict[str, Any]:
    """Compare the boxes ticked; looks are counted, stops stand in full as on every sheet."""
    compared = compare(
        picked(design.boxes, boxes), cabin_of(design.job.vehicle, design.records.cabin_curves)
    )
    return {
        "comparison": compared,
        "charts": comparison_charts(compared, "half"),
        "open": design.open_stops,
        "decided": [
            finding
            for finding in design.findings
            if finding.decision and finding.severity == "stop"
        ],
    }
