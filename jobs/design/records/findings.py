"""What a check says, ready for a page: the calculator's data, the words, and any decision."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Protocol

from jobs import units
from jobs.design.wording import cure, says
from jobs.design.wording.refusals import Refused, refusal
from jobs.models import Decision

SEVERITIES = ("stop", "look", "note")

MINUTE = 60.0

# The SI unit a calculator names, and the kind of quantity it is shown as.
KIND_OF_UNIT = {
    "Hz": "frequency",
    "m": "length",
    "m²": "area",
    "m³": "volume",
    "m/s": "speed",
    "kg": "mass",
    "s": "time",
    "V": "voltage",
    "A": "current",
    "Ω": "resistance",
    "W": "power",
    "F": "capacitance",
    "C": "charge",
    "dB": "level",
    "rad": "angle",
    "H": "inductance",
    "m/N": "compliance",
    "kg/s": "mechanical_resistance",
    "T·m": "force_factor",
    "K": "temperature",
    "-": "ratio",
}


class CalculatorFinding(Protocol):
    """The shape both calculator packages give their findings."""

    @property
    def code(self) -> str: ...
    @property
    def where(self) -> str: ...
    @property
    def value(self) -> float | str | None: ...
    @property
    def limit(self) -> float | str | None: ...
    @property
    def unit(self) -> str: ...
    @property
    def source(self) -> str: ...
    @property
    def severity(self) -> str: ...


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One finding of a job."""

    code: str
    severity: str
    section: str  # the page where it is cured
    where: str
    value: float | str | None = None
    limit: float | str | None = None
    unit: str = ""
    source: str = ""
    record_id: int | None = None
    # What a calculator refused; `value` keeps its plain text, the same in every language.
    refused: Refused | None = field(default=None, compare=False)
    decision: Decision | None = field(default=None, compare=False)

    @property
    def key(self) -> str:
        """What the address of its decision page is made of."""
        return hashlib.sha256(f"{self.code}|{self.section}|{self.where}".encode()).hexdigest()[:16]

    @property
    def fingerprint(self) -> str:
        """Changes with the figures, so that a decision never outlives what it was made on."""
        text = f"{self.code}|{self.where}|{_plain(self.value)}|{_plain(self.limit)}|{self.severity}"
        return hashlib.sha256(text.encode()).hexdigest()

    @property
    def shown_value(self) -> str:
        """The value as a person reads it."""
        if self.refused is not None:
            return reason(self.refused)
        return show_si(self.value, self.unit)

    @property
    def shown_figure(self) -> str:
        """The value to stand beside the sentence; a value in words stands in the sentence."""
        is_figure = self.refused is None and isinstance(self.value, float | int)
        return self.shown_value if is_figure else ""

    @property
    def shown_limit(self) -> str:
        """The limit as a person reads it."""
        return show_si(self.limit, self.unit)

    @property
    def shown_bound(self) -> str:
        """The limit to stand beside the sentence, likewise a figure."""
        return self.shown_limit if isinstance(self.limit, float | int) else ""

    @property
    def says(self) -> str:
        """The finding in one sentence."""
        return says(self.code, self.where, self.shown_value, self.shown_limit)

    @property
    def cure(self) -> str:
        """What would cure it."""
        return cure(self.code)

    @property
    def is_open(self) -> bool:
        """Whether somebody still has to act: notes inform, decided findings are settled."""
        return self.severity != "note" and self.decision is None


def reason(error: Refused) -> str:
    """Say what a calculator refused, in the reader's language and units."""
    return refusal(error, show_si)


def _plain(value: float | str | None) -> str:
    return f"{value:.4g}" if isinstance(value, float | int) else str(value)


def show_si(value: float | str | None, unit: str) -> str:
    """Show a calculator's figure in the workshop's units."""
    if value is None or isinstance(value, str):
        return value or ""
    if unit == "°C":
        return units.show(units.kelvin(value), "temperature")
    if unit == "s" and value >= MINUTE:
        return units.show(value, "duration")
    if unit not in KIND_OF_UNIT:
        return f"{value:.3g} {unit}".strip()
    return units.show(value, KIND_OF_UNIT[unit])


def adopt(
    found: Iterable[CalculatorFinding],
    *,
    section: str,
    where: str = "",
    record_id: int | None = None,
) -> list[Finding]:
    """Take a calculator's findings over, saying which box, tree or channel they are about."""
    return [
        Finding(
            code=one.code,
            severity=one.severity,
            section=section,
            where=" · ".join(part for part in (where, one.where) if part),
            value=one.value,
            limit=one.limit,
            unit=one.unit,
            source=one.source,
            record_id=record_id,
        )
        for one in found
    ]


def decided(found: Iterable[Finding], decisions: Iterable[Decision]) -> tuple[Finding, ...]:
    """Attach each decision to the finding it was made on; stops first, open before decided."""
    by_print = {decision.fingerprint: decision for decision in decisions}
    unique: dict[str, Finding] = {}
    for bare in found:
        one = replace(bare, decision=by_print.get(bare.fingerprint))
        # Of two that share a page the open one stands: a decision never covers its neighbour.
        if (old := unique.get(one.key)) is None or not old.is_open:
            unique[one.key] = one
    return tuple(
        sorted(unique.values(), key=lambda one: (SEVERITIES.index(one.severity), not one.is_open))
    )
