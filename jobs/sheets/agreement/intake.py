"""The intake on paper: the car as it came in, as it was signed, and what was added later."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _

from jobs.design.job.whole import JobDesign
from jobs.drawings.car.bodies import body_of
from jobs.drawings.car.outline import car_outline
from jobs.models import Intake, IntakeMark
from jobs.sheets import photo_data


def context(design: JobDesign) -> dict[str, Any]:
    """Gather the outline, its marks and pictures; before the walk it is a sheet to write on."""
    records = design.records
    intake = next(iter(records.intakes), None)
    row = intake or Intake(job=design.job, body=body_of(design.job.vehicle.body))
    signed, added = row.split(list(records.intake_marks))
    numbered = list(enumerate([*signed, *added], 1))
    return {
        "intake": row,
        "drawing": car_outline(row.body, [mark for _n, mark in numbered]),
        "marks": [(n, mark) for n, mark in numbered if mark in signed],
        "added": [(n, mark) for n, mark in numbered if mark in added],
        "pictures": [picture for n, mark in numbered if (picture := _picture(n, mark))],
        "blank": intake is None,
    }


def refuses(design: JobDesign) -> str:
    """Nothing is issued as how a car came that nobody signed."""
    if any(intake.is_signed for intake in design.records.intakes):
        return ""
    return _("Nobody has signed yet how the car came.")


def _picture(number: int, mark: IntakeMark) -> tuple[int, IntakeMark, str] | None:
    """A picture as data the PDF holds; empty where its file is lost, None where there was none."""
    if not mark.small:
        return None
    try:
        return number, mark, photo_data.address(mark)
    except (OSError, ValueError):
        return number, mark, ""
