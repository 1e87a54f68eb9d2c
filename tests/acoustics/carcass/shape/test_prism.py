"""Volumes, panels and cut list of boxes drawn out from a profile."""

import math

import numpy as np
import pytest
from shapely.geometry import Polygon
from shapely.ops import unary_union

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.panels.cut_list import check_saw, cut_list
from acoustics.carcass.shape.braces import CrossBrace, Layer, Shelf, Strut
from acoustics.carcass.shape.contents import Placed, PortBody, RoundPart
from acoustics.carcass.shape.errors import (
    CarcassError,
    JointError,
    NoInsideError,
    PlacementError,
    ProfileError,
)
from acoustics.carcass.shape.joints import Joint
from acoustics.carcass.shape.outline import Circle
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.shapes import (
    cut_corner_profile,
    double_slope_profile,
    l_profile,
    leaning_rear_profile,
    rectangle_profile,
    round_well_profile,
    sloped_rear_profile,
    step_profile,
    wedge_profile,
    wheel_arch_profile,
)
from tests.acoustics.carcass.second_method import convex_inside, solid_of
from tests.refused import refused

WEDGE = sloped_rear_profile(0.40, 0.22, 0.36)

SHAPES = {
    "rectangle": rectangle_profile(0.35, 0.30),
    "sloped rear": WEDGE,
    "leaning out": sloped_rear_profile(0.20, 0.35, 0.30),
    "wedge": wedge_profile(0.40, 0.30),
    "double slope": double_slope_profile(
        bottom_depth=0.4, knee_depth=0.38, knee_height=0.2, top_depth=0.2, height=0.4
    ),
    "step": step_profile(depth=0.4, height=0.4, step_depth=0.15, step_height=0.12),
    "L": l_profile(depth=0.5, height=0.4, toe_depth=0.2, toe_height=0.2),
    "cut corner": cut_corner_profile(depth=0.4, height=0.3, cut_depth=0.1, cut_height=0.1),
    "wheel arch": wheel_arch_profile(depth=0.6, height=0.5, radius=0.25),
    "round well": round_well_profile(diameter=0.6),
    "leaning both": Profile(points=((0.05, 0.0), (0.4, 0.02), (0.33, 0.35), (0.0, 0.31))),
}


def box(profile: Profile, **more) -> Carcass:
    """A carcass with a different measured thickness on every edge."""
    walls = [0.012 + 0.0015 * (i % 4) for i in range(len(profile))]
    settings = {"width": 0.7, "thickness": walls, "cheek_thickness": (0.0177, 0.0149)}
    return Carcass(profile=profile, **(settings | more))


@pytest.mark.parametrize("name", ["rectangle", "sloped rear", "double slope", "leaning both"])
def test_each_face_of_a_box_without_dents_lies_the_way_it_looks(name):
    """From the middle of the box every face is ahead in the direction of its own outside."""
    made = box(SHAPES[name])
    outside = {"left": (0.0, 0.0, -1.0), "right": (0.0, 0.0, 1.0)}
    for edge, wall in enumerate(made.profile.names):
        outside[wall] = (*made.profile.normal(edge), 0.0)
    assert len(outside) == len(made.profile) + 2
    ahead = {wall: float(np.dot(made.way_out(wall), way)) for wall, way in outside.items()}
    assert min(ahead.values()) > 0.05, ahead
    assert ahead["left"] == ahead["right"] == pytest.approx(0.35)


@pytest.mark.second_method
@pytest.mark.parametrize("name", SHAPES)
def test_panels_fill_exactly_what_is_not_air(name):
    """Wood of all panels (trimesh) and air together are the outline drawn out (0.01 %)."""
    carcass = box(SHAPES[name])
    parts = panels(carcass)
    wood = sum(solid_of(p).volume for p in parts)
    outer = carcass.profile.polygon.area * 0.7
    assert wood + carcass.gross_volume == pytest.approx(outer, rel=1e-9)
    for panel in parts:
        assert panel.volume == pytest.approx(solid_of(panel).volume, rel=1e-9)


@pytest.mark.second_method
@pytest.mark.parametrize("name", [n for n in SHAPES if n not in ("step", "L", "wheel arch")])
def test_inside_agrees_with_strips_cut_away(name):
    """The inside is the outline less a strip per wall, cut with shapely (0.01 %)."""
    carcass = box(SHAPES[name])
    inside = convex_inside(list(carcass.profile.points), list(carcass.wall_thickness))
    assert carcass.gross_volume == pytest.approx(inside.area * (0.7 - 0.0177 - 0.0149), rel=1e-9)


