"""Damping by the panel: sheets are rounded up, kilograms follow, unknown is said and no zero."""

from __future__ import annotations

import pytest

from jobs.design.job.damping import work_out_damping
from jobs.design.job.whole import load, work_out
from jobs.models import Damping, DampingLayer, EquipmentItem

pytestmark = pytest.mark.django_db


@pytest.fixture
def layer(hatchback) -> DampingLayer:
    """The one layer of the scene: 0.25 m², 80 % of it covered, 3 kg/m², sheets of 0.2 m²."""
    return DampingLayer.objects.get(job=hatchback.job)


def _codes(job) -> set[str]:
    return {finding.code for finding in work_out(load(job)).findings}


def _order(job):
    (order,) = work_out_damping(load(job))
    return order


def test_area_share_and_layers_make_sheets_and_kilograms(hatchback, layer):
    """By hand: 0.25 m² × 0.8 is one sheet of 0.2 m² and 0.6 kg; a layer more doubles it."""
    order = _order(hatchback.job)
    assert (order.area, order.sheets, order.mass) == (pytest.approx(0.2), 1, pytest.approx(0.6))
    layer.layers = 2
    layer.save()
    order = _order(hatchback.job)
    assert (order.area, order.sheets, order.mass) == (pytest.approx(0.4), 2, pytest.approx(1.2))
    layer.layers, layer.area = 1, 0.26
    layer.save()
    assert _order(hatchback.job).sheets == 2  # a scrap of the second one


def test_an_unknown_area_is_no_zero(hatchback, layer):
    """Without the metal's area, or without that of a sheet, nothing is ordered and it is said."""
    DampingLayer.objects.update(area=None)
    assert _order(hatchback.job).sheets is None
    assert _order(hatchback.job).mass is None
    assert "damping-unknown" in _codes(hatchback.job)
    DampingLayer.objects.update(area=0.25)
    Damping.objects.update(sheet_area=None)
    assert "damping-unknown" in _codes(hatchback.job)


def test_fewer_sheets_on_the_list_than_the_panels_take(hatchback, layer):
    """Four are on the list: five are too many; with none on it that is said instead."""
    DampingLayer.objects.update(area=1.25)
    assert _order(hatchback.job).sheets == 5
    assert "damping-short" in _codes(hatchback.job)
    DampingLayer.objects.update(area=1.0)
    assert "damping-short" not in _codes(hatchback.job)
    EquipmentItem.objects.filter(part_id=layer.part_id).delete()
    assert "damping-not-listed" in _codes(hatchback.job)


def test_what_is_stuck_on_is_weighed_and_not_what_is_on_the_list(hatchback, layer):
    """The job's kilograms count the damping once."""
    design = work_out(load(hatchback.job))
    (weight,) = [row for row in design.masses.rows if row.name == "Damping sheet"]
    assert weight.mass == pytest.approx(0.6)
    listed = [row.name for row in design.masses.rows if row.name.endswith("sheet, front doors")]
    assert listed == []


def test_a_ground_nobody_placed_is_found(hatchback):
    """A stud on the body has a panel or words; the battery's own post is where the battery is."""
    point = hatchback.job.groundpoints.filter(kind__in=("body", "block")).first()
    assert "ground-place-unknown" not in _codes(hatchback.job)
    type(point).objects.filter(pk=point.pk).update(panel=None, place="")
    assert "ground-place-unknown" in _codes(hatchback.job)
