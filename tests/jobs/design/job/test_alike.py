"""Findings that say the same stand on one line; each is due once, and for one person."""

from __future__ import annotations

import pytest

from jobs.design.job.alike import alike, by_due, cured_at
from jobs.design.job.due import DUE, cured_by, due_of
from jobs.design.job.whole import load, work_out
from jobs.models import Role, Run

pytestmark = pytest.mark.django_db


def test_ten_equal_looks_are_one_line(hatchback):
    """Runs without a length: one line names them all, and none is lost."""
    runs = hatchback.job.runs.filter(kind=Run.Kind.POWER)
    runs.update(length=None)
    findings = work_out(load(hatchback.job)).findings
    lines = alike(findings)
    assert sum(len(line.findings) for line in lines) == len(findings)
    keys = [(line.first.severity, line.first.code, line.first.decision is None) for line in lines]
    assert len(keys) == len(set(keys))
    (line,) = (line for line in lines if line.first.code == "length-unknown")
    assert line.others == runs.count() - 1
    assert all(run.label in line.places + line.first.where for run in runs)


def test_every_finding_stands_under_the_stage_it_is_due_before(hatchback, van, saloon):
    """By stage and by person, all of them together are all that was raised; stops go first."""
    for scene in (hatchback, van, saloon):
        findings = work_out(load(scene.job)).findings
        groups = by_due(findings)
        assert sum(len(group.findings) for group in groups) == len(findings)
        for group in groups:
            if group.stage:
                assert {due_of(row) for row in group.findings} == {group.stage}
                severities = [row.severity for row in group.findings]
                assert severities == sorted(severities, key=["stop", "look"].index)
        stages = [group.stage for group in groups if group.stage]
        assert stages == [stage for stage in DUE if stage in stages]
        mine = [by_due(findings, role) for role in Role]
        shown = [row for groups in mine for group in groups for row in group.findings]
        assert len(shown) == len(findings)
        assert all(
            cured_by(row) == role
            for role, groups in zip(Role, mine, strict=True)
            for group in groups
            for row in group.findings
        )


def test_what_holds_for_many_leads_to_the_first_of_them(hatchback):
    """A finding about the job that names rows is cured on a row; any other on its own record."""
    hatchback.job.runs.update(start_terminal=None)
    findings = work_out(load(hatchback.job)).findings
    many = next(row for row in findings if row.code == "terminal-not-chosen")
    assert (many.about.kind, cured_at(many)) == ("job", many.also[0])
    alone = next(row for row in findings if row.about.kind != "job")
    assert cured_at(alone) == alone.about
