"""The manager's page: what is in the bay, late or waiting today, and who did what."""

from __future__ import annotations

import datetime as dt

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.models import Job, Stage
from tests.jobs.factories import make_job

pytestmark = pytest.mark.django_db
TODAY = reverse("today")


def _lists(client) -> dict[str, dict[str, str]]:
    lists = client.get(TODAY).context["lists"]
    return {row.title: {line.job.code: line.says for line in row.lines} for row in lists}


def test_only_the_manager_looks_at_the_whole_workshop(browse):
    """A stranger finds nothing, the others are refused, and it is only read."""
    assert browse("stranger").get(TODAY).status_code == 404
    assert browse("consultant").get(TODAY).status_code == 403
    assert browse("installer").get(TODAY).status_code == 403
    assert browse("manager").post(TODAY).status_code == 405


def test_each_job_stands_where_it_waits(hatchback, browse):
    """In the bay, late, promised soon, for parts, for the customer, with a stop."""
    day = timezone.localdate()
    jobs = {name: make_job() for name in ("late", "soon", "hold", "spec", "stop", "gone")}
    figures = {
        "late": {"promised_on": day - dt.timedelta(days=2), "stage": Stage.PARTS},
        "soon": {"promised_on": day + dt.timedelta(days=7)},
        "hold": {
            "halt": Job.Halt.ON_HOLD,
            "halt_why": "Sells the house first.",
            "look_again_on": day,
            "promised_on": day - dt.timedelta(days=9),
        },
        "spec": {"stage": Stage.SPEC},
        "stop": {"open_stops": 2, "stage": Stage.AGREED},
        "gone": {"stage": Stage.HANDED_OVER, "promised_on": day - dt.timedelta(days=9)},
    }
    for name, job in jobs.items():
        Job.objects.filter(pk=job.pk).update(**figures[name])
    hatchback.job.equipmentitems.filter(pk=hatchback.sub.pk).update(state="ordered")
    lists = _lists(browse("manager"))
    assert hatchback.code in lists["In the bay"]
    assert lists["Late"] == {jobs["late"].code: "2 days late, parts"}
    assert set(lists["Promised within a week"]) >= {jobs["soon"].code}
    assert str(hatchback.sub.part) in lists["Waiting for parts"][hatchback.code]
    waiting = lists["Waiting for the customer"]
    assert waiting[jobs["hold"].code] == "Sells the house first. · look again today"
    assert jobs["spec"].code in waiting
    assert lists["With an open stop"][jobs["stop"].code] == "2 stops"
    assert all(jobs["gone"].code not in lines for lines in lists.values())


def test_who_did_what_is_counted_by_person_and_job(hatchback, browse, cast):
    """What was written today counts, yesterday's does not, and a removed job is not named."""
    client = browse("installer")
    step = hatchback.job.panelsteps.filter(done_at=None).first()
    client.post(reverse("tick", args=[hatchback.code, step.pk]), {"done": "1"})
    people = dict(browse("manager").get(TODAY).context["people"])
    assert people[cast.installer.full_name] == [(hatchback.code, 1)]
    yesterday = timezone.now() - dt.timedelta(days=1)
    type(step).history.filter(history_user=cast.installer).update(history_date=yesterday)
    people = dict(browse("manager").get(TODAY).context["people"])
    assert cast.installer.full_name not in people


@pytest.mark.parametrize("rows", [1, 25])
def test_it_asks_as_often_for_twenty_five(browse, rows, django_assert_max_num_queries):
    """However many jobs wait, the tables are asked as often; what is left out is counted."""
    for _n in range(rows):
        job = make_job()
        Job.objects.filter(pk=job.pk).update(stage=Stage.SPEC)
    client = browse("manager")
    with django_assert_max_num_queries(16):
        answer = client.get(TODAY)
    waiting = next(
        row for row in answer.context["lists"] if row.title == "Waiting for the customer"
    )
    assert len(waiting.lines) + waiting.more == rows
