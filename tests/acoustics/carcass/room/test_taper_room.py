"""What goes into a box whose walls lean: room by brute force, wood fields, glue, cavity, mass."""

import math
from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from acoustics.carcass.cavity.cavity import Cavity, Obstacle, check_cavity
from acoustics.carcass.cavity.place_in_cavity import stand
from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.panels.cut_list import cut_list
from acoustics.carcass.panels.gluing import glue_order
from acoustics.carcass.panels.mass import box_mass
from acoustics.carcass.panels.panel_modes import check_fields, wood_fields
from acoustics.carcass.room.clearance import check_contents, depth_behind
from acoustics.carcass.room.inner_clearance import brace_gap, room_ahead, wall_gap
from acoustics.carcass.room.solids import Solid, solids_of
from acoustics.carcass.shape.braces import CrossBrace, Layer
from acoustics.carcass.shape.contents import Placed, PortBody
from acoustics.carcass.shape.four_sided import four_sided_taper
from acoustics.carcass.shape.outline import rectangle
from acoustics.carcass.shape.plate import Board
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.taper import Taper
from tests.acoustics.carcass.second_method import solid_of
from tests.acoustics.carcass.shape.test_taper import FACES, half_spaces, small_driver

BOARD = Board(modulus=3.5e9, density=700.0)


def a_taper(**more) -> Taper:
    """An invented box, its rear leaning more than its front, its sides unalike."""
    plain = {
        "bottom": (0.42, 0.55),
        "top": (0.24, 0.40),
        "height": 0.40,
        "thickness": 0.018,
        "shift": (-0.03, 0.02),
        "density": 680.0,
    }
    body = {key: more.pop(key) for key in ("contents", "braces") if key in more}
    return replace(four_sided_taper(**(plain | more)), **body)


def walls(box: Taper) -> dict[str, tuple[np.ndarray, float]]:
    """Way out and reach of each wall of the air, from the meshed corners of the inside."""
    inside = half_spaces(box, box.lining)
    found = {
        name: (normal, float((inside.vertices @ normal).max()))
        for name in FACES
        for normal, centre in zip(inside.face_normals, inside.triangles_center, strict=True)
        if normal @ np.asarray(box.outer[name].normal) > 1 - 1e-9 and len(centre) == 3
    }
    assert set(found) == set(FACES)
    return found


def beyond(air: dict[str, tuple[np.ndarray, float]], points: np.ndarray) -> dict[str, float]:
    """How far points stay within each wall of the air."""
    return {name: float((reach - points @ normal).min()) for name, (normal, reach) in air.items()}


def skin(solid: Solid, count: int = 720) -> np.ndarray:
    """Points all round both ends of a solid."""
    turns = 2 * math.pi * np.arange(count) / count
    if solid.is_round:
        ring = np.column_stack((np.cos(turns), np.sin(turns)))
    else:
        ring = np.array([(1, 1), (-1, 1), (-1, -1), (1, -1)], dtype=float)
    ends = ((solid.start, solid.half_start), (solid.end, solid.half_end))
    return np.vstack([c + (ring * h) @ np.stack(solid.across) for c, h in ends])


