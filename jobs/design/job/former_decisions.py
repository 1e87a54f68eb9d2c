"""Decisions from before a finding knew its record, matched once to the findings of today.

Until then a finding was known by its words: its place, value and limit as they were printed. A
decision is matched where exactly one finding would have had those words; any other asks again.
"""

from __future__ import annotations

import hashlib
import re

from jobs.design.job import board_counts
from jobs.design.job.whole import load, work_out
from jobs.design.records.findings import Finding, Term, plain
from jobs.models import Decision, Job

# Power nodes were told apart by a number behind their name, and that was taken out again, along
# with any number somebody had typed.
_NUMBER = re.compile(r" #\d+")


def match_former_decisions() -> None:
    """Match every decision that is still kept under words; what cannot be matched asks again."""
    former = Decision.with_removed.filter(about_kind="").exclude(fingerprint="")
    for job in Job.with_removed.filter(pk__in=former.values("job")):
        findings = work_out(load(job)).findings
        for decision in former.filter(job=job):
            _match(decision, findings)
        board_counts.refresh(job)


def _match(decision: Decision, findings: tuple[Finding, ...]) -> None:
    same = [
        finding
        for finding in findings
        if finding.code == decision.code and decision.fingerprint in _former_fingerprints(finding)
    ]
    kept = {"fingerprint": ""}
    if len(same) == 1:
        about = same[0].about
        kept = {
            "fingerprint": same[0].fingerprint,
            "about_kind": about.kind,
            "about_key": about.key,
            "about_detail": about.detail,
        }
    Decision.with_removed.filter(pk=decision.pk).update(**kept)


def _former_fingerprints(finding: Finding) -> set[str]:
    """What the finding was known by, with and without numbers taken out of its names."""
    place = " / ".join(
        ", ".join(word.words) if isinstance(word, Term) else word for word in finding.place
    )
    where = " · ".join(part for part in (finding.name, place) if part)
    value = plain(finding.value) if finding.value_said is None else finding.value_said
    rest = f"{plain(finding.limit)}|{finding.severity}"
    texts = (
        f"{finding.code}|{where}|{value}|{rest}",
        f"{finding.code}|{_NUMBER.sub('', where)}|{_NUMBER.sub('', value)}|{rest}",
    )
    return {hashlib.sha256(text.encode()).hexdigest() for text in texts}
