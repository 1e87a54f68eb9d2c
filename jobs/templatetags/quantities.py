"""Template filters that print a quantity, for page and sheet alike."""

from django import template

from jobs.units import parse_conductor, show, show_conductor

register = template.Library()


@register.filter
def quantity(value: float | None, kind: str) -> str:
    """Print an SI value as the reader wants it: `{{ box.net_volume|quantity:"volume" }}`."""
    return show(value, kind)


@register.filter
def conductor(stored: str | None) -> str:
    """Print the conductor size a record keeps: `{{ run.conductor|conductor }}`."""
    return show_conductor(parse_conductor(stored) if stored else None)
