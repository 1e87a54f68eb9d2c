"""Boxes to draw; every figure is invented."""

from __future__ import annotations

from acoustics.carcass.shape.contents import Placed, PortBody, RoundPart
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile

DRIVER = RoundPart(
    name="driver <10 in>",
    flange_diameter=0.262,
    cutout_diameter=0.234,
    basket_depth=0.08,
    motor_diameter=0.14,
    motor_depth=0.045,
    screws=8,
    bolt_circle_diameter=0.248,
)
PORT = PortBody.straight("port", width=0.05, length=0.15, wall=0.003)


def prism(
    points: list[tuple[float, float]], width: float = 0.62, thickness: float = 0.018, **more
) -> Carcass:
    """A box over a side view."""
    profile = Profile(points=tuple(points), names=("bottom", "rear", "top", "front"))
    return Carcass(profile=profile, width=width, thickness=thickness, **more)


def wedge(*contents: Placed, **more) -> Carcass:
    """330 mm deep at the floor, 220 mm at the top."""
    return prism([(0, 0), (0.33, 0), (0.22, 0.36), (0, 0.36)], contents=contents, **more)


# Seen from the front the far side is on the left: 310 - 100 mm across, 180 mm up.
IN_FRONT = Placed(part=DRIVER, face="front", u=0.21, v=0.18)
IN_TOP = Placed(part=PORT, face="top", v=0.1)
