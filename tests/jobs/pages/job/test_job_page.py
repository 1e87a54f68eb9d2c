"""The job page: where a job stands, who does what next, and how it goes on."""

from __future__ import annotations

import datetime as dt

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.models import Customer, Job, Payment, Stage, StageRelease
from jobs.models.base import written_day
from tests.jobs.factories import make_job
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db


def test_the_page_says_whom_to_call_and_what_each_person_does_next(hatchback, browse):
    """Customer with phone, car, stage, the box, the tree, and every task with its page."""
    page = browse("consultant").get(reverse("job", args=[hatchback.code]))
    html = page.content.decode()
    for words in ("Hanna Lind", "000 555 0100", "Hatchmaker Five", "in the bay"):
        assert words in html
    assert [words for _page, words, _svg in page.context["pictures"]] == ["Boot box", "Power tree"]
    tasks = {task.page for person in page.context["people"] for task in person.tasks}
    assert {"bay", "findings"} <= tasks
    assert all(reverse(name, args=[hatchback.code]) in html for name in tasks)


def test_money_stands_on_the_page_for_those_who_may_see_it(hatchback, browse):
    """Before a yes what it comes to and what came in; installer and designer read none."""
    url = reverse("job", args=[hatchback.code])
    Payment.objects.filter(job=hatchback.job).update(amount="417.25")
    for who in ("consultant", "manager"):
        html = browse(who).get(url).content.decode()
        assert "€417.25" in html
        assert reverse("agreement", args=[hatchback.code]) in html
    for who in ("installer", "designer"):
        page = browse(who).get(url)
        assert "€" not in page.content.decode()
        assert not page.context["account"]


def test_a_job_goes_on_through_its_gates(browse):
    """With nothing missing it moves; with something missing it says what, and stays."""
    job = make_job(stage=Stage.ENQUIRY, wishes="")
    client, url = browse("designer"), reverse("stage", args=[job.code])
    assert browse("stranger").post(url, {"to": "brief"}).status_code == 404
    assert browse("installer").post(url, {"to": "brief"}).status_code == 403
    assert client.get(url).status_code == 405
    assert client.post(url, {"to": "the moon"}).status_code == 404
    assert client.post(url, {"to": "brief", "from": "enquiry"}).status_code == 302
    answer = client.post(url, {"to": "agreed"})
    assert answer.status_code == 409
    assert "What the customer wants is not written down." in answer.content.decode()
    assert client.post(url, {"to": "agreed", "reason": "They are in a hurry."}).status_code == 403
    job.refresh_from_db()
    assert job.stage == Stage.BRIEF
    told = client.post(url, {"to": "spec", "from": "enquiry"}, follow=True)
    assert "Somebody moved this job meanwhile" in told.content.decode()


def test_the_manager_lets_a_job_go_on_with_a_reason(browse):
    """Without one it is asked for beside the field; with one it is kept by name and moves."""
    job = make_job(stage=Stage.BRIEF, wishes="")
    client, url = browse("manager"), reverse("stage", args=[job.code])
    answer = client.post(url, {"to": "spec", "reason": "x" * 300})
    assert answer.status_code == 422
    assert "x" * 300 in answer.content.decode()
    assert 'id="reason_error"' in answer.content.decode()
    client.post(url, {"to": "spec", "reason": "Told on the telephone."})
    job.refresh_from_db()
    assert job.stage == Stage.SPEC
    word = StageRelease.objects.get()
    assert (word.stage, word.left_open["keys"]) == (Stage.SPEC, ["no wishes"])


def test_a_job_rests_with_a_reason_and_a_day(browse):
    """On hold wants both; a job that goes on again keeps neither."""
    job = make_job()
    look_again = timezone.localdate() + dt.timedelta(days=25)
    client, url = browse("consultant"), reverse("halt", args=[job.code])
    sent = typed(client.get(url).context["form"]) | {"halt": "on_hold", "halt_why": "Ill."}
    answer = client.post(url, sent)
    assert answer.status_code == 422
    assert 'id="id_look_again_on_error"' in answer.content.decode()
    assert client.post(url, sent | {"look_again_on": look_again.isoformat()}).status_code == 302
    page = browse("installer").get(reverse("job", args=[job.code])).content.decode()
    assert "on hold" in page
    assert written_day(look_again) in page
    assert client.post(reverse("stage", args=[job.code]), {"to": "agreed"}).status_code == 409
    again = typed(client.get(url).context["form"]) | {"halt": ""}
    client.post(url, again)
    job.refresh_from_db()
    assert (job.halt, job.halt_why, job.look_again_on) == ("", "", None)


def test_a_job_gets_another_customer(hatchback, browse):
    """The earlier visit of a car stays with who came then; two names are asked, none dropped."""
    earlier = make_job(hatchback.job.vehicle)
    client, url = browse("consultant"), reverse("customer-change", args=[hatchback.code])
    known = Customer.objects.create(name="Odd Person")
    both = client.post(url, {"known_customer": "Odd Person", "new_customer": "Somebody"})
    assert both.status_code == 422
    assert "For whom is it" in both.content.decode()
    assert not Customer.objects.filter(name="Somebody").exists()
    assert client.post(url, {"known_customer": "Odd Person"}).status_code == 302
    moved, kept = Job.objects.get(pk=hatchback.job.pk), Job.objects.get(pk=earlier.pk)
    assert moved.vehicle.customer == known
    assert kept.vehicle.customer.name == "Hanna Lind"
    assert (moved.vehicle.plate, moved.vehicle.model) == (kept.vehicle.plate, kept.vehicle.model)
    assert client.post(url, {"new_customer": "Somebody"}).status_code == 302
    moved = Job.objects.get(pk=hatchback.job.pk)
    assert moved.vehicle.customer.name == "Somebody"
    assert moved.vehicle != kept.vehicle
