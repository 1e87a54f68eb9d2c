"""One week of the workshop: who and what is where on each day, and hours sold against planned."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from django.db.models import Manager, QuerySet, Sum
from django.utils import timezone

from jobs.design.calendar.clashes import Clash, clashes, hours_of
from jobs.models import (
    Absence,
    Bay,
    Booking,
    Job,
    Offer,
    Stage,
    User,
    WorkKind,
    Workshop,
    WorkTime,
)
from jobs.models.calendar import DAY, is_weekend, touching

ENDED = (Job.Halt.LOST, Job.Halt.CANCELLED)
# Stages in which work is sold and still to be done.
TO_PLAN = (Stage.AGREED, Stage.PARTS, Stage.BAY, Stage.SET_UP)
MOST_UNPLANNED = 50
ZERO = Decimal(0)


@dataclass(frozen=True, kw_only=True)
class Entry:
    """One booking on one day, and whether something about it clashes."""

    booking: Booking
    clashes: bool
    planned: Decimal | None


@dataclass(frozen=True, kw_only=True)
class Cell:
    """A bay or a person on one day."""

    name: str
    entries: Sequence[Entry]
    # Of a person: when they are not there; the week does not say why.
    away: Sequence[Absence] = ()


@dataclass(frozen=True, kw_only=True)
class Day:
    """One day: cars that come and go, bays, people."""

    date: dt.date
    moves: Sequence[Entry]
    bays: Sequence[Cell]
    people: Sequence[Cell]
    clashes: Sequence[Clash]


@dataclass(frozen=True, kw_only=True)
class JobHours:
    """Hours of a job: sold with what was agreed, worked, and planned from today on."""

    job: Job
    # None where nothing is agreed yet.
    sold: Decimal | None
    worked: Decimal
    ahead: Decimal
    # Days to come of which nobody said how long they are.
    without_hours: int

    @property
    def short(self) -> Decimal | None:
        """Hours that are sold and neither worked nor planned; below zero where more is."""
        return None if self.sold is None else self.sold - self.worked - self.ahead

    @property
    def over(self) -> Decimal:
        """Hours worked and planned beyond what was sold."""
        return max(-(self.short or ZERO), ZERO)


@dataclass(frozen=True, kw_only=True)
class Week:
    """What the calendar shows."""

    monday: dt.date
    bays: Sequence[str]
    people: Sequence[str]
    days: Sequence[Day]
    jobs: Sequence[JobHours]
    # Sold, and no day in the calendar yet.
    unplanned: Sequence[Job]

    @property
    def clashes(self) -> list[Clash]:
        """All of them, day by day."""
        return [clash for day in self.days for clash in day.clashes]


def work_out_week(monday: dt.date) -> Week:
    """Read a week: the same number of queries however much is planned in it."""
    days = [monday + n * DAY for n in range(7)]
    live = _live()
    overlapping = live.filter(touching(days[0], days[-1]))
    bookings = _read(live.filter(job__in=overlapping.values("job")))
    shown = [row for row in bookings if row.first_day <= days[-1] and row.ends_on >= monday]
    absences = list(Absence.objects.filter(touching(days[0], days[-1])))
    bays = {bay.pk: bay for bay in Bay.objects.all()}
    bays |= {row.bay.pk: row.bay for row in shown if row.bay is not None}
    people = {user.pk: user for user in User.objects.filter(is_active=True) if user.roles}
    people |= {row.person.pk: row.person for row in shown if row.person is not None}
    minutes = Workshop.current().minutes_day
    listed = clashes(bookings, days, minutes_day=minutes, absences=absences)
    return Week(
        monday=monday,
        bays=[bay.name for bay in bays.values()],
        people=[user.full_name for user in people.values()],
        days=[
            _day(day, shown, bays, people, listed, absences)
            for day in days
            if not is_weekend(day) or any(row.is_worked_on(day) for row in shown)
        ],
        jobs=_hours(list({row.job_id: row.job for row in shown}.values()), bookings),
        unplanned=_unplanned(),
    )


def work_out_days(job: Job) -> tuple[list[Booking], list[Clash], JobHours]:
    """Return the days of one job, what clashes on them, and its hours."""
    own = _read(Booking.objects.filter(job=job))
    days = sorted({day for row in own for day in row.days})
    listed: list[Clash] = []
    if days and job.halt not in ENDED:
        # Whoever may be in the way: every booking that touches the span of this job.
        near = touching(days[0], days[-1])
        others = _read(_live().filter(near).exclude(job=job))
        minutes = Workshop.current().minutes_day
        absences = list(Absence.objects.filter(near))
        every = clashes([*own, *others], days, minutes_day=minutes, absences=absences)
        listed = [clash for clash in every if job in clash.jobs]
    return own, listed, _hours([job], own)[0]


def days_of(user: User, *, since: dt.date) -> list[Booking]:
    """What a person is planned for from a day on, what was taken out since then included."""
    return _read(_live(Booking.with_removed).filter(touching(since, dt.date.max), person=user))


def _live(bookings: Manager[Booking] = Booking.objects) -> QuerySet[Booking]:
    """Those of jobs that are there and have not come to nothing."""
    return bookings.filter(job__removed_at=None).exclude(job__halt__in=ENDED)


def _read(bookings: QuerySet[Booking]) -> list[Booking]:
    # Each job, bay and person is made once, however many days it has.
    return list(bookings.prefetch_related("job__vehicle", "bay", "person"))


def _day(
    day: dt.date,
    shown: Sequence[Booking],
    bays: dict[int, Bay],
    people: dict[int, User],
    listed: Sequence[Clash],
    absences: Sequence[Absence],
) -> Day:
    here = [row for row in shown if row.first_day <= day <= row.ends_on]
    of_day = [clash for clash in listed if clash.day == day]
    odd = {key for clash in of_day for key in clash.bookings}
    moves: list[Entry] = []
    by_bay: dict[int | None, list[Entry]] = defaultdict(list)
    by_person: dict[int | None, list[Entry]] = defaultdict(list)
    for row in here:
        entry = Entry(booking=row, clashes=row.pk in odd, planned=_hours_on(row, day))
        by_bay[row.bay_id].append(entry)
        if row.kind != Booking.Kind.WORK:
            moves.append(entry)
        if row.is_worked_on(day):
            by_person[row.person_id].append(entry)
    away: dict[int, list[Absence]] = defaultdict(list)
    for absence in absences:
        if absence.first_day <= day <= absence.ends_on:
            away[absence.person_id].append(absence)
    return Day(
        date=day,
        moves=moves,
        bays=[Cell(name=bay.name, entries=by_bay[key]) for key, bay in bays.items()],
        people=[
            Cell(name=user.full_name, entries=by_person[key], away=away[key])
            for key, user in people.items()
        ],
        clashes=of_day,
    )


def _hours_on(row: Booking, day: dt.date) -> Decimal | None:
    return hours_of(row.planned) if row.planned and row.is_worked_on(day) else None


def _hours(jobs: Sequence[Job], bookings: Iterable[Booking]) -> list[JobHours]:
    """Hold what was sold of each job against what was worked and is planned."""
    today = timezone.localdate()
    sold = _sold(jobs)
    times = WorkTime.objects.filter(job__in=jobs).values_list("job").order_by("job")
    worked = dict(times.annotate(Sum("minutes")))
    ahead: dict[int, int] = defaultdict(int)
    without: dict[int, int] = defaultdict(int)
    for row in bookings:
        if row.kind != Booking.Kind.WORK:
            continue
        days = sum(day >= today for day in row.worked_days)
        ahead[row.job_id] += days * (row.planned or 0)
        without[row.job_id] += days if row.planned is None else 0
    return [
        JobHours(
            job=job,
            sold=sold.get(job.pk),
            worked=hours_of(worked.get(job.pk) or 0),
            ahead=hours_of(ahead[job.pk]),
            without_hours=without[job.pk],
        )
        for job in sorted(jobs, key=lambda job: job.number)
    ]


def _sold(jobs: Sequence[Job]) -> dict[int, Decimal]:
    """Hours of each job that somebody said yes to; the last yes holds."""
    offers = Offer.objects.filter(job__in=jobs, accepted_at__isnull=False)
    kinds = {f"work {kind.value}" for kind in WorkKind}
    return {
        job: sum((Decimal(line["quantity"] or 0) for line in lines if line["key"] in kinds), ZERO)
        for job, lines in offers.order_by("accepted_at", "pk").values_list("job", "shown__lines")
    }


def _unplanned() -> list[Job]:
    """Jobs that are sold and of which no day is planned."""
    planned = Booking.objects.filter(kind=Booking.Kind.WORK).values("job")
    jobs = Job.objects.filter(stage__in=TO_PLAN, halt="").exclude(pk__in=planned)
    return list(jobs.select_related("vehicle").order_by("promised_on", "pk")[:MOST_UNPLANNED])