@pytest.mark.second_method
@given(
    face=st.sampled_from(FACES),
    place=st.tuples(st.floats(0.3, 0.7), st.floats(0.35, 0.65)),
    shift=st.tuples(st.floats(-0.1, 0.1), st.floats(-0.1, 0.1)),
    motor=st.floats(0.04, 0.115),
    deep=st.floats(0.03, 0.12),
)
@settings(deadline=None, max_examples=120)
def test_room_behind_and_beside_by_sampling(face, place, shift, motor, deep):
    """Depth to the nearest wall and gap beside agree (0.05 mm) with points moved step by step."""
    box = a_taper(shift=shift)
    size = box.face(face).size
    part = small_driver(motor_diameter=motor, motor_depth=deep)
    placed = Placed(part=part, face=face, u=place[0] * size[0], v=place[1] * size[1])
    box = replace(box, contents=(placed,))
    solids, air = solids_of(part, box.face(face), *box.centre(placed)), walls(box)
    for solid in solids:
        sampled = min(v for k, v in beyond(air, skin(solid)).items() if k != face)
        assert wall_gap(box, solid, face) == pytest.approx(sampled, abs=5e-5)
    # The motor's end pushed ahead until one of its points meets a wall.
    frame = box.face(face).frame
    turns = 2 * math.pi * np.arange(720) / 720
    rim = np.column_stack((np.cos(turns), np.sin(turns))) * motor / 2
    start = frame.place(tuple(map(tuple, rim + box.centre(placed))))

    def free(depth: float) -> bool:
        within = beyond(air, start - depth * frame.normal)
        return min(v for k, v in within.items() if k != face) > 0

    low, high = box.wood[face], 2.0
    if not free(low):
        return  # stands in a wall beside it from the start, which the gap says
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if free(middle) else (low, middle)
    assert depth_behind(box, placed) == pytest.approx(low, abs=5e-5)


@pytest.mark.second_method
def test_room_ahead_of_a_slot_by_its_corners():
    """A slot meets the leaning wall with the corner that reaches it first."""
    box = a_taper()
    port = PortBody.straight("port", width=0.2, height=0.04, wall=0.01, length=0.1)
    solid = solids_of(port, box.face("front"), 0.27, 0.2)[-1]
    way = (solid.end - solid.start) / np.linalg.norm(solid.end - solid.start)
    sides = tuple(h * a for h, a in zip(solid.half_end, solid.across, strict=True))
    room = room_ahead(box, solid.start, way, 0.11, sides=sides)
    mouth = skin(solid)[:4] + room * way
    left = [v for k, v in beyond(walls(box), mouth).items() if k != "front"]
    assert min(left) == pytest.approx(0.0, abs=1e-6)


def test_findings_of_a_driver_too_deep_too_wide_and_off_its_face():
    """Each failed clearance is told in metres, as for any other box."""

    def codes(**driver) -> set[str]:
        place = {key: driver.pop(key) for key in ("u", "v") if key in driver}
        part = small_driver(bolt_circle_diameter=0.13, **driver)
        placed = Placed(part=part, face="front", **place)
        return {one.code for one in check_contents(a_taper(contents=(placed,)))}

    assert "driver-deeper-than-box" not in codes()
    assert "driver-deeper-than-box" in codes(motor_depth=0.4)
    assert "driver-near-back" in codes(motor_depth=0.255)
    assert "part-larger-than-face" in codes(flange_diameter=0.5, cutout_diameter=0.48)
    assert "cut-out-breaks-edge" in codes(u=0.05)


def test_an_empty_place_is_the_middle_of_the_wood_there():
    """Where the top is moved aside, the middle of a wall leans with it."""
    box = a_taper(shift=(0.0, 0.1))
    placed = Placed(part=small_driver(), face="front", v=0.3)
    u, v = box.centre(placed)
    middle = box.face("front").frame.place(((u, v),))[0]
    outline = half_spaces(box, dict.fromkeys(box.wood, 0.0))
    level = outline.section((0, 1, 0), (0.0, middle[1], 0.0)).vertices
    assert middle[2] == pytest.approx((level[:, 2].min() + level[:, 2].max()) / 2, abs=1e-6)


