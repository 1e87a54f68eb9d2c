"""The build sheet: what the bay follows, from the cautions to the sign-off."""

from __future__ import annotations

from typing import Any

from jobs.design.box.boxes import BoxResult
from jobs.design.box.study import DOOR_FREQUENCIES, BoxStudy, study
from jobs.design.job.panels import work_out_spares
from jobs.design.job.whole import JobDesign
from jobs.design.records.records import otherwise
from jobs.design.wiring.schedule import work_out_schedule
from jobs.design.wood.cutting import letters
from jobs.drawings.box.box_pictures import BoxPictures, box_pictures
from jobs.drawings.box.study_pictures import study_charts
from jobs.drawings.pencil.chart_picture import ChartPicture
from jobs.drawings.wiring import wiring_pictures

# Curves that nobody checks in the bay; they stay on the page of the box.
AT_THE_DESK = {"impedance_phase", "group_delay"}


def context(design: JobDesign) -> dict[str, Any]:
    """Gather the drawings of the boxes that are built, the power tree and the signal path."""
    letter = letters(design.boxes)
    records = design.records
    return {
        "boxes": [(*_box(box), letter[box.box.pk]) for box in design.boxes if box.box.chosen],
        "door_frequencies": DOOR_FREQUENCIES,
        "power": wiring_pictures.power(design),
        "built": otherwise(records),
        "schedule": work_out_schedule(records, design.power, records.workshop),
        "signal": wiring_pictures.signal(design),
        "spares": work_out_spares(records.fixings),
        # What came off last goes on first.
        "refit": [result for result in reversed(design.panels) if result.refit],
    }


def _box(result: BoxResult) -> tuple[BoxResult, BoxStudy | None, BoxPictures, list[ChartPicture]]:
    """Return a box with its study, its views, and each of its curves once."""
    # Drawn at screen size: two charts stand side by side on a page and keep legible words.
    box_study = study(result)
    studied = study_charts(box_study) if box_study else []
    # Where the study draws level and travel with their bands, the bare ones would say less.
    known = {"spl", "excursion"} if box_study and box_study.bands else set()
    drawn = box_pictures(result, without=known | AT_THE_DESK)
    return result, box_study, drawn, [*studied, *drawn.charts]
