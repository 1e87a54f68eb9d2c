"""What cannot be as it is planned: two cars in one bay, a person in two places, too long a day."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import combinations

from django.utils.translation import gettext as _

from jobs import money
from jobs.design.calendar.words import CLASHES
from jobs.models import Booking, Job
from jobs.models.base import written_day

Kind = Booking.Kind


@dataclass(frozen=True, kw_only=True)
class Clash:
    """One thing that cannot be so: its code, the day, whom or what it is about, the jobs of it."""

    code: str
    day: dt.date
    # The bay or the person; of what is about a car alone there is neither.
    where: str = ""
    jobs: tuple[Job, ...]
    # Minutes planned and minutes of a day, where it is about these.
    planned: int = 0
    limit: int = 0
    # The day of the calendar it collides with, where it is about another.
    other: dt.date | None = None
    bookings: frozenset[int]

    @property
    def says(self) -> str:
        """It in words."""
        return str(CLASHES[self.code]) % {
            "where": self.where,
            "jobs": _(" and ").join(job.code for job in self.jobs),
            "planned": money.show_number(hours_of(self.planned)),
            "limit": money.show_number(hours_of(self.limit)),
            "other": written_day(self.other),
        }


def hours_of(minutes: int) -> Decimal:
    """Minutes as hours."""
    return round(Decimal(minutes) / money.MINUTES, 2)


def clashes(
    bookings: Sequence[Booking], days: Iterable[dt.date], *, minutes_day: int
) -> list[Clash]:
    """Return what clashes on these days; `bookings` are all of every job that has one there."""
    by_job: dict[Job, list[Booking]] = defaultdict(list)
    for booking in bookings:
        by_job[booking.job].append(booking)
    stays = {job: _stay(rows) for job, rows in by_job.items()}
    listed: list[Clash] = []
    for day in days:
        here = [row for row in bookings if row.first_day <= day <= row.ends_on]
        worked = [row for row in here if row.is_worked_on(day)]
        listed += _bays(day, here)
        listed += _people(day, worked, minutes_day)
        listed += _away(day, worked, stays)
    return listed


def _clash(code: str, day: dt.date, rows: Sequence[Booking], **more: object) -> Clash:
    jobs = tuple(dict.fromkeys(row.job for row in rows))
    keys = frozenset(row.pk for row in rows)
    return Clash(code=code, day=day, jobs=jobs, bookings=keys, **more)  # type: ignore[arg-type]


def _bays(day: dt.date, here: Sequence[Booking]) -> Iterator[Clash]:
    """Cars that share a bay, and bays that share a car."""
    placed = [row for row in here if row.kind == Kind.WORK and row.bay is not None]
    by_bay: dict[str, dict[int, Booking]] = defaultdict(dict)
    by_car: dict[int, dict[int, Booking]] = defaultdict(dict)
    for row, other in combinations(placed, 2):
        both = {row.pk: row, other.pk: other}
        if not row.meets(other):
            continue
        if row.bay_id == other.bay_id and row.job_id != other.job_id:
            by_bay[str(row.bay)] |= both
        elif row.bay_id != other.bay_id and row.job_id == other.job_id:
            by_car[row.job_id] |= both
    for bay, rows in by_bay.items():
        yield _clash("bay-twice", day, list(rows.values()), where=bay)
    for rows in by_car.values():
        bays = dict.fromkeys(str(row.bay) for row in rows.values())
        yield _clash("car-twice", day, list(rows.values()), where=", ".join(bays))


def _people(day: dt.date, worked: Sequence[Booking], minutes_day: int) -> Iterator[Clash]:
    """People who are in two places at a time, or for longer than a day is."""
    by_person: dict[int, list[Booking]] = defaultdict(list)
    for row in worked:
        if row.person_id is not None:
            by_person[row.person_id].append(row)
    for rows in by_person.values():
        name = rows[0].person.full_name if rows[0].person else ""
        twice: dict[int, Booking] = {}
        for row, other in combinations(rows, 2):
            if row.job_id != other.job_id and _at_once(row, other):
                twice |= {row.pk: row, other.pk: other}
        if twice:
            yield _clash("person-twice", day, list(twice.values()), where=name)
        planned = sum(row.planned or 0 for row in rows)
        if planned > minutes_day:
            yield _clash("overload", day, rows, where=name, planned=planned, limit=minutes_day)
        if rows[0].person is not None and not rows[0].person.is_active:
            yield _clash("person-gone", day, rows, where=name)


def _at_once(row: Booking, other: Booking) -> bool:
    """Whether nobody could be at both: hours without a time of day leave room for others."""
    return _is_fixed(row) and _is_fixed(other) and row.meets(other)


def _is_fixed(row: Booking) -> bool:
    """Whether it takes a time of the day, or all of it since nobody said how long it takes."""
    if row.from_time is not None:
        return row.to_time is not None
    return row.kind == Kind.WORK and row.minutes is None


def _stay(rows: Sequence[Booking]) -> tuple[Booking | None, Booking | None]:
    """How a car comes and leaves."""
    arrivals = [row for row in rows if row.kind == Kind.ARRIVAL]
    pick_ups = [row for row in rows if row.kind == Kind.PICK_UP]
    arrival = min(arrivals, key=lambda row: row.first_day, default=None)
    return arrival, max(pick_ups, key=lambda row: row.first_day, default=None)


def _away(
    day: dt.date, worked: Sequence[Booking], stays: dict[Job, tuple[Booking | None, Booking | None]]
) -> Iterator[Clash]:
    """Work in a bay on a car that is not there, and a car that leaves later than promised."""
    for row in worked:
        arrival, pick_up = stays[row.job]
        if row.kind == Kind.WORK and row.bay_id is not None:
            if arrival and day < arrival.first_day:
                yield _clash("not-here-yet", day, [row], other=arrival.first_day)
            if pick_up and day > pick_up.first_day:
                yield _clash("gone-already", day, [row], other=pick_up.first_day)
        promised = row.job.promised_on
        if row is pick_up and promised and day > promised:
            yield _clash("late", day, [row], other=promised)