def test_step_and_l_by_arithmetic():
    """Square steps are two boxes side by side, by hand."""
    step = Carcass(profile=SHAPES["step"], width=0.7, thickness=0.018)
    assert step.gross_volume == pytest.approx(
        0.664 * ((0.25 - 0.036) * 0.364 + 0.15 * (0.28 - 0.036)), rel=1e-12
    )
    shape = Carcass(profile=SHAPES["L"], width=0.7, thickness=0.018)
    assert shape.gross_volume == pytest.approx(
        0.664 * ((0.3 - 0.036) * 0.364 + 0.2 * (0.2 - 0.036)), rel=1e-12
    )


def test_every_joint_gives_the_same_air_and_its_own_lengths():
    """Joints move wood from panel to panel and never change the litres."""
    profile = rectangle_profile(0.30, 0.40)
    by_joint = {}
    for kind, joint in (
        ("butt", Joint()),
        ("mitre", Joint(kind="mitre")),
        ("rebate", Joint(kind="rebate", depth=0.006)),
    ):
        carcass = Carcass(profile=profile, width=0.6, thickness=0.018, joints=(joint,) * 4)
        parts = {p.name: p for p in panels(carcass)}
        by_joint[kind] = parts
        assert sum(p.volume for p in parts.values()) == pytest.approx(
            carcass.outer_volume - carcass.gross_volume, rel=1e-9
        )
    # By hand: pinwheel butt 400 − 18; mitre full length; rebate 6 mm into the next panel.
    assert by_joint["butt"]["front"].size[1] == pytest.approx(0.382)
    assert by_joint["mitre"]["front"].size[1] == pytest.approx(0.400)
    assert by_joint["rebate"]["front"].size[1] == pytest.approx(0.388)


def test_cheek_joints_give_the_same_air():
    """Cheeks that cover, sit between, are mitred or rebated leave the same inside."""
    for kind, depth in (("cover", 0.0), ("between", 0.0), ("rebate", 0.005), ("mitre", 0.0)):
        joints = (Joint(kind="mitre"),) * 4 if kind == "mitre" else None
        carcass = box(WEDGE, cheek_joint=kind, cheek_rebate=depth, joints=joints)
        wood = sum(p.volume for p in panels(carcass))
        assert wood + carcass.gross_volume == pytest.approx(carcass.outer_volume, rel=1e-9)


def test_mitre_of_unequal_panels_is_not_half_the_angle():
    """Where 12 mm meets 18 mm at a right angle the mitre is atan(12/18), not 45°."""
    carcass = Carcass(
        profile=rectangle_profile(0.3, 0.3),
        width=0.5,
        thickness=(0.018, 0.012, 0.018, 0.012),
        joints=(Joint(kind="mitre"),) * 4,
    )
    bottom = panels(carcass)[0]
    assert bottom.cuts[0].bevel == pytest.approx(math.atan2(12, 18), abs=1e-9)


def test_equal_panels_share_a_line():
    """A plain box needs three lines: two cheeks, two long walls, two short ones."""
    carcass = Carcass(profile=rectangle_profile(0.3, 0.4), width=0.6, thickness=0.018, density=700)
    lines = cut_list(panels(carcass))
    assert [(x.name, x.quantity) for x in lines] == [
        ("rear, front", 2),
        ("bottom, top", 2),
        ("left, right", 2),
    ]
    assert [x.number for x in lines] == [1, 2, 3]
    total = sum(p.mass for x in lines for p in x.panels)
    assert total == pytest.approx(700 * (carcass.outer_volume - carcass.gross_volume))


def test_saw_that_tilts_45_degrees():
    """A 45° mitre passes; the 58.28° one of the wedge's foot is found with value and limit."""
    square = Carcass(
        profile=rectangle_profile(0.3, 0.4),
        width=0.6,
        thickness=0.018,
        joints=(Joint(kind="mitre"),) * 4,
    )
    assert check_saw(panels(square)) == ()
    wedge = Carcass(profile=WEDGE, width=0.9, thickness=0.018, joints=(Joint(kind="mitre"),) * 4)
    found = check_saw(panels(wedge))
    assert {f.detail for f in found} == {("bottom", "rear"), ("rear", "bottom")}
    assert all(f.code == "bevel-beyond-saw" and f.limit == math.pi / 4 for f in found)


