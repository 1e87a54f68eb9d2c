"""What the fields of a folded group say together, and what is said at each while it is typed."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Any, cast

from django import template
from django.db.models import Model
from django.forms import BaseForm, BoundField, ModelForm

register = template.Library()
LONGEST = 40  # more is no heading


@register.filter
def said(fields: Iterable[BoundField]) -> list[str] | None:
    """Spell what somebody said in the fields of a group; None where one is refused.

    What a new row begins with, nobody has said. A refused field is never folded away.
    """
    fields = list(fields)
    if any(field.errors for field in fields):
        return None
    return [_spelled(field) for field in fields if _is_said(field)]


@register.filter
def live_notes(form: BaseForm) -> list[tuple[str, list[Any], str]]:
    """Of each visible field its mark on the page, what cannot be read in it, what was found at it.

    In one go, for a hundred fields at every key.
    """
    refused = {
        name: list(errors)
        for name, errors in form.errors.items()
        if name in form.fields and form[name].data
    }
    return [
        (str(field.auto_id), refused.get(field.name, []), getattr(field.field, "said", ""))
        for field in form.visible_fields()
    ]


def _row(field: BoundField) -> Model:
    return cast(ModelForm[Model], field.form).instance


def _is_said(field: BoundField) -> bool:
    stored = {each.name: each for each in _row(field)._meta.concrete_fields}.get(field.name)
    if stored is None:  # a list of rows; or a file, which is read and not kept
        return bool(getattr(_row(field), field.name, None))
    return getattr(_row(field), stored.attname) not in (None, "", stored.get_default())


def _spelled(field: BoundField) -> str:
    """Return a value as its field shows it; of a tick, a list, a long text the field's name."""
    chosen = getattr(_row(field), f"get_{field.name}_display", None)
    value = chosen() if chosen else getattr(_row(field), field.name)
    if isinstance(value, bool) or not isinstance(value, str | int | float | Decimal | Model):
        return str(field.label)
    text = str(value if isinstance(value, Model) else field.field.prepare_value(value))
    return text if len(text) <= LONGEST else str(field.label)
