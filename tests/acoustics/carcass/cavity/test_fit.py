"""Boxes found for a cavity: inside it, clear of everything, and near the best there is."""

import itertools
import math

import numpy as np
import pytest
import shapely
from shapely.geometry import Polygon

from acoustics.carcass.cavity.cavity import Cavity, Obstacle, Opening
from acoustics.carcass.cavity.fit import Wanted, fit
from acoustics.carcass.cavity.fit_bases import CORNER, TAPER
from acoustics.carcass.cavity.fit_build import Stock
from acoustics.carcass.room.arrange import Load
from acoustics.carcass.shape.contents import PortBody, RoundPart
from acoustics.carcass.shape.errors import PlacementError, ProfileError
from acoustics.carcass.shape.profile import Profile
from tests.refused import refused

WEDGE = ((0.0, 0.0), (0.5, 0.0), (0.38, 0.4), (0.0, 0.4))
# Invented cavities: (outline, width, gap, opening, obstacles).
WALLS = 0.018


def driver(size: float = 1.0) -> RoundPart:
    """An invented driver of 10 inches, larger or smaller."""
    return RoundPart(
        name="driver",
        cutout_diameter=0.235 * size,
        flange_diameter=0.235 * size + 0.03,
        basket_depth=0.07 * size,
        motor_diameter=0.156 * size,
        motor_depth=0.05 * size,
        bolt_circle_diameter=0.235 * size + 0.015,
        screw_diameter=0.004,
    )


def tube(length: float = 0.2) -> PortBody:
    """An invented port of 80 mm bore."""
    return PortBody.straight("port", width=0.08, length=length, wall=0.003)


def wedge_cavity(**changes) -> Cavity:
    """An invented cavity behind a seat back."""
    given = {"profile": Profile(points=WEDGE), "width": 0.9, "gap": 0.01, **changes}
    return Cavity(**given)


def wanted(litres: float, **changes) -> Wanted:
    """A wish for litres with one driver."""
    given = {"stock": Stock(thickness=WALLS), "load": Load(driver=driver()), **changes}
    return Wanted(net_volume=litres / 1000, **given)


def test_a_port_in_a_doubled_cheek_leaves_the_litres_wanted():
    """Beside a driver in a cheek of two layers a port goes through both; the litres are exact."""
    wish = wanted(30, facing="side", stock=Stock(thickness=WALLS, layers=2), load=Load(port=tube()))
    answers = fit(wedge_cavity(), wish).answers
    assert answers
    for answer in answers:
        assert answer.net_volume == pytest.approx(0.030, rel=1e-9)


def test_ports_in_the_side_a_driver_looks_to_stand_beside_it():
    """Driver and port in one cheek make a row, whichever way the port is asked for there."""
    loads = [
        Load(driver=driver(0.6), port=tube(0.12), port_face="right" if beside else None)
        for beside in (False, True)
    ]
    found = [fit(wedge_cavity(), wanted(25, facing="side", load=load)) for load in loads]
    assert found[0].answers
    assert found[0] == found[1]


def test_answers_have_the_litres_and_say_what_they_are_best_at():
    """Each aim is named once, each answer has exactly the litres, and the order of merit holds."""
    answers = fit(wedge_cavity(), wanted(30)).answers
    assert len(answers) >= 3
    named = [aim for answer in answers for aim in answer.best_at]
    assert sorted(named) == ["least-space", "least-wood", "shallowest", "simplest-cuts"]
    by_aim = {aim: answer for answer in answers for aim in answer.best_at}
    for answer in answers:
        assert answer.net_volume == pytest.approx(0.030, rel=1e-6)
        assert by_aim["shallowest"].size[0] <= answer.size[0] + 1e-3
        assert by_aim["least-wood"].wood <= answer.wood * 1.001
        assert by_aim["least-space"].space <= answer.space * 1.001
        assert by_aim["simplest-cuts"].bevels <= answer.bevels


