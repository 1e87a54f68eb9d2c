"""Whether somebody may work behind a panel now: asked at every tick, so without the whole job."""

from __future__ import annotations

from jobs.design.records.basis import resting_on
from jobs.design.records.findings import Finding, decided
from jobs.design.records.record_checks import check_panel
from jobs.models import Panel


def bars_of(panel: Panel) -> list[Finding]:
    """The open stops about a panel itself; a stop that was released bars nothing."""
    vehicle = panel.job.vehicle
    findings = resting_on(check_panel(panel, vehicle), [panel, panel.job, vehicle])
    decisions = panel.job.decisions.all()
    return [
        finding
        for finding in decided(findings, decisions)
        if finding.severity == "stop" and finding.is_open
    ]
