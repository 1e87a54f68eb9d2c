"""The board by person, day and what is open; customers and cars as lists; what is searched for."""

from __future__ import annotations

import datetime as dt

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.models import Customer, Job, Panel, Stage, Vehicle
from tests.jobs.factories import make_car, make_job

pytestmark = pytest.mark.django_db
BOARD = reverse("board")


def _listed(client, **asked: str) -> set[str]:
    answer = client.get(BOARD, asked)
    assert answer.status_code == 200
    return {job.code for job in answer.context["page"]}


def _job(**figures) -> Job:
    job = make_job()
    Job.objects.filter(pk=job.pk).update(**figures)
    return job


@pytest.fixture
def jobs(cast):
    """One job for each thing the board tells apart."""
    day = timezone.localdate()
    names = {
        "late": {"promised_on": day - dt.timedelta(days=1), "stage": Stage.PARTS},
        "gone": {"promised_on": day - dt.timedelta(days=1), "stage": Stage.HANDED_OVER},
        "soon": {"promised_on": day + dt.timedelta(days=7), "consultant": cast.consultant},
        "later": {"promised_on": day + dt.timedelta(days=20), "open_stops": 0, "open_looks": 2},
        "stopped": {"open_stops": 1, "open_looks": 0},
        "calm": {"open_stops": 0, "open_looks": 0, "stage": Stage.BAY},
        "waits": {"halt": Job.Halt.ON_HOLD, "open_stops": 0, "open_looks": 0},
        "lost": {"halt": Job.Halt.LOST},
    }
    return {name: _job(**figures).code for name, figures in names.items()}


@pytest.mark.parametrize(
    ("asked", "names"),
    [
        ({}, "late gone soon later stopped calm waits"),
        ({"promised": "late"}, "late"),
        ({"promised": "week"}, "soon"),
        ({"promised": "month"}, "soon later"),
        ({"promised": "never"}, "stopped calm waits"),
        ({"open": "nothing"}, "calm waits"),
        ({"halt": "going", "open": "nothing"}, "calm"),
        ({"halt": "lost"}, "lost"),
        ({"halt": "on_hold"}, "waits"),
        ({"halt": "all", "promised": "never"}, "stopped calm waits lost"),
        ({"stage": "bay"}, "calm"),
        ({"stage": "the moon", "promised": "yesterday", "who": "x"}, None),
    ],
)
def test_the_board_is_narrowed(jobs, browse, asked, names):
    """By day, by what is open, by stage; lost ones stand aside, and nonsense narrows nothing."""
    wanted = (names or "late gone soon later stopped calm waits").split()
    assert _listed(browse("consultant"), **asked) == {jobs[name] for name in wanted}


def test_the_board_by_person_and_what_is_being_counted(jobs, browse, cast):
    """One consultant's jobs; a job whose count is being renewed may have a stop."""
    client = browse("installer")
    assert _listed(client, who=str(cast.consultant.pk)) == {jobs["soon"]}
    stopped = _listed(client, open="stop")
    assert jobs["stopped"] in stopped
    assert {jobs["calm"], jobs["later"]}.isdisjoint(stopped)
    assert jobs["late"] in stopped  # never counted yet
    assert jobs["later"] in _listed(client, open="look")
    page = client.get(BOARD, {"by": "promised"}).context["page"]
    days = [job.promised_on for job in page if job.promised_on]
    assert days == sorted(days)
    assert [job.promised_on for job in page][: len(days)] == days


def test_customers_are_a_list(hatchback, browse):
    """By name, with phone, cars and visits; one who was erased is not among them."""
    url = reverse("customer-list")
    gone = Customer.objects.create(name="Quenby Erased", erased_at=timezone.now())
    client, customer = browse("installer"), hatchback.job.vehicle.customer
    html = client.get(url).content.decode()
    assert customer.name in html
    assert customer.phone in html
    assert hatchback.code in html
    assert gone.name not in html
    assert customer.name in client.get(url, {"q": customer.name[:4]}).content.decode()
    assert customer.name not in client.get(url, {"q": "zebra"}).content.decode()
    assert browse("stranger").get(url).status_code == 404
    assert client.post(url).status_code == 405


def test_cars_are_a_list(hatchback, browse):
    """The last that was here first, by plate with or without blanks; it comes again by one link."""
    url, car = reverse("car-list"), hatchback.job.vehicle
    Vehicle.objects.filter(pk=car.pk).update(plate="QX 55-1 R")
    car.refresh_from_db()
    car.save()
    again = make_job(car)
    client = browse("consultant")
    page = client.get(url, {"q": "qx551r"}).context["page"]
    assert [(row.pk, [job.code for job in row.visits]) for row in page] == [
        (car.pk, [again.code, hatchback.code])
    ]
    html = client.get(url).content.decode()
    assert f"{reverse('new-job')}?like={again.code}&amp;same=1" in html
    assert "same=1" not in browse("installer").get(url).content.decode()
    assert browse("stranger").get(url).status_code == 404
    assert client.post(url).status_code == 405


@pytest.mark.parametrize("rows", [1, 20])
def test_the_lists_ask_as_often_for_twenty(browse, rows, django_assert_max_num_queries):
    """However many are listed, the tables are asked as often."""
    for n in range(rows):
        make_job(make_car(customer=Customer.objects.create(name=f"Customer {n}")))
    client = browse("consultant")
    for name, most in (("customer-list", 7), ("car-list", 6)):
        with django_assert_max_num_queries(most):
            client.get(reverse(name))


@pytest.mark.parametrize("typed", ["QX551R", "qx 551 r", "QX5 51R", "551r"])
def test_a_plate_is_found_however_its_blanks_stand(hatchback, browse, typed):
    """With those of its papers, with others, with none."""
    car = hatchback.job.vehicle
    car.plate = "QX 55-1 R"
    car.save()
    jobs = browse("installer").get(reverse("search"), {"q": typed}).context["jobs"]
    assert [job.code for job in jobs] == [hatchback.code]


def test_a_part_is_found_with_the_jobs_it_is_in(hatchback, browse):
    """By its name, whatever is written beside it; a phone number finds its customer."""
    client, item = browse("installer"), hatchback.sub
    answer = client.get(reverse("search"), {"q": item.part.name})
    assert item in answer.context["items"]
    assert reverse("item-edit", args=[hatchback.code, item.pk]) in answer.content.decode()
    phone = hatchback.job.vehicle.customer.phone.replace(" ", "")
    assert client.get(reverse("search"), {"q": phone}).context["customers"]


@pytest.mark.parametrize("kind", ["box", "step", "ground point", "join"])
def test_what_stands_in_a_job_is_found(hatchback, browse, kind):
    """A box, a step, a ground point and a pin of the loom, each with its job."""
    text = {
        "box": hatchback.box.name,
        "step": hatchback.job.panelsteps.first().text,
        "ground point": hatchback.ground_bar.name,
        "join": hatchback.join.connector,
    }[kind]
    places = browse("installer").get(reverse("search"), {"q": text}).context["places"]
    assert hatchback.job in [place["row"].job for place in places]
    assert not Panel.objects.filter(name=text).exists()