def test_a_plate_in_the_way_and_with_a_window():
    """A motor that meets a level plate is told; a window gives it the room the window has."""
    part = small_driver(motor_diameter=0.08, motor_depth=0.1)
    placed = Placed(part=part, face="front", v=0.2)
    plain = CrossBrace(name="brace 1", at=0.17, thickness=0.018)
    window = rectangle(0.1, 0.07, 0.45, 0.33)
    open_one = replace(plain, windows=(window,))
    closed, opened = (a_taper(contents=(placed,), braces=(b,)) for b in (plain, open_one))
    assert "parts-collide" in {one.code for one in check_contents(closed)}
    motor = solids_of(part, opened.face("front"), *opened.centre(placed))[-1]
    rim = skin(motor)[:, [2, 0]]
    hull = shapely.MultiPoint(rim).convex_hull
    sampled = float(window.polygon.exterior.distance(hull))
    assert brace_gap(opened, open_one, motor) == pytest.approx(sampled, abs=1e-4)


@pytest.mark.parametrize("count", [0, 1, 3])
def test_fields_of_walls_and_ends(count):
    """Level plates cut every wall into bays; each bay lies in the rectangle that stands for it."""
    braces = tuple(
        CrossBrace(name=f"brace {k + 1}", at=0.08 * (k + 1), thickness=0.018) for k in range(count)
    )
    box = a_taper(braces=braces)
    fields = wood_fields(box)
    for name in FACES:
        mine = [one for one in fields if one.panel == name]
        assert len(mine) == (1 if name in ("bottom", "top") else count + 1)
        side = shapely.Polygon([(p[0], p[1]) for p in _flat(box, name)])
        assert sum(one.span * one.height for one in mine) >= side.area * (1 - 1e-9) - 0.018 * count
    upright = a_taper(bottom=(0.4, 0.5), top=(0.4, 0.5), shift=(0.0, 0.0), braces=braces)
    (front, *_) = (one for one in wood_fields(upright) if one.panel == "front")
    height = 0.364 if not count else 0.062
    assert (front.span, front.height) == pytest.approx((0.464, height))


def _flat(box: Taper, name: str) -> np.ndarray:
    frame = box.face(name).frame
    return (box.side(name, box.air) - frame.origin) @ np.stack((frame.u, frame.v), axis=1)


@given(count=st.integers(0, 2), top=st.floats(0.2, 0.6), band=st.floats(150.0, 900.0))
@settings(deadline=None, max_examples=60)
def test_the_level_plates_that_are_named_cure_a_wall(count, top, band):
    """With so many bays in all the wall's field rings above the band."""
    braces = tuple(
        CrossBrace(name=f"brace {k + 1}", at=0.12 * (k + 1), thickness=0.018) for k in range(count)
    )
    box = a_taper(top=(0.3, top), braces=braces)
    found, advice = check_fields(box, board=BOARD, band_top=band)
    assert {one.detail for one in found} == {(one.panel,) for one in advice}
    for one in advice:
        assert (one.way == "level") == (one.panel not in ("bottom", "top"))
        worst = min(
            (f for f in wood_fields(box) if f.panel == one.panel), key=lambda f: f.mode(BOARD)
        )
        if one.way == "level":
            assert replace(worst, height=one.bay).mode(BOARD) >= band * (1 - 1e-9)
            slope = np.ptp(box.side(one.panel, box.air)[:, 1]) / math.cos(
                box.angles[box.plan.index(one.panel)]
            )
            assert slope / (one.braces + 1) <= one.bay * (1 + 1e-9)


def test_plates_that_cross_are_told_however_large_their_windows():
    """Two plates share wood, though the window of one is wider than a face of the other."""
    bare = a_taper(top=(0.6, 0.7))
    window = 0.99  # of the narrower face of each plate, along both sides
    braces = []
    for name, at in (("one", 0.1), ("two", 0.11)):
        x0, y0, x1, y1 = bare.air_plan(at).bounds
        x, y = (x1 - x0) * (1 - window) / 2, (y1 - y0) * (1 - window) / 2
        hole = rectangle(x0 + x, y0 + y, x1 - x, y1 - y)
        braces.append(CrossBrace(name=name, at=at, thickness=0.018, windows=(hole,)))
    found = {one.code: one for one in check_contents(replace(bare, braces=tuple(braces)))}
    outer = bare.air_plan(0.128).area - window**2 * bare.air_plan(0.11).area
    assert 0.0 < found["braces-cross"].value < outer * 0.008


