"""From a frozen spec and price to what was paid: bytes that stay, additions, hours."""

from __future__ import annotations

import uuid
from datetime import date
from decimal import Decimal

import pytest
from django.test import Client
from django.urls import reverse

from jobs import sheets
from jobs.acceptance import accept
from jobs.design.agreement.agreed import work_out_account
from jobs.design.agreement.shown import Shown
from jobs.design.job.whole import load, work_out
from jobs.models import IssuedSheet, Offer, Part, Payment, SheetKind, TaxRate, Workshop, WorkTime
from jobs.sheets import engine
from tests.jobs.factories import make_item, make_job, make_part
from tests.jobs.offers import make_offer

pytestmark = pytest.mark.django_db
DRAWN = [[0, 0, 900, 0]]


@pytest.fixture(autouse=True)
def _quick_printing(monkeypatch):
    """Only what is written; that it becomes a PDF is tested with the sheets."""
    monkeypatch.setattr(engine, "render", lambda html, **_more: b"%PDF-" + html.encode())


@pytest.fixture
def job(cast):
    """A job of two priced speakers."""
    Workshop.objects.get_or_create()
    Workshop.objects.update(usual_deposit=30, valid_days=14)
    TaxRate.objects.create(percent=20, valid_from=date(2020, 1, 1))
    new = make_job(promised_on=date(2026, 12, 1))
    make_item(new, make_part("Speaker", price=Decimal(50), cost=Decimal(30)), "doors", quantity=2)
    return new


def _freeze(job, by):
    sheets.issue(work_out(load(job)), SheetKind.SPEC, sheets.Options(), by)
    return job.offers.last()


def _account(job):
    design = work_out(load(job))
    return work_out_account(design.records, design.price)


def test_a_frozen_offer_stays_what_it_was(job, cast, browse):
    """After the catalogue, the tax and the rates have changed, page and paper say the same."""
    offer = _freeze(job, cast.consultant)
    paper, page = (reverse(name, args=[offer.token]) for name in ("offer-paper", "offer-page"))
    desk = reverse("sheet-issued", args=[job.code, offer.sheet_id])
    before = [Client().get(url).content for url in (paper, page)]
    Part.objects.update(price=Decimal(99), name="Another")
    TaxRate.objects.update(percent=25)
    Workshop.objects.update(usual_deposit=50, valid_days=2)
    assert [Client().get(url).content for url in (paper, page)] == before
    assert browse("manager").get(desk).content == before[0]
    assert offer.total == 120
    assert Shown.read(offer.shown).deposit == 36
    assert (offer.valid_until - offer.sheet.issued_at.date()).days in {13, 14, 15}


def test_later_changes_are_additions_with_their_own_yes(job, cast):
    """What was agreed holds until the addition is agreed; each has the next number."""
    first = _freeze(job, cast.consultant)
    assert (first.basis, first.addition) == (None, 0)
    accept(first, "Leo Fern", DRAWN)
    make_item(job, make_part("Lamp", price=Decimal(10)), "boot")
    assert _account(job).changed_since == 12
    second = _freeze(job, cast.consultant)
    assert (second.basis, second.addition, second.total) == (first, 1, 132)
    assert _account(job).shown.total == 120
    accept(second, "Leo Fern", DRAWN)
    assert _account(job).shown.total == 132
    assert _account(job).changed_since is None


def test_a_tax_that_changes_in_the_middle_of_a_job_is_an_addition(job, cast):
    """What was agreed keeps its tax; promised beyond the change, the difference is its own yes."""
    TaxRate.objects.create(percent=25, valid_from=date(2027, 1, 1))
    first = _freeze(job, cast.consultant)
    accept(first, "Leo Fern", DRAWN)
    assert _account(job).changed_since is None
    job.promised_on = date(2027, 1, 10)
    job.save()
    assert _account(job).changed_since == 5
    assert (_account(job).shown.total, first.total) == (120, 120)
    second = _freeze(job, cast.consultant)
    assert (second.addition, second.total) == (1, 125)
    (tax,) = Shown.read(second.shown).taxes
    assert tax.percent == 25
    html = Client().get(reverse("offer-page", args=[second.token])).content.decode()
    for part in ("Tax, 25\xa0% instead of 20\xa0%", "+€5.00", "€125.00 instead of €120.00"):
        assert part in html, part


