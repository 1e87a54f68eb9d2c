"""How widgets are written: what Django's own templates write, space aside."""

from __future__ import annotations

import re

import pytest
from django import forms
from django.forms.renderers import DjangoTemplates

from jobs.pages.forms.renderer import Renderer

CHOICES = [("", "–"), (1, 'Six "wide" & <flat>'), ("Doors", [(2, "left"), (None, "right")])]


def _plain(html: str) -> str:
    return re.sub(r">\s+<", "><", html.strip())


@pytest.mark.parametrize("widget", [forms.Select, forms.SelectMultiple, forms.TextInput])
@pytest.mark.parametrize("value", ["", 1, 2, "nothing of it", None])
@pytest.mark.parametrize(
    "attrs", [{}, {"required": True, "hidden": False, "data-x": 'a"b', "n": 3}]
)
def test_a_widget_is_written_as_the_library_writes_it(widget, value, attrs):
    """Choices, groups, what is chosen, attributes and escapes are those of Django's templates."""
    field = widget(attrs={"class": "wide"})
    if issubclass(widget, forms.Select):
        field.choices = CHOICES
    ours, theirs = (
        field.render("a<b", value, attrs, renderer=renderer())
        for renderer in (Renderer, DjangoTemplates)
    )
    assert _plain(ours) == _plain(theirs)
