"""What a field shows and what a browser sends of it, for a form nobody has touched."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django import forms
from django.utils.translation import gettext as _


def as_sent(form: forms.BaseForm, names: Iterable[str]) -> dict[str, list[str]]:
    """Return what a browser would send of these fields if nobody touched them."""
    sent: dict[str, list[str]] = {}
    for name in names:
        bound = form[name]
        widget, value = bound.field.widget, bound.value()
        if hasattr(widget, "sent"):  # a route, or rows
            sent |= widget.sent(bound.html_name, value or [])
        elif isinstance(widget, forms.CheckboxInput):
            sent |= {bound.html_name: ["on"]} if value else {}
        elif value is not None:
            shown = widget.format_value(value)
            sent[bound.html_name] = shown if isinstance(shown, list) else [str(shown or "")]
    return sent


def in_words(field: forms.Field, value: Any) -> Any:
    """Return what a field holds as its page shows it: typed text, or the words of the choice."""
    widget = field.widget
    if isinstance(widget, forms.widgets.ChoiceWidget):
        held = widget.format_value(value)
        keys = [held] if isinstance(held, str) else held
        return ", ".join(words for key, words in _flat(widget.choices) if key and key in keys)
    if isinstance(field, forms.BooleanField):
        return _("yes") if value else _("no")
    return widget.format_value(value)


def _flat(choices: Iterable[Any]) -> Iterable[tuple[str, str]]:
    """Every choice, also those under a heading."""
    for key, words in choices:
        if isinstance(words, list | tuple):
            yield from _flat(words)
        else:
            yield str(key), str(words)
