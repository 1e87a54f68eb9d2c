"""How wires, colours and terminals are marked: run labels, IEC 60757 letters, DIN 72552 numbers."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from wiring.errors import OutsideTableError, WiringError


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


@dataclass(frozen=True, kw_only=True)
class VehicleTerminal:
    """A terminal number of the vehicle and what it carries.

    Attributes:
        number: number as DIN 72552 writes it
        meaning: key of what it carries, for the words of the page
        carries_supply: True when the terminal can be at battery plus

    Source: DIN 72552
    """

    number: str
    meaning: str
    carries_supply: bool


# 30, 31 and their letters, 29, 33 and 41 were read in an open copy; the rest is from memory.
# A number names a wire; it never proves what is on it: measure.
VEHICLE_TERMINALS: dict[str, VehicleTerminal] = {
    number: VehicleTerminal(number=number, meaning=meaning, carries_supply=supply)
    for number, meaning, supply in (
        ("15", "ignition-switched-plus", True),
        ("30", "battery-plus", True),
        ("30a", "second-battery-plus", True),
        ("31", "ground", False),
        ("31b", "switched-ground", False),
        ("40", "48-volt-plus", True),
        ("41", "48-volt-ground", False),
        ("49", "flasher", True),
        ("50", "starter", True),
        ("56", "headlights", True),
        ("58", "side-lights", True),
        ("58d", "dimmed-instrument-lights", True),
        ("61", "charge-lamp", True),
        ("75", "radio-and-accessories", True),
        ("85", "relay-coil-negative", False),
        ("86", "relay-coil-positive", True),
        ("87", "relay-contact-normally-open", True),
        ("87a", "relay-contact-normally-closed", True),
        ("B+", "alternator-plus", True),
        ("D+", "alternator-charge-signal", True),
    )
}


def number_runs(kinds: Sequence[RunKind], taken: Sequence[str] = ()) -> tuple[str, ...]:
    """Labels for new runs that never reuse a label already on a cable.

    Each kind counts on from its own greatest number: P01, P02, S01, L01, C01.

    Args:
        kinds: kind of each new run, in the order to be numbered
        taken: labels already given on this job, removed ones included

    Returns: one label for each kind, in the same order

    Raises:
        WiringError: a taken label is not a run label.

    Source: definition
    """
    last = dict.fromkeys(RunKind, 0)
    for label in taken:
        kind, number = split_label(label)
        last[kind] = max(last[kind], number)
    labels = []
    for kind in kinds:
        last[kind] += 1
        labels.append(f"{kind}{last[kind]:02d}")
    return tuple(labels)


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
        limit = "P, S, L or C and two digits or more"
        raise WiringError(name="run label", value=label, limit=limit)
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
        limit = f"made of {', '.join(COLOUR_LETTERS)}"
        raise OutsideTableError(name="colour letters", value=letters, limit=limit)
    return tuple(COLOUR_LETTERS[pair] for pair in pairs)


def vehicle_terminal(number: str) -> VehicleTerminal:
    """What a terminal number of the vehicle stands for.

    Args:
        number: number as DIN 72552 writes it

    Returns: the terminal

    Raises:
        OutsideTableError: the number is not one the trade uses here.

    Source: DIN 72552
    """
    if number not in VEHICLE_TERMINALS:
        limit = f"one of {', '.join(VEHICLE_TERMINALS)}"
        raise OutsideTableError(name="terminal number", value=number, limit=limit)
    return VEHICLE_TERMINALS[number]
