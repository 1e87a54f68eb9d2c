"""Findings that say the same of several records: one line for all of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from jobs.design.job.due import DUE, cured_by, due_of
from jobs.design.records.about import About
from jobs.design.records.findings import SEVERITIES, Finding
from jobs.models import Role, Stage


@dataclass(frozen=True, kw_only=True)
class Alike:
    """Findings of one code that stand alike: all open, or all decided."""

    findings: Sequence[Finding]

    @property
    def first(self) -> Finding:
        """The finding whose sentence stands for all."""
        return self.findings[0]

    @property
    def severity(self) -> str:
        """Its mark."""
        if self.first.decision:
            return "released" if self.first.severity == "stop" else "accepted"
        return self.first.severity

    @property
    def others(self) -> int:
        """How many say the same of another record."""
        return len(self.findings) - 1

    @property
    def places(self) -> str:
        """Where the others are."""
        return ", ".join(dict.fromkeys(row.where for row in self.findings[1:] if row.where))


def alike(findings: Iterable[Finding]) -> list[Alike]:
    """Put findings of one code together, in the order in which the first of each stands."""
    groups: dict[tuple[str, str, bool], list[Finding]] = {}
    for finding in findings:
        stands = (finding.severity, finding.code, finding.decision is None)
        groups.setdefault(stands, []).append(finding)
    return [Alike(findings=group) for group in groups.values()]


def cured_at(finding: Finding) -> About:
    """Return the record to open: of what holds for many, the first of them."""
    return finding.also[0] if finding.about.kind == "job" and finding.also else finding.about


@dataclass(frozen=True, kw_only=True)
class DueGroup:
    """What is to be settled before a stage; none: notes, and what is settled."""

    stage: Stage | None
    findings: Sequence[Finding]


def by_due(findings: Sequence[Finding], who: Role | None = None) -> list[DueGroup]:
    """Sort findings by when they are due; stops first, and of one person where one is asked for."""
    mine = [finding for finding in findings if who is None or cured_by(finding) == who]
    groups = [
        DueGroup(
            stage=stage,
            findings=sorted(
                (row for row in mine if row.is_open and due_of(row) == stage),
                key=lambda row: SEVERITIES.index(row.severity),
            ),
        )
        for stage in DUE
    ]
    settled = DueGroup(stage=None, findings=[row for row in mine if not row.is_open])
    return [group for group in (*groups, settled) if group.findings]
