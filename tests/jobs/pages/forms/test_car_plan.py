"""Panels lie on the plan as their names say: front to rear, left to right."""

from __future__ import annotations

import pytest

from jobs.design.job.earlier.panel_sets import BODIES, usual_panels
from jobs.models import Panel
from jobs.pages.forms.car_plan import car_plan


def _rows(*names):
    return [
        [[panel.name for panel in cell] for cell in (row.left, row.middle, row.right)]
        for row in car_plan([Panel(name=name) for name in names])
    ]


def test_front_above_rear_and_left_beside_right():
    """The dashboard lies ahead of the doors, these ahead of the bench, the boot comes last."""
    assert _rows(
        "Boot floor", "Rear bench, seat", "Front door card, right", "Front door card, left",
        "Glove box, right", "Roof",
    ) == [
        [[], [], ["Glove box, right"]],
        [["Front door card, left"], [], ["Front door card, right"]],
        [[], ["Roof"], []],
        [[], ["Rear bench, seat"], []],
        [[], ["Boot floor"], []],
    ]  # fmt: skip


def test_german_names_lie_where_they_say():
    """A plan drawn in German reads the same."""
    rows = _rows("Kofferraumboden", "Türverkleidung vorn links", "Rückbank, Sitz", "Handschuhfach")
    assert [[name for cell in row for name in cell] for row in rows] == [
        ["Handschuhfach"], ["Türverkleidung vorn links"], ["Rückbank, Sitz"], ["Kofferraumboden"],
    ]  # fmt: skip


@pytest.mark.parametrize("body", BODIES)
def test_every_usual_panel_stands_on_the_plan_once(body):
    """Nothing is left off and nothing stands twice, whatever the body."""
    names = [panel.name for panel in usual_panels(body, "left")]
    rows = _rows(*names)
    assert sorted(name for row in rows for cell in row for name in cell) == sorted(names)
    assert len(rows) > 1
