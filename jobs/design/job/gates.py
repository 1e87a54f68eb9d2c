"""What a gate between two stages is: a code, what it asks of a job, and what it says is missing."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Protocol

from jobs.design.job.panels import PanelResult
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords
from jobs.design.wording.gates import gate_says, gate_word
from jobs.models import Role, Stage


class Judged(Protocol):
    """What gates read of a job that is worked out."""

    @property
    def records(self) -> JobRecords: ...
    @property
    def findings(self) -> tuple[Finding, ...]: ...
    @property
    def panels(self) -> Sequence[PanelResult]: ...
    @property
    def still_open(self) -> list[Open]: ...


@dataclass(frozen=True, kw_only=True)
class Missing:
    """One thing that a gate does not get."""

    # Of what it is made: the same in every language, so that a release covers it and no more.
    keys: tuple[str, ...]
    figures: Mapping[str, Any] = field(default_factory=dict)
    # Where it is cured and by whom, where the gate's own do not hold.
    page: str = ""
    who: Role | None = None
    # Whether it waits for a signature, which is given in the list of these.
    to_sign: bool = False


@dataclass(frozen=True, kw_only=True)
class Gate:
    """What must be so before a stage."""

    code: str
    # None: before each.
    before: Stage | None
    page: str
    who: Role
    missing: Callable[[Judged], Iterable[Missing]]


@dataclass(frozen=True, kw_only=True)
class Open:
    """What keeps a gate shut, and where it is cured."""

    gate: Gate
    missing: Missing

    @property
    def code(self) -> str:
        """The code of its gate."""
        return self.gate.code

    @property
    def keys(self) -> tuple[str, ...]:
        """What it is made of."""
        return self.missing.keys

    @property
    def page(self) -> str:
        """The page of the job where it is cured."""
        return self.missing.page or self.gate.page

    @property
    def who(self) -> Role:
        """Who cures it."""
        return self.missing.who or self.gate.who

    @property
    def to_sign(self) -> bool:
        """Whether it waits for a signature."""
        return self.missing.to_sign

    @property
    def says(self) -> str:
        """It in one sentence."""
        return gate_says(self.code, self.missing.figures)

    @property
    def word(self) -> str:
        """It beside a step of the strip."""
        return gate_word(self.code, self.missing.figures)
