"""The workings: what the figures of a job rest on, for whoever checks them at a desk."""

from __future__ import annotations

from typing import Any

from jobs.design.box.boxes import BoxResult
from jobs.design.box.study import DOOR_FREQUENCIES, BoxStudy, study
from jobs.design.job.whole import JobDesign
from jobs.drawings.box.box_pictures import box_pictures
from jobs.drawings.box.study_pictures import study_charts
from jobs.drawings.pencil.chart_picture import ChartPicture

# Curves that nobody checks on paper; they stay on the page of the box.
AT_THE_DESK = {"impedance_phase", "group_delay"}


def context(design: JobDesign) -> dict[str, Any]:
    """Gather study and curves of the boxes that are built."""
    return {
        "boxes": [_box(box) for box in design.chosen_boxes],
        "door_frequencies": DOOR_FREQUENCIES,
    }


def _box(result: BoxResult) -> tuple[BoxResult, BoxStudy | None, list[ChartPicture]]:
    """Return a box with its study and each of its curves once."""
    # Drawn at screen size: two charts stand side by side on a page and keep legible words.
    box_study = study(result)
    studied = study_charts(box_study) if box_study else []
    # Where the study draws level and travel with their bands, the bare ones would say less.
    known = {"spl", "excursion"} if box_study and box_study.bands else set()
    drawn = box_pictures(result, without=known | AT_THE_DESK)
    return result, box_study, [*studied, *drawn.charts]
