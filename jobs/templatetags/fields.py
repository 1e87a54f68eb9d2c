"""What the fields of a folded group say together."""

from __future__ import annotations

from collections.abc import Iterable
from typing import cast

from django import template
from django.db.models import Model
from django.forms import BoundField, ModelForm

register = template.Library()


@register.filter
def said(fields: Iterable[BoundField]) -> int | None:
    """Count the fields in which somebody said something; None where one is refused.

    What a new row begins with, nobody has said. A refused field is never folded away.
    """
    if any(field.errors for field in fields):
        return None
    return sum(_is_said(field) for field in fields)


def _is_said(field: BoundField) -> bool:
    row = cast(ModelForm[Model], field.form).instance
    stored = {each.name: each for each in row._meta.concrete_fields}.get(field.name)
    if stored is None:  # a list of rows
        return bool(getattr(row, field.name))
    return getattr(row, stored.attname) not in (None, "", stored.get_default())
