"""What a check says, ready for a page: the calculator's data, the words, and any decision."""

from __future__ import annotations

import hashlib
import json
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Protocol

from jobs import units
from jobs.design.records.about import About
from jobs.design.wording import cure, says, sources_said, term, terms
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
    def detail(self) -> tuple[str, ...]: ...
    @property
    def value(self) -> float | str | None: ...
    @property
    def limit(self) -> float | str | None: ...
    @property
    def unit(self) -> str: ...
    @property
    def source(self) -> Sequence[str]: ...
    @property
    def severity(self) -> str: ...


@dataclass(frozen=True)
class Term:
    """One or several words of the calculators, said in the reader's language when they are read."""

    words: tuple[str, ...]

    def __str__(self) -> str:
        return terms(self.words)


Word = str | Term


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One finding of a job."""

    code: str
    severity: str
    section: str  # the page where it is cured
    about: About
    # Other records it holds for, or that take part in it.
    also: tuple[About, ...] = ()
    # For people only: the name of the record, or of several, and the place on it.
    name: str = ""
    place: tuple[Word, ...] = ()
    value: float | str | None = None
    limit: float | str | None = None
    unit: str = ""
    source: tuple[str, ...] = ()
    # Of a stop without a figure: the figures of the records it is about.
    basis: tuple[str, ...] = ()
    # What stands in the sentence in place of a value made of keys.
    value_said: str | None = None
    # What a calculator refused; `value` keeps its plain text, the same in every language.
    refused: Refused | None = field(default=None, compare=False)
    decision: Decision | None = field(default=None, compare=False)

    @property
    def key(self) -> str:
        """What the address of its decision page is made of."""
        return _hash(self.code, *_keys(self.about))[:16]

    @property
    def fingerprint(self) -> str:
        """Changes with the figures, so that a decision never outlives what it was made on."""
        others = [part for other in self.also for part in _keys(other)]
        figures = (plain(self.value), plain(self.limit), self.severity)
        return _hash(self.code, *_keys(self.about), *others, *figures, *self.basis)

    def concerns(self, record: About) -> bool:
        """Whether it is about a record, alone or among others."""
        return any(touched.is_of(record) for touched in (self.about, *self.also))

    @property
    def where(self) -> str:
        """The record and the place on it, in words."""
        place = " / ".join(str(word) for word in self.place)
        return " · ".join(part for part in (self.name, place) if part)

    @property
    def shown_value(self) -> str:
        """The value as a person reads it."""
        if self.value_said is not None:
            return self.value_said
        if self.refused is not None:
            return reason(self.refused)
        return term(self.value) if isinstance(self.value, str) else self._figure(self.value)

    @property
    def shown_figure(self) -> str:
        """The value to stand beside the sentence; a value in words stands in the sentence."""
        is_figure = self.refused is None and isinstance(self.value, float | int)
        return self.shown_value if is_figure else ""

    @property
    def shown_limit(self) -> str:
        """The limit as a person reads it."""
        return self._figure(self.limit)

    def _figure(self, figure: float | str | None) -> str:
        """A figure with three letters, or with its decimals where they tell value from limit."""

        def alike(*, short: bool) -> bool:
            value, limit = (show_si(f, self.unit, short=short) for f in (self.value, self.limit))
            return value == limit

        return show_si(figure, self.unit, short=not alike(short=True) or alike(short=False))

    @property
    def shown_source(self) -> str:
        """Where the limit comes from, as a person reads it."""
        return sources_said(self.source)

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


def unnamed(error: Refused, keys: Mapping[str, str]) -> str:
    """What was refused in plain text, with keys in place of the names of records."""
    given = {
        word: keys.get(value, value) if isinstance(value, str) else value
        for word, value in error.given.items()
    }
    return f"{error.code}: {', '.join(f'{word} {value}' for word, value in given.items())}"


def plain(value: float | str | None) -> str:
    """A figure as far as a decision depends on it."""
    return f"{value:.4g}" if isinstance(value, float | int) else str(value)


def show_si(value: float | str | None, unit: str, *, short: bool = True) -> str:
    """Show a calculator's figure in the workshop's units, as a sentence says it."""
    if value is None or isinstance(value, str):
        return value or ""
    if unit == "°C":
        value, kind = units.kelvin(value), "temperature"
    elif unit == "s" and value >= MINUTE:
        kind = "duration"
    else:
        kind = KIND_OF_UNIT.get(unit, "")
    if not kind:
        return f"{value:.3g} {unit}".strip()
    with units.on_paper(short=short):
        return units.show(value, kind)


def adopt(
    findings: Iterable[CalculatorFinding],
    *,
    section: str,
    about: About,
    name: str,
    places: Mapping[str, Word] | None = None,
) -> list[Finding]:
    """Take over what a calculator finds about one record.

    `places` gives names to the words of its details that stand for a part; without it the details
    are not said.
    """
    return [
        Finding(
            code=finding.code,
            severity=finding.severity,
            section=section,
            about=about.at(*finding.detail),
            name=name,
            place=()
            if places is None
            else tuple(places.get(word, Term((word,))) for word in finding.detail),
            value=finding.value,
            limit=finding.limit,
            unit=finding.unit,
            source=tuple(finding.source),
        )
        for finding in findings
    ]


def decided(findings: Iterable[Finding], decisions: Iterable[Decision]) -> tuple[Finding, ...]:
    """Attach each decision to the finding it was made on; stops first, open before decided.

    Of two that cannot be told apart none is decided: a decision never covers its neighbour.
    """
    every = list(findings)
    by_print = {decision.fingerprint: decision for decision in decisions}
    count = Counter(finding.key for finding in every)
    settled = [
        replace(
            finding,
            decision=by_print.get(finding.fingerprint) if count[finding.key] == 1 else None,
        )
        for finding in every
    ]
    return tuple(
        sorted(
            settled, key=lambda finding: (SEVERITIES.index(finding.severity), not finding.is_open)
        )
    )


def _hash(*parts: str) -> str:
    return hashlib.sha256(json.dumps(parts).encode()).hexdigest()


def _keys(about: About) -> tuple[str, str, str]:
    return about.kind, about.key, about.detail
