"""What the fields of a folded group say together."""

from __future__ import annotations

from collections.abc import Iterable

from django import template
from django.forms import BoundField

register = template.Library()


@register.filter
def said(fields: Iterable[BoundField]) -> int | None:
    """Count the fields that say something; None where one is refused, which is never folded."""
    if any(field.errors for field in fields):
        return None
    return sum(field.value() not in (None, "", [], field.field.initial) for field in fields)