def test_the_same_question_has_the_same_answer():
    """Nothing in the search depends on chance."""
    first, second = (fit(wedge_cavity(), wanted(30)) for _ in range(2))
    assert first == second


@pytest.mark.parametrize(("facing", "way"), [("front", (-1, 0)), ("rear", (1, 0)), ("top", (0, 1))])
def test_the_driver_looks_where_it_is_told(facing, way):
    """The face of the driver is the last of the profile and looks that way."""
    answers = fit(wedge_cavity(), wanted(25, facing=facing)).answers
    assert answers
    for answer in answers:
        profile = answer.carcass.profile
        assert profile.names[-1] == answer.face
        assert profile.normal(len(profile) - 1) == pytest.approx(way, abs=1e-9)


def test_a_well_takes_its_driver_in_the_lid():
    """In a round well of 24 sides the driver sits in the cheek, and the box has fewer sides."""
    angles = np.linspace(0, 2 * np.pi, 24, endpoint=False)
    well = Profile(points=tuple((0.28 * math.cos(a), 0.28 * math.sin(a)) for a in angles))
    cavity = Cavity(profile=well, width=0.24, gap=0.005)
    found = fit(cavity, wanted(20, facing="side"))
    assert {a.face for a in found.answers} == {"right"}
    assert all(len(a.carcass.profile) <= 12 for a in found.answers)


def test_too_many_litres_for_the_cavity():
    """The largest box is told, and that the cavity itself binds."""
    found = fit(wedge_cavity(), wanted(200))
    assert not found.answers
    # By hand: the outline less gap and wood, drawn out over 880 − 36 mm, less the driver.
    inside = Polygon(WEDGE).buffer(-0.01 - WALLS, join_style="mitre")
    bound = inside.area * (0.9 - 0.02 - 2 * WALLS) - driver().volume
    assert found.largest.net_volume == pytest.approx(bound, rel=0.02)
    assert found.limits[0].what == "cavity"


def test_the_opening_binds():
    """What does not pass the opening is told with what would go without it."""
    narrow = wedge_cavity(opening=Opening(width=0.3, height=0.35))
    found = fit(narrow, wanted(80))
    assert not found.answers
    assert found.limits[0].what == "opening"
    assert found.limits[0].volume > 0.08
    depth, height, width = sorted(found.largest.size)[:3]
    assert depth <= 0.3 + 1e-6
    assert height <= 0.35 + 1e-6
    assert width > 0.35


def test_the_obstacle_binds():
    """A harness across the middle of a wide cavity is named."""
    loom = Obstacle(name="loom", points=((0.0, 0.18), (0.5, 0.18), (0.5, 0.22), (0.0, 0.22)))
    found = fit(wedge_cavity(obstacles=(loom,)), wanted(30))
    assert not found.answers
    assert found.limits[0].what == "loom"


def test_no_room_for_the_port():
    """A port longer than the cavity is deep is the limit, with its millimetres."""
    found = fit(wedge_cavity(), wanted(30, load=Load(driver=driver(), port=tube(0.45))))
    assert not found.answers
    assert found.limits[0].what == "port"
    assert found.limits[0].finding.code in ("port-does-not-fit", "port-mouth-near-wall")
    assert found.limits[0].finding.value < found.limits[0].finding.limit


def test_a_driver_deeper_than_the_cavity():
    """Nothing goes, not even the largest, and the driver's depth says why."""
    flat = Cavity(profile=Profile(points=((0, 0), (0.13, 0), (0.13, 0.5), (0, 0.5))), width=0.9)
    found = fit(flat, wanted(15))
    assert not found.answers
    assert found.largest is None
    assert found.limits[0].what == "driver"
    assert found.limits[0].finding.code == "driver-deeper-than-box"


def test_too_few_litres_for_the_parts():
    """A box smaller than its driver needs is answered with the least that holds it."""
    found = fit(wedge_cavity(), wanted(2))
    assert not found.answers
    assert found.limits[0].what == "parts"
    assert found.smallest.net_volume > 0.002


