"""A person's decision about a finding, as it is stored."""

from __future__ import annotations

from django.db.models import Q, QuerySet

from jobs.compiled import compiled
from jobs.design.records.findings import Finding
from jobs.models import Decision, Job, User

# Cautions of a car: who has ticked one knows it, whatever job the car comes for.
OF_THE_CAR = (
    *("start-stop-caution", "smart-charging-caution"),
    *("high-voltage-car", "car-taken-over"),
)


def decisions_of(job: Job) -> list[Decision]:
    """Return what was decided on a job, and what was ticked of its car on another."""
    return _decisions(job.pk, job.vehicle_id)


@compiled
def _decisions(job: int, vehicle: int) -> QuerySet[Decision]:
    ticked = Q(code__in=OF_THE_CAR, job__vehicle=vehicle, job__removed_at=None)
    return Decision.objects.filter(Q(job=job) | ticked)


def take(job: Job, finding: Finding, user: User, reason: str) -> Decision:
    """Store a decision about a finding; what was decided of it before gives way."""
    about = finding.about
    decision = Decision(
        job=job,
        code=finding.code,
        about_kind=about.kind,
        about_key=about.key,
        about_detail=about.detail,
        where=finding.where,
        fingerprint=finding.fingerprint,
        said=finding.says,
        severity=finding.severity,
        reason=reason,
        decided_by=user,
        name=user.full_name,
    )
    for old in _standing(decision):
        old.remove()
    decision.save()
    return decision


def stand_again(decision: Decision) -> None:
    """Let a withdrawn decision stand, unless its finding was decided anew: one stands at a time."""
    if not _standing(decision).exists():
        decision.restore()


def _standing(decision: Decision) -> QuerySet[Decision]:
    """What stands about the same finding, whatever its figures were."""
    return Decision.objects.filter(
        job=decision.job,
        code=decision.code,
        about_kind=decision.about_kind,
        about_key=decision.about_key,
        about_detail=decision.about_detail,
    )
