"""The other side of the car: words that name a side, and the colours speaker pairs have there."""

from __future__ import annotations

import re

from django.db.models import Model

# As people write them, in either language; the short ones only in capitals.
_PAIRS = (
    ("left", "right"),
    ("links", "rechts"),
    *((f"link{ending}", f"recht{ending}") for ending in ("e", "er", "en", "em", "es")),
)
# These follow the driver, who sits on the other side in a mirrored car.
_DRIVERS = (
    ("nearside", "offside"),
    ("driver's", "passenger's"),
    ("driver’s", "passenger’s"),
    ("fahrerseite", "beifahrerseite"),
)
_SHORT = (("l", "r"), ("lh", "rh"), ("fl", "fr"), ("rl", "rr"))
_OTHER = {
    here: there for pair in (*_PAIRS, *_DRIVERS, *_SHORT) for here, there in (pair, pair[::-1])
}
_CAPITALS = {word for pair in _SHORT for word in pair}
_FOLLOWING = {word for pair in _DRIVERS for word in pair}
# Not "4 R": that is a resistance.
_WORD = re.compile(rf"(?<![0-9])(?<![0-9] )\b(?:{'|'.join(map(re.escape, _OTHER))})\b", re.I)

# Plus wires of speaker pairs, left to right; the minus is the same with a black stripe. Common
# practice of the trade, no source: white and grey in front, green and violet behind.
_COLOURS = {"WH": "GY", "GY": "WH", "GN": "VT", "VT": "GN"}


def other_side(text: str) -> str:
    """Return the text with each side it names turned into the other one."""
    return _WORD.sub(_swapped, text)


def in_the_mirror(text: str) -> str:
    """Return the text for a car driven from the other side: the driver's stays the driver's."""
    return _WORD.sub(
        lambda match: match[0] if match[0].lower() in _FOLLOWING else _swapped(match), text
    )


def swap_sides(record: Model, *names: str) -> None:
    """Turn left and right in these texts of a record about, where the other word has the room."""
    for name in names:
        text = in_the_mirror(getattr(record, name))
        room = getattr(record._meta.get_field(name), "max_length", None)
        if room is None or len(text) <= room:
            setattr(record, name, text)


def _swapped(match: re.Match[str]) -> str:
    word = match[0]
    there = _OTHER[word.lower()]
    if word.lower() in _CAPITALS:
        return there.upper() if word.isupper() else word
    if word.isupper():
        return there.upper()
    return there.capitalize() if word[0].isupper() else there


def other_colour(letters: str) -> str:
    """Return the colour of the same wire on the other side; any other colour stays."""
    return _COLOURS.get(letters[:2], letters[:2]) + letters[2:]
