"""The number of queries of a page does not grow with its rows."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from jobs.design.job import board_counts
from jobs.models import Job
from tests.jobs.factories import make_job, make_rows

pytestmark = pytest.mark.django_db


def _queries(client, url: str) -> int:
    with CaptureQueriesContext(connection) as seen:
        assert client.get(url).status_code == 200
    return len(seen)


PAGES = ["equipment", "channels", "power", "supply", "choose", "boxes", "panels", "job", "bay"]


# Every page reads the session, the user and the workshop; a page of a job then reads the job
# with its car and customer, each kind of row once, whatever their number, and each kind of part
# they take from the catalogue (jobs.design.records); beside a list, who removed what of it.
# Money, hours, offcuts and cabin curves are read where somebody looks at them. A table that is
# typed in reads of its choices only what the job has not read already. Beside the 61 of the job,
# five of them what hangs on its trim panels, one the corners of plans, two what moulded shapes
# were measured by: panels SELECT equipment as
# it is on the list, COUNT panels of earlier cars of the model; wiring SELECT panels for the routes,
# equipment, conductors,
# fuses; bay SELECT the cautions read today, the newest tick, earlier cars, what was measured
# before.
def test_pages_of_twenty_rows_ask_no_more_than_those_of_one(shelf, browse):
    """One row of each kind or twenty: the same queries on every page."""
    job, client = make_job(), browse("designer")
    make_rows(job, 1)
    board_counts.refresh(job)  # once, by whoever looks first
    urls = [reverse(name, args=[job.code]) for name in PAGES]
    one = {url: _queries(client, url) for url in urls}
    make_rows(job, 19)
    assert job.equipmentitems.count() == 20 * 3
    assert {url: _queries(client, url) for url in urls} == one
    assert max(one.values()) <= 65


def test_the_board_of_ten_thousand_jobs(browse):
    """The board counts the jobs and reads one page of them, however many there are."""
    client, url = browse("consultant"), reverse("board")
    car = make_job().vehicle
    few = _queries(client, url)
    Job.objects.bulk_create(
        Job(number=number, vehicle=car, title=f"invented {number}") for number in range(100, 10_100)
    )
    assert _queries(client, url) == few
    assert _queries(client, f"{url}?page=334") == few
    # SELECT session, user, workshop, whoever has jobs; SELECT COUNT(*) of jobs; SELECT 30 jobs with
    # car, customer
    assert few == 6
