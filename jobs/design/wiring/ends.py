"""Which ends of which cores are made behind a panel."""

from __future__ import annotations

from jobs.design.wiring.schedule import Schedule
from jobs.models import Panel
from wiring.runs.schedule import CrimpRow


def ends_behind(panel: Panel, schedule: Schedule) -> list[CrimpRow]:
    """The ends screwed down behind a panel: those of runs whose route begins or ends there."""
    routes = [(line.run.label, line.route) for line in schedule.lines if line.route]
    here = {(label, True) for label, route in routes if route[0].panel_id == panel.pk}
    here |= {(label, False) for label, route in routes if route[-1].panel_id == panel.pk}
    return [row for row in schedule.ends if row.stud and (row.run.label, row.at_start) in here]