def test_litres_are_taken_off():
    """Net is gross less layer, brace, driver and port, each by hand."""
    driver = RoundPart(
        name="sub",
        cutout_diameter=0.245,
        flange_diameter=0.27,
        basket_depth=0.05,
        motor_diameter=0.156,
        motor_depth=0.06,
    )
    port = PortBody.straight("port", width=0.08, length=0.2, wall=0.003)
    carcass = Carcass(
        profile=rectangle_profile(0.436, 0.336),
        width=0.836,
        thickness=0.018,
        layers=(
            Layer(face="front", thickness=0.02),
            Layer(face="front", thickness=0.01, outside=True),
        ),
        braces=(
            CrossBrace(
                name="middle", at=0.4, thickness=0.018,
                windows=(Circle(centre=(0.15, 0.168), radius=0.06),),
            ),
            Shelf(name="shelf", start=(0.3, 0.168), end=(0.35, 0.168), thickness=0.012),
            Strut(name="stick", at=(0.2, 0.1), breadth=0.04, thickness=0.02),
        ),
        contents=(Placed(part=driver, face="front", u=0.2), Placed(part=port, face="front", u=0.6)),
    )  # fmt: skip
    gross = 0.8 * 0.4 * 0.3
    assert carcass.gross_volume == pytest.approx(gross)
    assert carcass.volumes.layers == pytest.approx(0.8 * 0.3 * 0.02)
    assert carcass.volumes.braces == pytest.approx(
        (0.38 * 0.3 - math.pi * 0.06**2) * 0.018 + 0.38 * 0.8 * 0.012 + 0.8 * 0.04 * 0.02
    )
    assert carcass.volumes.ports == pytest.approx(math.pi * 0.043**2 * (0.2 - 0.048))
    assert carcass.net_volume == pytest.approx(
        gross - sum((carcass.volumes.layers, carcass.volumes.braces, driver.volume))
        - carcass.volumes.ports + math.pi / 4 * driver.cutout_diameter**2 * 0.048
    )  # fmt: skip
    names = [p.name for p in panels(carcass)]
    assert names[6:] == ["front layer 1", "front layer 2", "middle", "shelf", "stick"]


def test_layers_between_sloped_walls_close():
    """A layer inside a wedge is bevelled to its neighbours: wood and air still fill the outline."""
    carcass = box(
        WEDGE, layers=(Layer(face="rear", thickness=0.018), Layer(face="left", thickness=0.01))
    )
    wood = sum(p.volume for p in panels(carcass))
    assert wood + carcass.net_volume == pytest.approx(carcass.outer_volume, rel=1e-9)


@pytest.mark.parametrize(
    ("make", "error", "says"),
    [
        (lambda: rectangle_profile(0, 0.3), ProfileError, ("measure-not-positive", "bottom-depth")),
        (lambda: rectangle_profile(0.3, -1), ProfileError, ("measure-not-positive", "height")),
        (
            lambda: rectangle_profile(math.nan, 1),
            ProfileError,
            ("measure-not-positive", "bottom-depth"),
        ),
        (
            lambda: Profile(points=((0, 0), (1, 1), (1, 0), (0, 1))),
            ProfileError,
            ("outline-crosses-itself",),
        ),
        (
            lambda: Profile(points=((0, 0), (0, 1), (1, 1), (1, 0))),
            ProfileError,
            ("outline-runs-clockwise",),
        ),
        (
            lambda: Profile(points=((0, 0), (1, 0), (2, 0), (1, 1))),
            ProfileError,
            ("corner-straight",),
        ),
        (lambda: Profile(points=((0, 0), (1, 0))), ProfileError, ("too-few-corners",)),
        (lambda: leaning_rear_profile(0.4, 0.3, math.pi / 2), ProfileError, ("slope-too-steep",)),
        (lambda: leaning_rear_profile(0.2, 0.3, 0.8), ProfileError, ("slope-meets-front",)),
        (lambda: box(rectangle_profile(0.02, 0.3)), NoInsideError, ("edge-has-no-inside",)),
        (lambda: box(WEDGE, width=0.03), NoInsideError, ("cheeks-leave-no-inside",)),
        (lambda: box(wedge_profile(0.03, 0.03)), NoInsideError, ("edge-has-no-inside",)),
        (
            lambda: box(WEDGE, thickness=(0.018, 0.018)),
            ProfileError,
            ("values-not-one-per-edge", "thickness"),
        ),
        (
            lambda: box(WEDGE, thickness=0.0),
            ProfileError,
            ("measure-of-part-not-positive", "thickness"),
        ),
        (lambda: box(WEDGE, joints=(Joint(),)), JointError, ("joints-not-one-per-corner",)),
        (lambda: box(WEDGE, cheek_joint="mitre"), JointError, ("mitred-cheeks-need-mitres",)),
        (
            lambda: box(WEDGE, cheek_joint="rebate", cheek_rebate=0.02),
            JointError,
            ("rebate-through-cheeks",),
        ),
        (lambda: Joint(kind="rebate"), JointError, ("rebate-depth-wrong",)),
        (
            lambda: box(WEDGE, layers=(Layer(face="lid", thickness=0.01),)),
            PlacementError,
            ("no-such-face",),
        ),
        (
            lambda: box(WEDGE, braces=(CrossBrace(name="b", at=0.69, thickness=0.018),)),
            PlacementError,
            ("brace-beyond-width",),
        ),
    ],
)
def test_impossible_boxes_say_why(make, error, says):
    """What cannot be built is refused with value and limit."""
    with refused(error, *says):
        make()


