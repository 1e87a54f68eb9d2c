"""One job's supply while it is worked out: its records, its solved tree, and what was found."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from typing import TypeVar

from django.db.models import Model

from jobs.design.records.about import about
from jobs.design.records.decisions import OF_THE_CAR
from jobs.design.records.findings import CalculatorFinding, Finding, adopt
from jobs.design.records.records import JobRecords
from jobs.design.wiring.power import SECTION, PowerResult
from jobs.models import PowerNode, Vehicle
from wiring.errors import WiringError
from wiring.supply.amplifier import Amplifier

# Said on the page of the car by a finding of its own (jobs.design.checks).
SAID_OF_THE_CAR = frozenset(
    {
        "high-voltage-vehicle-caution",
        "alternator-rated-current-unknown",
        "dc-dc-current-unknown",
    }
)
T = TypeVar("T")


@dataclass
class Work:
    """One job's supply while it is worked out."""

    records: JobRecords
    power: PowerResult
    share: float
    amplifiers: dict[int, Amplifier]
    findings: list[Finding] = field(default_factory=list)

    @property
    def vehicle(self) -> Vehicle:
        """The car."""
        return self.records.job.vehicle

    def nodes(self, *kinds: str) -> list[PowerNode]:
        """Nodes of these kinds."""
        return [node for node in self.records.nodes if node.kind in kinds]

    def say(self, findings: Iterable[CalculatorFinding]) -> None:
        """Take over what a calculator finds about the car, which is said by its part."""
        ours = [finding for finding in findings if finding.code not in SAID_OF_THE_CAR]
        adopted = adopt(ours, section=SECTION, about=about(self.vehicle), name="", places={})
        self.findings += [
            replace(finding, section="car") if finding.code in OF_THE_CAR else finding
            for finding in adopted
        ]

    def say_of(self, node: PowerNode, findings: Iterable[CalculatorFinding]) -> None:
        """Take over what a calculator finds about a node of the tree."""
        self.findings += adopt(findings, section=SECTION, about=about(node), name=node.name)

    def attempt(self, record: Model, work: Callable[[], T], *, what: str) -> T | None:
        """Do a piece of work about a record; what a calculator refuses becomes a finding."""
        try:
            return work()
        except WiringError as error:
            self.findings.append(
                Finding(
                    code="supply-cannot-be",
                    severity="look",
                    section=SECTION,
                    about=about(record, what),
                    name=str(record),
                    value=str(error),
                    refused=error,
                )
            )
            return None
