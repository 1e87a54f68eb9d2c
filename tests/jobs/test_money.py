"""Money: one rule of rounding, and amounts as people of each language type and write them."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from django.utils.translation import override
from hypothesis import given
from hypothesis import strategies as st

from jobs import money
from jobs.quantities.numbers import UnreadableQuantity

AMOUNTS = st.decimals(min_value=0, max_value=10**7, places=2)


def _coins(exact: Fraction) -> Decimal:
    """Second method: whole cents by integers, halves up."""
    cents = (exact * 200 + 1) // 2
    return Decimal(int(cents)) / 100


@pytest.mark.parametrize(
    ("amount", "coins"),
    [
        ("0.005", "0.01"),
        ("0.025", "0.03"),
        ("2.675", "2.68"),
        ("-0.005", "-0.01"),
        ("1.005", "1.01"),
    ],
)
def test_halves_go_up_away_from_zero(amount, coins):
    """The rule that stands on the paper; the module's own default would go to the even coin.

    Source: documentation of Python's decimal module, ROUND_HALF_UP
    """
    assert money.rounded(Decimal(amount), "EUR") == Decimal(coins)


def test_a_currency_has_its_own_smallest_coin():
    """Yen have no hundredths, dinars of Kuwait have thousandths.

    Source: ISO 4217, minor units
    """
    assert money.rounded(Decimal("1234.5"), "JPY") == Decimal(1235)
    assert money.rounded(Decimal("1.0005"), "KWD") == Decimal("1.001")


@given(st.integers(0, 20_000), AMOUNTS)
def test_minutes_come_to_what_whole_numbers_say(minutes, hour):
    """Work is minutes times the hour over sixty, rounded once. Second method: integers."""
    assert money.worked(minutes, hour, "EUR") == _coins(Fraction(hour) * minutes / 60)


@given(AMOUNTS, st.decimals(min_value=0, max_value=100, places=2))
def test_a_share_comes_to_what_whole_numbers_say(amount, percent):
    """A tax or a discount is rounded once. Second method: integers."""
    assert money.share(amount, percent, "EUR") == _coins(Fraction(amount) * Fraction(percent) / 100)


@pytest.mark.parametrize(
    ("language", "written"), [("en", "€1,234,567.50"), ("de", "1.234.567,50\N{NO-BREAK SPACE}€")]
)
def test_an_amount_is_written_as_its_reader_writes_it(language, written):
    """Marks, sign and place of the currency follow the language.

    Source: Unicode CLDR, by way of babel
    """
    with override(language):
        assert money.show(Decimal("1234567.5"), "EUR") == written
        assert money.show(None, "EUR") == ""


def test_a_swiss_million_keeps_its_marks():
    """A newer babel drops the marks of amounts from a million on: the one we pin does not."""
    from babel.numbers import format_currency

    amount = format_currency(Decimal("1234567.5"), "CHF", locale="de_CH")
    assert [letter for letter in amount if letter.isdigit()] == list("123456750")
    assert len(amount.split("\N{RIGHT SINGLE QUOTATION MARK}")) == 3


@pytest.mark.parametrize(
    ("language", "typed", "amount"),
    [
        ("en", "4500", "4500"),
        ("en", "249,90", "249.90"),
        ("en", "4 500 EUR", "4500"),
        ("en", "€ 12.5", "12.5"),
        ("de", "4.500,25 €", "4500.25"),
        ("de", "-5", "-5"),
    ],
)
def test_an_amount_is_read_as_people_type_it(language, typed, amount):
    """Decimal comma or point, blanks, and the workshop's own currency beside it."""
    with override(language):
        assert money.read(typed, "EUR") == Decimal(amount)


@pytest.mark.parametrize(
    "typed",
    [
        *("12 USD", "45.50 USD", "1,50 Hz", "12 euros", "1e2.5", "1e", "ca. 4500", "NaN", ""),
        *("1/2", "=1+1", "5.5.5.", "-", "--5", "1.2e3e4"),
    ],
)
def test_what_is_no_amount_is_refused_in_words(typed):
    """Another currency is no amount of ours, and no text is taken for a figure."""
    with override("de"), pytest.raises(UnreadableQuantity) as refused:
        money.read(typed, "EUR")
    assert refused.value.message


def test_a_figure_that_can_be_read_two_ways_is_asked_about():
    """4.500 is four and a half or four and a half thousand: nobody guesses."""
    with override("de"), pytest.raises(UnreadableQuantity) as refused:
        money.read("4.500", "EUR")
    assert refused.value.code == "ambiguous"