def test_mass_of_an_unknown_sheet_is_not_zero():
    """Without a density there is no mass, and it says so."""
    with refused(CarcassError, "panel-mass-unknown"):
        _ = panels(box(WEDGE))[0].mass


@pytest.mark.parametrize("number", [100, pytest.param(1000, marks=pytest.mark.long)])
def test_reassembled_panels_enclose_the_same_volume(number):
    """Random shapes: the placed panels leave one hole, the inside, and never overlap."""
    rng = np.random.default_rng(1)
    built = 0
    while built < number:
        heights = np.cumsum(rng.uniform(0.08, 0.2, size=rng.integers(2, 5)))
        rear = [(float(rng.uniform(0.2, 0.6)), float(h - heights[0])) for h in heights]
        points = ((0.0, 0.0), *rear, (float(rng.uniform(-0.1, 0.1)), rear[-1][1]))
        walls = rng.uniform(0.009, 0.025, size=len(points)).tolist()
        try:
            profile = Profile(points=points)
            joints = tuple(
                Joint(kind=kind, through=way)
                for kind, way in zip(
                    rng.choice(["butt", "mitre"], len(points)),
                    rng.choice(["before", "after"], len(points)),
                    strict=True,
                )
            )
            usual = None if rng.random() < 0.5 else joints
            carcass = Carcass(profile=profile, width=0.5, thickness=walls, joints=usual)
            parts = panels(carcass)
        except (ProfileError, NoInsideError):
            continue
        built += 1
        sections = []
        for panel in parts[: len(points)]:
            outside, inside = panel.corners()
            quad = [outside[0], outside[3], inside[3], inside[0]]
            sections.append(Polygon([(x, y) for x, y, _ in quad]))
        ring = unary_union([s.buffer(1e-9, join_style="mitre") for s in sections])
        assert ring.area == pytest.approx(sum(s.area for s in sections), rel=1e-6)
        holes = [Polygon(hole).area for hole in ring.interiors]
        assert len(holes) == 1
        assert holes[0] * carcass.inner_width == pytest.approx(carcass.gross_volume, rel=1e-6)
        assert sum(x.quantity for x in cut_list(parts)) == len(parts)


def test_an_arch_takes_two_flats_or_more() -> None:
    """Two flats reach as far as half a step beyond the arc; fewer are none that could go round."""
    radius = 0.2
    reach = radius / math.cos(math.pi / 8)
    around = wheel_arch_profile(depth=0.6, height=0.5, radius=radius, flats=2)
    corner = reach**2 * math.sin(math.pi / 4) / 2  # each of two triangles from the wheel's centre
    assert around.area == pytest.approx(0.6 * 0.5 - 2 * corner, rel=1e-12)
    with refused(ProfileError, "flats-too-few"):
        wheel_arch_profile(depth=0.6, height=0.5, radius=radius, flats=1)
