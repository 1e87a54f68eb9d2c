"""Boxes whose walls all lean, against solids cut and measured by trimesh."""

import math

import numpy as np
import pytest
import trimesh
from scipy.spatial import HalfspaceIntersection

from acoustics.carcass import Placed, Profile, RoundPart
from acoustics.carcass.errors import NoInsideError, PlacementError, ProfileError
from acoustics.carcass.taper import Taper, four_sided_taper
from tests.acoustics.carcass.second_method import solid_of

SIX = tuple((0.3 * math.cos(k * math.pi / 3), 0.25 * math.sin(k * math.pi / 3)) for k in range(6))
FIVE = ((0.0, 0.0), (0.4, 0.0), (0.5, 0.2), (0.3, 0.35), (0.0, 0.3))
ELL = ((0.0, 0.0), (0.5, 0.0), (0.5, 0.25), (0.25, 0.25), (0.25, 0.5), (0.0, 0.5))

# Invented boxes: four-sided in several leans, unequal walls, more sides, one that turns inward.
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
    "L": {"plan": ELL, "leans": 0.08, "height": 0.3},
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


def cut_solid(box: Taper, *, inside: bool) -> trimesh.Trimesh:
    """The hull of the corners that scipy finds between one half-space per panel.

    For plans without a corner that turns inward. The planes are laid through two points of the
    typed plan and one found by the angle, by hand.
    """
    points = np.asarray(box.plan.points)
    wood = box.walls if inside else (0.0,) * len(points)
    rows = []
    for i, (lean, t) in enumerate(zip(box.angles, wood, strict=True)):
        a, b = points[i], points[(i + 1) % len(points)]
        inward = np.array([-(b - a)[1], (b - a)[0]]) / math.dist(a, b)
        foot, along = np.array([*a, 0.0]), np.array([*(b - a), 0.0])
        up = np.array([*(inward * math.sin(lean)), math.cos(lean)])
        normal = np.cross(along, up)
        normal /= np.linalg.norm(normal)
        rows.append([*normal, t - normal @ foot])
    low, high = (box.ends, box.height - box.ends) if inside else (0.0, box.height)
    rows += [[0, 0, -1, low], [0, 0, 1, -high]]
    middle = np.array([*points.mean(axis=0), box.height / 2])
    found = HalfspaceIntersection(np.array(rows), middle).intersections
    return trimesh.convex.convex_hull(found)


@pytest.mark.parametrize("corner", ["mitre", "butt"])
@pytest.mark.parametrize("name", SHAPES)
def test_wood_and_air_fill_the_outline(name, corner):
    """Panels meshed by trimesh and the air together are the outline (0.01 %)."""
    box = taper(name, corner)
    wood = sum(solid_of(p).volume for p in box.panels())
    assert wood + box.gross_volume == pytest.approx(box.outer_volume, rel=1e-4)


@pytest.mark.second_method
@pytest.mark.parametrize("name", [n for n in SHAPES if n != "L"])
def test_volumes_of_a_solid_of_half_spaces(name):
    """Outline and inside agree (0.01 %) with half-spaces: corners by scipy, volume by trimesh."""
    box = taper(name)
    assert cut_solid(box, inside=False).volume == pytest.approx(box.outer_volume, rel=1e-4)
    assert cut_solid(box, inside=True).volume == pytest.approx(box.gross_volume, rel=1e-4)


@pytest.mark.second_method
@pytest.mark.parametrize("name", [n for n in SHAPES if n != "L"])
def test_true_lengths_and_angles_of_that_solid(name):
    """Long edges of the mitred walls (0.05 mm) and dihedral angles (0.01°) are the solid's."""
    box = taper(name)
    corners = cut_solid(box, inside=False).vertices
    count = len(box.plan)
    for i, panel in enumerate(box.panels()[:count]):
        outside, _ = panel.corners()
        # The ends of the wall's upper edge, carried on to the top of the box along its sides.
        for low, high in ((0, 3), (1, 2)):
            way = (outside[high] - outside[low]) / (outside[high][2] - outside[low][2])
            for z in (0.0, box.height):
                corner = outside[low] + way * (z - outside[low][2])
                assert np.linalg.norm(corners - corner, axis=1).min() < 5e-5
        normals = []
        for k in (i - 1, i):
            flat, _ = box.panels()[k % count].corners()
            normals.append(trimesh.triangles.normals([flat[:3]])[0][0])
        between = math.degrees(math.acos(np.clip(normals[0] @ normals[1], -1, 1)))
        assert math.degrees(box.dihedral(i)) == pytest.approx(180 - between, abs=0.01)


@pytest.mark.second_method
@pytest.mark.parametrize("corner", ["mitre", "butt"])
@pytest.mark.parametrize("name", SHAPES)
def test_bevels_are_the_angles_between_the_meshed_faces(name, corner):
    """A bevel is how far an edge's face is from square to the panel (0.01°, normals by trimesh)."""
    for panel in taper(name, corner).panels():
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
    for i, panel in enumerate(box.panels()[:6]):
        assert panel.cuts[3].bevel == pytest.approx(math.pi / 2 - box.dihedral(i) / 2, abs=1e-9)


def test_rectangles_below_and_above():
    """The top has the size and the place that were asked for."""
    box = four_sided_taper(
        bottom=(0.4, 0.3), top=(0.3, 0.25), height=0.35, thickness=0.018, shift=(0.02, -0.01)
    )
    assert box.section(0.35).polygon.bounds == pytest.approx((0.07, 0.015, 0.37, 0.265))
    assert box.plan.names == ("left", "rear", "right", "front")


def test_parts_take_litres():
    """Net is gross less the driver, whose volume is given."""
    part = RoundPart(
        name="driver",
        cutout_diameter=0.12,
        flange_diameter=0.14,
        basket_depth=0.05,
        motor_diameter=0.08,
        displacement=0.0007,
    )
    given = SHAPES["even"]
    box = Taper(
        plan=Profile(points=given["plan"]),
        height=0.35,
        leans=0.15,
        thickness=0.018,
        contents=(Placed(part=part, face="side 1"),),
    )
    assert box.gross_volume - box.net_volume == pytest.approx(0.0007)


def test_impossible_tapers_say_why():
    """Walls that meet below the top, wood without an inside, and a part on no face are refused."""
    square = Profile(points=((0, 0), (0.4, 0), (0.4, 0.4), (0, 0.4)))
    with pytest.raises(NoInsideError):
        Taper(plan=square, height=0.4, leans=0.6, thickness=0.018)
    with pytest.raises(NoInsideError, match="bottom and top"):
        Taper(plan=square, height=0.03, leans=0.1, thickness=0.018)
    with pytest.raises(ProfileError, match="leans"):
        Taper(plan=square, height=0.4, leans=1.6, thickness=0.018)
    with pytest.raises(ProfileError, match="height"):
        Taper(plan=square, height=0.0, leans=0.1, thickness=0.018)
    part = RoundPart(
        name="driver",
        cutout_diameter=0.12,
        flange_diameter=0.14,
        basket_depth=0.05,
        motor_diameter=0.08,
    )
    with pytest.raises(PlacementError, match="no face"):
        Taper(
            plan=square,
            height=0.4,
            leans=0.1,
            thickness=0.018,
            contents=(Placed(part=part, face="lid"),),
        )
