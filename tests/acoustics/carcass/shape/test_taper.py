"""Boxes whose walls all lean, against solids cut and measured by trimesh."""

import math
from dataclasses import replace

import numpy as np
import pytest
import trimesh
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog
from scipy.spatial import HalfspaceIntersection

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.room.clearance import check_contents
from acoustics.carcass.shape.braces import CrossBrace, Layer
from acoustics.carcass.shape.contents import Placed, RoundPart
from acoustics.carcass.shape.errors import (
    NoInsideError,
    PlacementError,
    ProfileError,
    WallsMeetError,
)
from acoustics.carcass.shape.four_sided import four_sided_taper
from acoustics.carcass.shape.outline import rectangle
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.shapes import rectangle_profile
from acoustics.carcass.shape.taper import Taper
from tests.acoustics.carcass.second_method import solid_of
from tests.refused import refused

SIX = tuple((0.3 * math.cos(k * math.pi / 3), 0.25 * math.sin(k * math.pi / 3)) for k in range(6))
FIVE = ((0.0, 0.0), (0.4, 0.0), (0.5, 0.2), (0.3, 0.35), (0.0, 0.3))
ELL = ((0.0, 0.0), (0.5, 0.0), (0.5, 0.25), (0.25, 0.25), (0.25, 0.5), (0.0, 0.5))
FACES = ("left", "right", "front", "rear", "bottom", "top")

# Invented boxes: four-sided in several leans, unequal walls, more sides.
SHAPES = {
    "even": {"plan": ((0, 0), (0.4, 0), (0.4, 0.3), (0, 0.3)), "leans": 0.15, "height": 0.35},
    "outward": {"plan": ((0, 0), (0.4, 0), (0.4, 0.3), (0, 0.3)), "leans": -0.2, "height": 0.3},
    "each its own": {
        "plan": ((0, 0), (0.4, 0), (0.4, 0.3), (0, 0.3)),
        "leans": (0.05, 0.2, -0.1, 0.3),
        "height": 0.3,
    },
    "upright": {"plan": ((0, 0), (0.4, 0), (0.4, 0.3), (0, 0.3)), "leans": 0.0, "height": 0.3},
    "skew plan": {
        "plan": ((0, 0), (0.5, 0.05), (0.42, 0.33), (0.03, 0.3)),
        "leans": (0.1, 0.0, 0.12, 0.2),
        "height": 0.4,
    },
    "six": {"plan": SIX, "leans": math.radians(20), "height": 0.25},
    "five": {"plan": FIVE, "leans": (0.1, 0.05, 0.2, 0.0, 0.15), "height": 0.2},
}
WALLS = {4: (0.018, 0.012, 0.02, 0.015), 5: 0.015, 6: 0.018}


def taper(name: str, corner: str = "mitre") -> Taper:
    """One of the invented boxes, of unequal panels where it has four walls."""
    given = SHAPES[name]
    return Taper(
        plan=Profile(points=given["plan"]),
        height=given["height"],
        leans=given["leans"],
        thickness=WALLS[len(given["plan"])],
        end_thickness=0.016,
        corner=corner,
    )


def half_spaces(box: Taper, wood: dict[str, float]) -> trimesh.Trimesh:
    """The hull of the corners that scipy finds between one half-space per panel, moved in.

    The planes are laid through two points of the typed plan and one found by the angle, by hand:
    x to the rear, y up, z to the right of someone who faces the front, who sees the plan's y run
    to the left.
    """
    points = np.array([(x, 0.0, -y) for x, y in box.plan.points])
    rows = []
    for i, (name, lean) in enumerate(zip(box.plan.names, box.angles, strict=True)):
        a, b = points[i], points[(i + 1) % len(points)]
        along = (b - a) / np.linalg.norm(b - a)
        outward = np.array([-along[2], 0.0, along[0]])
        up = np.array([0.0, math.cos(lean), 0.0]) - outward * math.sin(lean)
        normal = np.cross(along, up)
        rows.append([*normal, wood[name] - normal @ a])
    rows += [[0, -1, 0, wood["bottom"]], [0, 1, 0, wood["top"] - box.height]]
    planes = np.array(rows)
    # The middle of the largest ball inside: however far a box leans over, that is not in its wood.
    ball = linprog(
        (0, 0, 0, -1),
        A_ub=np.column_stack((planes[:, :3], np.ones(len(planes)))),
        b_ub=-planes[:, 3],
        bounds=((None, None),) * 4,
    )
    found = HalfspaceIntersection(planes, ball.x[:3]).intersections
    hull = trimesh.convex.convex_hull(found)
    # z counts from the leftmost of the outside.
    tops = [box.section(z).points for z in (0.0, box.height)]
    hull.apply_translation((0.0, 0.0, max(y for points in tops for _, y in points)))
    return hull


