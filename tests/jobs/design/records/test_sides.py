"""The other side of the car, in words and in colours."""

import pytest

from jobs.design.records.sides import in_the_mirror, other_colour, other_side


@pytest.mark.parametrize(
    ("here", "there"),
    [
        ("front door left", "front door right"),
        ("Left A-pillar", "Right A-pillar"),
        ("DOOR LEFT", "DOOR RIGHT"),
        ("Tür links", "Tür rechts"),
        ("linke Tür", "rechte Tür"),
        ("Tweeter L", "Tweeter R"),
        ("FL", "FR"),
        ("driver's door", "passenger's door"),
    ],
)
def test_a_side_becomes_the_other(here, there):
    """Whole words change, in the letters they were written in, and back again."""
    assert other_side(here) == there
    assert other_side(there) == here


@pytest.mark.parametrize("text", ["leftover felt", "coil 4 R", "boot floor", "rl 8"])
def test_what_names_no_side_stays(text):
    """Part of a word, a resistance and small letters are no side."""
    assert other_side(text) == text


def test_the_colours_of_speaker_pairs():
    """White and grey in front, green and violet behind: common practice, no source."""
    assert [other_colour(letters) for letters in ("WH", "GYBK", "GN", "VTBK", "RD", "")] == [
        "GY", "WHBK", "VT", "GNBK", "RD", "",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Trim in the driver's footwell, left", "Trim in the driver's footwell, right"),
        ("Verkleidung links, Fahrerseite", "Verkleidung rechts, Fahrerseite"),
        ("nearside sill, FL", "nearside sill, FR"),
        ("boot floor", "boot floor"),
    ],
)
def test_in_a_mirrored_car_the_driver_stays_the_driver(text, expected):
    """Left and right change places; what is named by the driver goes with the driver."""
    assert in_the_mirror(text) == expected
