"""Invented glue, tape and T-nuts, and what of them the camper takes."""

from __future__ import annotations

from typing import Any

from jobs.models import EquipmentItem, Job, Part, Supply

Use = Supply.Use
# What each is, with the figures of its sheet in SI.
_SUPPLIES: dict[str, dict[str, Any]] = {
    "wood glue": {
        "name": "White glue, 0.75 kg", "use": Use.GLUE, "spread": 0.18, "pack_mass": 0.75,
    },
    "cover glue": {
        "name": "Contact glue, 2 kg", "use": Use.COVER_GLUE, "spread": 0.3, "pack_mass": 2.0,
    },
    "tape": {"name": "Foam tape 10 x 3", "use": Use.TAPE, "pack_length": 10.0},
    "wood screw": {
        "name": "Screw 4 x 40", "use": Use.SCREW, "thread": "4 × 40", "hole": 0.0025,
        "pack_pieces": 200,
    },
    "T-nut": {
        "name": "T-nut M5 x 12", "use": Use.T_NUT, "thread": "M5", "barrel": 0.012, "hole": 0.0065,
        "pack_pieces": 25,
    },
    "insert": {
        "name": "Insert M4 x 10", "use": Use.INSERT, "thread": "M4", "barrel": 0.01, "hole": 0.0057,
        "pack_pieces": 50,
    },
}  # fmt: skip


def supplies() -> dict[str, Supply]:
    """Make every supply and return them by a short name."""
    return {
        short: Supply.objects.create(
            kind=Part.Kind.SUPPLY,
            maker="Velmorrick",
            figures_source="from its sheet (invented)",
            **figures,
        )
        for short, figures in _SUPPLIES.items()
    }


def add_supplies(job: Job, parts: dict[str, Any]) -> None:
    """Hold the woofers by T-nuts; glue and they are in, tape is to come."""
    job.equipmentitems.filter(part=parts["woofer"].part_ptr).update(fastener=parts["T-nut"])
    states = EquipmentItem.State
    for name, state in (("wood glue", states.IN), ("T-nut", states.IN), ("tape", states.ORDERED)):
        EquipmentItem.objects.create(
            job=job, part=parts[name].part_ptr, place="wood shop", state=state
        )