def small_driver(**more) -> RoundPart:
    """An invented small driver."""
    plain = {
        "name": "driver",
        "cutout_diameter": 0.12,
        "flange_diameter": 0.14,
        "basket_depth": 0.05,
        "motor_diameter": 0.08,
        "motor_depth": 0.02,
    }
    return RoundPart(**(plain | more))


def cut_solid(box: Taper, *, inside: bool) -> trimesh.Trimesh:
    """The outside, or the inside of the bare panels."""
    return half_spaces(box, box.wood if inside else dict.fromkeys(box.wood, 0.0))


@pytest.mark.parametrize("corner", ["mitre", "butt"])
@pytest.mark.parametrize("name", SHAPES)
def test_wood_and_air_fill_the_outline(name, corner):
    """Panels meshed by trimesh and the air together are the outline (0.01 %)."""
    box = taper(name, corner)
    wood = sum(solid_of(p).volume for p in panels(box))
    assert wood + box.gross_volume == pytest.approx(box.outer_volume, rel=1e-4)


@pytest.mark.second_method
@pytest.mark.parametrize("name", SHAPES)
def test_volumes_of_a_solid_of_half_spaces(name):
    """Outline and inside agree (0.01 %) with half-spaces: corners by scipy, volume by trimesh."""
    box = taper(name)
    assert cut_solid(box, inside=False).volume == pytest.approx(box.outer_volume, rel=1e-4)
    assert cut_solid(box, inside=True).volume == pytest.approx(box.gross_volume, rel=1e-4)


@pytest.mark.second_method
@pytest.mark.parametrize("name", SHAPES)
def test_true_lengths_and_angles_of_that_solid(name):
    """Long edges of the mitred walls (0.05 mm) and dihedral angles (0.01°) are the solid's."""
    box = taper(name)
    corners = cut_solid(box, inside=False).vertices
    count = len(box.plan)
    assert len(panels(box)) == count + 2
    for i, panel in enumerate(panels(box)[:count]):
        outside, _ = panel.corners()
        # The ends of the wall's upper edge, carried on to the top of the box along its sides.
        for low, high in ((0, 3), (1, 2)):
            way = (outside[high] - outside[low]) / (outside[high][1] - outside[low][1])
            for y in (0.0, box.height):
                corner = outside[low] + way * (y - outside[low][1])
                assert np.linalg.norm(corners - corner, axis=1).min() < 5e-5
        normals = []
        for k in (i - 1, i):
            flat, _ = panels(box)[k % count].corners()
            normals.append(trimesh.triangles.normals([flat[:3]])[0][0])
        between = math.degrees(math.acos(np.clip(normals[0] @ normals[1], -1, 1)))
        assert math.degrees(box.dihedral(i)) == pytest.approx(180 - between, abs=0.01)


@pytest.mark.second_method
@pytest.mark.parametrize("corner", ["mitre", "butt"])
@pytest.mark.parametrize("name", SHAPES)
def test_bevels_are_the_angles_between_the_meshed_faces(name, corner):
    """A bevel is how far an edge's face is from square to the panel (0.01°, normals by trimesh)."""
    walls = panels(taper(name, corner))
    assert len(walls) == len(taper(name).plan) + 2
    for panel in walls:
        outside, inside = panel.corners()
        face = trimesh.triangles.normals([outside[:3]])[0][0]
        for i, cut in enumerate(panel.cuts):
            j = (i + 1) % len(outside)
            edge = trimesh.triangles.normals([[outside[i], inside[i], outside[j]]])[0][0]
            off = math.degrees(math.asin(np.clip(abs(face @ edge), 0, 1)))
            assert math.degrees(cut.bevel) == pytest.approx(off, abs=0.01)


def test_equal_mitres_share_the_dihedral_angle():
    """Between equal panels the saw tilts to 90° less half the dihedral angle, by definition."""
    box = taper("six")
    assert len(panels(box)) == 6 + 2
    for i, panel in enumerate(panels(box)[:6]):
        assert panel.cuts[3].bevel == pytest.approx(math.pi / 2 - box.dihedral(i) / 2, abs=1e-9)


