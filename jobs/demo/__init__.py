"""A wholly invented workshop with three jobs at different stages, to look around in."""

from __future__ import annotations

from django.db import transaction

from jobs.demo.camper import load_camper
from jobs.demo.catalogue import load_catalogue
from jobs.demo.estate import load_estate
from jobs.demo.people import load_people
from jobs.demo.pickup import load_pickup
from jobs.design import summary
from jobs.design.job import load, work_out
from jobs.models import Decision, Job, User

ACCEPTED = "port-noisy"


@transaction.atomic
def load_demo() -> None:
    """Make everything, once; an installation that has jobs is left alone."""
    people = load_people()
    parts = load_catalogue()
    jobs = [make(parts, people) for make in (load_estate, load_camper, load_pickup)]
    _accept(jobs[2], people["designer"])
    for job in jobs:
        summary.refresh(job)


def _accept(job: Job, by: User) -> None:
    """Let the designer accept one look of the pick-up, with a reason that is printed."""
    for finding in work_out(load(job)).findings:
        if finding.code == ACCEPTED:
            Decision.objects.create(
                job=job,
                code=finding.code,
                where=finding.where,
                fingerprint=finding.fingerprint,
                said=finding.says,
                severity=finding.severity,
                reason="Only at full level below 40 Hz; the customer heard a sample and agreed.",
                decided_by=by,
                name=by.full_name,
            )