def test_no_price_leaves_the_house_that_lacks_something(job, browse):
    """Nothing is printed, and what is missing is named where it is cured."""
    Part.objects.update(price=None)
    client = browse("consultant")
    sent = {"entry_token": str(uuid.uuid4()), "paper": "a4", "language": "en"}
    answer = client.post(reverse("sheet-issue", args=[job.code, "spec"]), sent, follow=True)
    assert answer.redirect_chain[-1][0] == reverse("agreement", args=[job.code])
    assert "not in the total" in answer.content.decode()
    assert not IssuedSheet.objects.exists()


def test_what_was_agreed_is_not_frozen_once_more(job, cast):
    """An addition that changes nothing would be a paper about nothing."""
    accept(_freeze(job, cast.consultant), "Leo Fern", DRAWN)
    spec = sheets.SHEETS[SheetKind.SPEC]
    assert "nothing changes" in spec.refuses(work_out(load(job)))
    with pytest.raises(ValueError, match="nothing changes"):
        _freeze(job, cast.consultant)
    assert Offer.objects.count() == IssuedSheet.objects.count() == 1


def test_the_account_says_what_is_still_to_be_paid(job, cast, browse):
    """Deposit first, then the rest; money that went back counts the other way."""
    assert _account(job).balance is None
    accept(make_offer(job, cast.manager, net="1000"), "Leo Fern", DRAWN)
    assert (_account(job).deposit_open, _account(job).balance) == (300, 1000)
    for kind, amount in (("deposit", 300), ("balance", 650), ("back", 50)):
        Payment.objects.create(job=job, kind=kind, amount=amount)
    account = _account(job)
    assert (account.deposit_open, account.paid, account.balance) == (0, 900, 100)
    html = browse("consultant").get(reverse("agreement", args=[job.code])).content.decode()
    assert "€100.00" in html
    assert "agreed by Leo Fern" in html


def test_the_job_page_says_what_was_agreed_paid_and_worked(job, cast, browse):
    """Sold, received, deposit and rest, hours against those sold; nobody else reads an amount."""
    offer = make_offer(job, cast.manager, net="1000")
    work = {"key": "work car", "group": "work", "name": "", "unit": "h", "quantity": "2.5"}
    offer.shown["lines"].append(work | {"net": "0", "places": []})
    offer.save()
    accept(offer, "Leo Fern", DRAWN)
    Payment.objects.create(job=job, amount=200)
    WorkTime.objects.create(job=job, kind="car", minutes=90)
    url = reverse("job", args=[job.code])
    html = " ".join(browse("consultant").get(url).content.decode().split())
    for words in ("€1,000.00", "€200.00", "€100.00", "€800.00", "1.5 h of 2.5 h sold"):
        assert words in html
    assert "€" not in browse("installer").get(url).content.decode()


def test_hours_are_held_against_those_sold(job, cast, browse):
    """Whoever worked writes it down and sees hours, no money."""
    offer = make_offer(job, cast.manager)
    work = {"key": "work car", "group": "work", "name": "", "unit": "h", "quantity": "2.5"}
    offer.shown["lines"].append(work | {"net": "0", "places": []})
    offer.save()
    accept(offer, "Leo Fern", DRAWN)
    WorkTime.objects.create(job=job, kind="car", minutes=200)
    (hours,) = _account(job).hours
    assert (hours.sold, hours.worked, hours.over) == (Decimal("2.5"), Decimal("3.33"), True)
    html = browse("installer").get(reverse("hours", args=[job.code])).content.decode()
    assert "3.33" in html
    assert "€" not in html


def test_a_signed_paper_is_written_down_by_name(job, cast, browse):
    """Who wrote it down is kept; without a name nothing is agreed; a second yes is refused."""
    offer = make_offer(job, cast.manager)
    url = reverse("offer-signed", args=[job.code, offer.pk])
    client = browse("consultant")
    client.post(url, {"name": " "})
    assert not Offer.objects.get().is_accepted
    client.post(url, {"name": "Leo Fern"})
    kept = Offer.objects.get()
    assert (kept.accepted_name, kept.recorded_by, kept.signature) == (
        "Leo Fern", cast.consultant, [])  # fmt: skip
    answer = client.post(url, {"name": "Ida Moor"}, follow=True)
    assert "agreed already" in answer.content.decode()
    assert Offer.objects.get().accepted_name == "Leo Fern"
