"""What stands in a cavity, as it is typed: read to metres, shown again, refused with its entry."""

from __future__ import annotations

import pytest
from django.core.exceptions import ValidationError

from jobs.pages.forms.obstacles_field import ObstaclesField

FIELD = ObstaclesField(required=False)


def test_six_figures_are_a_corner_a_size_and_from_where_to_where():
    """Millimetres as typed: 400 across and nothing up, 100 deep, 200 high, from 0 to 250."""
    (hinge,) = FIELD.clean("hinge: 400 0 100 200 0 250")
    assert hinge["name"] == "hinge"
    corners = [(0.4, 0.0), (0.5, 0.0), (0.5, 0.2), (0.4, 0.2)]
    assert [tuple(point) for point in hinge["points"]] == [pytest.approx(c) for c in corners]
    assert (hinge["start"], hinge["end"]) == (0.0, 0.25)
    assert FIELD.prepare_value([hinge]) == "hinge: 400mm 0mm 100mm 200mm 0mm 250mm"


def test_four_figures_reach_all_the_way_across():
    """Without from and to it has no end of its own, and comes back as it was typed."""
    read = FIELD.clean("hinge: 400 0 100 200; strut: 10 20 30 40 50 60")
    assert [(one["start"], one["end"]) for one in read] == [(0.0, None), (0.05, 0.06)]
    assert FIELD.clean(FIELD.prepare_value(read)) == read
    assert FIELD.clean("") is None


@pytest.mark.parametrize(
    "entry",
    [
        "hinge: 400 0 100 200 250 250",  # ends where it begins
        "hinge: 400 0 100 200 300 250",  # ends before it begins
        "hinge: 400 0 0 200",  # no depth
        "hinge: 400 0 100 0 0 250",  # no height
        "hinge: 400 0 100",
        "hinge: 400 0 100 200 0",
        "hinge: 400 0 100 200 0 250 7",
        "hinge 400 0 100 200",
        ": 400 0 100 200",
        "hinge:",
    ],
)
def test_an_obstacle_that_is_none_is_refused_with_its_entry(entry: str):
    """It needs a name, a size and an end beyond its beginning; the sound one beside it is kept."""
    with pytest.raises(ValidationError) as refused:
        FIELD.clean(f"arch: 0 0 100 100; {entry}")
    assert f"“{entry}”" in refused.value.messages[0]