def test_rectangles_below_and_above():
    """The top has the size and the place that were asked for, left and right as on a prism."""
    box = four_sided_taper(
        bottom=(0.4, 0.3), top=(0.3, 0.25), height=0.35, thickness=0.018, shift=(0.02, 0.01)
    )
    corners = cut_solid(box, inside=False).vertices
    low, high = (corners[np.abs(corners[:, 1] - y) < 1e-9] for y in (0.0, 0.35))
    assert (*low.min(axis=0), *low.max(axis=0)) == pytest.approx((0, 0, 0, 0.4, 0, 0.3), abs=1e-9)
    found = (*high.min(axis=0), *high.max(axis=0))
    assert found == pytest.approx((0.07, 0.35, 0.035, 0.37, 0.35, 0.285), abs=1e-9)
    assert corners[:, 2].min() == pytest.approx(0.0, abs=1e-9)


def test_a_taper_that_leans_nowhere_is_the_prism():
    """Faces, places, panels and holes of an upright taper are those of a rectangular carcass."""
    contents = tuple(
        Placed(part=small_driver(name=f"on {name}"), face=name, u=0.12, v=0.15) for name in FACES
    )
    upright = replace(
        four_sided_taper(
            bottom=(0.4, 0.5), top=(0.4, 0.5), height=0.35, thickness=0.018, corner="butt"
        ),
        contents=contents,
    )
    prism = Carcass(
        profile=rectangle_profile(0.4, 0.35), width=0.5, thickness=0.018, contents=contents
    )
    assert upright.net_volume == pytest.approx(prism.net_volume, rel=1e-12)
    for name, placed in zip(FACES, contents, strict=True):
        one, two = upright.face(name), prism.face(name)
        spots = [face.frame.place(((0.12, 0.15),))[0] for face in (one, two)]
        assert spots[0] == pytest.approx(spots[1])
        assert one.size == pytest.approx(two.size)
        assert upright.centre(placed) == prism.centre(placed)
        (hole,) = next(p.holes for p in panels(upright) if p.name == name)
        (same,) = next(p.holes for p in panels(prism) if p.name == name)
        assert hole == same
    assert check_values(upright) == pytest.approx(check_values(prism), abs=2e-6)


def check_values(box) -> list[float]:
    """Values of all clearance findings, by code and place."""
    found = sorted(check_contents(box), key=lambda one: (one.code, one.detail))
    assert found
    return [one.value for one in found if one.value is not None]


@pytest.mark.second_method
@pytest.mark.parametrize("name", ["even", "each its own", "six"])
def test_layers_take_the_litres_trimesh_says(name):
    """Layers in two neighbouring faces close on each other: their meshes fill what they take."""
    bare = taper(name)
    first, second = bare.plan.names[:2]
    layers = (
        Layer(face=first, thickness=0.012),
        Layer(face=first, thickness=0.006),
        Layer(face=second, thickness=0.009),
        Layer(face="top", thickness=0.01),
    )
    box = replace(bare, layers=layers)
    lined = {n: t + sum(y.thickness for y in layers if y.face == n) for n, t in box.wood.items()}
    meshes = [solid_of(p) for p in panels(box) if " layer " in p.name]
    taken = half_spaces(box, box.wood).volume - half_spaces(box, lined).volume
    assert len(meshes) == 4
    assert sum(m.volume for m in meshes) == pytest.approx(taken, rel=1e-4)
    assert box.volumes.layers == pytest.approx(taken, rel=1e-4)


@pytest.mark.second_method
@pytest.mark.parametrize("name", ["even", "outward", "each its own", "skew plan"])
def test_a_level_plate_takes_the_litres_trimesh_says(name):
    """The plate is the solid of half-spaces between two levels, less its window."""
    window = rectangle(0.12, 0.15, 0.2, 0.25)
    brace = CrossBrace(name="brace 1", at=0.12, thickness=0.018, windows=(window,))
    box = replace(taper(name), braces=(brace,))
    plate = half_spaces(box, box.wood | {"bottom": 0.12, "top": box.height - 0.138})
    holed = plate.volume - 0.08 * 0.1 * 0.018
    (panel,) = (p for p in panels(box) if p.name == "brace 1")
    assert box.volumes.braces == pytest.approx(holed, rel=1e-4)
    assert solid_of(panel).volume == pytest.approx(plate.volume, rel=1e-4)
    outside, inside = panel.corners()
    assert np.vstack((outside, inside)).min(axis=0) == pytest.approx(
        plate.vertices.min(axis=0), abs=5e-5
    )


