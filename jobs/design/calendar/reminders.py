"""Whom to call: the first check some weeks after a car has left, and the end of its warranty."""

from __future__ import annotations

import datetime as dt
from calendar import monthrange
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from django.db.models import F, QuerySet

from jobs.design.calendar.week import ENDED
from jobs.design.job.after.recall import LEFT
from jobs.models import Job, ServiceVisit, Workshop

MOST = 50
# The days of months differ by as much.
MONTH_ENDS = dt.timedelta(days=3)


@dataclass(frozen=True, kw_only=True)
class Reminder:
    """A customer to call, why, and when it is due."""

    job: Job
    kind: Literal["check", "warranty"]
    day: dt.date


def reminders(first: dt.date, last: dt.date) -> list[Reminder]:
    """Return whom to call in a span of days: checks that nobody made yet, whenever they were due,
    and warranties that end within it.
    """
    shop = Workshop.current()
    due = [*_checks(shop.first_check_weeks, last), *_ends(shop.warranty_months, first, last)]
    return sorted(due, key=lambda reminder: (reminder.day, reminder.job.number))


def _left() -> QuerySet[Job]:
    gone = Job.objects.filter(stage__in=LEFT).exclude(halt__in=ENDED)
    return gone.select_related("vehicle__customer").order_by("left_on", "pk")


def _checks(weeks: int | None, last: dt.date) -> Iterator[Reminder]:
    if weeks is None:
        return
    wait = dt.timedelta(weeks=weeks)
    # A check from before the car left once more is not the one that is due.
    checked = ServiceVisit.objects.filter(
        reason=ServiceVisit.Reason.CHECK, day__gte=F("job__left_on")
    ).values("job")
    for job in _left().filter(left_on__lte=last - wait).exclude(pk__in=checked)[:MOST]:
        yield _check(job, weeks)


def _ends(months: int | None, first: dt.date, last: dt.date) -> Iterator[Reminder]:
    if months is None:
        return
    span = (months_after(first, -months) - MONTH_ENDS, months_after(last, -months) + MONTH_ENDS)
    for job in _left().filter(left_on__range=span)[:MOST]:
        end = _end(job, months)
        if first <= end.day <= last:
            yield end


def _check(job: Job, weeks: int) -> Reminder:
    assert job.left_on is not None
    return Reminder(job=job, kind="check", day=job.left_on + dt.timedelta(weeks=weeks))


def _end(job: Job, months: int) -> Reminder:
    assert job.left_on is not None
    return Reminder(job=job, kind="warranty", day=months_after(job.left_on, months))


def months_after(day: dt.date, months: int) -> dt.date:
    """Return the same day of a later or earlier month, or the last where that has fewer.

    >>> months_after(dt.date(2026, 11, 30), 3)
    datetime.date(2027, 2, 28)
    """
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return dt.date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


def first_check(job: Job, visits: Iterable[ServiceVisit]) -> ServiceVisit | None:
    """Return the first check that was made since a car left, the earliest of several."""
    checks = [visit for visit in visits if visit.reason == ServiceVisit.Reason.CHECK]
    since = [visit for visit in checks if job.left_on is not None and visit.day >= job.left_on]
    return min(since, key=lambda visit: (visit.day, visit.pk), default=None)


def of_a_job(job: Job, visits: Iterable[ServiceVisit]) -> Sequence[Reminder]:
    """Return what is still to come of one job, whenever that is."""
    shop = Workshop.current()
    if job.left_on is None:
        return ()
    due: list[Reminder] = []
    if shop.first_check_weeks is not None and first_check(job, visits) is None:
        due.append(_check(job, shop.first_check_weeks))
    if shop.warranty_months is not None:
        due.append(_end(job, shop.warranty_months))
    return due
