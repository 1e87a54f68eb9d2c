"""Shelves and struts: their wood against solids built by a second library, and what they meet."""

import itertools

import numpy as np
import pytest
import trimesh
from shapely.geometry import LineString, MultiPoint, Point, Polygon

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.panels.gluing import glue_order
from acoustics.carcass.room.clearance import check_contents
from acoustics.carcass.shape import shapes
from acoustics.carcass.shape.braces import CrossBrace, Layer, Shelf, Strut
from acoustics.carcass.shape.contents import Placed, RoundPart
from acoustics.carcass.shape.errors import PlacementError, ProfileError
from acoustics.carcass.shape.inside.slab import Slab
from acoustics.carcass.shape.outline import rectangle
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from tests.refused import refused

T, WIDTH = 0.018, 0.7
WEDGE = Profile(
    points=((0, 0), (0.5, 0), (0.38, 0.4), (0, 0.4)), names=("bottom", "rear", "top", "front")
)


def carcass(*braces, **changes) -> Carcass:
    """An invented box behind a seat back."""
    given = {"profile": WEDGE, "width": WIDTH, "thickness": T, "braces": braces, **changes}
    return Carcass(**given)


def shelf(**changes) -> Shelf:
    """A level shelf at half height."""
    return Shelf(
        **{"name": "shelf", "start": (0.1, 0.2), "end": (0.2, 0.2), "thickness": T, **changes}
    )


@pytest.mark.second_method
@pytest.mark.parametrize("seed", range(4))
def test_wood_is_the_solid_between_the_walls(seed):
    """Random shelves and struts: litres and outline are those of trimesh and of shapely."""
    rng = np.random.default_rng(seed)
    air = Polygon(WEDGE.points).buffer(-T, join_style="mitre")
    for _ in range(25):
        x, y, z = rng.uniform(0.1, 0.3), rng.uniform(0.1, 0.3), rng.uniform(0.1, 0.5)
        breadth = rng.uniform(0.02, 0.08)
        span = (z, z + breadth) if rng.random() < 0.5 else None
        brace = [
            shelf(start=(x, y), end=(x + 0.01, y), span=span),
            shelf(start=(x, y), end=(x, y + 0.01), span=span),
            Strut(name="strut", at=(x, y), breadth=breadth, thickness=T),
        ][rng.integers(3)]
        low, high = (T, WIDTH - T) if getattr(brace, "span", None) is None else span
        box = carcass(brace)
        panel = panels(box)[-1]
        outside, inside = (np.asarray(face) for face in panel.corners())
        solid = trimesh.convex.convex_hull(np.vstack((outside, inside)))
        assert solid.volume == pytest.approx(box.volumes.braces, rel=1e-4)
        assert solid.bounds[:, 2] == pytest.approx([low, high], abs=1e-9)
        # Seen end on it lies in the air, and it is as thick as the sheet.
        seen = Polygon(trimesh.convex.convex_hull(solid.vertices).vertices[:, :2]).convex_hull
        assert air.buffer(1e-7).covers(seen)
        assert np.linalg.norm(np.cross(*panel_axes(panel))) == pytest.approx(1.0)
        if not isinstance(brace, Strut):
            # Nothing of it could be longer: both of its faces reach a wall at both ends.
            for corners in (outside, inside):
                for corner in corners:
                    assert Point(corner[:2]).distance(air.exterior) < 1e-7
        assert box.net_volume == pytest.approx(carcass().net_volume - solid.volume, rel=1e-6)


def panel_axes(panel):
    """The two directions a panel lies in."""
    return np.asarray(panel.frame.u), np.asarray(panel.frame.v)


@pytest.mark.second_method
@pytest.mark.parametrize(
    "profile",
    [
        shapes.l_profile(depth=0.6, height=0.45, toe_depth=0.25, toe_height=0.2),
        shapes.wheel_arch_profile(depth=0.6, height=0.45, radius=0.25),
    ],
)
def test_a_shelf_goes_in_whatever_corner_it_meets(profile):
    """Random shelves lie in the air with all their wood, or are refused (shapely, random cuts).

    Where a corner points into the end of one it is cut before it; half in a wall it is none.
    """
    air = profile.polygon.buffer(-T, join_style="mitre")
    rng, made = np.random.default_rng(1), 0
    for _ in range(60):
        (x, y), turn = rng.uniform((0, 0), (0.6, 0.45)), rng.uniform(0, np.pi)
        way = 0.02 * np.cos(turn), 0.02 * np.sin(turn)
        one = shelf(start=(x - way[0], y - way[1]), end=(x + way[0], y + way[1]), thickness=0.03)
        across = LineString(
            [(x - 50 * way[0], y - 50 * way[1]), (x + 50 * way[0], y + 50 * way[1])]
        )
        strip = across.buffer(0.015, cap_style="flat")
        try:
            box = carcass(one, profile=profile)
        except PlacementError:
            continue
        faces = np.vstack(panels(box)[-1].corners())[:, :2]
        seen = MultiPoint(faces).convex_hull
        assert air.buffer(1e-7).covers(seen)
        assert strip.buffer(1e-7).covers(seen)
        assert box.volumes.braces == pytest.approx(seen.area * (WIDTH - 2 * T))
        made += 1
    assert made > 20


