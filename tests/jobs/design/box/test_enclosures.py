"""What a box holds, from its record: openings of ports, and holes of a door."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import pytest

from acoustics.enclosure.openings import Radiator, Vent
from acoustics.enclosure.port import RectangularOpening
from acoustics.errors import MissingError
from jobs.design.box.enclosures import _hole, port_opening
from jobs.models import Box, Driver, SheetMaterial
from tests.refused import refused

CONE = Driver(name="factory", fs=60.0, qms=4.0, qes=0.6, re=3.4, vas=0.02, sd=0.0133)


def _slot(**figures: Any) -> Box:
    plain = {
        "kind": "vented", "port_shape": Box.PortShape.SLOT, "port_width": 0.3,
        "port_height": 0.04, "height": 0.5, "material": SheetMaterial(thickness=0.018),
    }  # fmt: skip
    return Box(**(plain | figures))


def test_a_slot_has_its_size_and_the_room_between_two_panels():
    """500 mm less two of 18 mm; without height or material the room is not known."""
    assert port_opening(_slot()) == RectangularOpening(width=0.3, height=0.04, room=0.464)
    for unknown in ({"height": None}, {"material": None}):
        assert port_opening(_slot(**unknown)) == RectangularOpening(width=0.3, height=0.04)


@pytest.mark.parametrize("missing", ["port_width", "port_height"])
def test_a_slot_of_which_one_side_is_unknown_has_no_opening(missing):
    """Width and height are both asked for."""
    assert port_opening(_slot(**{missing: None})) is None


def _door(hole: str, area: float | None = None, driver: Driver | None = CONE) -> Any:
    item = driver and SimpleNamespace(pk=1, part=SimpleNamespace(driver=driver))
    return SimpleNamespace(hole=hole, hole_area=area, radiator=item)


def test_an_open_hole_is_as_large_as_measured_or_as_the_cone_that_was_in_it():
    """Its circle has that area; to the metal's own millimetre both ends add 0.82 radii.

    End correction of a flanged tube: 0.8217 a, L. V. King (1936), from memory.
    """
    for area, box in ((0.02, _door(Box.Hole.OPEN, 0.02)), (0.0133, _door(Box.Hole.OPEN))):
        vent = _hole(box, {})
        assert isinstance(vent, Vent)
        radius = math.sqrt(area / math.pi)
        assert vent.area == pytest.approx(area)
        assert vent.hydraulic_diameter == pytest.approx(2 * radius)
        assert vent.effective_length == pytest.approx(0.001 + 2 * 0.8217 * radius, rel=0.005)


def test_a_factory_driver_that_stays_is_a_cone_and_no_hole():
    """Even where an area is still in the record from before; a closed one is nothing."""
    cone = _hole(_door(Box.Hole.FACTORY_DRIVER, 0.02), {})
    assert isinstance(cone, Radiator)
    assert cone.sd == pytest.approx(0.0133)
    assert _hole(_door(""), {}) is None


@pytest.mark.parametrize(
    ("hole", "name"),
    [(Box.Hole.FACTORY_DRIVER, "factory-driver"), (Box.Hole.OPEN, "factory-hole")],
)
def test_a_hole_nobody_measured_is_refused_by_what_is_missing(hole, name):
    """The driver that stays in it, or else the size of the hole."""
    with refused(MissingError, "missing", names=(name,)):
        _hole(_door(hole, driver=None), {})
