"""What the estate car's customer is given to keep, and what is noted for later."""

from __future__ import annotations

from django.utils import timezone

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.models import CableLot, Job, Run, ServiceVisit, SheetKind, User


def load_aftercare(estate: Job, people: dict[str, User]) -> None:
    """Note the lot of its main cable and what came up over a weekend at home; issue its pack.

    The pack puts the page behind the customer's link.
    """
    main = estate.runs.filter(kind=Run.Kind.POWER).order_by("number")[0]
    CableLot.objects.create(job=estate, conductor_id=main.conductor_id, number="K26-0417", run=main)
    ServiceVisit.objects.create(
        job=estate,
        day=timezone.localdate(),
        reason=ServiceVisit.Reason.COMPLAINT,
        person=people["installer"],
        panel=estate.panels.get(name="Front door card, left"),
        told="It was taken home over the weekend: something buzzed in the left door.",
        seen="One clip of the card was not home.",
        changed="New clip; nothing buzzes up to the clean level.",
        settled=True,
    )
    if not sheets.unavailable():
        design = work_out(load(estate))
        sheets.issue(design, SheetKind.CUSTOMER, sheets.Options(), people["manager"])
