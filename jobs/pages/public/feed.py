"""A person's planned days as iCalendar (RFC 5545), behind an address nobody can guess.

It names jobs and cars, and nobody whose cars they are: a telephone is lost more easily than a
sheet of paper.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator

from django.http import HttpRequest, HttpResponse
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import override
from django.views.decorators.http import require_safe
from icalendar import Calendar, Event

from jobs import access
from jobs.design.calendar.week import days_of
from jobs.models import Booking, User, Workshop
from jobs.models.calendar import DAY
from jobs.pages.public.host import for_nobodys_list, language_of, nothing_here, public

# What is longer over than this is taken out of the telephone.
KEPT = dt.timedelta(days=28)


@public
@require_safe
def calendar_feed(request: HttpRequest, token: str) -> HttpResponse:
    """Hand a person's days to whoever holds the address."""
    user = access.person_of_calendar(token)
    if user is None:
        return nothing_here(request)
    with override(user.language or language_of(request)):
        text = written(user, days_of(user, since=timezone.localdate() - KEPT))
    response = HttpResponse(text, content_type="text/calendar; charset=utf-8")
    response["Content-Disposition"] = 'inline; filename="days.ics"'
    return for_nobodys_list(response)


def written(user: User, bookings: Iterable[Booking]) -> bytes:
    """Return bookings as a calendar that says nothing of a customer."""
    calendar = Calendar()
    calendar.add("prodid", "-//Undertrim//days//EN")
    calendar.add("version", "2.0")
    # RFC 7986: what it is called, and how often it is worth asking.
    calendar.add("name", _("Workshop: %(person)s") % {"person": user.full_name})
    calendar.add("refresh-interval", dt.timedelta(hours=1), parameters={"VALUE": "DURATION"})
    shop = Workshop.current()
    for booking in bookings:
        for event in _events(booking, shop):
            calendar.add_component(event)
    text: bytes = calendar.to_ical()
    return text


def _events(booking: Booking, shop: Workshop) -> Iterator[Event]:
    """One event for each day with times, or for each run of days without a weekend in it."""
    for number, (first, last) in enumerate(_spans(booking)):
        event = Event()
        event.add("uid", f"{booking.uid}-{number}")
        # Removed by hiding it, which leaves its version as it was.
        gone = booking.removed_at is not None
        event.add("sequence", booking.version + gone)
        event.add("dtstamp", booking.changed_at.astimezone(dt.UTC))
        event.add("status", "CANCELLED" if gone else "CONFIRMED")
        for name, when in _when(booking, first, last):
            event.add(name, when)
        job = booking.job
        car = f"{job.vehicle.maker} {job.vehicle.model}"
        event.add("summary", f"{job.code}: {booking.get_kind_display()}, {car}")
        event.add("description", _description(booking, shop))
        if booking.bay is not None:
            event.add("location", booking.bay.name)
        yield event


def _description(booking: Booking, shop: Workshop) -> str:
    minutes = booking.planned
    parts = [
        _("%(n)d minutes a day") % {"n": minutes} if minutes else "",
        f"{shop.web_address}/jobs/{booking.job.code}/" if shop.web_address else "",
    ]
    return "\n".join(part for part in parts if part)


def _spans(booking: Booking) -> Iterator[tuple[dt.date, dt.date]]:
    """The days somebody is at it: one by one where they have times, else as runs of days."""
    days = booking.worked_days
    if booking.from_time is not None:
        yield from ((day, day) for day in days)
        return
    first = None
    # Work planned for a weekend nobody works has no day at all.
    for day, following in zip(days, [*days[1:], None], strict=False):
        first = first or day
        if following != day + DAY:
            yield first, day
            first = None


def _when(
    booking: Booking, first: dt.date, last: dt.date
) -> Iterator[tuple[str, dt.date | dt.datetime]]:
    """From when to when; days without a time end before the next one (RFC 5545, 3.6.1)."""
    if booking.from_time is None:
        yield "dtstart", first
        yield "dtend", last + DAY
        return
    begin = timezone.make_aware(dt.datetime.combine(first, booking.from_time))
    yield "dtstart", begin.astimezone(dt.UTC)
    if booking.to_time is not None:
        end = timezone.make_aware(dt.datetime.combine(first, booking.to_time))
        yield "dtend", end.astimezone(dt.UTC)


urlpatterns = [path("c/<str:token>/days.ics", calendar_feed, name="calendar-feed")]
