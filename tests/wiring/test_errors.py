"""What is refused, as data."""

from __future__ import annotations

import pytest

from wiring.errors import Quantity, WiringError
from wiring.names import Name


def test_a_figure_is_given_with_its_unit() -> None:
    """The figure and its bound carry the unit; a word and an unknown figure carry none."""
    refused = WiringError(Name.LENGTH, -1.0, "m", above=0.0)
    assert refused.code == "above"
    assert refused.given["value"] == Quantity(-1.0, "m")
    assert refused.given["limit"] == Quantity(0.0, "m")
    assert WiringError(Name.LENGTH, None, "m", to_be="entered").given["value"] is None
    assert WiringError(Name.LENGTH, "x", "m", to_be="entered").given["value"] == "x"


def test_what_a_code_does_not_list_is_not_given() -> None:
    """A code stands with its own figures only."""
    with pytest.raises(KeyError):
        WiringError(Name.LENGTH, 1.0, to_be="above")
