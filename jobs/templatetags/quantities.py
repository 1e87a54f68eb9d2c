"""Template filters that print a quantity, for page and sheet alike."""

from django import template

from jobs.units import parse_conductor, show, show_conductor

register = template.Library()
FEW = 7200.0  # s


@register.filter
def quantity(value: float | str | None, kind: str) -> str:
    """Print an SI value as the reader wants it: `{{ box.net_volume|quantity:"volume" }}`."""
    # Templates hand over "" for the rating of a fuse that is not there: unknown, like None.
    return show(None if isinstance(value, str) else value, kind)


@register.filter
def exactly(value: float | str | None, kind: str) -> str:
    """Print what stands on a part as it stands there, 150 A: `{{ fuse.rating|exactly:"current" }}`.

    A figure that was read off has no more decimals than were read.
    """
    return show(None if isinstance(value, str) else value, kind, exact=True)


@register.filter
def lasts(seconds: float) -> str:
    """Print how long something lasts: in minutes while they are few, else in hours."""
    return f"{seconds / 60:.0f}\u00a0min" if seconds < FEW else show(seconds, "duration")


@register.filter
def conductor(size: str | None) -> str:
    """Print the size of a cable of the catalogue: `{{ cable.size|conductor }}`."""
    return show_conductor(parse_conductor(size) if size else None)
