"""The week of the invented workshop: two bays, the three cars, and one day that is too long."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, time, timedelta

from django.utils import timezone

from jobs.models import Absence, Bay, Booking, Job, User

Kind = Booking.Kind
MONDAY, TUESDAY, WEDNESDAY, THURSDAY, FRIDAY = range(5)


def load_calendar(jobs: Sequence[Job], people: dict[str, User]) -> None:
    """Plan this week, whenever that is: the calendar opens on it."""
    lift, yard_door = (Bay.objects.create(name=name) for name in ("Bay 1, lift", "Bay 2"))
    estate, camper, pickup = jobs
    today = timezone.localdate()
    monday = today - timedelta(days=today.weekday())

    def day(number: int) -> date:
        return monday + timedelta(days=number)

    def plan(job: Job, first: int, who: str, last: int | None = None, **more: object) -> None:
        Booking.objects.create(
            job=job,
            first_day=day(first),
            last_day=None if last is None else day(last),
            person=people[who],
            **more,
        )

    plan(estate, MONDAY - 4, "consultant", kind=Kind.ARRIVAL, from_time=time(9))
    plan(estate, MONDAY, "installer", WEDNESDAY, bay=lift, minutes=150)
    plan(estate, THURSDAY, "designer", FRIDAY, bay=lift, minutes=120)
    plan(estate, FRIDAY, "consultant", kind=Kind.PICK_UP, from_time=time(16, 30))
    plan(camper, TUESDAY, "designer", WEDNESDAY, minutes=300, note="cut and glue the box")
    plan(camper, WEDNESDAY, "installer", bay=yard_door, from_time=time(10), to_time=time(17))
    plan(camper, WEDNESDAY, "consultant", kind=Kind.ARRIVAL, from_time=time(8, 30))
    # The designer leaves at noon on Friday, and is planned for more than is left of the day.
    Absence.objects.create(
        person=people["designer"], first_day=day(FRIDAY), from_time=time(12), to_time=time(17)
    )
    sick = Absence.Kind.SICK
    Absence.objects.create(
        person=people["manager"], kind=sick, first_day=day(MONDAY), last_day=day(TUESDAY)
    )
    plan(pickup, FRIDAY, "designer", minutes=120)
