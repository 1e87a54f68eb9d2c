"""What a part takes is zero or more."""

from __future__ import annotations

import pytest

from jobs.models import Part
from jobs.pages.workshop.part_forms import ProcessorForm

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(("text", "refused"), [("-0.2 A", True), ("0 A", False), ("0.2 A", False)])
def test_a_converter_gives_no_current_to_the_supply(text, refused):
    """Coils alone take nothing; less than nothing is a slip."""
    form = ProcessorForm({"name": "Between", "kind": Part.Kind.PROCESSOR, "current": text})
    assert ("current" in form.errors) is refused
