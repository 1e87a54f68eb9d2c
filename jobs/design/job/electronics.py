"""What is asked of the car's own electronics: by car and by plan, and always after its maker.

Nothing here says how: which codes, which coding and what has to be taught again differs between
makers and years, and the vehicle maker's manual says it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from jobs.design.records.records import JobRecords
from jobs.models import CarAnswer, FactoryPart

QUESTIONS: dict[str, Promise] = {
    "codes-before": _("Fault codes read before the work, as the tester shows them"),
    "support": _("How the battery was supported while doors were open and the ignition was on"),
    "high-voltage": _("Who is qualified for high voltage, and how it was isolated"),
    "coding": _("What was coded for the factory amplifier that is gone, after the maker"),
    "disconnected": _("Was the battery, or a module of the car, disconnected for the work?"),
    "taught": _("What was taught again after disconnection: windows, steering, radio code, clock"),
    "codes-after": _("Fault codes read after the work; none of ours may be left"),
}


# A tester writes a file of what it read.
WITH_FILE = {"codes-before", "codes-after"}
BY_YES_OR_NO = {"disconnected"}
# What talks on the car's bus: unplugged, it is missed and has to be taught when it comes back.
AMPLIFIER = FactoryPart.Kind.AMPLIFIER
MODULES = (AMPLIFIER, FactoryPart.Kind.HEAD_UNIT)
IN_USE = FactoryPart.Fate.IN_USE
GONE = (FactoryPart.Fate.REMOVED, FactoryPart.Fate.REPLACED)


@dataclass(frozen=True, kw_only=True)
class Question:
    """One thing asked of this car, and what was answered."""

    code: str
    answer: CarAnswer | None

    @property
    def takes_file(self) -> bool:
        """Whether a file may say it."""
        return self.code in WITH_FILE

    @property
    def takes_yes_or_no(self) -> bool:
        """Whether it is answered by yes or no, and by words only where somebody wants to."""
        return self.code in BY_YES_OR_NO

    @property
    def says(self) -> str:
        """It in words."""
        return str(QUESTIONS[self.code])


def questions(records: JobRecords) -> list[Question]:
    """What has to be answered for this car and this plan; the last answer counts."""
    answers = {row.code: row for row in records.car_answers}
    return [Question(code=code, answer=answers.get(code)) for code in _asked(records, answers)]


def _asked(records: JobRecords, answers: Mapping[str, CarAnswer]) -> Iterator[str]:
    yield "codes-before"
    yield "support"
    if records.job.vehicle.has_high_voltage:
        yield "high-voltage"
    if any(part.fate in GONE for part in _modules(records) if part.kind == AMPLIFIER):
        yield "coding"
    yield from _disconnected(records, answers)
    yield "codes-after"


def _disconnected(records: JobRecords, answers: Mapping[str, CarAnswer]) -> Iterator[str]:
    """What was taught again is asked where something was disconnected; else whether it was."""
    planned = any(part.fate and part.fate != IN_USE for part in _modules(records))
    if not planned and "taught" not in answers:
        yield "disconnected"
    answer = answers.get("disconnected")
    if planned or "taught" in answers or (answer and answer.yes):
        yield "taught"


def _modules(records: JobRecords) -> list[FactoryPart]:
    return [part for part in records.factory_parts if part.kind in MODULES]
