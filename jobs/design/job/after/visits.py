"""A car after it has left: what is in it now, who looked at it, and what was changed since."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from jobs.design.job.after.altered import Altered, altered
from jobs.design.job.after.handed_over import HandedOver, handed_over
from jobs.design.records.records import JobRecords
from jobs.models import Photo, ServiceVisit


@dataclass(frozen=True, kw_only=True)
class Visit:
    """A visit with what was written down as changed on its day, and its photos."""

    record: ServiceVisit
    changes: Sequence[Altered]
    photos: Sequence[Photo]


@dataclass(frozen=True, kw_only=True)
class Aftercare:
    """What is known of a car since it left."""

    # None where no record tells how it left: the plan stands in for it.
    then: HandedOver | None
    visits: Sequence[Visit]
    # Changed since, and of no visit.
    besides: Sequence[Altered]

    @property
    def told(self) -> set[tuple[str, int]]:
        """The rows of which something is told: the kind and the key of each."""
        return {step.key for visit in self.visits for step in visit.changes} | {
            step.key for step in self.besides
        }

    @property
    def open_complaints(self) -> list[ServiceVisit]:
        """What the customer is still waiting for."""
        return [
            visit.record
            for visit in self.visits
            if visit.record.reason == ServiceVisit.Reason.COMPLAINT and not visit.record.settled
        ]


def work_out_aftercare(records: JobRecords) -> Aftercare:
    """Put what became otherwise since the car left to the visit of that day."""
    then = handed_over(records)
    since = altered(records, then) if records.job.left_on else []
    visits = [
        Visit(
            record=visit,
            changes=[step for step in since if _meant(step, visit)],
            photos=photos_of(records, visit),
        )
        for visit in records.visits
    ]
    told = [step for visit in visits for step in visit.changes]
    return Aftercare(then=then, visits=visits, besides=[step for step in since if step not in told])


def photos_of(records: JobRecords, visit: ServiceVisit) -> list[Photo]:
    """Return the photos that were taken at a visit."""
    return [photo for photo in records.photos if photo.visit_id == visit.pk]


def _meant(step: Altered, visit: ServiceVisit) -> bool:
    """Whether it was changed that day, and on what the visit is about where that is known."""
    if step.day != visit.day:
        return False
    about = [("Run", visit.run_id), ("EquipmentItem", visit.item_id)]
    named = [key for key in about if key[1] is not None]
    return not named or step.key in named
