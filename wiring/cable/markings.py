"""How wires, colours and terminals are marked: run labels, IEC 60757 letters, DIN 72552 numbers."""

import re
from enum import StrEnum

from wiring.errors import Id, OutsideTableError, WiringError
from wiring.names import Name


class RunKind(StrEnum):
    """Kind of a run; its value is the letter of the label.

    Attributes:
        POWER: feeds or returns a supply
        SPEAKER: amplifier to speaker
        LINE: line level
        CONTROL: turn-on, level control, bus
    """

    POWER = "P"
    SPEAKER = "S"
    LINE = "L"
    CONTROL = "C"


_LABEL = re.compile(r"([PSLC])(\d{2,})")

# IEC 60757:2021 letters.
COLOUR_LETTERS: dict[str, str] = {
    "BK": "black", "BN": "brown", "RD": "red", "OG": "orange", "YE": "yellow", "GN": "green",
    "BU": "blue", "VT": "violet", "GY": "grey", "WH": "white", "PK": "pink", "TQ": "turquoise",
    "GD": "gold", "SR": "silver",
}  # fmt: skip


def split_label(label: str) -> tuple[RunKind, int]:
    """Kind and number of a run label; sorts labels as people count.

    Args:
        label: such as "P03" or "S112"

    Returns: kind and number

    Raises:
        WiringError: the text is not a run label.

    Source: definition
    """
    match = _LABEL.fullmatch(label)
    if match is None or int(match[2]) == 0:
        raise WiringError(Name.RUN_LABEL, Id(label), to_be="run-label")
    return RunKind(match[1]), int(match[2])


def colour_names(letters: str) -> tuple[str, ...]:
    """Names of the colours behind IEC 60757 letters, base first, then stripes.

    Args:
        letters: letters joined without a space, such as "RD" or "GNYE"

    Returns: colour names in English

    Raises:
        OutsideTableError: a pair of letters is not in IEC 60757.

    Source: IEC 60757:2021, Code for designation of colours
    """
    pairs = [letters[i : i + 2] for i in range(0, len(letters), 2)]
    if not pairs or any(pair not in COLOUR_LETTERS for pair in pairs):
        raise OutsideTableError(Name.COLOUR, letters, made_of=tuple(COLOUR_LETTERS))
    return tuple(COLOUR_LETTERS[pair] for pair in pairs)
