"""The page of the price: who sees it, what it lacks, what is added by hand, and the live total."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.urls import reverse
from django.utils.translation import override

from jobs import money
from jobs.design.job.whole import load, work_out
from jobs.models import Job, Part, PriceLine
from tests.jobs.pages.forms_at import form_at, refused_at
from tests.jobs.pages.kinds import says_beside, typed

pytestmark = pytest.mark.django_db


def _page(hatchback):
    return reverse("price", args=[hatchback.code])


def test_the_page_adds_the_job_up(hatchback, browse):
    """Total, budget, every thing that lacks a price by its name, and the total in the strip."""
    html = browse("consultant").get(_page(hatchback)).content.decode()
    price = work_out(load(hatchback.job)).price
    assert money.show(price.total, "EUR") in html
    assert money.show(Decimal(4321), "EUR") in html
    assert str(hatchback.sub.part) in html
    assert "not in the total" in html
    assert f"at least {money.show(price.total, 'EUR')}" in html


@pytest.mark.parametrize(
    ("who", "status"), [("stranger", 404), ("designer", 403), ("installer", 403), ("manager", 200)]
)
def test_prices_are_for_those_who_talk_money(hatchback, browse, who, status):
    """Nobody else opens the page, and no other page of theirs leads there or names the total."""
    client = browse(who)
    assert client.get(_page(hatchback)).status_code == status
    if status == 403:
        html = client.get(reverse("equipment", args=[hatchback.code])).content.decode()
        assert _page(hatchback) not in html
        assert "€" not in html


def test_only_the_manager_sees_what_things_cost(hatchback, browse):
    """The consultant sells, the manager reckons: cost fields and what is left are his alone."""
    part = reverse("part-edit", args=[hatchback.sub.part.pk])
    line = reverse("price-line-edit", args=[hatchback.code, hatchback.job.price_lines.get().pk])
    manager, consultant = browse("manager"), browse("consultant")
    assert 'id="margin"' in manager.get(_page(hatchback)).content.decode()
    assert 'id="margin"' not in consultant.get(_page(hatchback)).content.decode()
    for url in (part, line):
        assert "cost" in manager.get(url).context["form"].fields
        assert "cost" not in consultant.get(url).context["form"].fields


def test_what_the_consultant_cannot_see_stays_as_it_was(hatchback, browse):
    """Saving a line without its cost leaves the cost alone."""
    row = hatchback.job.price_lines.get()
    row.cost = Decimal("12.50")
    row.save()
    url = reverse("price-line-edit", args=[hatchback.code, row.pk])
    client = browse("consultant")
    sent = typed(client.get(url).context["form"]) | {"each": "49,90", "cost": "0"}
    assert client.post(url, sent).status_code == 302
    row.refresh_from_db()
    assert (row.each, row.cost) == (Decimal("49.90"), Decimal("12.50"))


def test_an_amount_that_cannot_be_keeps_what_was_typed(hatchback, browse):
    """Below zero, no number, another currency, two ways to read it, too much, half a cent."""
    row = hatchback.job.price_lines.get()
    url = reverse("price-line-edit", args=[hatchback.code, row.pk])
    client = browse("consultant")
    client.post(reverse("set_language"), {"language": "de"})
    with override("de"):
        sent = typed(form_at(url))
        for wrong in ("-5", "12 bananas", "12 USD", "99999999999", "0.005"):
            assert list(refused_at(url, sent | {"each": wrong})) == ["each"], wrong
    answer = client.post(url, sent | {"each": "1.234"})
    assert answer.status_code == 422
    assert says_beside(answer.content.decode(), "each", "1.234")
    row.refresh_from_db()
    assert row.each == 40


def test_discount_and_deposit_are_saved_once(hatchback, browse):
    """The second of two editors is told; a share of more than all is refused."""
    client, url = browse("consultant"), _page(hatchback)
    sent = typed(client.get(url).context["form"])
    assert client.post(url, sent | {"discount": "2,5", "deposit": "30 "}).status_code == 302
    job = Job.objects.get(pk=hatchback.job.pk)
    assert (job.discount, job.deposit) == (Decimal("2.5"), Decimal(30))
    assert client.post(url, sent | {"discount": "4"}).status_code == 422
    fresh = typed(client.get(url).context["form"])
    too_much = client.post(url, fresh | {"discount": "101"})
    assert too_much.status_code == 422
    assert says_beside(too_much.content.decode(), "discount", "101")
    assert client.put(url).status_code == 405


def test_the_total_follows_the_hand(hatchback, browse):
    """A longer cable costs more before it is saved; who may not see prices gets no total."""
    Part.objects.update(price=10)
    run = hatchback.bass_run
    url = reverse("run-edit", args=[hatchback.code, run.pk])
    live = reverse("run-preview", args=[hatchback.code])
    client = browse("manager")
    page = client.get(url)
    sent = typed(page.context["form"]) | {"row": run.pk}
    now = page.context["price_now"].total
    longer = client.post(live, sent | {"length": "11.2 m"})
    assert 'id="price-now"' in longer.content.decode()
    # Ten metres more and a tenth for bends, at 10 each, without a tax rate.
    assert longer.context["price_now"].total == now + 110
    assert PriceLine.objects.count() == 1
    assert 'id="price-now"' not in browse("designer").post(live, sent).content.decode()
