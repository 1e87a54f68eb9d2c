"""Ports as bodies: the corners their hulls are made of, against sizes written down by hand."""

import numpy as np
import pytest

from acoustics.carcass.room.solids import solids_of
from acoustics.carcass.shape.contents import PortBody
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile

# Invented: 0.6 m wide, 0.4 m deep, 0.5 m high.
BOX = Carcass(
    profile=Profile(points=((0.0, 0.0), (0.4, 0.0), (0.4, 0.5), (0.0, 0.5))),
    width=0.6,
    thickness=0.018,
)
FRONT = BOX.face(BOX.profile.names[3])


def test_a_slot_is_a_block_with_its_walls():
    """200 × 30 mm inside a wall of 5 mm, 18 of 150 mm in the wood: a block of 210 × 40 × 132 mm."""
    port = PortBody.straight("slot", width=0.2, height=0.03, length=0.15, wall=0.005)
    (solid,) = solids_of(port, FRONT, 0.3, 0.2)
    corners = {tuple(np.round(corner, 9)) for corner in solid.hull}
    assert len(corners) == 8
    low, high = solid.hull.min(axis=0), solid.hull.max(axis=0)
    assert sorted(high - low) == pytest.approx([0.04, 0.132, 0.21])
    assert corners == {
        tuple(np.round((x, y, z), 9))
        for x in (low[0], high[0])
        for y in (low[1], high[1])
        for z in (low[2], high[2])
    }


def test_a_tube_lies_within_its_ring_of_corners():
    """80 mm inside 3 mm walls: the corners lie outside the circle of 43 mm, by 0.3 % at most."""
    port = PortBody.straight("tube", width=0.08, length=0.2, wall=0.003)
    (solid,) = solids_of(port, FRONT, 0.3, 0.2)
    axis = (solid.end - solid.start) / np.linalg.norm(solid.end - solid.start)
    away = solid.hull - solid.start
    radius = np.linalg.norm(away - np.outer(away @ axis, axis), axis=1)
    assert (radius >= 0.043 - 1e-12).all()
    assert radius.max() <= 0.043 * 1.003
