"""What the wood refuses has words of its own, in units and in the language of the reader."""

from __future__ import annotations

import ast
import math
from dataclasses import replace
from pathlib import Path

import pytest

from acoustics.carcass.cavity.cavity import Cavity, Opening
from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.panels.trim import AdaptorRing as Ring
from acoustics.carcass.shape import shapes
from acoustics.carcass.shape.braces import CrossBrace, Shelf, Strut
from acoustics.carcass.shape.contents import Placed, RoundPart
from acoustics.carcass.shape.errors import CarcassError
from acoustics.carcass.shape.joints import Joint
from acoustics.carcass.shape.outline import rectangle
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.taper import four_sided_taper
from jobs.design.records.findings import reason
from jobs.design.wording.carcass import SAID, wood_says

SQUARE = shapes.rectangle_profile(0.4, 0.3)
T = 0.018
PART = {
    "name": "driver",
    "cutout_diameter": 0.2,
    "flange_diameter": 0.22,
    "basket_depth": 0.06,
    "motor_diameter": 0.1,
    "motor_depth": 0.05,
}


def carcass(**changes) -> Carcass:
    """An invented plain box."""
    return Carcass(**{"profile": SQUARE, "width": 0.5, "thickness": T, **changes})


def braced(brace) -> Carcass:
    """The plain box with one brace."""
    return carcass(braces=(brace,))


REFUSED = {
    "crosses": (lambda: Profile(points=((0, 0), (0.3, 0.4), (0.3, 0), (0, 0.4))), "crosses"),
    "clockwise": (lambda: Profile(points=SQUARE.points[::-1]), "clockwise"),
    "two corners": (lambda: Profile(points=((0, 0), (1, 0))), "3 corners"),
    "straight": (
        lambda: Profile(points=((0, 0), (0.2, 0), (0.4, 0), (0.4, 0.3), (0, 0.3))),
        "straight",
    ),
    "no height": (lambda: shapes.rectangle_profile(0.4, 0.0), "height is 0.0 mm"),
    "no width": (lambda: carcass(width=0.0), "width is 0.0 mm"),
    "no wood": (lambda: carcass(thickness=(0.0, T, T, T)), "bottom, thickness: 0.0 mm"),
    "too thick": (lambda: carcass(thickness=0.2), "200.0 mm"),
    "sides too thick": (lambda: carcass(width=0.03), "wide"),
    "slope": (lambda: shapes.leaning_rear_profile(0.4, 0.3, math.radians(95)), "95.0°"),
    "slope to the front": (
        lambda: shapes.leaning_rear_profile(0.4, 0.3, math.radians(60)),
        "below the top",
    ),
    "step": (
        lambda: shapes.step_profile(depth=0.4, height=0.3, step_depth=0.5, step_height=0.1),
        "500.0 mm",
    ),
    "rebate": (
        lambda: carcass(cheek_joint="rebate", cheek_rebate=0.02),
        "20.0 mm deep",
    ),
    "rebate in a wall": (
        lambda: panels(carcass(joints=(Joint(kind="rebate", through="before", depth=0.02),) * 4)),
        "20.0 mm deep",
    ),
    "mitre": (lambda: carcass(cheek_joint="mitre"), "every corner"),
    "no such side": (
        lambda: carcass(contents=(Placed(part=RoundPart(**PART), face="riser"),)),
        "no side riser",
    ),
    "no such side asked for": (lambda: carcass().face("side 5"), "no side side 5"),
    "shelf outside": (
        lambda: braced(Strut(name="strut 1", at=(0.0, 0.1), breadth=0.04, thickness=T)),
        "strut 1 does not lie inside",
    ),
    "strut beyond": (
        lambda: braced(
            Shelf(name="strut 1", start=(0.1, 0.1), end=(0.2, 0.1), thickness=T, span=(0.4, 0.6))
        ),
        "400.0 mm to 600.0 mm",
    ),
    "window": (
        lambda: braced(
            CrossBrace(
                name="plate 1", at=0.2, thickness=T, windows=(rectangle(0.0, 0.1, 0.1, 0.2),)
            )
        ),
        "plate 1",
    ),
    "motor": (lambda: RoundPart(**{**PART, "motor_diameter": 0.21}), "210.0 mm across"),
    "flange": (lambda: RoundPart(**{**PART, "flange_diameter": 0.19}), "190.0 mm across"),
    "nothing left": (
        lambda: carcass(contents=(Placed(part=RoundPart(**PART, displacement=0.1), face="front"),)),
        "100",
    ),
    "gap": (lambda: Cavity(profile=SQUARE, width=0.5, gap=0.2), "200.0 mm"),
    "negative gap": (lambda: Cavity(profile=SQUARE, width=0.5, gap=-0.01), "zero or more"),
    "opening": (lambda: Opening(width=0.0, height=0.3), "width of the opening"),
    "walls meet": (
        lambda: four_sided_taper(bottom=(0.4, 0.4), top=(0.001, 0.001), height=0.3, thickness=T),
        "less",
    ),
    "level plate beyond": (
        lambda: replace(
            four_sided_taper(bottom=(0.4, 0.4), top=(0.3, 0.3), height=0.3, thickness=T),
            braces=(CrossBrace(name="brace 1", at=0.29, thickness=T),),
        ),
        "290.0 mm to 308.0 mm up",
    ),
    "ring": (
        lambda: Ring(
            outer_diameter=0.2,
            inner_diameter=0.15,
            layers=(T,),
            bolt_circle_diameter=0.25,
            screws=4,
            screw_diameter=0.004,
        ),
        "250.0 mm",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_each_refusal_has_words_and_units(case):
    """What is refused names the thing and the figure a person typed, never metres alone."""
    make, says = REFUSED[case]
    with pytest.raises(CarcassError) as refused:
        make()
    words = wood_says(refused.value, lambda value, unit: "")
    assert words is not None, str(refused.value)
    assert says in reason(refused.value).replace("\N{NO-BREAK SPACE}", " ")
    assert str(refused.value) not in reason(refused.value)


def test_every_sentence_is_for_something_that_is_refused():
    """Words for a text no calculator writes any more are found."""
    root = Path(__file__).parents[4]
    trees = (
        ast.parse(path.read_text())
        for path in (*root.glob("acoustics/carcass/**/*.py"), *root.glob("jobs/design/**/*.py"))
    )
    written = {
        node.value for tree in trees for node in ast.walk(tree) if isinstance(node, ast.Constant)
    }
    # Two texts about a measure are put together where it is checked.
    above_zero = "it must be greater than 0 m"
    assert {text for text in SAID if above_zero not in text} - written == set()


def test_a_refusal_without_words_is_still_said():
    """Text that has no words of its own is shown as the calculator wrote it."""
    assert wood_says(CarcassError("no such text"), lambda value, unit: "") is None
    assert "no such text" in reason(CarcassError("no such text"))
