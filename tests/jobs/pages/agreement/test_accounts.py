"""The table for whoever keeps the books: every yes, every payment, no formula."""

from __future__ import annotations

import csv
import io
from datetime import date
from decimal import Decimal

import pytest
from django.urls import reverse

from jobs.acceptance import accept
from jobs.models import Customer, Payment
from tests.jobs.factories import make_car, make_job
from tests.jobs.offers import make_offer

pytestmark = pytest.mark.django_db
DRAWN = [[0, 0, 900, 0]]


def _table(client, **asked):
    answer = client.get(reverse("accounts"), asked | {"csv": "1"})
    assert answer.status_code == 200
    return list(csv.DictReader(io.StringIO(answer.content.decode("utf-8-sig"))))


def test_agreed_and_paid_stand_by_day(cast, browse):
    """An addition counts with what it adds, so that the column sums to what is owed."""
    job = make_job()
    first = make_offer(job, cast.manager, net="1000")
    accept(first, "Leo Fern", DRAWN)
    first.refresh_from_db()
    accept(make_offer(job, cast.manager, net="1200", basis=first, addition=1), "Leo Fern", DRAWN)
    Payment.objects.create(job=job, amount=Decimal(300), received_on=date(2026, 1, 5), note="7")
    rows = _table(browse("consultant"), begin="2026-01-01", end="2099-01-01")
    assert [(row["what"], Decimal(row["amount"])) for row in rows] == [
        ("deposit", 300), ("agreed", 1000), ("addition", 200)]  # fmt: skip
    assert rows[1]["document"] == first.number
    assert _table(browse("manager"), begin="2025-01-01", end="2025-12-31") == []


def test_no_cell_is_taken_for_a_formula(cast, browse):
    """A name or a note that begins like one is a text; an amount that went back is a figure.

    Source: OWASP, CSV Injection
    """
    car = make_car(customer=Customer.objects.create(name='=HYPERLINK("x")'))
    Payment.objects.create(job=make_job(car), kind="back", amount=5, note="@cmd",
                           received_on=date(2026, 1, 5))  # fmt: skip
    # A single day is a span too.
    (row,) = _table(browse("manager"), begin="2026-01-05", end="2026-01-05")
    assert row["customer"] == '\'=HYPERLINK("x")'
    assert row["document"] == "'@cmd"
    assert Decimal(row["amount"]) == -5


def test_days_that_cannot_be_are_said(browse):
    """The last before the first, or no day at all, keeps what was typed."""
    client, url = browse("manager"), reverse("accounts")
    turned = client.get(url, {"begin": "2026-02-01", "end": "2026-01-01"})
    assert turned.status_code == 422
    assert "before the first" in turned.content.decode()
    assert client.get(url, {"begin": "bananas"}).status_code == 422
    assert browse("designer").get(url).status_code == 403
    assert browse("stranger").get(url).status_code == 404
