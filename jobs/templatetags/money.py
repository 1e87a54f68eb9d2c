"""Template filters that write money, for page and sheet alike."""

import datetime as dt
from decimal import Decimal

from django import template
from django.utils.timezone import localtime

from jobs import money
from jobs.design.agreement.shown import more_said

register = template.Library()


@register.filter
def amount(value: Decimal | None, currency: str) -> str:
    """Write an amount: `{{ line.net|amount:price.currency }}`."""
    return money.show(value, currency)


register.filter("number", money.show_number)
register.filter("percent", money.show_percent)
register.filter("more", more_said)


@register.filter
def days_later(at: dt.datetime, days: int) -> dt.date:
    """Return the day so many days after a moment."""
    return localtime(at).date() + dt.timedelta(days=days)
