"""The customer's card: cars, visits, and what was said, written and agreed, in its order."""

from __future__ import annotations

import datetime as dt

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from jobs.acceptance import accept
from jobs.models import Conversation, Job, Message
from tests.jobs.factories import make_job
from tests.jobs.offers import make_offer

pytestmark = pytest.mark.django_db


@pytest.fixture
def job(cast) -> Job:
    """A job of a customer who came twice, in one car."""
    job = make_job()
    make_job(vehicle=job.vehicle, title="The visit before")
    return job


def _card(browse, job, who="installer"):
    return browse(who).get(reverse("customer", args=[job.code])).content.decode()


def test_whoever_spoke_writes_it_down_and_every_visit_shows_it(job, browse, cast):
    """By day, with who wrote it down; of both visits on one card."""
    other = Job.objects.exclude(pk=job.pk).get()
    client = browse("installer")
    sent = {"held_on": "2026-11-20", "way": "phone", "text": "No hole in\nthe dash."}
    assert client.post(reverse("conversation-add", args=[other.code]), sent).status_code == 302
    Conversation.objects.create(job=job, held_on=dt.date(2026, 11, 3), way="here", text="Loud.")
    html = _card(browse, job)
    assert "No hole in<br>the dash." in html
    assert cast.installer.full_name in html
    assert "The visit before" in html
    assert reverse("customer", args=[other.code]) in client.get("/search/?q=dash").content.decode()
    assert html.index("by telephone</a>") < html.index("face to face</a>")


def test_what_was_removed_of_another_visit_comes_back_from_the_same_card(job, browse):
    """The card lists what was said at every visit, and so what was taken out of that list."""
    other = Job.objects.exclude(pk=job.pk).get()
    said = Conversation.objects.create(
        job=other, held_on=dt.date(2026, 11, 3), way="here", text="Loud."
    )
    said.remove()
    restore = reverse("conversation-restore", args=[other.code, said.pk])
    assert f'action="{restore}"' in _card(browse, job)


def test_what_was_sent_and_agreed_stands_between(job, browse, cast):
    """An e-mail by its subject and what became of it, a yes by who gave it."""
    now = timezone.now()
    Message.objects.create(
        job=job, kind="collect", to="leo@invented.invalid", subject="It is ready", text="…",
        asked_by=cast.manager, asked_at=now, state="unsure",
    )  # fmt: skip
    offer = make_offer(job, cast.manager)
    accept(offer, "Leo Fern", [[0, 0, 900, 0]])
    html = _card(browse, job)
    for part in ("It is ready", "e-mail, perhaps sent", "Leo Fern", offer.number):
        assert part in html, part
    assert html.index(offer.number) < html.index("It is ready")  # the newest first


def test_what_is_wrong_is_said_and_what_was_typed_stays(job, browse):
    """No words, a day that is none, one that is still to come."""
    client, url = browse("consultant"), reverse("conversation-add", args=[job.code])
    for wrong in ({"text": ""}, {"held_on": "soon"}, {"held_on": "2099-01-01"}):
        sent = {"held_on": "2026-11-20", "way": "here", "text": "Bring the seat."} | wrong
        answer = client.post(url, sent)
        assert answer.status_code == 422
        assert (sent["text"] or "needed") in answer.content.decode()
    assert not Conversation.objects.exists()


def test_a_long_acquaintance_asks_no_more_of_the_database(job, browse):
    """Ten visits with ten conversations cost what two with one do."""
    Conversation.objects.create(job=job, text="one")
    client, url = browse("consultant"), reverse("customer", args=[job.code])

    def queries():
        with CaptureQueriesContext(connection) as seen:
            client.get(url)
        return len(seen)

    queries()
    before = queries()
    for n in range(8):
        Conversation.objects.create(job=make_job(vehicle=job.vehicle), text=f"{n}")
    assert queries() == before
