"""Litres of a box with its driver in it against solids cut and measured by trimesh."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh

from acoustics.carcass.shape.braces import Layer
from acoustics.carcass.shape.contents import Placed, RoundPart
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.shapes import rectangle_profile

T = 0.018
# Invented; about a 12-inch driver.
DRIVER = RoundPart(
    name="driver",
    cutout_diameter=0.282,
    flange_diameter=0.315,
    basket_depth=0.09,
    motor_diameter=0.17,
    motor_depth=0.06,
)


def body(part: RoundPart) -> trimesh.Trimesh:
    """The part as a solid of revolution about z, its mounting face at 0, inwards positive."""
    stations = part.stations
    line = [(0.0, stations[0][0]), *((r, z) for z, r in stations), (0.0, stations[-1][0])]
    return trimesh.creation.revolve(np.array(line), sections=256)


@pytest.mark.second_method
@pytest.mark.parametrize("layers", [0, 1, 2])
def test_litres_with_a_driver_in_stacked_layers(layers):
    """Inside and the hole through all wood, less the driver's solid: 0.3 %."""
    box = Carcass(
        profile=rectangle_profile(0.4, 0.4),
        width=0.5,
        thickness=T,
        layers=(Layer(face="front", thickness=T),) * layers,
        contents=(Placed(part=DRIVER, face="front"),),
    )
    deep = 0.4 - 2 * T - layers * T
    inside = trimesh.creation.box(extents=(0.5 - 2 * T, 0.4 - 2 * T, deep))
    inside.apply_translation((0, 0, (1 + layers) * T + deep / 2))
    hole = trimesh.creation.cylinder(
        radius=DRIVER.cutout_diameter / 2,
        segment=((0, 0, 0), (0, 0, (1 + layers) * T)),
        sections=256,
    )
    # The driver lies wholly in the hole and the inside: it passes the hole and ends in the air.
    assert DRIVER.mounting_depth < deep
    solid = body(DRIVER)
    assert solid.is_watertight
    air = inside.volume + hole.volume - abs(solid.volume)
    assert box.net_volume == pytest.approx(air, rel=0.003)