def test_glue_order_of_a_taper():
    """Bottom, walls, plates before the last wall shuts them out, then the top."""
    braces = tuple(
        CrossBrace(name=f"brace {k}", at=at, thickness=0.018) for k, at in ((2, 0.25), (1, 0.12))
    )
    box = a_taper(
        layers=(Layer(face="front", thickness=0.018),), braces=braces, through="front and rear"
    )
    steps = glue_order(box)
    assert [one.panel for one in steps] == [
        "front layer 1", "bottom", "front", "right", "rear", "brace 1", "brace 2", "left", "top",
    ]  # fmt: skip
    reasons = [one.reason for one in steps]
    assert reasons[:3] == ["layers-flat", "lies-on-bench", "leans-on-base"]
    assert reasons[-2:] == ["closes-ring", "closes-box"]
    assert sorted(one.panel for one in steps) == sorted(p.name for p in panels(box))
    there = {"front"}
    for one in steps:
        assert set(one.onto) <= there
        there.add(one.panel)
    on_top = a_taper(contents=(Placed(part=small_driver(), face="bottom"),))
    assert glue_order(on_top)[0].panel == "top"


@pytest.mark.second_method
def test_mass_by_its_meshes():
    """680 kg/m³ times the meshed panels, holes taken off, and the driver."""
    part = small_driver(mass=1.4)
    box = a_taper(contents=(Placed(part=part, face="front"),))
    wood = sum(solid_of(panel).volume for panel in panels(box)) - math.pi * 0.06**2 * 0.018
    assert box_mass(box).known == pytest.approx(680.0 * wood + 1.4, rel=1e-6)


def test_equal_walls_share_a_line_of_the_cut_list():
    """Front and rear, left and right of an even taper are two lines with two pieces each."""
    even = a_taper(shift=(0.0, 0.0))
    lines = {line.name: line.quantity for line in cut_list(panels(even))}
    assert lines == {"right, left": 2, "rear, front": 2, "bottom": 1, "top": 1}


def test_side_view_and_width_are_those_of_all_corners():
    """The side view is the outline of all corners seen from the side; the width spans them all."""
    box = a_taper(top=(0.3, 0.7), shift=(0.05, -0.1))
    corners = half_spaces(box, dict.fromkeys(box.wood, 0.0)).vertices
    hull = shapely.MultiPoint(corners[:, :2]).convex_hull
    assert box.profile.polygon.symmetric_difference(hull).area == pytest.approx(0.0, abs=1e-9)
    assert box.profile.names == ("bottom", "rear", "top", "front")
    assert box.width == pytest.approx(float(np.ptp(corners[:, 2])))


def test_a_taper_stands_in_its_cavity():
    """A cavity sloped and as wide as it takes it; one a little narrower does not."""
    box = a_taper(shift=(0.0, 0.0))
    slope = Profile(points=((0, 0), (0.44, 0), (0.35, 0.42), (0.09, 0.42)))
    room = Cavity(profile=slope, width=0.57, gap=0.002)
    assert check_cavity(box, room, **dict(zip("xyz", stand(box, room), strict=True))) == ()
    narrow = replace(room, width=0.552)
    place = dict(zip("xyz", stand(box, narrow), strict=True))
    (found,) = check_cavity(box, narrow, **place)
    assert (found.code, found.value) == ("box-too-near", pytest.approx(0.001, abs=1e-6))
    post = Obstacle(
        name="post", points=((0.1, 0.0), (0.2, 0.0), (0.2, 0.42), (0.1, 0.42)), end=0.05
    )
    wide = replace(room, width=0.75, obstacles=(post,))
    x, y, z = stand(box, wide)
    assert z >= 0.052 - 1e-9
    assert check_cavity(box, wide, x=x, y=y, z=z) == ()
