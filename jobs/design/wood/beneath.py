"""What lies under a false floor and has to be reached: fuses, terminals, a hatch over each."""

from __future__ import annotations

from collections.abc import Sequence

from acoustics.carcass.panels.floor import Hatch, reached
from jobs.design.box.checks import SECTION
from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords
from jobs.design.wiring.cores import fuses_of
from jobs.design.wood.pieces import Point
from jobs.models import GroundPoint, PowerNode, Run, TrimBeneath, TrimPanel


def to_reach(
    runs: Sequence[Run], nodes: Sequence[PowerNode], grounds: Sequence[GroundPoint]
) -> list[str]:
    """Name every fuse by its label, every block, battery and ground point by its name."""
    fuses = [fuse.label for run in runs for fuse in fuses_of(run)]
    return list(dict.fromkeys([*fuses, *(node.name for node in nodes), *(p.name for p in grounds)]))


def beneath_findings(
    panel: TrimPanel, records: JobRecords, hatches: Sequence[Hatch] | None, by: Point
) -> list[Finding]:
    """Ask of a floor moved by so much what lies under it, and for a hatch over each such thing.

    Of a floor that cannot be cut the hatches are not known.
    """
    names = to_reach(records.runs, records.nodes, records.grounds)
    if panel.kind != TrimPanel.Kind.FLOOR or not names:
        return []
    findings = [] if panel.beneath_listed else [_finding(panel, "beneath-unknown", "", "")]
    for number, row in enumerate(map(TrimBeneath.read, panel.beneath or ()), start=1):
        code = ""
        if row.what not in names:
            code = "beneath-not-listed"
        elif row.u is None or row.v is None:
            code = "beneath-place-unknown"
        elif hatches is not None:
            at = row.u + by[0], row.v + by[1]
            code = "" if any(reached(hatch, at) for hatch in hatches) else "beneath-without-hatch"
        if code:
            findings.append(_finding(panel, code, f"beneath {number}", row.what))
    return findings


def _finding(panel: TrimPanel, code: str, which: str, what: str) -> Finding:
    return Finding(
        code=code,
        severity="look",
        section=SECTION,
        about=about(panel).at(which) if which else about(panel),
        name=panel.name,
        value=what or None,
    )
