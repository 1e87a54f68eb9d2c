"""Whether what is heavy in a car is held in a crash, as far as somebody said: one rule for all."""

from __future__ import annotations

from typing import Literal

from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.models import Box, EquipmentItem, TrimPanel
from jobs.models.held import HeldInCar

Trouble = Literal["", "loose", "unsaid", "nowhere"]
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


def held_findings(
    record: Box | TrimPanel | EquipmentItem, *, section: str, mass: float | None = None
) -> list[Finding]:
    """Ask how a thing is held in a crash: what flies for certain is a stop, the rest is asked."""
    trouble = trouble_of(record)
    if not trouble:
        return []
    codes: dict[type[HeldInCar], dict[Trouble, str]] = {
        Box: {
            "loose": "box-unfixed",
            "unsaid": "box-fixing-unknown",
            "nowhere": "fixing-into-nothing",
        },
        TrimPanel: {
            "loose": "panel-unfixed",
            "unsaid": "panel-fixing-unknown",
            "nowhere": "panel-into-nothing",
        },
        EquipmentItem: {
            "loose": "equipment-unfixed",
            "unsaid": "equipment-fixing-unknown",
            "nowhere": "equipment-into-nothing",
        },
    }
    return [
        Finding(
            code=codes[type(record)][trouble],
            severity="stop" if trouble == "loose" else "look",
            section=section,
            about=about(record),
            name=str(record) if isinstance(record, EquipmentItem) else record.name,
            value=mass,
            unit="" if mass is None else "kg",
        )
    ]


def is_carried(record: HeldInCar) -> bool:
    """Whether it stands on something of ours, which has to be held itself."""
    return record.held_by == HeldInCar.Held.CARRIED and not trouble_of(record)


def carries(record: HeldInCar) -> bool:
    """Whether it is held to the car itself, so that others may stand on it."""
    return record.held_by in _TO_THE_CAR and not trouble_of(record)
