"""A box in its place in the car: what has to be measured before it can be said to go in."""

from __future__ import annotations

import pytest

from jobs.design.job.whole import load, work_out

pytestmark = pytest.mark.django_db

WHOLE = {"cavity_width": 0.52, "opening_width": 0.6, "opening_height": 0.5}


@pytest.mark.parametrize(
    ("missing", "said"),
    [
        ([], set()),
        (["opening_width"], {"opening-unknown"}),
        (["opening_height"], {"opening-unknown"}),
        (["cavity_width"], {"cavity-width-unknown"}),
        (["cavity_width", "opening_width"], {"cavity-width-unknown"}),
    ],
)
def test_what_was_not_measured_of_its_place_is_said(hatchback, missing, said):
    """The width of the cavity, which a look asks for, before the way in, which a note does."""
    records = load(hatchback.job)
    (box,) = records.boxes
    for name, value in WHOLE.items():
        setattr(box, name, None if name in missing else value)
    (result,) = work_out(records).boxes
    unknown = {"opening-unknown": "note", "cavity-width-unknown": "look"}
    assert {f.code: f.severity for f in result.findings if f.code in unknown} == {
        code: unknown[code] for code in said
    }
