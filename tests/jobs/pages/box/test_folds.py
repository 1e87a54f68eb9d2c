"""Which groups of a box's form still lack something its kind needs."""

from __future__ import annotations

from typing import Any

import pytest

from jobs.models import Box
from jobs.pages.box.folds import lacking

MOULDED = {"shape": "moulded", "litres_by": "water", "measured_in": "skin"}


def _box(**figures: Any) -> Box:
    return Box(**{"name": "box", "driver_id": 1, "kind": "sealed", "material_id": 1} | figures)


@pytest.mark.parametrize(
    ("litres_by", "fills", "sections", "whole"),
    [
        ("water", [0.02], None, True),
        ("water", None, [[0.0, 0.1], [0.2, 0.1]], False),
        ("areas", None, [[0.0, 0.1], [0.2, 0.1]], True),
        ("areas", [0.02], None, False),
    ],
)
def test_a_moulded_box_needs_what_its_litres_are_measured_by(litres_by, fills, sections, whole):
    """Fills, or areas at heights; wood is none of its needs."""
    box = _box(**MOULDED | {"litres_by": litres_by, "material_id": None})
    box.fills, box.sections = fills, sections
    assert ("carcass" in lacking(box)) is not whole
    assert "wood" not in lacking(box)


@pytest.mark.parametrize(
    ("measured_in", "skin", "whole"),
    [
        ("skin", {}, True),
        ("mould", {}, False),
        ("mould", {"skin_area": 0.6}, False),
        ("mould", {"skin_area": 0.6, "skin_thickness": 0.004}, True),
    ],
)
def test_a_box_measured_in_its_mould_needs_its_skin(measured_in, skin, whole):
    """Surface and thickness, both; inside the finished skin neither is asked."""
    box = _box(**MOULDED | {"measured_in": measured_in} | skin)
    box.fills = [0.02]
    assert ("carcass" in lacking(box)) is not whole


@pytest.mark.parametrize(
    ("figures", "whole"),
    [
        ({}, False),
        ({"hole": "closed"}, False),
        ({"hole": "closed", "ql": 5.0}, False),
        ({"hole": "closed", "ql": 5.0, "radiator_id": 2}, True),
        ({"ql": 5.0, "radiator_id": 2}, False),
    ],
)
def test_a_door_needs_its_hole_its_leaks_and_what_was_in_it(figures, whole):
    """Each of the three by itself."""
    assert ("air" in lacking(_box(kind="door", **figures))) is not whole
