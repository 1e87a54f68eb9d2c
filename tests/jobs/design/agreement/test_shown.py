"""What an addition changes of what was agreed."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from jobs.design.agreement.shown import Shown, ShownTax, changes, more_said


def _shown(discount: int, percent: int) -> Shown:
    """A price of 200 without lines, a discount in per cent, one tax."""
    taken = Decimal(2 * discount)
    tax = ShownTax(percent=Decimal(percent), base=200 - taken, tax=Decimal(2 * percent))
    return Shown(
        title="invented", currency="EUR", on=date(2026, 11, 30), lines=(), net=Decimal(200),
        discount_percent=Decimal(discount), discount=taken, taxes=(tax,), total=Decimal(0),
        deposit_percent=Decimal(0), deposit=Decimal(0),
    )  # fmt: skip


def test_another_discount_takes_off_the_difference():
    """5 % of 200 and then 8 %: 6 less, said with both."""
    (changed,) = changes(_shown(5, 19), _shown(8, 19))
    assert (changed.before, changed.after, changed.more) == (-10, -16, -6)
    assert changed.label == "discount, 8 % instead of 5 %".replace(" %", "\N{NO-BREAK SPACE}%")


def test_another_tax_is_said_with_both_rates():
    """38 and then 42: 4 more; the same discount is not mentioned."""
    (changed,) = changes(_shown(5, 19), _shown(5, 21))
    assert (changed.before, changed.after, changed.more) == (38, 42, 4)
    assert changed.label == "tax, 21 % instead of 19 %".replace(" %", "\N{NO-BREAK SPACE}%")
    assert changes(_shown(5, 19), _shown(5, 19)) == []


def test_more_is_said_with_its_sign():
    """What is added, what is taken off, and nothing."""
    assert [more_said(Decimal(n), "EUR")[0] for n in (3, -3)] == ["+", "−"]
    assert more_said(Decimal(-3), "EUR")[1:] == more_said(Decimal(3), "EUR")[1:]
    assert more_said(Decimal(0), "EUR")[0] not in "+−"
