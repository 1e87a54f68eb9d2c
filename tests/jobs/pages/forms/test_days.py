"""Days that are hardly meant are asked about, once."""

from __future__ import annotations

import datetime as dt

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.models import Payment
from jobs.models.base import written_day
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db


def _day(days: int) -> dt.date:
    return timezone.localdate() + dt.timedelta(days=days)


@pytest.mark.parametrize("days", [-1, 4000])
def test_a_promise_that_is_over_or_years_away_is_asked_about_once(hatchback, browse, days):
    """The day stands in the sentence beside the field; sent again it is meant, another is not."""
    client, url = browse("consultant"), reverse("brief", args=[hatchback.code])
    sent = typed(client.get(url).context["form"]) | {"promised_on": _day(days).isoformat()}
    answer = client.post(url, sent)
    assert answer.status_code == 422
    assert written_day(_day(days)) in answer.context["form"].errors["promised_on"][0]
    again = typed(answer.context["form"])
    assert again["promised_on"] == sent["promised_on"]
    other = again | {"promised_on": _day(days - 1).isoformat()}
    assert client.post(url, other).status_code == 422
    assert client.post(url, again).status_code == 302
    hatchback.job.refresh_from_db()
    assert hatchback.job.promised_on == _day(days)


def test_a_promise_from_before_is_not_asked_about(hatchback, browse):
    """Whoever corrects the wishes of a job that is late says nothing about its day."""
    hatchback.job.promised_on = _day(-3)
    hatchback.job.save()
    client, url = browse("consultant"), reverse("brief", args=[hatchback.code])
    sent = typed(client.get(url).context["form"]) | {"wishes": "Loud."}
    assert client.post(url, sent).status_code == 302


def test_money_does_not_come_in_tomorrow_without_a_word(hatchback, browse):
    """A payment of a day to come is asked about; its name spells its day."""
    client, url = browse("manager"), reverse("payment-add", args=[hatchback.code])
    sent = typed(client.get(url).context["form"])
    sent |= {"amount": "30", "received_on": _day(1).isoformat()}
    assert client.post(url, sent).status_code == 422
    assert Payment.objects.filter(amount=30).count() == 0
    client.post(url, sent | {"received_on": _day(-1).isoformat()})
    assert str(Payment.objects.get(amount=30)) == f"deposit, {written_day(_day(-1))}"
