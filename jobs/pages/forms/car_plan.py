"""Where a panel lies in the car, as far as its name says so: a plan to tap a route on."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from jobs.models import Panel

# Words of either language, front to rear; the first that stands in a name decides.
_ROWS = (
    re.compile(r"engine|bonnet|hood\b|motorraum|haube", re.I),
    re.compile(r"dash|steering|glove|a-pillar|armatur|lenkrad|handschuh|a-säule", re.I),
    re.compile(r"boot|trunk|tailgate|hatch|load|rear shelf|spare|koffer|heck|lade|hutablage", re.I),
    re.compile(r"rear|bench|back seat|c-pillar|hinten|rück|fond|c-säule", re.I),
    re.compile(r"front|foot|driver|passenger|vorn|fuß|fahrer", re.I),
)
# In which order those rows lie in the car; what names none of them lies in the middle.
_ORDER = (0, 1, 4, None, 3, 2)
_LEFT, _RIGHT = re.compile(r"\bleft\b|\blinks\b|linke", re.I), re.compile(r"\bright\b|recht", re.I)


@dataclass(frozen=True)
class PlanRow:
    """Panels that lie beside each other: left, in the middle, right."""

    left: list[Panel]
    middle: list[Panel]
    right: list[Panel]


def car_plan(panels: Iterable[Panel]) -> list[PlanRow]:
    """Lay panels out as they lie in a car seen from above, its front at the top."""
    rows = {row: PlanRow([], [], []) for row in _ORDER}
    for panel in panels:
        row = rows[_row_of(panel.name)]
        if _LEFT.search(panel.name):
            row.left.append(panel)
        elif _RIGHT.search(panel.name):
            row.right.append(panel)
        else:
            row.middle.append(panel)
    return [row for row in rows.values() if row.left or row.middle or row.right]


def _row_of(name: str) -> int | None:
    return next((n for n, words in enumerate(_ROWS) if words.search(name)), None)
