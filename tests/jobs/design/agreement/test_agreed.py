"""What was agreed, what is paid of it and what was worked for it."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal
from types import SimpleNamespace

import pytest

from jobs.design.agreement.agreed import Account, Hours, Standing, agreed, standing, work_out_hours
from jobs.models import WorkKind

DAY = datetime(2026, 11, 30, tzinfo=UTC)
LATER = datetime(2026, 12, 1, tzinfo=UTC)


def _offer(pk, *, accepted=None, revoked=None, expired=False, shown=None):
    return SimpleNamespace(
        pk=pk, accepted_at=accepted, is_accepted=accepted is not None, revoked_at=revoked,
        is_expired=lambda: expired, shown=shown,
    )  # fmt: skip


def test_the_last_yes_holds():
    """By its time, of two at once by its number; a no and a silence are no yes."""
    first, second, third = (
        _offer(1, accepted=LATER), _offer(2, accepted=DAY), _offer(3, accepted=DAY),
    )  # fmt: skip
    assert agreed([second, first, third]) is first
    assert agreed([third, second]) is third
    assert agreed([_offer(4), _offer(5, revoked=DAY)]) is None


@pytest.mark.parametrize(
    ("offer", "expected"),
    [
        (_offer(2), Standing.OPEN),
        (_offer(2, expired=True), Standing.EXPIRED),
        (_offer(1, expired=True), Standing.REPLACED),
        (_offer(1, revoked=DAY, expired=True), Standing.WITHDRAWN),
        (_offer(1, accepted=DAY, revoked=DAY, expired=True), Standing.ACCEPTED),
    ],
)
def test_an_offer_stands_as_what_happened_to_it(offer, expected):
    """A yes before all, then taken back, replaced by a later one, out of time, open."""
    assert standing(offer, [_offer(1), _offer(2)]) == expected


def _account(shown, paid, total="100", hours=()):
    price = SimpleNamespace(total=Decimal(total), currency="CHF")
    return Account(agreed=None, shown=shown, paid=Decimal(paid), hours=hours, price=price)


SHOWN = SimpleNamespace(total=Decimal(119), deposit=Decimal(40), currency="EUR")


def test_what_is_left_to_pay_is_counted_from_what_was_agreed():
    """119 less 30 are 89, of a deposit of 40 are 10 open; the plan is 19 less than was agreed."""
    account = _account(SHOWN, 30)
    assert (account.balance, account.deposit_open) == (89, 10)
    assert (account.changed_since, account.currency) == (-19, "EUR")
    assert _account(SHOWN, "40.01").deposit_open == 0
    assert _account(SHOWN, 120).balance == -1
    assert _account(SHOWN, 0, total="119.00").changed_since is None


def test_without_an_agreement_nothing_is_owed_and_nothing_has_changed():
    """What is still to be paid is not known, which is no zero."""
    account = _account(None, 30)
    assert (account.balance, account.deposit_open) == (None, 0)
    assert (account.changed_since, account.currency) == (None, "CHF")


def test_hours_sold_stand_beside_hours_worked():
    """Kinds neither sold nor worked are left out; 100 minutes are 1.67 h; as much is not over."""
    line = {"group": "work", "name": "", "unit": "h", "net": "0", "places": []}
    shown = {
        "title": "", "currency": "EUR", "on": "2026-11-30", "taxes": [],
        "lines": [
            {**line, "key": "work wood", "quantity": "2"},
            {**line, "key": "work wiring", "quantity": "1.5"},
            {**line, "key": "work desk", "quantity": None},
        ],
        **dict.fromkeys(
            ("net", "discount_percent", "discount", "total", "deposit_percent", "deposit"), "0"
        ),
    }  # fmt: skip
    times = (("wood", 100), ("wood", 20), ("wiring", 91), ("car", 100), ("car", None))
    records = SimpleNamespace(
        offers=[_offer(1, accepted=DAY, shown=shown)],
        work_times=[SimpleNamespace(kind=kind, minutes=minutes) for kind, minutes in times],
    )
    hours = work_out_hours(records)
    assert [(row.kind, str(row.sold), str(row.worked), row.over) for row in hours] == [
        (WorkKind.WOOD, "2", "2.00", False),
        (WorkKind.WIRING, "1.5", "1.52", True),
        (WorkKind.CAR, "0", "1.67", True),
        (WorkKind.DESK, "0", "0.00", False),
    ]
    account = _account(None, 0, hours=hours)
    assert (account.hours_sold, account.hours_worked) == (Decimal("3.5"), Decimal("5.19"))


def test_hours_without_an_agreement_are_all_over():
    """Nothing was sold: what was worked is all there is."""
    records = SimpleNamespace(offers=[], work_times=[SimpleNamespace(kind="desk", minutes=30)])
    (row,) = work_out_hours(records)
    assert row == Hours(kind=WorkKind.DESK, sold=Decimal(0), worked=Decimal("0.50"))
    assert row.over
