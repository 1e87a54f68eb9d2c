"""Run labels and colour letters."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.refused import refused
from wiring.cable.markings import (
    RunKind,
    colour_names,
    split_label,
)
from wiring.errors import OutsideTableError, WiringError


@settings(deadline=None, max_examples=100)
@given(kind=st.sampled_from(list(RunKind)), number=st.integers(1, 999))
def test_labels_are_read_back(kind: RunKind, number: int) -> None:
    """Every label names its kind and its number, also beyond 99."""
    assert split_label(f"{kind}{number:02d}") == (kind, number)


@pytest.mark.parametrize("label", ["", "P", "P1", "P00", "X01", "p01", "P01a", "01"])
def test_what_is_not_a_label_is_refused(label: str) -> None:
    """Anything but a kind letter and two digits or more is an error."""
    with refused(WiringError, "run-label", "run-label"):
        split_label(label)


@pytest.mark.parametrize(
    ("letters", "names"),
    [("RD", ("red",)), ("GNYE", ("green", "yellow")), ("WHBK", ("white", "black"))],
)
def test_colour_letters(letters: str, names: tuple[str, ...]) -> None:
    """IEC 60757 letters joined read as base colour and stripe."""
    assert colour_names(letters) == names


@pytest.mark.parametrize("letters", ["", "R", "RDB", "XX", "rd", "RD BK", "BL"])
def test_unknown_colour_letters_are_refused(letters: str) -> None:
    """Letters of another code are an error, never a guess."""
    with refused(OutsideTableError, "made-of", "colour"):
        colour_names(letters)
