"""A week full of work, people away and cars in two places, as let stand."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

import pytest

from jobs.design.calendar.week import Week, work_out_week
from jobs.models import Absence, Bay, Booking, Job, Stage, User
from tests.approval import hold
from tests.jobs.factories import make_job
from tests.jobs.week import MONDAY, fill_week
from tests.told import row

pytestmark = pytest.mark.django_db


def _told(week: Week, names: dict[int, str]) -> Iterator[str]:
    yield row("week", week.monday.isoformat(), week.bays, week.people)
    for day in week.days:
        yield day.date.isoformat()
        for title, cells in (("bay", day.bays), ("person", day.people)):
            for cell in cells:
                entries = [
                    [names[e.booking.job_id], e.booking.kind, e.clashes, str(e.planned)]
                    for e in cell.entries
                ]
                yield "  " + row(title, cell.name, entries, [str(a.from_time) for a in cell.away])
        for move in day.moves:
            yield "  " + row("move", names[move.booking.job_id], move.booking.kind, move.clashes)
        for clash in day.clashes:
            jobs = [names[job.pk] for job in clash.jobs]
            other = clash.other and clash.other.isoformat()
            yield "  " + row(clash.code, clash.where, jobs, clash.planned, clash.limit, other)
    for hours in week.jobs:
        told = [str(hours.sold), str(hours.worked), hours.without_hours]
        yield row("hours", names[hours.job.pk], told)
    yield row("no day yet", [names[job.pk] for job in week.unplanned])


def test_a_week_is_what_was_let_stand(cast):
    """Bays and people day by day, moves, clashes, hours sold and worked, what has no day."""
    fill_week(cast.manager, jobs=6, people=3, bays=2)
    make_job(stage=Stage.AGREED)
    people = [*User.objects.filter(first_name__startswith="P").order_by("first_name")]
    jobs = [*Job.objects.order_by("number")]
    day = MONDAY + dt.timedelta(days=1)
    Absence.objects.create(person=people[0], first_day=day)
    Absence.objects.create(person=people[1], first_day=day, last_day=day + dt.timedelta(days=2),
        from_time=dt.time(8), to_time=dt.time(12))  # fmt: skip
    plain = {"job": jobs[0], "first_day": day, "person": people[2]}
    Booking.objects.create(**plain, bay=Bay.objects.order_by("name")[1], minutes=400)
    Booking.objects.create(**plain, from_time=dt.time(9), to_time=dt.time(11))
    Booking.objects.create(
        job=jobs[1],
        first_day=MONDAY + dt.timedelta(days=4),
        last_day=MONDAY + dt.timedelta(days=6),
        weekends=True,
        bay=Bay.objects.order_by("name")[0],
        person=people[0],
    )
    names = {job.pk: f"job {number}" for number, job in enumerate(jobs)}
    hold("calendar/week", _told(work_out_week(MONDAY), names))
    hold("calendar/next week", _told(work_out_week(MONDAY + dt.timedelta(days=7)), names))
