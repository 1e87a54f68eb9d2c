"""What clashes in the calendar: each case alone, and what looks like it and is none."""

from __future__ import annotations

import datetime as dt

import pytest

from jobs.design.calendar.clashes import clashes
from jobs.design.calendar.week import work_out_days, work_out_week
from jobs.models import Absence, Bay, Booking, WorkTime
from tests.jobs.factories import make_job
from tests.jobs.offers import make_offer
from tests.jobs.week import MONDAY

pytestmark = pytest.mark.django_db
TUESDAY, SATURDAY = MONDAY + dt.timedelta(days=1), MONDAY + dt.timedelta(days=5)


@pytest.fixture
def plan(cast):
    """Plans work on Monday for one of two jobs; `where` and `who` are short for bay and person."""
    jobs = [make_job(), make_job()]
    bays = [Bay.objects.create(name=name) for name in ("Lift", "Yard")]

    def plan(job=0, *, where=None, who="", hours=None, **more):
        if hours:
            more |= {"from_time": dt.time(hours[0]), "to_time": dt.time(hours[1])}
        return Booking.objects.create(
            job=jobs[job], bay=None if where is None else bays[where],
            person=getattr(cast, who) if who else None, **({"first_day": MONDAY} | more),
        )  # fmt: skip

    plan.jobs = jobs
    return plan


def _codes(day=MONDAY, minutes=480):
    bookings, absences = list(Booking.objects.all()), list(Absence.objects.all())
    listed = clashes(bookings, [day], minutes_day=minutes, absences=absences)
    return [clash.code for clash in listed]


def test_two_cars_in_one_bay(plan):
    """All day unless they say hours that leave room; the same car twice in it is no clash."""
    plan(0, where=0)
    plan(0, where=0, who="designer", minutes=60)
    assert _codes() == []
    late = plan(1, where=0, hours=(13, 17))
    assert _codes() == ["bay-twice"]
    Booking.objects.exclude(pk=late.pk).update(from_time=dt.time(8), to_time=dt.time(13))
    assert _codes() == []
    plan(0, where=1, hours=(9, 10))
    assert _codes() == ["car-twice"]


def test_two_jobs_of_one_car(plan):
    """They share a bay without a clash, and cannot stand in two."""
    for job in plan.jobs[1:]:
        job.vehicle = plan.jobs[0].vehicle
        job.save()
    plan(0, where=0)
    other = plan(1, where=0)
    assert _codes() == []
    Booking.objects.filter(pk=other.pk).update(bay=Bay.objects.get(name="Yard"))
    assert _codes() == ["car-twice"]


def test_whoever_is_away_cannot_be_planned(plan, cast):
    """All day: nothing; from time to time: what is fixed then; the rest of the day is shorter."""
    row = plan(0, who="installer", minutes=240)
    away = Absence.objects.create(person=cast.installer, first_day=TUESDAY)
    assert _codes() == []
    Absence.objects.update(first_day=MONDAY - dt.timedelta(days=3), last_day=MONDAY)
    assert _codes() == ["person-away"]
    Absence.objects.update(from_time=dt.time(13), to_time=dt.time(17))
    assert _codes() == []  # 4 h of 8 are left
    assert _codes(minutes=479) == ["overload-away"]
    Booking.objects.update(minutes=None, from_time=dt.time(12), to_time=dt.time(14))
    assert _codes() == ["person-away"]
    Booking.objects.update(kind="arrival", to_time=None)
    assert _codes() == []
    Booking.objects.update(from_time=dt.time(16, 59))
    assert _codes() == ["person-away"]
    assert work_out_days(row.job)[1][0].code == "person-away"
    away.remove()
    assert _codes() == []
    assert work_out_days(row.job)[1] == []


def test_what_came_to_nothing_clashes_with_nothing(plan):
    """The days of a job that was cancelled are in nobody's way, and nobody is in theirs."""
    plan(0, where=0)
    plan(1, where=0)
    assert work_out_days(plan.jobs[0])[1]
    plan.jobs[0].halt = "cancelled"
    plan.jobs[0].save()
    assert work_out_days(plan.jobs[0])[1] == work_out_days(plan.jobs[1])[1] == []


