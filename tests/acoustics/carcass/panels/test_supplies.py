"""What to have at hand for a box: joints, glue, screws, gasket, all counted by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.panels.supplies import supplies, together
from acoustics.carcass.shape.contents import Placed, RoundPart
from acoustics.carcass.shape.joints import Joint
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.shapes import rectangle_profile

W, H, D, T = 0.5, 0.4, 0.3, 0.018
DRIVER = RoundPart(
    name="sub", cutout_diameter=0.2, flange_diameter=0.24, basket_depth=0.07,
    motor_diameter=0.12, motor_depth=0.04, bolt_circle_diameter=0.22, screws=8,
)  # fmt: skip


def cube(**more):
    """A square box of one thickness, its side panels over the ends of the others."""
    return Carcass(profile=rectangle_profile(D, H), width=W, thickness=T, **more)


def test_every_joint_counts_once():
    """By hand: four along the width between the cheeks, and round each cheek the edges that end
    there: two of the depth, two of the height between bottom and top."""
    box = cube()
    at_hand = supplies(box, panels(box))
    inner = W - 2 * T
    lengths = [inner] * 4 + [D, D, H - 2 * T, H - 2 * T] * 2
    assert at_hand.joints == pytest.approx(sum(lengths))
    assert at_hand.glue == pytest.approx(0.2 * T * sum(lengths))
    assert at_hand.screws == sum(math.ceil(length / 0.15) + 1 for length in lengths)
    assert (at_hand.gasket, at_hand.part_screws) == (0.0, 0)


def test_a_mitred_edge_counts_once_though_two_panels_end_in_it():
    """By hand: the twelve edges of the box, each glued over its slope of √2 times the thickness."""
    joints = (Joint(kind="mitre"),) * 4
    box = cube(cheek_joint="mitre", joints=joints)
    at_hand = supplies(box, panels(box))
    assert at_hand.joints == pytest.approx(4 * (W + H + D))
    assert at_hand.glue == pytest.approx(0.2 * T * math.sqrt(2) * 4 * (W + H + D))


def test_a_rim_lies_on_tape_and_has_its_screws():
    """By hand: the tape runs midway between hole and rim, π × 220 mm; unknown screws are named."""
    for known, count, names in ((8, 8, ()), (0, 0, ("sub",))):
        part = replace(DRIVER, screws=known)
        box = cube(contents=(Placed(face="front", u=W / 2, v=H / 2, part=part),))
        at_hand = supplies(box, panels(box))
        assert at_hand.gasket == pytest.approx(math.pi * 0.22)
        assert (at_hand.part_screws, at_hand.unscrewed) == (count, names)


def test_what_several_boxes_take_is_ordered_together():
    """Sums; a part whose screws nobody counted is named once for all of them."""
    unknown = replace(DRIVER, screws=0)
    box = cube(contents=(Placed(face="front", u=W / 2, v=H / 2, part=unknown),))
    each = supplies(box, panels(box))
    both = together([each, each])
    assert (both.joints, both.glue) == (2 * each.joints, 2 * each.glue)
    assert (both.screws, both.gasket) == (2 * each.screws, 2 * each.gasket)
    assert both.unscrewed == ("sub",)
