"""Where drivers and ports go when nobody has said: apart, and inside the box."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest
from shapely.geometry import Point, box

from acoustics.carcass.room.arrange import BESIDE, Load
from acoustics.carcass.room.clearance import USUAL
from acoustics.carcass.shape.contents import PortBody, RoundPart
from acoustics.carcass.shape.four_sided import four_sided_taper
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile

# Invented: 0.9 m wide, 0.4 m deep, 0.5 m high, of 18 mm.
BARE = Carcass(
    profile=Profile(points=((0.0, 0.0), (0.4, 0.0), (0.4, 0.5), (0.0, 0.5))),
    width=0.9,
    thickness=0.018,
)
FRONT = BARE.profile.names[3]
FACES = ("left", "right", "front", "rear", "bottom", "top")
PORT = PortBody.straight("port", width=0.06, length=0.2, wall=0.003)
DRIVER = RoundPart(
    name="driver",
    cutout_diameter=0.235,
    flange_diameter=0.265,
    basket_depth=0.07,
    motor_diameter=0.156,
    motor_depth=0.05,
    bolt_circle_diameter=0.25,
    screw_diameter=0.004,
)


@pytest.mark.parametrize("ports", [1, 2, 3])
def test_ports_of_one_face_stand_in_a_row(ports: int):
    """Circles drawn round each port lie in the air of the face, 10 mm of wood between them."""
    placed = Load(driver=DRIVER, port=PORT, ports=ports).arrange(BARE, FRONT)
    rounds = [Point(p.u, 0.0).buffer(0.033) for p in placed if p.part is PORT]
    assert len(rounds) == ports
    air = box(0.018, -1, 0.9 - 0.018, 1)
    assert all(air.covers(one) for one in rounds)
    for one, other in itertools.combinations(rounds, 2):
        assert one.distance(other) >= BESIDE - 1e-9
    (spot,) = (p for p in placed if p.part is DRIVER)
    flange = Point(spot.u, 0.0).buffer(0.265 / 2)
    assert min(flange.distance(one) for one in rounds) > 0


@pytest.mark.parametrize("ports", [1, 2, 3])
def test_ports_of_the_cheek_share_its_height(ports: int):
    """Each has an equal part of the cheek's height to itself and stands in its middle."""
    placed = Load(port=PORT, ports=ports, port_face="right").arrange(BARE, FRONT)
    assert {p.face for p in placed} == {"right"}
    heights = sorted(p.v for p in placed)
    assert len(heights) == ports
    share = 0.5 / ports
    assert heights == pytest.approx([share / 2 + share * n for n in range(ports)])


def test_two_drivers_make_room_for_the_ports():
    """They keep half the face's width between them, and move left by half the row of ports."""
    placed = Load(driver=DRIVER, drivers=2, port=PORT).arrange(BARE, FRONT)
    across = [p.u for p in placed if p.part is DRIVER]
    # One port of 66 mm and 12 mm of wood: half of it is 39 mm.
    assert across == pytest.approx([0.225 - 0.039, 0.675 - 0.039])


@pytest.mark.parametrize("flange", [0.265, 0.34])
@pytest.mark.parametrize("drivers", [1, 2])
@pytest.mark.parametrize("ports", [0, 1, 2])
def test_the_least_width_is_just_enough(drivers: int, ports: int, flange: float):
    """There all flanges and ports keep their distance and every hole its wood, 1 cm less does not.

    Circles drawn by hand; the distances are those of `USUAL`.
    """
    driver = replace(DRIVER, flange_diameter=flange, bolt_circle_diameter=flange - 0.015)
    load = Load(driver=driver, drivers=drivers, port=PORT if ports else None, ports=max(ports, 1))
    least = load.least_width(0.018)
    assert _tightest(load, least) >= -1e-9
    assert _tightest(load, least - 0.01) < 0


def _tightest(load: Load, width: float) -> float:
    """What the tightest place in the face of a box has beyond the distance wanted."""
    assert load.driver is not None
    placed = load.arrange(Carcass(profile=BARE.profile, width=width, thickness=0.018), FRONT)
    holes = [p.u for p in placed if p.part is load.driver]
    assert len(holes) == load.drivers
    flanges = [Point(u, 0.0).buffer(load.driver.flange_diameter / 2) for u in holes]
    ports = [Point(p.u, 0.0).buffer(0.033) for p in placed if p.part is PORT]
    spare = [min(u - 0.018, width - 0.018 - u) - 0.235 / 2 - USUAL.cutout_to_edge for u in holes]
    spare += [min(u, width - u) - load.driver.flange_diameter / 2 for u in holes]
    spare += [a.distance(b) - USUAL.apart for a, b in itertools.combinations(flanges, 2)]
    spare += [a.distance(b) - USUAL.apart for a in flanges for b in ports]
    return min(spare)


@pytest.mark.parametrize("drivers", [1, 2, 3])
def test_drivers_in_a_wall_that_grows_narrower_share_it_at_their_height(drivers: int):
    """A wall 0.9 m wide at its foot and 0.5 m at its top is 0.7 m wide half way up."""
    body = four_sided_taper(
        bottom=(0.4, 0.9), top=(0.4, 0.5), height=0.4, thickness=dict.fromkeys(FACES, 0.018)
    )
    length, height = body.face("front").size
    load = Load(driver=DRIVER, drivers=drivers, driver_at=(None, height / 2))
    across = sorted(p.u for p in load.arrange(body, "front"))
    share = 0.7 / drivers
    middle = length / 2
    assert across == pytest.approx(
        [middle - 0.35 + share * (number + 0.5) for number in range(drivers)], abs=1e-6
    )


@pytest.mark.parametrize(
    ("face", "faces"), [(None, ["right", "left", "right"]), ("rear", ["rear"] * 3)]
)
def test_radiators_stand_in_both_cheeks_in_turn(face: str | None, faces: list[str]):
    """Pushing apart they hold still; in a face of their own they stand all in that."""
    load = Load(radiator=DRIVER, radiators=3, radiator_face=face)
    assert [p.face for p in load.arrange(BARE, FRONT)] == faces


@pytest.mark.parametrize(("level", "upper"), [(None, 0.235), (0.03, 0.065)])
def test_a_slot_beside_a_leaning_wall_clears_it_at_its_higher_end(
    level: float | None, upper: float
):
    """A wall that leans in by 0.2 m over 0.4: nearest where the slot, 35 mm from its middle, ends.

    By hand: 0.45 m less half the height, less 18 mm of wood cut aslant, 12 mm beside the slot and
    half its 60 mm. One that begins below the floor of the air asks its upper end alone.
    """
    slot = PortBody.straight("slot", width=0.05, height=0.06, length=0.2, wall=0.005)
    body = four_sided_taper(
        bottom=(0.4, 0.9), top=(0.4, 0.5), height=0.4, thickness=dict.fromkeys(FACES, 0.018)
    )
    (placed,) = Load(port=slot, port_at=(None, level)).arrange(body, "front")
    wall = 0.45 + 0.45 - upper / 2 - 0.018 * math.hypot(1, 0.5)
    assert placed.u == pytest.approx(wall - BESIDE - 0.03, abs=1e-6)
