"""Options side by side on one page: what a customer chooses from."""

from __future__ import annotations

from typing import Any

from jobs.design.job.whole import JobDesign
from jobs.design.options.side_by_side import MOST, work_out_options
from jobs.drawings.box.compare_pictures import comparison_charts
from jobs.drawings.wood.wood_pictures import of_options


def context(design: JobDesign, options: tuple[str, ...]) -> dict[str, Any]:
    """Hold the options ticked side by side, or the last three that were kept."""
    every = list(design.job.options.all())
    ticked = [option for option in every if str(option.pk) in options][:MOST] or every[-MOST:]
    side_by_side = work_out_options(ticked, design)
    charts = comparison_charts(side_by_side.comparison, "half")
    return {
        "side_by_side": side_by_side,
        "charts": [*charts[:1], *charts[2:3]],
        "pictures": of_options(side_by_side),
    }
