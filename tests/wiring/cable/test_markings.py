"""Run labels, colour letters and terminal numbers."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wiring.cable.markings import (
    VEHICLE_TERMINALS,
    RunKind,
    colour_names,
    number_runs,
    split_label,
    vehicle_terminal,
)
from wiring.errors import OutsideTableError, WiringError


def test_each_kind_counts_for_itself() -> None:
    """Power, speaker, line and control runs are numbered apart (definition)."""
    kinds = [RunKind.POWER, RunKind.SPEAKER, RunKind.POWER, RunKind.LINE, RunKind.CONTROL]
    assert number_runs(kinds) == ("P01", "S01", "P02", "L01", "C01")


def test_a_label_is_never_used_twice() -> None:
    """Numbering goes on after the greatest label ever given, gaps stay gaps."""
    assert number_runs([RunKind.POWER, RunKind.LINE], taken=["P01", "P07", "S02"]) == (
        "P08",
        "L01",
    )


@settings(deadline=None, max_examples=100)
@given(kinds=st.lists(st.sampled_from(list(RunKind)), max_size=150))
def test_labels_are_distinct_and_read_back(kinds: list[RunKind]) -> None:
    """Every label is unique, also beyond 99, and names its kind."""
    labels = number_runs(kinds)
    assert len(set(labels)) == len(kinds)
    assert [split_label(label)[0] for label in labels] == kinds


@pytest.mark.parametrize("label", ["", "P", "P1", "P00", "X01", "p01", "P01a", "01"])
def test_what_is_not_a_label_is_refused(label: str) -> None:
    """Anything but a kind letter and two digits or more is an error."""
    with pytest.raises(WiringError, match="run label"):
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
    with pytest.raises(OutsideTableError, match="colour letters"):
        colour_names(letters)


def test_terminal_numbers() -> None:
    """A known number is found under itself, an unknown one is an error."""
    assert all(vehicle_terminal(n).number == n for n in VEHICLE_TERMINALS)
    with pytest.raises(OutsideTableError, match="terminal number"):
        vehicle_terminal("99")
