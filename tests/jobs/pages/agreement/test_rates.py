"""Rates of the workshop and of tax: the manager's page, saved once, taken back."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from django.urls import reverse

from jobs.models import TaxRate, Workshop
from tests.jobs.pages.kinds import says_beside, typed

pytestmark = pytest.mark.django_db


def test_the_manager_says_what_an_hour_costs(hatchback, browse):
    """Typed as people type money; the second of two managers is told what changed meanwhile."""
    client, url = browse("manager"), reverse("rates")
    sent = typed(client.get(url).context["form"])
    assert client.post(url, sent | {"rate_wood": "58,50", "minutes_cut": "6"}).status_code == 302
    shop = Workshop.current()
    assert (shop.rate_wood, shop.minutes_cut) == (Decimal("58.50"), 6)
    sent = typed(client.get(url).context["form"])
    assert client.post(url, sent | {"rate_wood": "60"}).status_code == 302
    assert client.post(url, sent | {"rate_wood": "70"}).status_code == 422
    assert Workshop.current().rate_wood == 60


def test_what_cannot_be_is_refused_beside_its_field(hatchback, browse):
    """A rate below zero keeps what was typed."""
    client, url = browse("manager"), reverse("rates")
    sent = typed(client.get(url).context["form"]) | {"rate_car": "-5"}
    answer = client.post(url, sent)
    assert answer.status_code == 422
    assert says_beside(answer.content.decode(), "rate_car", "-5")


def test_a_tax_rate_is_entered_taken_out_and_brought_back(hatchback, browse):
    """One of a class begins on a day; another on the same day is refused, and both forms stay."""
    client, add = browse("manager"), reverse("tax-add")
    sent = {"tax_class": "standard", "percent": "7,7", "valid_from": "2026-01-01"}
    assert client.post(add, sent).status_code == 302
    rate = TaxRate.objects.get()
    assert (rate.percent, rate.valid_from) == (Decimal("7.7"), date(2026, 1, 1))
    again = client.post(add, sent | {"percent": "8"})
    assert again.status_code == 422
    assert "already" in again.content.decode()
    assert TaxRate.objects.count() == 1
    client.post(reverse("tax-remove", args=[rate.pk]))
    assert not TaxRate.objects.exists()
    client.post(reverse("tax-restore", args=[rate.pk]))
    assert TaxRate.objects.get() == rate


def test_a_currency_is_one_of_the_list(hatchback, browse):
    """Three letters that are no currency would be printed on every offer."""
    client, url = browse("manager"), reverse("workshop")
    sent = typed(client.get(url).context["form"])
    answer = client.post(url, sent | {"currency": "XQZ"})
    assert answer.status_code == 422
    assert says_beside(answer.content.decode(), "currency", "XQZ")
    assert client.post(url, sent | {"currency": "chf"}).status_code == 302
    assert Workshop.current().currency == "CHF"
