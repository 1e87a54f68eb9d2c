"""Money: rounded by one rule, typed and written as the reader's language does it.

An amount is a Decimal of one currency, the workshop's. Halves go up, away from zero, to the
smallest coin of the currency; the rule stands on every paper that shows an amount.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal, localcontext
from functools import lru_cache

from babel.core import Locale
from babel.numbers import (
    format_currency,
    format_decimal,
    get_currency_precision,
    get_currency_symbol,
    list_currencies,
)
from django.utils.translation import get_language

from jobs.quantities.numbers import UnreadableQuantity, checked, decimal

# Digits of every intermediate figure; amounts have twelve at most.
DIGITS = 40
MINUTES = Decimal(60)
HUNDRED = Decimal(100)


def rounded(amount: Decimal, currency: str) -> Decimal:
    """Return an amount in whole coins, halves up."""
    return amount.quantize(coin(currency), rounding=ROUND_HALF_UP) + 0


@lru_cache(maxsize=16)
def coin(currency: str) -> Decimal:
    """Return the smallest coin of a currency, such as 0.01."""
    return Decimal(1).scaleb(-get_currency_precision(currency))


def times(quantity: Decimal, each: Decimal, currency: str) -> Decimal:
    """Return what so many of something come to, rounded once."""
    with localcontext(prec=DIGITS):
        return rounded(quantity * each, currency)


def worked(minutes: int, hour: Decimal, currency: str) -> Decimal:
    """Return what minutes of work come to at so much an hour, rounded once."""
    with localcontext(prec=DIGITS):
        return rounded(minutes * hour / MINUTES, currency)


def share(amount: Decimal, percent: Decimal, currency: str) -> Decimal:
    """Return so many hundredths of an amount, rounded once."""
    with localcontext(prec=DIGITS):
        return rounded(amount * percent / HUNDRED, currency)


def is_currency(code: str) -> bool:
    """Whether these three letters are a currency of ISO 4217."""
    return code in _currencies()


@lru_cache(maxsize=1)
def _currencies() -> set[str]:
    return set(list_currencies())


def _locale() -> Locale:
    return _locale_of(get_language() or "en")


@lru_cache(maxsize=16)
def _locale_of(language: str) -> Locale:
    return Locale.parse(language, sep="-")


def show(amount: Decimal | None, currency: str) -> str:
    """Return an amount as the reader writes it, with its currency; nothing where it is unknown."""
    if amount is None:
        return ""
    return format_currency(amount, currency, locale=_locale())


def show_number(number: Decimal | None) -> str:
    """Return a quantity or a share as the reader writes it, without zeros at its end."""
    if number is None:
        return ""
    return _written(number.normalize() + 0, _locale())


@lru_cache(maxsize=1024)
def _written(number: Decimal, locale: Locale) -> str:
    # A week holds the same few hours hundreds of times.
    return format_decimal(number, locale=locale, decimal_quantization=False)


def show_percent(percent: Decimal | None) -> str:
    """Return a share of a hundred with its sign."""
    return "" if percent is None else f"{show_number(percent)}\N{NO-BREAK SPACE}%"


def read(text: str, currency: str) -> Decimal:
    """Return a typed amount; its currency may stand beside it, another currency may not."""
    bare = text.strip()
    for sign in (currency, get_currency_symbol(currency, locale=_locale())):
        bare = bare.removeprefix(sign).removesuffix(sign).strip()
    tidy = checked(bare)
    value = decimal(tidy.removeprefix("-"))
    with localcontext(prec=DIGITS):
        amount = Decimal(value.numerator) / Decimal(value.denominator)
    return -amount if tidy.startswith("-") else amount


__all__ = [
    "UnreadableQuantity",
    "coin",
    "is_currency",
    "read",
    "rounded",
    "share",
    "show",
    "show_number",
    "show_percent",
    "times",
    "worked",
]