def test_a_shelf_half_in_a_wall_is_refused():
    """Its middle 5 mm above the floor, 9 mm of wood below the middle: no saw makes that fit."""
    with refused(PlacementError, "brace-outside"):
        carcass(shelf(start=(0.1, T + 0.005), end=(0.2, T + 0.005)))
    carcass(shelf(start=(0.1, 1.5 * T), end=(0.2, 1.5 * T)))


def test_a_window_comes_off_the_wood():
    """By hand: a shelf 200 × 100 mm open has that much less wood, and its panel has the hole."""
    plain, open_ = carcass(shelf()), carcass(shelf(windows=(rectangle(0.2, 0.1, 0.4, 0.2),)))
    assert plain.volumes.braces - open_.volumes.braces == pytest.approx(0.2 * 0.1 * T)
    assert [hole.area for hole in panels(open_)[-1].holes] == pytest.approx([0.02])


def test_each_edge_of_a_shelf_names_what_it_meets():
    """A shelf from the front to the leaning rear is bevelled there alone, by the lean."""
    cuts = {cut.mate: cut.bevel for cut in panels(carcass(shelf()))[-1].cuts}
    assert set(cuts) == {"front", "rear", "left", "right"}
    assert cuts.pop("rear") == pytest.approx(np.arctan2(0.12, 0.4))
    assert max(cuts.values()) == pytest.approx(0.0, abs=1e-9)
    upright = shelf(start=(0.2, 0.1), end=(0.2, 0.2))
    assert [c.mate for c in panels(carcass(upright))[-1].cuts] == ["bottom", "left", "top", "right"]


@pytest.mark.parametrize(
    "profile", [WEDGE, shapes.wheel_arch_profile(depth=0.5, height=0.4, radius=0.2)]
)
def test_each_edge_of_a_layer_names_what_it_meets(profile):
    """With every face lined, each edge of a layer ends on the air side of the panel it names."""
    faces = (*profile.names, "left", "right")
    box = carcass(profile=profile, layers=tuple(Layer(face=n, thickness=0.012) for n in faces))
    air = box.air_profile
    ring = [*air.points, air.points[0]]
    walls = {name: LineString(ring[i : i + 2]) for i, name in enumerate(air.names)}
    layers = panels(box)[len(faces) :]
    assert len(layers) == len(faces)
    for panel in layers:
        _, inside = panel.corners()
        for i, cut in enumerate(panel.cuts):
            x, y, z = (inside[i] + inside[(i + 1) % len(inside)]) / 2
            if cut.mate in walls:
                assert walls[cut.mate].distance(Point(x, y)) < 1e-9
            else:
                assert z == pytest.approx({"left": T, "right": WIDTH - T}[cut.mate])


def driver() -> Placed:
    """An invented driver in the middle of the front, 110 mm deep, its motor 100 mm across."""
    part = RoundPart(
        name="driver",
        cutout_diameter=0.15,
        flange_diameter=0.17,
        basket_depth=0.06,
        motor_diameter=0.1,
        motor_depth=0.05,
        bolt_circle_diameter=0.16,
        screw_diameter=0.004,
    )
    return Placed(part=part, face="front")


