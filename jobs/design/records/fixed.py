"""Whether what is heavy in a car is held in a crash, as far as somebody said: one rule for all."""

from __future__ import annotations

from typing import Literal

from jobs.models.held import HeldInCar

Trouble = Literal["", "loose", "unsaid", "nowhere"]
# A stop is what flies for certain; what nobody said is asked.
SEVERITY: dict[Trouble, str] = {"loose": "stop", "unsaid": "look", "nowhere": "look"}
# How a thing can be held so that others may stand on it.
_TO_THE_CAR = (HeldInCar.Held.MAKERS, HeldInCar.Held.BRACKETS, HeldInCar.Held.INSERTS)


def trouble_of(record: HeldInCar) -> Trouble:
    """Say what is wrong with how a record is held; empty where nothing is.

    A dash or a question mark names no metal.
    """
    held = HeldInCar.Held
    if record.held_by == held.LOOSE:
        return "loose"
    if record.held_by == held.UNSAID:
        return "unsaid"
    named = any(letter.isalnum() for letter in record.held_into)
    return "" if named or record.held_by == held.MAKERS else "nowhere"


def is_carried(record: HeldInCar) -> bool:
    """Whether it stands on something of ours, which has to be held itself."""
    return record.held_by == HeldInCar.Held.CARRIED and not trouble_of(record)


def carries(record: HeldInCar) -> bool:
    """Whether it is held to the car itself, so that others may stand on it."""
    return record.held_by in _TO_THE_CAR and not trouble_of(record)
