"""One job's supply while it is worked out: its records, its solved tree, and what was found."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from typing import TypeVar

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
    found: list[Finding] = field(default_factory=list)

    @property
    def vehicle(self) -> Vehicle:
        """The car."""
        return self.records.job.vehicle

    def nodes(self, *kinds: str) -> list[PowerNode]:
        """Nodes of these kinds."""
        return [node for node in self.records.nodes if node.kind in kinds]

    def say(self, found: Iterable[CalculatorFinding], node: PowerNode | None = None) -> None:
        """Take a calculator's findings over, at a node if they are about one."""
        said = [one for one in found if one.code not in SAID_OF_THE_CAR]
        adopted = adopt(said, section=SECTION, record_id=node.pk if node else None)
        self.found += [replace(one, where=node.name) if node else one for one in adopted]

    def attempt(self, where: str, work: Callable[[], T]) -> T | None:
        """Do a piece of work; what a calculator refuses becomes a finding."""
        try:
            return work()
        except WiringError as error:
            self.found.append(
                Finding(
                    code="supply-cannot-be",
                    severity="look",
                    section=SECTION,
                    where=where,
                    value=str(error),
                    refused=error,
                )
            )
            return None
