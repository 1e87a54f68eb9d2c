"""What the estate car's customer is given to keep, and what is noted for later."""

from __future__ import annotations

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.models import CableLot, Job, Run, SheetKind, User


def load_aftercare(estate: Job, people: dict[str, User]) -> None:
    """Note the lot of its main cable; issue its pack, which puts the page behind its link."""
    main = estate.runs.filter(kind=Run.Kind.POWER).order_by("number")[0]
    CableLot.objects.create(job=estate, conductor_id=main.conductor_id, number="K26-0417", run=main)
    if not sheets.unavailable():
        design = work_out(load(estate))
        sheets.issue(design, SheetKind.CUSTOMER, sheets.Options(), people["manager"])
