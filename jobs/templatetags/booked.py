"""A booking as it stands in a cell of the week: a full page holds hundreds of them."""

from __future__ import annotations

from django import template
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from jobs import money
from jobs.design.calendar.week import Entry
from jobs.models import Booking
from jobs.models.calendar import Span
from jobs.templatetags.marks import mark

register = template.Library()


@register.simple_tag
def booked(entry: Entry, here: str) -> SafeString:
    """Draw a booking on one day; `here` is "bay", "person" or "move", the rest is said in words."""
    row = entry.booking
    odd = ""
    if entry.clashes:
        odd = format_html('{}<span class="spoken">{} </span>', mark("look"), _("clashes:"))
    return format_html(
        '<p class="booked{}">{}<a href="{}" class="tag">{}</a> <span>{}</span>{}</p>',
        " is-odd" if entry.clashes else "",
        odd,
        reverse("days", args=[row.job.code]),
        row.job.code,
        " ".join(filter(None, (times(row), _what(entry, here)))),
        _beside(row, here),
    )


@register.filter
def times(row: Span) -> str:
    """Write from when to when; nothing of what is all day."""
    if row.from_time is None:
        return ""
    return f"{row.from_time:%H:%M}" + (f"–{row.to_time:%H:%M}" if row.to_time else "")


def _what(entry: Entry, here: str) -> str:
    row = entry.booking
    if here == "move":
        who = f", {row.person.full_name}" if row.person else ""
        return f"{row.get_kind_display()}{who}"
    if row.kind != Booking.Kind.WORK:
        return row.get_kind_display()
    return "" if entry.planned is None else f"{money.show_number(entry.planned)} h"


def _beside(row: Booking, here: str) -> SafeString:
    """Say in a bay who, at a person where, at the door which car."""
    if here == "move":
        words = str(row.job.vehicle)
    elif here == "bay":
        words = row.person.full_name if row.person else ""
    else:
        words = row.bay.name if row.bay else ""
    return format_html('<span class="fine">{}</span>', words) if words else SafeString("")
