"""What is put into boxes of wood. All of it invented."""

from __future__ import annotations

from acoustics.carcass.shape.contents import PortBody, RoundPart
from acoustics.carcass.shape.inside.fastener import Fastener
from acoustics.carcass.shape.inside.terminal import terminal_plate

T_NUT = Fastener(name="T-nut", kind="t_nut", thread="M5", barrel=0.012, hole=0.0065)
SUB = RoundPart(
    name="sub",
    cutout_diameter=0.232,
    flange_diameter=0.263,
    basket_depth=0.071,
    motor_diameter=0.146,
    motor_depth=0.048,
    bolt_circle_diameter=0.249,
    screw_diameter=0.0055,
    screws=8,
    fastener=T_NUT,
    mass=6.2,
)
MID = RoundPart(
    name="mid",
    cutout_diameter=0.121,
    flange_diameter=0.139,
    basket_depth=0.058,
    motor_diameter=0.079,
    bolt_circle_diameter=0.131,
    screw_diameter=0.004,
    screws=4,
    mass=0.9,
)
PASSIVE = RoundPart(
    name="cone",
    kind="passive radiator",
    cutout_diameter=0.177,
    flange_diameter=0.203,
    basket_depth=0.043,
    motor_diameter=0.061,
    displacement=0.00071,
)
TERMINAL = terminal_plate(0.052)
TUBE = PortBody.straight("tube", width=0.071, length=0.19, wall=0.003)
