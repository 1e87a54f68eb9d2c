"""What cannot be as it is planned: two cars in one bay, a person in two places, too long a day."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import combinations

from django.utils.translation import gettext as _

from jobs import money
from jobs.design.calendar.words import CLASHES
from jobs.models import Absence, Booking, Job
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
    bookings: Sequence[Booking],
    days: Iterable[dt.date],
    *,
    minutes_day: int,
    absences: Sequence[Absence] = (),
) -> list[Clash]:
    """Return what clashes on these days; `bookings` are all of every job that has one there."""
    by_job: dict[int, list[Booking]] = defaultdict(list)
    for booking in bookings:
        by_job[booking.job_id].append(booking)
    stays = {job: _stay(rows) for job, rows in by_job.items()}
    listed: list[Clash] = []
    for day in days:
        here = [row for row in bookings if row.first_day <= day <= row.ends_on]
        worked = [row for row in here if row.is_worked_on(day)]
        away = [absence for absence in absences if absence.first_day <= day <= absence.ends_on]
        listed += _bays(day, here)
        for rows in _by(worked, "person_id"):
            own = [absence for absence in away if absence.person_id == rows[0].person_id]
            listed += _person(day, rows, own, minutes_day)
        listed += _car_elsewhere(day, worked, stays)
    return listed


def _by(rows: Iterable[Booking], name: str) -> list[list[Booking]]:
    """Group bookings by a key they have; those without it are left out."""
    groups: dict[int, list[Booking]] = defaultdict(list)
    for row in rows:
        key = getattr(row, name)
        if key is not None:
            groups[key].append(row)
    return list(groups.values())


def _clash(code: str, day: dt.date, rows: Sequence[Booking], **more: object) -> Clash:
    jobs = tuple(dict.fromkeys(row.job for row in rows))
    keys = frozenset(row.pk for row in rows)
    return Clash(code=code, day=day, jobs=jobs, bookings=keys, **more)  # type: ignore[arg-type]


def _bays(day: dt.date, here: Sequence[Booking]) -> Iterator[Clash]:
    """Cars that share a bay, and bays that share a car: a car may have several jobs."""
    placed = [row for row in here if row.kind == Kind.WORK and row.bay is not None]
    for rows in _by(placed, "bay_id"):
        both = _pairs(rows, lambda row, other: not _is_one_car(row, other) and row.meets(other))
        if both:
            yield _clash("bay-twice", day, both, where=str(both[0].bay))
    cars: dict[int, list[Booking]] = defaultdict(list)
    for row in placed:
        cars[row.job.vehicle_id].append(row)
    for rows in cars.values():
        both = _pairs(rows, lambda row, other: row.bay_id != other.bay_id and row.meets(other))
        if both:
            bays = dict.fromkeys(str(row.bay) for row in both)
            yield _clash("car-twice", day, both, where=", ".join(bays))


def _is_one_car(row: Booking, other: Booking) -> bool:
    return row.job_id == other.job_id or row.job.vehicle_id == other.job.vehicle_id


def _pairs(rows: Sequence[Booking], clash: Callable[[Booking, Booking], bool]) -> list[Booking]:
    """Those that clash with another of them."""
    both: dict[int, Booking] = {}
    for row, other in combinations(rows, 2):
        if clash(row, other):
            both |= {row.pk: row, other.pk: other}
    return list(both.values())


def _person(
    day: dt.date, rows: Sequence[Booking], away: Sequence[Absence], minutes_day: int
) -> Iterator[Clash]:
    """One person in two places, for longer than they are there, or not there at all."""
    person = rows[0].person
    assert person is not None  # grouped by it
    name = person.full_name
    twice = _pairs(rows, lambda row, other: row.job_id != other.job_id and _at_once(row, other))
    if twice:
        yield _clash("person-twice", day, twice, where=name)
    missed = [row for row in rows if any(_is_missed(row, absence) for absence in away)]
    if missed:
        yield _clash("person-away", day, missed, where=name)
    planned = sum(row.planned or 0 for row in rows)
    limit = max(minutes_day - sum(absence.minutes_of(minutes_day) for absence in away), 0)
    if planned > limit and len(missed) < len(rows):
        code = "overload-away" if away else "overload"
        yield _clash(code, day, rows, where=name, planned=planned, limit=limit)
    if not person.is_active:
        yield _clash("person-gone", day, rows, where=name)


def _is_missed(row: Booking, absence: Absence) -> bool:
    """Whether somebody is away when they are planned; hours without a time of day can wait."""
    if absence.minutes_between is None:
        return True
    if row.from_time and not row.to_time:
        assert absence.from_time is not None  # it has times
        assert absence.to_time is not None
        return absence.from_time <= row.from_time < absence.to_time
    return _is_fixed(row) and row.meets(absence)


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


def _car_elsewhere(
    day: dt.date, worked: Sequence[Booking], stays: dict[int, tuple[Booking | None, Booking | None]]
) -> Iterator[Clash]:
    """Work in a bay on a car that is not there, and a car that leaves later than promised."""
    for row in worked:
        arrival, pick_up = stays[row.job_id]
        if row.kind == Kind.WORK and row.bay_id is not None:
            if arrival and day < arrival.first_day:
                yield _clash("not-here-yet", day, [row], other=arrival.first_day)
            if pick_up and day > pick_up.first_day:
                yield _clash("gone-already", day, [row], other=pick_up.first_day)
        promised = row.job.promised_on
        if row is pick_up and promised and day > promised:
            yield _clash("late", day, [row], other=promised)
