"""What an intake says: what was signed, what was added later, what nobody noted."""

from __future__ import annotations

from collections.abc import Sequence

from jobs.models import Intake, IntakeMark

# What is asked of every car; the rest belongs to one of these.
ASKED = ("mileage", "fuel", "keys", "lamps_lit", "belongings_left", "works", "works_not")


def split(intake: Intake, marks: Sequence[IntakeMark]) -> tuple[list[IntakeMark], list[IntakeMark]]:
    """Part the marks that were signed for from those that were noted later."""
    at = intake.signed_at
    signed = [mark for mark in marks if at is None or mark.noted_at <= at]
    return signed, [mark for mark in marks if mark not in signed]


def not_noted(intake: Intake) -> list[str]:
    """Name what is asked of every car and nobody noted: unknown, not nothing."""
    return [
        str(Intake._meta.get_field(name).verbose_name)  # type: ignore[union-attr]
        for name in ASKED
        if getattr(intake, name) in (None, "")
    ]