@pytest.mark.parametrize(
    ("brace", "code"),
    [
        # Behind the motor, 110 mm from the outside, and 12 or 2 mm further on.
        (Strut(name="s", at=(0.142, 0.2), breadth=0.04, thickness=T), None),
        (Strut(name="s", at=(0.132, 0.2), breadth=0.04, thickness=T), "parts-crowded"),
        (Strut(name="s", at=(0.12, 0.2), breadth=0.04, thickness=T), "parts-collide"),
        # Beside the basket, 67.5 mm wide of the middle where it leaves the wood.
        (shelf(start=(0.1, 0.2), end=(0.2, 0.2), span=(0.44, 0.48)), None),
        (shelf(start=(0.1, 0.2), end=(0.2, 0.2), span=(0.425, 0.465)), "parts-crowded"),
        (shelf(start=(0.1, 0.2), end=(0.2, 0.2), span=(0.40, 0.44)), "parts-collide"),
    ],
)
def test_a_driver_keeps_clear_of_struts(brace, code):
    """By hand: 10 mm are wanted between a part and a strut, wherever it stands."""
    found = {f.code: f for f in check_contents(carcass(brace, contents=(driver(),)))}
    assert [one for one in found if one.startswith("parts-")] == ([code] if code else [])


def test_braces_that_cross_are_told():
    """By hand: a plate and a shelf share thickness × thickness × depth; touching is no crossing."""
    plate = CrossBrace(name="plate", at=0.3, thickness=T)
    found = check_contents(carcass(plate, shelf()))
    # The shelf at half height is 382 mm − 2.4 mm deep between walls: measured by its section.
    depth = shelf().section(Polygon(carcass().air_profile.points)).area / T
    assert [(f.code, f.detail) for f in found] == [("braces-cross", ("plate", "shelf"))]
    assert found[0].value == pytest.approx(depth * T * T)
    assert not check_contents(carcass(plate, shelf(span=(0.2, 0.3))))
    assert not check_contents(
        carcass(shelf(), shelf(name="next", start=(0.1, 0.218), end=(0.2, 0.218)))
    )


def test_each_brace_is_glued_to_what_it_meets():
    """A shelf stands on the bench panel and its walls, a strut on the two ends it reaches."""
    braces = (
        CrossBrace(name="plate", at=0.5, thickness=T),
        shelf(),
        shelf(name="strut 1", span=(0.2, 0.24), start=(0.2, 0.1), end=(0.2, 0.2)),
        Strut(name="strut 2", at=(0.1, 0.3), breadth=0.04, thickness=T),
    )
    steps = {step.panel: step for step in glue_order(carcass(*braces))}
    assert set(steps["shelf"].onto) == {"left", "front", "rear"}
    assert set(steps["strut 1"].onto) == {"bottom", "top"}
    assert steps["strut 2"].onto == ("left",)
    assert set(steps["plate"].onto) == set(WEDGE.names)
    numbers = [steps[name].number for name in ("shelf", "strut 1", "plate")]
    assert numbers == sorted(numbers)


def test_what_has_no_place_says_so():
    """A strut in the wood, beyond the cheeks, or of no breadth is refused by name."""
    with refused(PlacementError, "brace-outside"):
        carcass(Strut(name="s", at=(0.01, 0.2), breadth=0.04, thickness=T))
    with refused(PlacementError, "brace-beyond-width", "shelf", low=0.69, high=0.73):
        carcass(shelf(span=(0.69, 0.73)))
    with refused(ProfileError, "measure-of-part-not-positive", "breadth"):
        shelf(span=(0.3, 0.3))
    for one, two in itertools.permutations((0.04, 0.0)):
        with refused(ProfileError, "measure-of-part-not-positive", of="s"):
            Strut(name="s", at=(0.1, 0.1), breadth=one, thickness=two)


def test_the_side_view_tells_cut_wood_from_a_rim():
    """A window and a sheet along the view show their rim, a board seen end on its cut wood."""
    window = rectangle(0.1, 0.1, 0.2, 0.2)
    outline = ((0.1, 0.25), (0.3, 0.25), (0.3, 0.268), (0.1, 0.268))
    board = {"outline": outline, "span": (0.2, 0.4), "thickness": T}
    body = carcass(
        CrossBrace(name="plate", at=0.5, thickness=T, windows=(window,)),
        Slab(name="sheet", **board),
        Slab(name="board", way=(1.0, 0.0), **board),
    )
    assert [(seen.outline, seen.cut) for seen in body.seen_braces()] == [
        (window.points, False),
        (outline, False),
        (outline, True),
    ]


def test_a_rectangle_turned_inside_out_encloses_nothing():
    """Its sides the wrong way round, or on one another, are refused with what is left of them."""
    with refused(ProfileError, "rectangle-encloses-nothing", width=-0.1, height=0.3):
        rectangle(0.3, 0.1, 0.2, 0.4)
    with refused(ProfileError, "rectangle-encloses-nothing", width=0.1, height=0.0):
        rectangle(0.2, 0.4, 0.3, 0.4)
