"""What to expect of a measurement, in words, and what its limits make of a value."""

from __future__ import annotations

import pytest

from jobs.design.job.measurements import Limits, Measured
from jobs.models import Measurement


@pytest.mark.parametrize(
    ("limits", "says"),
    [
        ({"low": 12.0}, "at least {12}"),
        ({"high": 14.0}, "at most {14}"),
        ({"low": 12.0, "high": 14.0}, "{12} to {14}"),
        # The graver ones where there are no others.
        ({"stop_low": 12.0}, "at least {12}"),
        ({"low": 12.0, "stop_high": 15.0}, "at least {12}"),
        ({}, "as the battery"),
    ],
)
def test_what_to_expect_is_said_by_the_limits_that_are_known(limits, says):
    """Both ends, one of them, or the words of the plan."""
    row = Measurement(kind=Measurement.Kind.VOLTAGE, expected="as the battery")
    for volts in ("12", "14"):
        says = says.replace(f"{{{volts}}}", f"{volts}.00\N{NO-BREAK SPACE}V")
    assert Measured(row=row, limits=Limits(**limits)).expected == says


@pytest.mark.parametrize(
    ("value", "verdict", "crossed"),
    [
        (10.9, "stop", 11.0), (11.0, "look", 12.0), (11.9, "look", 12.0), (12.0, "done", None),
        (14.0, "done", None), (14.1, "look", 14.0), (15.0, "look", 14.0), (15.1, "stop", 15.0),
    ],
)  # fmt: skip
def test_a_value_at_a_limit_is_within_it(value, verdict, crossed):
    """Beyond it is not, and the graver limit is named first."""
    limits = Limits(low=12.0, high=14.0, stop_low=11.0, stop_high=15.0)
    assert (limits.verdict(value), limits.crossed(value)) == (verdict, crossed)
