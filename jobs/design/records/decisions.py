"""A person's decision about a finding, as it is stored."""

from __future__ import annotations

from jobs.design.records.findings import Finding
from jobs.models import Decision, Job, User


def take(job: Job, finding: Finding, user: User, reason: str) -> Decision:
    """Store a decision about a finding; what was decided of it before gives way."""
    about = finding.about
    kept = {
        "job": job,
        "code": finding.code,
        "about_kind": about.kind,
        "about_key": about.key,
        "about_detail": about.detail,
    }
    for old in Decision.objects.filter(**kept):
        old.remove()
    return Decision.objects.create(
        **kept,
        where=finding.where,
        fingerprint=finding.fingerprint,
        said=finding.says,
        severity=finding.severity,
        reason=reason,
        decided_by=user,
        name=user.full_name,
    )