def test_impossible_wishes_say_why():
    """No litres, no wood, an unknown way to look and two drivers in a cheek are refused."""
    with refused(ProfileError, "measure-not-positive", "net-volume"):
        wanted(0)
    with refused(ProfileError, "measure-not-positive", "thickness"):
        wanted(10, stock=Stock(thickness=0.0))
    with refused(PlacementError, "facing-unknown"):
        wanted(10, facing="down")
    with refused(PlacementError, "several-drivers-in-cheek"):
        wanted(10, facing="side", load=Load(driver=driver(), drivers=2))
    with refused(PlacementError, "nothing-to-place"):
        Load(drivers=0)
    with refused(PlacementError, "layers-too-few"):
        wanted(10, stock=Stock(thickness=0.018, layers=0))


def random_case(rng) -> tuple[Cavity, Wanted]:
    """An invented cavity of one of six shapes, with what may be in it, and a wish."""
    d, h = rng.uniform(0.3, 0.9), rng.uniform(0.3, 0.7)
    s, u, v = rng.uniform(-0.2, 0.2), rng.uniform(0.1, 0.5) * d, rng.uniform(0.1, 0.5) * h
    points = [
        [(0, 0), (d, 0), (d, h), (0, h)],
        [(0, 0), (d, 0), (d + s, h), (0, h)],
        [(0, 0), (d, 0.1), (d + s, h), (0.05, h + 0.05)],
        [(0, 0), (d - u, 0), (d - u, v), (d, v), (d, h), (0, h)],
        [(0, 0), (d - u, 0), (d, v), (d, h), (u / 2, h), (0, h - v / 2)],
        [(0, 0), (d, 0), (d, h), (u, h), (u, v), (0, v)],
    ][rng.integers(6)]
    width = rng.uniform(0.4, 1.2)
    obstacles = ()
    if rng.random() < 0.4:
        x, y, r = rng.uniform(0, d), rng.uniform(0, h), rng.uniform(0.03, 0.15)
        start = rng.uniform(-0.1, 0.8) * width if rng.random() < 0.7 else 0.0
        obstacles = (
            Obstacle(
                name="hinge",
                points=((x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r)),
                start=max(start, 0.0),
                end=start + 0.3 if start else None,
            ),
        )
    opening = None
    if rng.random() < 0.5:
        opening = Opening(width=rng.uniform(0.3, 1.0), height=rng.uniform(0.25, 0.8))
    cavity = Cavity(
        profile=Profile(points=tuple(points)),
        width=width,
        gap=float(rng.choice([0.0, 0.005, 0.015])),
        obstacles=obstacles,
        opening=opening,
    )
    port = tube(rng.uniform(0.08, 0.25)) if rng.random() < 0.3 else None
    load = Load(
        driver=driver(rng.uniform(0.5, 1.2)),
        drivers=int(rng.choice([1, 1, 1, 2])),
        port=port,
        port_face="right" if rng.random() < 0.3 else None,
    )
    wish = wanted(
        rng.uniform(5, 60),
        stock=Stock(thickness=float(rng.choice([0.012, 0.018])), layers=int(rng.integers(1, 3))),
        load=load,
        facing=str(rng.choice(["front", "front", "rear", "top"])),
    )
    return cavity, wish


