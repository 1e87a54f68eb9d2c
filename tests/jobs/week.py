"""A week full of work, invented, for what is measured and counted on the calendar."""

from __future__ import annotations

import datetime as dt

from django.utils import timezone

from jobs.models import Bay, Booking, User, WorkTime
from tests.jobs.factories import make_car, make_job, make_person
from tests.jobs.offers import make_offer

MONDAY = dt.date(2027, 3, 1)


def to_come(weekday: int = 0) -> dt.date:
    """A day of the week after this one: near enough to be meant."""
    today = timezone.localdate()
    return today + dt.timedelta(days=7 - today.weekday() + weekday)


def fill_week(by: User, *, jobs: int, people: int, bays: int = 4, hands: int = 2) -> None:
    """Plan so many agreed jobs: a car that comes, three days of so many people, a pick-up."""
    start = User.objects.count()
    workers = [make_person(f"p{start + n}", f"P{n}", "", "installer") for n in range(people)]
    places = [Bay.objects.create(name=f"Bay {start}.{n}") for n in range(bays)]
    for n in range(jobs):
        job = make_job(make_car())
        offer = make_offer(job, by, accepted_at=timezone.now())
        offer.shown["lines"].append(offer.shown["lines"][0] | {"key": "work car", "quantity": "9"})
        offer.save()
        WorkTime.objects.create(job=job, minutes=60)
        day = MONDAY + dt.timedelta(days=n % 5)
        plain = {"job": job, "first_day": day}
        Booking.objects.create(**plain, kind="arrival", from_time=dt.time(8), person=workers[0])
        for worker in (workers[(n + hand) % people] for hand in range(hands)):
            Booking.objects.create(
                **plain, last_day=day + dt.timedelta(days=2), person=worker,
                bay=places[n % bays], minutes=120,
            )  # fmt: skip
        Booking.objects.create(**plain, kind="pick_up", from_time=dt.time(17))
