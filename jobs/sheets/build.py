"""The build sheet: what the bay follows, from the cautions to the sign-off."""

from __future__ import annotations

from typing import Any

from jobs.design.job import JobDesign
from jobs.design.study import DOOR_FREQUENCIES, study
from jobs.drawings import pictures
from jobs.drawings.study_pictures import study_charts


def context(design: JobDesign) -> dict[str, Any]:
    """Gather the drawings of the boxes that are built, the power tree and the signal path."""
    # Drawn at screen size: two charts stand side by side on a page and keep legible words.
    built = [one for one in design.boxes if one.box.chosen]
    studies = [study(one) for one in built]
    return {
        "boxes": [
            (one, pictures.box(one), made, study_charts(made) if made else [])
            for one, made in zip(built, studies, strict=True)
        ],
        "door_frequencies": DOOR_FREQUENCIES,
        "power": pictures.power(design),
        "signal": pictures.signal(design),
    }