def test_a_car_keeps_its_bay_over_the_weekend_and_nobody_works(plan):
    """From Monday to the Monday after: on Saturday the bay is taken, and no hours are counted."""
    stay = plan(0, where=0, who="installer", minutes=600, last_day=MONDAY + dt.timedelta(days=7))
    assert _codes() == ["overload"]
    assert _codes(SATURDAY) == []
    plan(1, where=0, first_day=SATURDAY, weekends=True)
    assert _codes(SATURDAY) == ["bay-twice"]
    assert len(stay.worked_days) == 6


def test_one_person_in_two_places(plan):
    """At the same hours, or where nobody said how long; hours without a time leave room."""
    plan(0, who="installer", hours=(8, 12))
    other = plan(1, who="installer", minutes=180)
    assert _codes() == []
    Booking.objects.filter(pk=other.pk).update(minutes=None)
    assert _codes() == ["person-twice"]
    Booking.objects.filter(pk=other.pk).update(from_time=dt.time(12), to_time=dt.time(15))
    assert _codes() == []
    Booking.objects.filter(pk=other.pk).update(from_time=dt.time(11))
    assert _codes() == ["person-twice"]


def test_a_day_that_is_too_long(plan, cast):
    """More minutes than a day has, over all jobs; who has left cannot be planned at all."""
    plan(0, who="installer", minutes=300)
    plan(1, who="installer", minutes=180)
    assert _codes() == []
    assert _codes(minutes=479) == ["overload"]
    (clash,) = clashes(list(Booking.objects.all()), [MONDAY], minutes_day=450)
    assert "8 h; a day has 7.5 h" in clash.says
    cast.installer.is_active = False
    cast.installer.save()
    assert _codes() == ["person-gone"]


def test_a_car_that_is_not_there(plan):
    """Worked on in a bay before it comes or after it left; wood is cut without it."""
    plan(0)
    plan(0, kind="arrival", first_day=TUESDAY)
    assert _codes() == []
    plan(0, where=0)
    assert _codes() == ["not-here-yet"]
    Booking.objects.filter(kind="arrival").update(
        kind="pick_up", first_day=MONDAY - dt.timedelta(1)
    )
    assert _codes() == ["gone-already"]
    plan.jobs[0].promised_on = MONDAY - dt.timedelta(days=2)
    plan.jobs[0].save()
    assert _codes(MONDAY - dt.timedelta(1)) == ["late"]


def test_the_days_of_a_job_know_who_is_in_the_way(plan):
    """What another job does in the same bay is said; what two others do to each other is not."""
    plan(0, first_day=TUESDAY, where=0)
    plan(1, where=0, last_day=TUESDAY)
    own, listed, _hours = work_out_days(plan.jobs[0])
    assert [row.job_id for row in own] == [plan.jobs[0].pk]
    assert [(clash.code, clash.day) for clash in listed] == [("bay-twice", TUESDAY)]
    other = make_job()
    Booking.objects.update(job=other)
    assert work_out_days(plan.jobs[0])[:2] == ([], [])


def test_hours_sold_against_worked_and_planned(plan, cast):
    """Sold with the last yes, less what was worked and what is to come; nothing sold is unknown."""
    job, day = plan.jobs[0], dt.date(2099, 3, 2)  # a Monday that is still to come
    plan(0, first_day=day, last_day=day + dt.timedelta(days=1), minutes=90)
    plan(0, first_day=day)
    plan(0, first_day=dt.date(2020, 3, 2), minutes=600)
    WorkTime.objects.create(job=job, minutes=30)
    hours = work_out_days(job)[2]
    assert (hours.sold, hours.short, hours.without_hours) == (None, None, 1)
    for minutes, quantity in ((1, "3"), (2, "7.5")):
        offer = make_offer(
            job, cast.manager, accepted_at=dt.datetime(2027, 1, minutes, tzinfo=dt.UTC)
        )
        offer.shown["lines"][0] |= {"key": "work wiring", "quantity": quantity}
        offer.save()
    hours = work_out_days(job)[2]
    assert [float(part) for part in (hours.sold, hours.worked, hours.ahead, hours.short)] == [
        7.5, 0.5, 3, 4]  # fmt: skip
    week = work_out_week(day)
    assert [row.job for row in week.jobs] == [job]
    assert week.jobs[0].short == hours.short
