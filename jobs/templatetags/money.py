"""Template filters that write money, for page and sheet alike."""

from decimal import Decimal

from django import template

from jobs import money

register = template.Library()


@register.filter
def amount(value: Decimal | None, currency: str) -> str:
    """Write an amount: `{{ line.net|amount:price.currency }}`."""
    return money.show(value, currency)


register.filter("number", money.show_number)
register.filter("percent", money.show_percent)
