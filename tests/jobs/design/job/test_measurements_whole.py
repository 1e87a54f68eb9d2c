"""Every measurement a job plans, and what is made of values round its limits, as let stand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from jobs.design.job.measurements import Known, Measured, check_measurements, plan
from jobs.design.records.records import JobRecords
from jobs.models import Measurement
from tests.approval import hold
from tests.told import row

pytestmark = pytest.mark.django_db
# Shares of a limit: a thousandth and a thousandfold are what a mistaken unit comes to.
SHARES = (0.001, 0.99, 1.01, 1000.0)


def _judged(known: Known, planned: Measurement) -> Iterator[Measured]:
    """Judge one row at values round each of its limits."""
    limits = known.limits(planned)
    ends = dict.fromkeys((limits.low, limits.high, limits.stop_low, limits.stop_high))
    values = [end * share for end in ends if end is not None for share in SHARES]
    for value in (None, *values):
        planned.value = value
        yield Measured(row=planned, limits=limits)


def _told(records: JobRecords) -> Iterator[str]:
    known = Known.of(records)
    typed = [
        Measurement(job=records.job, kind="voltage", name=f"typed, {beyond}", low=low, high=high,
            expected="as before", beyond=beyond)
        for beyond in Measurement.Beyond.values
        for low, high in ((12.0, 14.0), (None, 14.0), (12.0, None), (None, None))
    ]  # fmt: skip
    for planned in (*plan(replace(records, measurements=[])), *typed):
        for judged in _judged(known, planned):
            value, limits = planned.value, judged.limits
            told = [] if value is None else [limits.crossed(value), limits.slip(value)]
            yield row(planned.name, value, judged.verdict, judged.expected, told)
            for finding in check_measurements([judged]):
                yield "  " + row(finding.code, finding.value, finding.limit, finding.unit)


@pytest.mark.parametrize("name", ["hatchback", "saloon", "van"])
def test_what_is_made_of_every_value_is_what_was_let_stand(name, hatchback, saloon, van, as_loaded):
    """Limits worked out and typed, what is expected, which one is crossed, what was meant."""
    of = {"hatchback": hatchback, "saloon": saloon, "van": van}[name]
    hold(f"measurements/{name}", _told(as_loaded.design(of).records))


def test_a_car_that_commands_its_charging_has_wider_limits(hatchback, as_loaded):
    """12.2 to 15.5 V instead of 13.2 to 15 V (common practice, no source)."""
    records = as_loaded.design(hatchback).records
    row = Measurement(derived=Measurement.Derived.CHARGING, kind="voltage")
    limits = []
    for commands in (False, True):
        records.job.vehicle.smart_charging = commands
        worked = Known.of(records).limits(row)
        limits.append((worked.low, worked.high))
    assert limits == [(13.2, 15.0), (12.2, 15.5)]
