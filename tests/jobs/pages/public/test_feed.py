"""A person's days as iCalendar, held to the text of RFC 5545, and what it never says."""

from __future__ import annotations

import datetime as dt
import re

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from jobs.models import Bay, Booking
from tests.jobs.factories import make_car, make_job

pytestmark = pytest.mark.django_db
MONDAY = dt.date(2099, 3, 2)


@pytest.fixture
def days(cast):
    """Work over a weekend, a car that is fetched in the evening, somebody else's work."""
    car = make_car(plate="AB 12 CD", vin="V" * 17, model="Ärger; Größe, " + "x" * 60)
    job = make_job(car, title="Bass for Mr Secret")
    car.customer.name, car.customer.phone = "Xaver Secret", "555 0199"
    car.customer.save()
    cast.installer.calendar_token = "t" * 22
    cast.installer.save()
    work = Booking.objects.create(
        job=job, person=cast.installer, first_day=MONDAY, minutes=90, note="call Mr Secret",
        last_day=MONDAY + dt.timedelta(days=7), bay=Bay.objects.create(name="Lift"),
    )  # fmt: skip
    evening = {"first_day": dt.date(2099, 7, 1), "from_time": dt.time(17), "to_time": None}
    Booking.objects.create(job=job, person=cast.installer, kind="pick_up", **evening)
    Booking.objects.create(job=job, person=cast.designer, first_day=MONDAY)
    return work


def _read() -> bytes:
    answer = Client().get(reverse("calendar-feed", args=["t" * 22]))
    assert answer.status_code == 200
    assert answer.headers["Content-Type"].startswith("text/calendar")
    assert answer.headers["Cache-Control"] == "no-store"
    return answer.content


def _events(text: bytes) -> list[dict[str, str]]:
    """Read by hand: unfold (RFC 5545, 3.1), one dictionary for each VEVENT."""
    lines = re.sub(rb"\r\n[ \t]", b"", text).decode().split("\r\n")
    events: list[dict[str, str]] = []
    for line in lines:
        if line == "BEGIN:VEVENT":
            events.append({})
        elif events and ":" in line:
            name, value = line.split(":", 1)
            events[-1][name] = value
    return events


def test_it_is_a_calendar_as_the_standard_has_it(days, settings):
    """Lines end in CRLF and have 75 octets at most (3.1); UID, DTSTAMP in UTC, DTSTART (3.6.1)."""
    text = _read()
    assert b"\n" not in text.replace(b"\r\n", b"")
    assert max(len(line) for line in text.split(b"\r\n")) <= 75
    assert text.startswith(b"BEGIN:VCALENDAR\r\n")
    assert b"\r\nVERSION:2.0\r\n" in text
    assert b"\r\nPRODID:" in text
    events = _events(text)
    assert len({event["UID"] for event in events}) == len(events) == 3
    for event in events:
        assert re.fullmatch(r"\d{8}T\d{6}Z", event["DTSTAMP"])
    # A span of days ends before the day after its last (3.6.1); the weekend is left out.
    spans = [(event.get("DTSTART;VALUE=DATE"), event.get("DTEND;VALUE=DATE")) for event in events]
    assert spans[:2] == [("20990302", "20990307"), ("20990309", "20990310")]
    assert events[2]["DTSTART"] == "20990701T170000Z"  # 17:00 where it is 17:00 UTC
    assert r"Ärger\; Größe\, xxx" in events[0]["SUMMARY"]  # 3.3.11
    assert events[0]["LOCATION"] == "Lift"


def test_a_time_is_that_of_the_workshop(days, settings):
    """17:00 in a summer of Berlin is 15:00 UTC (IANA time zone database, Europe/Berlin)."""
    settings.TIME_ZONE = "Europe/Berlin"
    with timezone.override("Europe/Berlin"):
        assert _events(_read())[2]["DTSTART"] == "20990701T150000Z"


def test_it_says_nothing_of_a_customer(days):
    """Neither name nor number, plate, chassis number, title of the job or note."""
    text = re.sub(rb"\r\n[ \t]", b"", _read()).decode()
    for private in ("Secret", "0199", "AB 12 CD", "VVVV", "call"):
        assert private not in text, private
    assert days.job.code in text


def test_a_change_is_known_by_its_number_and_a_removal_is_told(days):
    """The same UID, a higher SEQUENCE (3.8.7.4), CANCELLED once it is removed (3.8.1.11)."""
    before = _events(_read())[0]
    days.version += 1
    days.first_day += dt.timedelta(days=1)
    days.save()
    after = _events(_read())[0]
    assert after["UID"] == before["UID"]
    assert int(after["SEQUENCE"]) == int(before["SEQUENCE"]) + 1
    days.remove()
    gone = _events(_read())[0]
    assert (gone["UID"], gone["STATUS"]) == (before["UID"], "CANCELLED")
    assert int(gone["SEQUENCE"]) > int(after["SEQUENCE"])


def test_what_is_withdrawn_or_of_somebody_who_left_opens_nothing(days, cast):
    """And neither does an address nobody has; it is only read."""
    url = reverse("calendar-feed", args=["t" * 22])
    assert Client().post(url).status_code == 405
    assert Client().get(reverse("calendar-feed", args=["u" * 22])).status_code == 404
    cast.installer.is_active = False
    cast.installer.save()
    assert Client().get(url).status_code == 404
    cast.installer.is_active, cast.installer.calendar_token = True, None
    cast.installer.save()
    assert Client().get(url).status_code == 404
