"""A car after it has left: what is in it now, who looked at it, and what was changed since."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from django.utils import timezone

from jobs.design.records.as_built import Built, Difference
from jobs.design.records.records import JobRecords, otherwise
from jobs.models import ServiceVisit

Changed = tuple[Built, Sequence[Difference]]


@dataclass(frozen=True, kw_only=True)
class Visit:
    """A visit with what was written down as changed on its day."""

    record: ServiceVisit
    changes: Sequence[Changed]


@dataclass(frozen=True, kw_only=True)
class Aftercare:
    """What is known of a car since it left."""

    visits: Sequence[Visit]
    # Changed since, and of no visit.
    besides: Sequence[Changed]

    @property
    def open_complaints(self) -> list[ServiceVisit]:
        """What the customer is still waiting for."""
        return [
            visit.record
            for visit in self.visits
            if visit.record.reason == ServiceVisit.Reason.COMPLAINT and not visit.record.settled
        ]


def work_out_aftercare(records: JobRecords) -> Aftercare:
    """Put what was built otherwise since the car left to the visit of that day."""
    left = records.job.left_on
    # What was done on the day itself was done before it left.
    since = [row for row in otherwise(records) if left is not None and _day(row) > left]
    visits = [
        Visit(record=visit, changes=[row for row in since if _meant(row, visit)])
        for visit in records.visits
    ]
    told = [row for visit in visits for row in visit.changes]
    return Aftercare(visits=visits, besides=[row for row in since if row not in told])


def _day(row: Changed) -> dt.date:
    built, _differences = row
    assert built.as_built is not None  # it is not as it was designed
    return timezone.localdate(built.as_built.done_at)


def _meant(row: Changed, visit: ServiceVisit) -> bool:
    """Whether it was changed that day, and on what the visit is about where that is known."""
    if _day(row) != visit.day:
        return False
    about = [key for key in (visit.run_id, visit.item_id) if key is not None]
    named = {"Run": visit.run_id, "EquipmentItem": visit.item_id}
    built, _differences = row
    return not about or named.get(type(built).__name__) == built.pk
