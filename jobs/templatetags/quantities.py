"""Template filters that print a quantity, for page and sheet alike."""

from django import template

from jobs.units import parse_conductor, show, show_conductor

register = template.Library()


@register.filter
def quantity(value: float | str | None, kind: str) -> str:
    """Print an SI value as the reader wants it: `{{ box.net_volume|quantity:"volume" }}`."""
    # Templates hand over "" for the rating of a fuse that is not there: unknown, like None.
    return show(None if isinstance(value, str) else value, kind)


@register.filter
def conductor(size: str | None) -> str:
    """Print the size of a cable of the catalogue: `{{ cable.size|conductor }}`."""
    return show_conductor(parse_conductor(size) if size else None)
