"""What is kept of a car after it has left."""

from __future__ import annotations

from datetime import date

from jobs.models import CableLot, Job, Run, ServiceVisit


def make_visit(job: Job, run: Run, *, lot: str) -> None:
    """Somebody looked at a run years later, and noted the lot of its cable."""
    ServiceVisit.objects.create(
        job=job, day=date(2026, 11, 20), reason=ServiceVisit.Reason.SERVICE, run=run,
        person=job.consultant, seen="All tight.", settled=True,
    )  # fmt: skip
    CableLot.objects.create(job=job, conductor=run.conductor, number=lot, run=run)
