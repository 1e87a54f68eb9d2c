"""Room for drivers and ports: in the face, behind it along the real slope, and side by side."""

import math
from dataclasses import replace

import pytest

from acoustics.carcass.room.clearance import Clearances, check_contents, depth_behind
from acoustics.carcass.shape.braces import CrossBrace, Layer
from acoustics.carcass.shape.contents import Leg, Placed, PortBody, RoundPart
from acoustics.carcass.shape.errors import PlacementError, ProfileError
from acoustics.carcass.shape.four_sided import four_sided_taper
from acoustics.carcass.shape.outline import Circle
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.shapes import (
    rectangle_profile,
    round_well_profile,
    sloped_rear_profile,
    step_profile,
)
from tests.refused import refused


def driver(**more) -> RoundPart:
    """An invented 10 inch driver: 110 mm deep, motor 156 mm across."""
    dimensions = {
        "name": "sub",
        "cutout_diameter": 0.245,
        "flange_diameter": 0.270,
        "basket_depth": 0.050,
        "motor_diameter": 0.156,
        "motor_depth": 0.060,
        "bolt_circle_diameter": 0.258,
        "screw_diameter": 0.005,
    }
    return RoundPart(**(dimensions | more))


def codes(carcass: Carcass, **limits) -> dict[str, tuple[float, float]]:
    """Findings of a carcass by code, without the flange's wood this driver is short of."""
    keep = Clearances(**({"wood_at_screw": 0.003} | limits))
    return {f.code: (f.value, f.limit) for f in check_contents(carcass, keep)}


def square(depth: float, contents: tuple[Placed, ...], **more) -> Carcass:
    """A rectangular box 0.7 wide and 0.4 high of 18 mm wood."""
    return Carcass(
        profile=rectangle_profile(depth, 0.4), width=0.7, thickness=0.018, contents=contents, **more
    )


def test_driver_with_room_has_no_findings():
    """A driver in the middle of a roomy box is fine."""
    assert codes(square(0.3, (Placed(part=driver(), face="front"),))) == {}


def test_driver_deeper_than_its_box():
    """110 mm do not go into a box of 120 mm with an 18 mm rear: 102 mm from the mounting face."""
    found = codes(square(0.12, (Placed(part=driver(), face="front"),)))
    assert found["driver-deeper-than-box"] == pytest.approx((0.102, 0.110), abs=1e-5)


def test_gap_behind_is_kept():
    """At 115 mm of room the driver fits, but not with 10 mm behind it."""
    found = codes(square(0.133, (Placed(part=driver(), face="front"),)))
    assert found == {"driver-near-back": pytest.approx((0.115, 0.120), abs=1e-5)}


def test_depth_follows_the_real_slope():
    """Behind a sloped rear the upper edge of the motor decides, by the two-point line formula."""
    carcass = Carcass(
        profile=sloped_rear_profile(0.40, 0.22, 0.36),
        width=0.9,
        thickness=0.018,
        contents=(Placed(part=driver(), face="front", v=0.2),),
    )
    slope = math.atan2(0.18, 0.36)
    at_top_of_motor = 0.40 - 0.5 * (0.2 + 0.078) - 0.018 / math.cos(slope)
    assert depth_behind(carcass, carcass.contents[0]) == pytest.approx(at_top_of_motor, abs=1e-5)


def test_depth_from_the_sloped_face_itself():
    """A driver on the leaning rear looks square to it; the front is met at its lower edge."""
    placed = Placed(part=driver(motor_diameter=0.1), face="rear", v=0.22)
    carcass = Carcass(
        profile=sloped_rear_profile(0.40, 0.22, 0.36), width=0.9, thickness=0.018,
        contents=(placed,),
    )  # fmt: skip
    # Line of the axis: from the rear face, inwards and down; the front inner face is x = 18 mm.
    slope = math.atan2(0.18, 0.36)
    up, inward = (-math.sin(slope), math.cos(slope)), (-math.cos(slope), -math.sin(slope))
    nearest = min((0.018 - (0.40 + (0.22 + side) * up[0])) / inward[0] for side in (-0.05, 0.05))
    assert depth_behind(carcass, placed) == pytest.approx(nearest, abs=1e-5)


def test_step_in_the_way():
    """A step that reaches into the motor's path counts, though the axis passes over it."""
    profile = step_profile(depth=0.4, height=0.4, step_depth=0.25, step_height=0.15)
    high = Carcass(profile=profile, width=0.7, thickness=0.018,
                   contents=(Placed(part=driver(), face="front", v=0.26),))  # fmt: skip
    low = Carcass(profile=profile, width=0.7, thickness=0.018,
                  contents=(Placed(part=driver(), face="front", v=0.22),))  # fmt: skip
    # Tread inside at 168 mm: the motor's lower edge is at 182 mm, then at 142 mm.
    assert depth_behind(high, high.contents[0]) == pytest.approx(0.382, abs=1e-5)
    assert depth_behind(low, low.contents[0]) == pytest.approx(0.132, abs=1e-5)


