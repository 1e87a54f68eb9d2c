"""What a box for a cavity has to keep: the wood round the screws of its driver."""

from __future__ import annotations

import pytest

from acoustics.carcass.room.clearance import USUAL
from jobs.design.wood.fitting import _wanted, driver_solid

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("ring", "thin"), [(0.002, True), (0.0001, True), (0.0051, False), (-0.001, False)]
)
def test_a_screw_circle_near_its_hole_asks_no_box_for_more_wood(saloon, ring, thin):
    """Between nothing and the usual 5 mm the driver's own ring counts, and it is said."""
    part = saloon.box.driver.part.driver
    solid = driver_solid(part, "driver")
    part.bolt_circle = solid.cutout_diameter + solid.screw_diameter + 2 * ring
    wanted, is_thin = _wanted(saloon.box, "front")
    assert is_thin is thin
    kept = ring if thin else USUAL.wood_at_screw
    assert wanted.clearances.wood_at_screw == pytest.approx(kept, abs=1e-9)