def assert_clear(answer, cavity: Cavity, wish: Wanted) -> None:
    """Hold a box against its cavity and its parts with nothing but points and shapely."""
    carcass = answer.carcass
    outline = Polygon(carcass.profile.points)
    whole = Polygon(cavity.profile.points)
    z0, z1 = answer.z, answer.z + carcass.width
    assert whole.buffer(1e-7).covers(outline)
    assert outline.distance(whole.exterior) >= cavity.gap - 1e-6
    assert z0 >= cavity.gap - 1e-6
    assert z1 <= cavity.width - cavity.gap + 1e-6
    for thing in cavity.obstacles:
        end = cavity.width if thing.end is None else thing.end
        apart_across = max(thing.start - z1, z0 - end)
        apart_beside = outline.distance(Polygon(thing.points))
        beside = apart_beside > 0 or not Polygon(thing.points).intersects(outline.buffer(-1e-6))
        assert max(apart_across, apart_beside if beside else -1.0) >= cavity.gap - 1e-6
    if cavity.opening:
        ways = itertools.permutations(answer.size, 2)
        opening = cavity.opening
        assert any(a <= opening.width + 2e-6 and b <= opening.height + 2e-6 for a, b in ways)
    assert_driver_free(answer, wish)


def assert_driver_free(answer, wish: Wanted) -> None:
    """Rings of points on each driver's body lie in the air, with the room to keep behind it."""
    carcass, load, t = answer.carcass, wish.load, wish.stock.thickness
    points = np.asarray(carcass.profile.points)
    start, end = points[-1], points[0]  # the driver's edge is the last
    along = (end - start) / np.linalg.norm(end - start)
    inward = np.array([-along[1], along[0]])
    middle = (start + end) / 2
    air = Polygon(points).buffer(-t, join_style="mitre")
    if wish.stock.layers > 1:
        far = 9 * along
        skin = Polygon(
            [
                start - far,
                end + far,
                *(p + inward * wish.stock.layers * t for p in (end + far, start - far)),
            ]
        )
        air = air.difference(skin)
    roomy = air.buffer(1e-5)
    shapely.prepare(roomy)
    part, keep = load.driver, wish.clearances
    angles = np.linspace(0, 2 * np.pi, 24, endpoint=False)
    baffle = wish.stock.layers * t
    spots = [p for p in carcass.contents if p.part is part]
    assert len(spots) == load.drivers
    for spot in spots:
        hole = part.cutout_diameter / 2
        assert min(spot.u, carcass.width - spot.u) >= max(hole + t + keep.cutout_to_edge, 0) - 1e-6
        assert min(spot.u, carcass.width - spot.u) >= part.flange_diameter / 2 - 1e-6
        z = spot.u  # counted from either cheek: the two are alike
        rings = [(depth, radius, keep.beside) for depth, radius in part.stations if depth > baffle]
        rings.append((part.mounting_depth + keep.behind, part.motor_diameter / 2, 0.0))
        for depth, radius, clear in rings:
            on_ring = middle + depth * inward + radius * np.cos(angles)[:, None] * along
            points = shapely.points(on_ring)
            assert shapely.covers(roomy, points).all()
            wall = shapely.distance(points, air.exterior)
            deep = depth > part.mounting_depth
            assert deep or depth < baffle + clear or (wall >= clear - 1e-4).all()
            across = z + radius * np.sin(angles)
            assert (across >= t - 1e-6).all()
            assert (across <= carcass.width - t + 1e-6).all()


@pytest.mark.second_method
@pytest.mark.parametrize(
    ("seed", "count"), [(0, 20), *(pytest.param(n, 50, marks=pytest.mark.long) for n in range(10))]
)
def test_no_answer_violates_a_clearance(seed, count):
    """Twenty random cavities each time, five hundred in all, looked over by shapely alone.

    Boxes over a plan are no prisms: their cubes are counted in `test_over_plan.py`.
    """
    rng = np.random.default_rng(seed)
    fitted = 0
    for _ in range(count):
        cavity, wish = random_case(rng)
        found = fit(cavity, wish)
        assert bool(found.answers) != bool(found.limits)
        fitted += bool(found.answers)
        for answer in found.answers:
            assert answer.net_volume == pytest.approx(wish.net_volume, rel=1e-6)
            if answer.kind not in (CORNER, TAPER):
                assert_clear(answer, cavity, wish)
        if found.largest is not None and found.largest.kind not in (CORNER, TAPER):
            assert_clear(found.largest, cavity, wish)
    assert fitted >= count / 5
