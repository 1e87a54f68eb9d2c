"""The calendar: a week at a glance, the days of a job, the bays, the address of one's own days."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from jobs.models import Absence, Bay, Booking, Stage
from tests.jobs.factories import make_job
from tests.jobs.week import MONDAY, fill_week, to_come

pytestmark = pytest.mark.django_db
WORK = {"kind": "work", "first_day": str(to_come())}
SATURDAY = str(to_come(5))


def test_a_week_shows_who_and_what_is_where(cast, browse):
    """Bays, people, what comes and goes, what clashes, hours, and what has no day yet."""
    fill_week(cast.manager, jobs=6, people=2, bays=2)
    waits = make_job(stage=Stage.AGREED)
    client, url = browse("installer"), reverse("calendar")
    html = client.get(url, {"day": "2027-03-04"}).content.decode()
    for part in ("Week 9", "P1", "the car comes", 'data-code="bay-twice"', "2 h", waits.code):
        assert part in html, part
    assert "Bay" in html
    assert "Sat" not in html  # nobody works then
    for odd in ("", "soon", "0001-01-01", "2027-02-30", "9999-12-31"):
        assert client.get(url, {"day": odd}).status_code == 200, odd


def test_fifty_jobs_ask_no_more_than_one(cast, browse):
    """The same queries whatever is planned."""
    client, url = browse("designer"), f"{reverse('calendar')}?day={MONDAY}"

    def queries() -> int:
        with CaptureQueriesContext(connection) as seen:
            assert client.get(url).status_code == 200
        return len(seen)

    fill_week(cast.manager, jobs=1, people=1, bays=1)
    few = queries()
    fill_week(cast.manager, jobs=49, people=5)
    assert queries() == few


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"last_day": str(to_come(-1))}, "last_day"),
        ({"last_day": str(to_come(100))}, "last_day"),
        ({"first_day": "2020-03-02"}, "first_day"),
        ({"first_day": SATURDAY}, "weekends"),
        ({"to_time": "12:00"}, "from_time"),
        ({"from_time": "12:00", "to_time": "12:00"}, "to_time"),
        ({"from_time": "12:00", "to_time": "13:00", "minutes": "61"}, "minutes"),
        ({"minutes": "1441"}, "minutes"),
    ],
)
def test_what_cannot_be_a_day_is_said_beside_its_field(browse, typed, field):
    """Days and times out of order, a weekend by mistake, more minutes than there are."""
    job = make_job()
    answer = browse("designer").post(reverse("booking-add", args=[job.code]), WORK | typed)
    assert answer.status_code == 422
    assert f'id="id_{field}_error"' in answer.content.decode()
    assert not Booking.objects.exists()


def test_what_a_car_that_comes_has_not_is_not_kept(browse):
    """Days, bay and minutes of work are dropped where the car only comes, even unreadable ones."""
    job, bay = make_job(), Bay.objects.create(name="Lift")
    typed = {"kind": "arrival", "first_day": SATURDAY, "from_time": "09:30", "bay": bay.pk,
             "last_day": "soon", "minutes": "12 bananas"}  # fmt: skip
    client = browse("consultant")
    assert client.post(reverse("booking-add", args=[job.code]), typed).status_code == 302
    row = Booking.objects.get()
    assert (row.bay, row.last_day, row.minutes, str(row.from_time)) == (
        None,
        None,
        None,
        "09:30:00",
    )
    html = client.get(reverse("days", args=[job.code])).content.decode()
    assert "The car comes, " in html
    assert (
        "booking-edit"
        not in browse("installer").get(reverse("days", args=[job.code])).content.decode()
    )


def test_bays_have_a_name_each(browse):
    """The manager names them; none twice; one that is removed keeps what is planned in it."""
    client, url = browse("manager"), reverse("bays")
    assert client.post(url, {"name": " Lift  1 "}).status_code == 302
    bay = Bay.objects.get()
    assert bay.name == "Lift 1"
    assert client.post(url, {"name": "lift 1"}).status_code == 422
    Booking.objects.create(job=make_job(), first_day=MONDAY, bay=bay)
    client.post(reverse("bay-remove", args=[bay.pk]))
    assert "Lift 1" in client.get(f"{reverse('calendar')}?day={MONDAY}").content.decode()
    client.post(reverse("bay-restore", args=[bay.pk]))
    assert Bay.objects.get() == bay


def test_a_name_of_a_bay_is_not_brought_back_twice(browse):
    """Where another bay has the name by now, the removed one stays removed, and that is said."""
    old = Bay.objects.create(name="Lift")
    old.remove()
    Bay.objects.create(name="lift")
    answer = browse("manager").post(reverse("bay-restore", args=[old.pk]), follow=True)
    assert "There is a bay of this name already." in answer.content.decode()
    assert Bay.objects.count() == 1


def test_a_day_keeps_the_bay_that_was_taken_out(browse):
    """Its form still offers that bay: to change a note does not move the car."""
    bay, job = Bay.objects.create(name="Lift"), make_job()
    row = Booking.objects.create(job=job, first_day=to_come(), bay=bay)
    bay.remove()
    client, url = browse("designer"), reverse("booking-edit", args=[job.code, row.pk])
    typed = WORK | {"bay": bay.pk, "note": "mind the ramp", "version": row.version}
    assert client.post(url, typed).status_code == 302
    row.refresh_from_db()
    assert (row.bay, row.note) == (bay, "mind the ramp")
    assert "Lift" not in client.get(reverse("booking-add", args=[job.code])).content.decode()


def test_everybody_enters_their_own_days_away(cast, browse):
    """Nobody but the manager enters another's, and the week does not say why."""
    url, day = reverse("absences"), str(to_come())
    client = browse("installer")
    typed = {"kind": "sick", "first_day": day, "person": cast.designer.pk}
    assert client.post(url, typed).status_code == 302
    row = Absence.objects.get()
    assert row.person == cast.installer
    week = browse("designer").get(reverse("calendar"), {"day": day}).content.decode()
    assert "is-away" in week
    assert "sick" not in week
    assert row.days_in_words not in browse("designer").get(url).content.decode()
    assert row.days_in_words in browse("manager").get(url).content.decode()
    assert client.post(reverse("absence-remove", args=[row.pk])).status_code == 302
    assert not Absence.objects.exists()
    assert browse("manager").post(url, typed).status_code == 302
    assert Absence.objects.get().person == cast.designer


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"first_day": "soon"}, "first_day"),
        ({"last_day": str(to_come(-1))}, "last_day"),
        ({"last_day": str(to_come(400))}, "last_day"),
        ({"from_time": "12:00"}, "to_time"),
        ({"from_time": "12:00", "to_time": "11:00"}, "to_time"),
    ],
)
def test_what_cannot_be_an_absence_is_said_beside_its_field(browse, typed, field):
    """Days and times out of order or half said; what was typed stays."""
    sent = {"kind": "holiday", "first_day": str(to_come())} | typed
    html = browse("installer").post(reverse("absences"), sent)
    assert html.status_code == 422
    assert f'id="id_{field}_error"' in html.content.decode()
    assert f'value="{next(iter(typed.values()))}"' in html.content.decode()
    assert not Absence.objects.exists()


def test_the_address_of_ones_days_is_ones_own(cast, browse):
    """Made, made anew, withdrawn; nobody else sees it."""
    client, url = browse("installer"), reverse("calendar")
    assert "days.ics" not in client.get(url).content.decode()
    seen = []
    for _turn in range(2):
        client.post(reverse("calendar-feed-renew"))
        cast.installer.refresh_from_db()
        seen.append(cast.installer.calendar_token)
        assert f"/c/{seen[-1]}/days.ics" in client.get(url).content.decode()
    assert len({*seen}) == 2
    assert "days.ics" not in browse("manager").get(url).content.decode()
    client.post(reverse("calendar-feed-withdraw"))
    cast.installer.refresh_from_db()
    assert cast.installer.calendar_token is None
