"""What a telephone reads of somebody's days is what was let stand."""

from __future__ import annotations

import datetime as dt
import re

import pytest

from jobs.models import Bay, Booking, Workshop
from jobs.pages.public.feed import written
from tests.approval import hold
from tests.jobs.factories import make_job

pytestmark = pytest.mark.django_db

CHANGING = re.compile(r"(?<=DTSTAMP:)\S+|(?<=UID:)\S+(?=-\d)")
# A Thursday.
FIRST = dt.date(2026, 3, 5)


def test_days_are_written_as_was_let_stand(cast):
    """With and without times, over a weekend or through it, removed, in a bay, for so long."""
    shop, job = Workshop.current(), make_job(number=417)
    bay = Bay.objects.create(name="Left bay")
    nine, noon = dt.time(9), dt.time(12, 30)
    days = (
        {},
        {"last_day": FIRST + dt.timedelta(days=1)},
        {"last_day": FIRST + dt.timedelta(days=4)},
        {"last_day": FIRST + dt.timedelta(days=4), "weekends": True},
        {"last_day": FIRST + dt.timedelta(days=12), "bay": bay, "minutes": 90},
        {"from_time": nine},
        {"from_time": nine, "to_time": noon, "kind": Booking.Kind.ARRIVAL},
        {"from_time": nine, "to_time": noon, "last_day": FIRST + dt.timedelta(days=4)},
        {"kind": Booking.Kind.PICK_UP, "removed_at": dt.datetime(2026, 3, 1, tzinfo=dt.UTC)},
        {"first_day": FIRST + dt.timedelta(days=2), "last_day": FIRST + dt.timedelta(days=3)},
    )
    bookings = [
        Booking.objects.create(job=job, person=cast.installer, **({"first_day": FIRST} | more))
        for more in days
    ]
    lines = []
    for address in ("", "https://shop.invalid"):
        shop.web_address = address
        shop.save()
        text = written(cast.installer, bookings[: 10 if address else 5]).decode()
        lines += CHANGING.sub("#", text.replace("\r\n ", "")).splitlines()
    hold("public/days", lines)
