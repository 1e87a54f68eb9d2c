"""The words an e-mail to a customer begins with are what was let stand."""

from __future__ import annotations

import datetime as dt
import re

import pytest

from jobs.models import Booking, Customer, Workshop
from jobs.pages.agreement.messages import _begun, _fetched_on
from tests.approval import figures, hold
from tests.jobs.factories import make_job
from tests.jobs.offers import make_offer
from tests.jobs.week import to_come

pytestmark = pytest.mark.django_db

TOKEN = re.compile(r"/o/[^/\s]+/")
DAY = re.compile(r"\b\d{1,2}(?: [A-Z][a-z]+ |\.\d\d\.)20[23]\d\b")


def _words(job, offer=None) -> dict[str, str]:
    begun = _begun(job, offer)
    steady = {name: DAY.sub("DAY", TOKEN.sub("/o/#/", text)) for name, text in begun.items()}
    return {name: " / ".join(text.splitlines()) for name, text in steady.items()}


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_message_begins_as_was_let_stand(language, cast):
    """An offer, an addition, a car that can be fetched, on a planned day or not."""
    shop, job = Workshop.current(), make_job(number=417)
    shop.name, shop.address, shop.phone = "The Shop", "1 Lane\n12345 Town", "000 555 0199"
    shop.web_address = "https://shop.invalid"
    shop.save()
    customer = job.vehicle.customer
    customer.email, customer.language = "h@lind.invalid", language
    customer.save()
    told = {"fetched": _words(job)}
    Booking.objects.create(job=job, kind=Booking.Kind.WORK, first_day=to_come())
    Booking.objects.create(job=job, kind=Booking.Kind.PICK_UP, first_day=dt.date(2026, 3, 5))
    assert _fetched_on(job) is None
    for later in (9, 2):
        Booking.objects.create(
            job=job, kind=Booking.Kind.PICK_UP, first_day=to_come() + dt.timedelta(days=later)
        )
    assert _fetched_on(job) == to_come() + dt.timedelta(days=2)
    told["on a day"] = _words(job)
    first = make_offer(job, cast.manager)
    first.sheet.language = language
    told["offer"] = _words(job, first)
    addition = make_offer(job, cast.manager, net="120", addition=1, basis=first)
    addition.sheet.language = language
    told["addition"] = _words(job, addition)
    shop.address = shop.phone = ""
    shop.save()
    Customer.objects.filter(pk=customer.pk).update(language="", name="N" * 90)
    job.vehicle.customer.refresh_from_db()
    told["long"] = _words(job)
    hold(f"messages/begun-{language}", figures(told))