def test_stacked_layers_count():
    """A layer inside on the rear takes depth; one outside on the front gives it."""
    layers = (
        Layer(face="rear", thickness=0.012),
        Layer(face="front", thickness=0.018, outside=True),
    )
    carcass = square(0.3, (Placed(part=driver(), face="front"),), layers=layers)
    assert depth_behind(carcass, carcass.contents[0]) == pytest.approx(0.288, abs=1e-5)


def test_driver_larger_than_its_face():
    """A 270 mm flange on a face 250 mm high."""
    carcass = Carcass(
        profile=rectangle_profile(0.3, 0.25), width=0.7, thickness=0.018,
        contents=(Placed(part=driver(), face="front"),),
    )  # fmt: skip
    assert codes(carcass)["part-larger-than-face"] == pytest.approx((0.270, 0.250), abs=1e-4)


def test_hole_near_and_over_the_next_panel():
    """The hole is measured to where the next panel begins, on the inside."""
    near = codes(square(0.3, (Placed(part=driver(), face="front", v=0.018 + 0.1225 + 0.01),)))
    assert near["cut-out-near-edge"] == pytest.approx((0.010, 0.015), abs=1e-6)
    over = codes(square(0.3, (Placed(part=driver(), face="front", v=0.018 + 0.1225 - 0.01),)))
    assert over["cut-out-breaks-edge"] == pytest.approx((-0.010, 0.0), abs=1e-6)
    assert over["flange-over-edge"][0] == pytest.approx(0.1305 - 0.135, abs=1e-6)


def test_screws_need_wood():
    """Between a 245 mm hole and 5 mm screws on a 258 mm circle are 4 mm of wood."""
    found = check_contents(square(0.3, (Placed(part=driver(), face="front"),)))
    assert [(f.code, round(f.value, 6), f.limit) for f in found] == [
        ("screws-off-wood", 0.004, 0.005)
    ]


def test_unknown_screw_circle_is_said():
    """A screw circle that is not known is a note, not a pass."""
    part = driver(bolt_circle_diameter=None)
    (found,) = check_contents(square(0.3, (Placed(part=part, face="front"),)))
    assert (found.code, found.severity) == ("screw-circle-unknown", "note")


def test_motor_beside_a_wall():
    """A driver near the left cheek: cut-out clear of it by 2 mm, the basket just inside too."""
    carcass = square(0.3, (Placed(part=driver(), face="front", u=0.018 + 0.1225 + 0.002),))
    found = codes(carcass, cutout_to_edge=0.0)
    # At the inner face, 18 mm in, the basket has narrowed to 122.5 − 44.5 · 18/50 = 106.48 mm.
    assert found == {}
    assert codes(carcass, cutout_to_edge=0.0, beside=0.02)["part-near-wall"] == pytest.approx(
        (0.1225 + 0.002 - 0.10648, 0.02), abs=1e-6
    )


def port(length: float, **more) -> PortBody:
    """A tube of 80 mm bore with a 3 mm wall."""
    return PortBody.straight("port", width=0.08, length=length, wall=0.003, **more)


def test_port_that_cannot_fit():
    """A 300 mm port in a 250 mm box: 232 mm of room."""
    found = codes(square(0.25, (Placed(part=port(0.3), face="front"),)))
    assert found["port-does-not-fit"] == pytest.approx((0.232, 0.300), abs=1e-5)


def test_port_mouth_needs_one_diameter():
    """A 200 mm port in the same box leaves 32 mm before the rear; 80 mm are wanted."""
    found = codes(square(0.25, (Placed(part=port(0.2), face="front"),)))
    assert found == {"port-mouth-near-wall": pytest.approx((0.032, 0.08), abs=1e-5)}


def test_bent_port_fits_where_a_straight_one_does_not():
    """Turned along the width after 150 mm, 300 mm of port fit; turned up, the lid is too near."""
    along = PortBody(
        name="bent", width=0.08, wall=0.003,
        legs=(Leg(heading="in", length=0.15), Leg(heading="+u", length=0.15)),
    )  # fmt: skip
    assert codes(square(0.25, (Placed(part=along, face="front", u=0.2),))) == {}
    upward = PortBody(
        name="bent", width=0.08, wall=0.003,
        legs=(Leg(heading="in", length=0.15), Leg(heading="+v", length=0.15)),
    )  # fmt: skip
    found = codes(square(0.25, (Placed(part=upward, face="front", v=0.2),)))
    assert found == {"port-mouth-near-wall": pytest.approx((0.032, 0.08), abs=1e-5)}


