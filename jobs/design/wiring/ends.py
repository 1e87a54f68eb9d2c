"""Where in the car each end of a core is made: behind a panel, or behind none."""

from __future__ import annotations

from jobs.design.wiring.schedule import Schedule
from wiring.runs.schedule import CrimpRow


def ends_by_panel(schedule: Schedule) -> dict[int | None, list[CrimpRow]]:
    """Every end of every core by the panel where its run's route begins or ends, None elsewhere."""
    routes = {line.run.label: line.route for line in schedule.lines}
    places: dict[int | None, list[CrimpRow]] = {}
    for row in schedule.ends:
        route = routes[row.run.label]
        at = route[0 if row.at_start else -1].panel_id if route else None
        places.setdefault(at, []).append(row)
    return places
