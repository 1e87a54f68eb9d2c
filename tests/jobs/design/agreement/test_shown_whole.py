"""What a customer reads of a price, from line to line and from one offer to the next."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from types import SimpleNamespace

from jobs.design.agreement.lines import Group, Line, Unit
from jobs.design.agreement.shown import Shown, ShownLine, changes, more_said
from tests.approval import figures, hold


def _line(group, key, quantity, each, **of):
    line = {"name": key.title(), "unit": Unit.PIECE, "currency": "EUR"} | of
    return Line(group=group, key=key, quantity=Decimal(quantity), each=Decimal(each), **line)


LINES = (
    _line(Group.WORK, "work wood", "2.5", "60", unit=Unit.HOUR, minutes=150, details=("x",)),
    _line(Group.EQUIPMENT, "amplifier", "1", "349.90", details=("under the seat", "boot")),
    _line(Group.BY_HAND, "by hand", "3", "1.25", details=("never told",)),
    _line(Group.WOOD, "birch", "2", "80", unit=Unit.SHEET),
    _line(Group.WOOD, "fibre", "1", "30.50", unit=Unit.SHEET),
    _line(Group.COVERING, "carpet", "1.5", "12", unit=Unit.SQUARE_METRE),
)


def _shown(**of):
    """712.15 less 10 %, with 7 % on what was typed and 19 % on the rest; 30 % in advance."""
    rates = (("19", "637.56", "121.14"), ("7", "3.37", "0.24"))
    price = SimpleNamespace(
        currency="EUR", on=date(2026, 11, 30), lines=LINES, net=Decimal("712.15"),
        discount_percent=Decimal(10), discount=Decimal("71.22"), total=Decimal("762.31"),
        deposit_percent=Decimal(30), deposit=Decimal("228.69"),
        taxes=[
            SimpleNamespace(percent=Decimal(rate), base=Decimal(base), tax=Decimal(tax))
            for rate, base, tax in rates
        ],
    )  # fmt: skip
    job = SimpleNamespace(title="A van", space_to_keep="  the pram ", must_stay_factory=" ")
    return replace(Shown.of(price, job), **of)


def test_a_price_is_frozen_line_by_line():
    """Equipment each with its places, wood, cable and covering together, work by its kind."""
    shown = _shown()
    hold("agreement/shown", figures(shown))


def test_what_was_frozen_is_read_back_as_it_was():
    """Every amount, day, tax, place and question; what is older had no questions."""
    shown = _shown()
    assert Shown.read(shown.plain) == shown
    older = {name: part for name, part in shown.plain.items() if name != "questions"}
    assert Shown.read(older) == replace(shown, questions=())


def _told(key, net, quantity="1", group=Group.EQUIPMENT):
    return ShownLine(
        key=key, group=group, name=key, unit=Unit.PIECE, quantity=Decimal(quantity),
        net=Decimal(net),
    )  # fmt: skip


def test_an_addition_tells_each_line_it_changes():
    """New, gone, dearer, more of it for the same; not what stayed, nor another name alone."""
    before = _shown(
        lines=(
            _told("gone", 10), _told("dearer", 20), _told("more", 30), _told("same", 40),
            _told("work wood", 60, "1", Group.WORK),
        ),
    )  # fmt: skip
    after = _shown(
        lines=(
            _told("dearer", "20.01"), _told("more", 30, "2"),
            replace(_told("same", 40), name="other"), _told("new", 50),
            _told("work wood", 30, "0.5", Group.WORK),
        ),
    )  # fmt: skip
    told = [
        (each.label, *map(str, (each.before, each.after, each.more)))
        for each in changes(before, after)
    ]
    hold("agreement/changed", map(" | ".join, told))


def test_only_a_rate_that_is_new_is_told():
    """A rate that fell away with its lines is told by its lines."""
    both = _shown()
    fewer = replace(both, taxes=both.taxes[:1])
    assert changes(both, fewer) == []
    (more,) = changes(fewer, both)
    assert (more.before, more.after) == (Decimal("121.14"), Decimal("121.38"))
    assert more.label.replace("\N{NO-BREAK SPACE}", " ") == "tax, 19 %, 7 % instead of 19 %"


def test_what_is_added_bears_a_sign():
    """A cent more, a cent less, and nothing."""
    said = [more_said(Decimal(cents) / 100, "EUR") for cents in (1, -1, 0)]
    hold("agreement/signs", said)