@given(
    bottom=st.tuples(st.floats(0.2, 0.7), st.floats(0.2, 0.9)),
    top=st.tuples(st.floats(0.2, 0.7), st.floats(0.2, 0.9)),
    height=st.floats(0.2, 0.6),
    shift=st.tuples(st.floats(-0.15, 0.15), st.floats(-0.15, 0.15)),
    wood=st.lists(st.floats(0.006, 0.03), min_size=6, max_size=6),
    corner=st.sampled_from(["mitre", "butt", None]),
    through=st.sampled_from(["sides", "front and rear"]),
)
@settings(deadline=None, max_examples=40)
def test_panels_put_together_enclose_the_litres(bottom, top, height, shift, wood, corner, through):
    """Meshed wood and gross litres fill a random four-sided outline, cut by half-spaces."""
    thickness = dict(zip(FACES, wood, strict=True))
    try:
        box = four_sided_taper(
            bottom=bottom,
            top=top,
            height=height,
            thickness=thickness,
            shift=shift,
            corner=corner,
            through=through,
        )
        made = panels(box)
    except NoInsideError:
        assume(False)
    outer = cut_solid(box, inside=False)
    meshed = sum(solid_of(panel).volume for panel in made)
    assert meshed + box.gross_volume == pytest.approx(outer.volume, rel=1e-4)
    assert cut_solid(box, inside=True).volume == pytest.approx(box.gross_volume, rel=1e-4)
    assert {p.name: p.thickness for p in made} == thickness


def test_the_usual_corner_is_the_one_that_tilts_less():
    """Nearly upright walls butt; past a dihedral angle of 120° they are mitred."""

    def tilts(box: Taper) -> float:
        return max(cut.bevel for panel in panels(box)[:4] for cut in panel.cuts[1::2])

    for top, wanted in ((0.35, "butt"), (0.04, "mitre")):
        given = {"bottom": (0.5, 0.5), "top": (top, top), "height": 0.2, "thickness": 0.006}
        chosen = four_sided_taper(**given)
        other = four_sided_taper(**given, corner="butt" if wanted == "mitre" else "mitre")
        assert chosen.corner == wanted
        assert tilts(chosen) < tilts(other)


def test_who_runs_through_is_chosen():
    """A wall that runs through keeps the outer breadth of its foot; the others lose two sheets."""
    given = {"bottom": (0.4, 0.5), "top": (0.4, 0.5), "height": 0.3, "thickness": 0.018}
    for through, sizes in (("sides", (0.4, 0.464)), ("front and rear", (0.364, 0.5))):
        box = four_sided_taper(**given, corner="butt", through=through)
        size = {panel.name: panel.size[0] for panel in panels(box)}
        assert (size["left"], size["front"]) == pytest.approx(sizes)


def test_parts_take_litres():
    """Net is gross less the driver, whose volume is given, and the hole cut for it is air."""
    part = small_driver(displacement=0.0007)
    given = SHAPES["even"]
    box = Taper(
        plan=Profile(points=given["plan"]),
        height=0.35,
        leans=0.15,
        thickness=0.018,
        contents=(Placed(part=part, face="side 1"),),
    )
    hole = math.pi / 4 * part.cutout_diameter**2 * 0.018
    assert box.gross_volume - box.net_volume == pytest.approx(0.0007 - hole)


def test_impossible_tapers_say_why():
    """Walls that meet, wood without an inside, plans that turn inward, and what is on no face."""
    square = Profile(points=((0, 0), (0.4, 0), (0.4, 0.4), (0, 0.4)))
    plain = {"plan": square, "height": 0.4, "leans": 0.1, "thickness": 0.018}
    on_lid = (Placed(part=small_driver(), face="lid"),)
    cases = [
        ({"leans": 0.6}, WallsMeetError, ("walls-meet",)),
        ({"leans": 0.45}, WallsMeetError, ("walls-meet",)),
        ({"height": 0.03}, NoInsideError, ("ends-leave-no-inside",)),
        ({"leans": 1.6}, ProfileError, ("lean-too-steep",)),
        ({"height": 0.0}, ProfileError, ("measure-not-positive", "height")),
        (
            {"thickness": -0.01},
            ProfileError,
            ("measure-of-part-not-positive", "thickness"),
        ),
        ({"plan": Profile(points=ELL)}, ProfileError, ("plan-turns-inward",)),
        ({"contents": on_lid}, PlacementError, ("no-such-face",)),
        ({"layers": (Layer(face="lid", thickness=0.01),)}, PlacementError, ("no-such-face",)),
        (
            {"braces": (CrossBrace(name="b", at=0.39, thickness=0.018),)},
            PlacementError,
            ("brace-beyond-height",),
        ),
        (
            {
                "braces": (
                    CrossBrace(
                        name="b",
                        at=0.2,
                        thickness=0.018,
                        windows=(rectangle(0.01, 0.1, 0.3, 0.3),),
                    ),
                )
            },
            PlacementError,
            ("window-reaches-wall",),
        ),
    ]
    for changed, error, says in cases:
        with refused(error, *says):
            Taper(**(plain | changed))
