"""Which side of the car the ends of a run are on, and whether its route agrees.

From what was entered as a side, never from the words of a name.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt
from jobs.design.records.records import JobRecords
from jobs.design.wiring.schedule import SECTION, together
from jobs.models import Channel, EquipmentItem, Panel, PowerNode, Run
from wiring.findings import START
from wiring.runs.sides import Way, check_side

End = PowerNode | Channel | EquipmentItem | None


class Sides:
    """The side of every node, channel and piece of equipment of a job."""

    def __init__(self, records: JobRecords) -> None:
        behind: dict[int, set[str]] = {}
        for content in records.contents:
            if content.panel is not None and content.equipment_id is not None:
                behind.setdefault(content.equipment_id, set()).add(content.panel.side)
        # What is behind panels of both sides is on neither.
        self._behind = {key: sides.pop() for key, sides in behind.items() if len(sides) == 1}
        self._of_node = {
            node.equipment_id: node.side for node in records.nodes if node.equipment_id
        }
        self._of_join = {
            join.run_id: join.panel.side
            for join in records.joins
            if join.panel is not None and join.run_id is not None
        }

    def of(self, end: End) -> str:
        """The side of an end, empty where nobody has noted it."""
        if isinstance(end, PowerNode):
            return end.side or self._behind.get(end.equipment_id or 0, "")
        if isinstance(end, EquipmentItem):
            return self._of_node.get(end.pk) or self._behind.get(end.pk, "")
        return end.side if end else ""

    def start_of(self, run: Run) -> str:
        """The side a run starts on: of its node, its amplifier, or where it meets the loom."""
        return self.of(starts_at(run)) or self._of_join.get(run.pk, "")


def starts_at(run: Run) -> End:
    """What a run starts at, where that is a record; words of its own may be another place."""
    if run.start or run.from_text or run.channel is None:
        return run.start
    return run.channel.amplifier


def ends_at(run: Run) -> End:
    """What a run ends at, where that is a record: whatever it is called, the channel's speaker."""
    return run.end or run.channel


def check_sides(records: JobRecords) -> list[Finding]:
    """What the checks say of runs on the wrong side of the car, and of sides nobody noted."""
    sides = Sides(records)
    findings: list[Finding] = []
    unknown: dict[str, Finding] = {}
    for run in records.runs:
        panels = {about(stretch.panel).id: stretch.panel for stretch in run.route if stretch.panel}
        # A place in words is on no known side: the run may cross there.
        passed = tuple(
            (about(s.panel).id, s.panel.side) if s.panel else (s.place, "") for s in run.route
        )
        way = Way(
            id=about(run).id,
            start=sides.start_of(run),
            end=sides.of(ends_at(run)),
            passed=passed,
        )
        for finding in check_side(way):
            name = ", ".join(part for part in (run.label, _end(run, finding.detail)) if part)
            adopted = adopt([finding], section=SECTION, about=about(run), name=name)[0]
            findings.append(replace(adopted, value_said=str(panels[str(finding.value)])))
        if panels and run.number:
            unknown |= {finding.about.id: finding for finding in _unknown(run, panels, sides)}
    return [*findings, *together(records.job, unknown.values())]


def _end(run: Run, detail: tuple[str, ...]) -> str:
    if not detail:
        return ""
    return run.goes_from if detail[0] == START else run.goes_to


def _unknown(run: Run, panels: Mapping[str, Panel], sides: Sides) -> Iterator[Finding]:
    """Panels and ends of a run of which nobody noted the side."""
    ends = [
        end
        for end, side in (
            (starts_at(run), sides.start_of(run)),
            (ends_at(run), sides.of(ends_at(run))),
        )
        if end is not None and not side
    ]
    for record in (*(panel for panel in panels.values() if not panel.side), *ends):
        name = str(record.part) if isinstance(record, EquipmentItem) else str(record)
        yield Finding(
            code="side-unknown",
            severity="note",
            section=SECTION,
            about=about(record),
            name=name,
        )