@pytest.mark.parametrize("heading", ["+u", "+v"])
@pytest.mark.parametrize(("first", "short"), [(0.075, 0.0), (0.050, 0.021)])
def test_a_bent_port_stays_out_of_the_wood_it_comes_through(heading, first, short):
    """A tube 106 mm over all, turned 50 mm behind an 18 mm face, lies 21 mm in that wood.

    Worked by hand: 50 - 53 - 18; turned at 75 mm it clears the wood by 4 mm.
    """
    legs = (Leg(heading="in", length=first), Leg(heading=heading, length=0.07))
    bent = PortBody(name="bent", width=0.100, wall=0.003, legs=legs)
    boxes = (
        square(0.45, (Placed(part=bent, face="front"),)),
        replace(
            four_sided_taper(bottom=(0.45, 0.5), top=(0.45, 0.5), height=0.5, thickness=0.018),
            contents=(Placed(part=bent, face="front"),),
        ),
    )
    for box in boxes:
        found = {f.code: f.value for f in check_contents(box) if f.severity != "note"}
        wanted = {"port-does-not-fit": pytest.approx(-short, abs=1e-6)} if short else {}
        assert found == wanted


def test_slot_port_may_use_the_wall():
    """A slot that lies on the floor touches it and fits; one a millimetre lower does not."""
    slot = PortBody.straight("slot", width=0.3, height=0.03, wall=0.012, length=0.2)
    low = 0.018 + 0.015 + 0.012
    assert "port-does-not-fit" not in codes(square(0.3, (Placed(part=slot, face="front", v=low),)))
    found = codes(square(0.3, (Placed(part=slot, face="front", v=low - 0.001),)))
    assert found["port-does-not-fit"][0] == pytest.approx(-0.001, abs=1e-6)


def test_driver_and_port_collide():
    """Side by side on one face the flange and the tube count; 3 mm apart is crowded."""
    sub = Placed(part=driver(), face="front", u=0.2)
    near = 0.2 + 0.135 + 0.043 + 0.003
    found = codes(square(0.35, (sub, Placed(part=port(0.1), face="front", u=near))))
    assert found == {"parts-crowded": pytest.approx((0.003, 0.010), abs=1e-6)}
    found = codes(square(0.35, (sub, Placed(part=port(0.1), face="front", u=near - 0.02))))
    assert found["parts-collide"] == pytest.approx((-0.017, 0.0), abs=1e-6)


def test_parts_on_different_faces_collide_inside():
    """A port from the side runs into the motor; lifted above it, it clears by the exact gap."""
    sub = Placed(part=driver(), face="front", v=0.2)
    through = Placed(part=port(0.4), face="left", u=0.4 - 0.08, v=0.2)
    found = codes(square(0.4, (sub, through)))
    assert "parts-collide" in found
    # Level with the front at 200 mm: port axis 200 mm deep, motor back at 110 mm, radius 43 mm.
    beside = Placed(part=port(0.4), face="left", u=0.4 - 0.2, v=0.2)
    found = codes(square(0.4, (sub, beside)), apart=0.05)
    assert found["parts-crowded"][0] == pytest.approx(0.2 - 0.043 - 0.110, abs=2e-4)


def test_brace_in_the_way_and_with_a_window():
    """A plate through the motor collides; a window wider than the basket clears it."""
    sub = (Placed(part=driver(), face="front"),)
    plate = CrossBrace(name="plate", at=0.341, thickness=0.018)
    assert codes(square(0.3, sub, braces=(plate,)))["parts-collide"] == (0.0, 0.0)
    # The window is a strip of air from the front to 140 mm deep around the driver.
    window = Circle(centre=(0.1, 0.2), radius=0.05)
    narrow = CrossBrace(name="plate", at=0.341, thickness=0.018, windows=(window,))
    assert "parts-collide" in codes(square(0.3, sub, braces=(narrow,)))
    aside = CrossBrace(name="plate", at=0.5, thickness=0.018)
    assert codes(square(0.3, sub, braces=(aside,))) == {}


def test_driver_in_the_lid_of_a_round_well():
    """On a cheek the depth is the width of the air, and the hole is measured to the flats."""
    carcass = Carcass(
        profile=round_well_profile(diameter=0.6), width=0.14, thickness=0.012,
        contents=(Placed(part=driver(), face="right"),),
    )  # fmt: skip
    assert codes(carcass) == {}
    assert depth_behind(carcass, carcass.contents[0]) == pytest.approx(0.128, abs=1e-6)


@pytest.mark.parametrize(
    ("make", "error", "says"),
    [
        (lambda: driver(motor_diameter=0.25), PlacementError, ("motor-wider-than-cut-out",)),
        (lambda: driver(flange_diameter=0.2), PlacementError, ("flange-inside-cut-out",)),
        (
            lambda: driver(basket_depth=0.0),
            ProfileError,
            ("measure-of-part-not-positive", "basket-depth"),
        ),
        (lambda: port(0.0), ProfileError, ("measure-not-positive", "port-length")),
        (
            lambda: PortBody(name="p", width=0.1, wall=0.003, legs=()),
            PlacementError,
            ("first-leg-not-inward",),
        ),
        (lambda: Clearances(apart=-1.0), PlacementError, ("clearance-negative",)),
    ],
)
def test_impossible_parts_say_why(make, error, says):
    """What cannot exist is refused with value and limit."""
    with refused(error, *says):
        make()
