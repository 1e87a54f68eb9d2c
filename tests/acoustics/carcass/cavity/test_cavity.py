"""The space in the car: what is free in it, and whether a box stands in it and gets there."""

import numpy as np
import pytest
import shapely
from shapely.geometry import Polygon, box

from acoustics.carcass.cavity.cavity import Cavity, Obstacle, Opening, check_cavity
from acoustics.carcass.cavity.place_in_cavity import stand
from acoustics.carcass.shape.errors import CavityError, ProfileError
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.shapes import rectangle_profile
from tests.refused import refused

SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 0.6), (0.0, 0.6))


def cavity(**changes) -> Cavity:
    """An invented cavity 1 m deep, 0.6 m high and 0.8 m wide."""
    return Cavity(**{"profile": Profile(points=SQUARE), "width": 0.8, **changes})


def plain(depth: float, height: float, width: float) -> Carcass:
    """A rectangular box of 18 mm wood."""
    return Carcass(profile=rectangle_profile(depth, height), width=width, thickness=0.018)


def arch(**changes) -> Obstacle:
    """An invented wheel arch in the lower rear corner, on the left."""
    points = ((0.7, 0.0), (1.0, 0.0), (1.0, 0.3), (0.7, 0.3))
    return Obstacle(**{"name": "arch", "points": points, "start": 0.0, "end": 0.2, **changes})


def test_gap_comes_off_all_round():
    """Without obstacles the one room is the outline less the gap on every side."""
    (room,) = cavity(gap=0.01).rooms()
    assert room.region.bounds == pytest.approx((0.01, 0.01, 0.99, 0.59))
    assert (room.start, room.end, room.width) == pytest.approx((0.01, 0.79, 0.78))


def test_an_obstacle_can_be_gone_round_or_stayed_clear_of():
    """Over the whole width a corner is lost; beside the arch all the section is left."""
    rooms = cavity(gap=0.01, obstacles=(arch(),)).rooms()
    found = {(round(r.start, 3), round(r.end, 3)): r.region.area for r in rooms}
    assert found[(0.01, 0.79)] == pytest.approx(0.98 * 0.58 - 0.30 * 0.30)
    assert found[(0.21, 0.79)] == pytest.approx(0.98 * 0.58)
    assert len(found) == 2


def test_an_obstacle_in_the_middle_leaves_four_ways_past():
    """A pole in the side view has room before, behind, below and above it."""
    pole = Obstacle(name="pole", points=((0.4, 0.2), (0.5, 0.2), (0.5, 0.3), (0.4, 0.3)))
    bounds = sorted(tuple(np.round(r.region.bounds, 6)) for r in cavity(obstacles=(pole,)).rooms())
    assert bounds == [
        (0.0, 0.0, 0.4, 0.6),
        (0.0, 0.0, 1.0, 0.2),
        (0.0, 0.3, 1.0, 0.6),
        (0.5, 0.0, 1.0, 0.6),
    ]


@pytest.mark.parametrize("seed", range(3))
def test_rooms_are_free(seed):
    """A hundred points of every room keep the gap from walls and obstacles (shapely alone)."""
    rng = np.random.default_rng(seed)
    met = 0
    for _ in range(20):
        things = []
        for i in range(rng.integers(1, 4)):
            x, y, r = rng.uniform(0, 1), rng.uniform(0, 0.6), rng.uniform(0.02, 0.2)
            start = float(rng.uniform(0, 0.7))
            things.append(
                Obstacle(
                    name=f"thing {i}",
                    points=((x - r, y - r), (x + r, y - r), (x, y + r)),
                    start=start,
                    end=None if rng.random() < 0.3 else start + float(rng.uniform(0.05, 0.3)),
                )
            )
        gap = float(rng.choice([0.0, 0.01, 0.03]))
        space = cavity(gap=gap, obstacles=tuple(things))
        for room in space.rooms():
            x0, y0, x1, y1 = room.region.bounds
            x, y = rng.uniform(x0, x1, size=100), rng.uniform(y0, y1, size=100)
            spots = shapely.points(x, y)[shapely.contains_xy(room.region, x, y)]
            beside = shapely.distance(Polygon(SQUARE).exterior, spots)
            assert (beside >= gap - 1e-9).all()
            met += len(spots)
            z = rng.uniform(room.start, room.end, size=(3, len(spots)))
            for thing in things:
                end = 0.8 if thing.end is None else thing.end
                across = np.maximum(np.maximum(thing.start - z, z - end), 0.0)
                away = np.hypot(across, shapely.distance(thing.polygon, spots))
                assert (away >= gap - 1e-9).all()
    assert met > 1000


def test_a_box_that_stands_free_has_no_findings():
    """Ten millimetres all round are kept when they are asked for."""
    found = check_cavity(plain(0.98, 0.58, 0.78), cavity(gap=0.01), x=0.01, y=0.01, z=0.01)
    assert found == ()


@pytest.mark.parametrize(
    ("place", "value"),
    [
        ((0.004, 0.1, 0.1), 0.004),
        ((0.1, 0.1, 0.003), 0.003),
        ((0.1, 0.1, 0.395), 0.005),
        ((-0.02, 0.1, 0.1), -0.02),
        ((0.1, 0.25, 0.1), -0.05),
    ],
)
def test_too_near_or_outside_is_told_in_metres(place, value):
    """The nearest wall decides; what reaches outside is negative. A box 0.5 × 0.4 × 0.4."""
    x, y, z = place
    (found,) = check_cavity(plain(0.5, 0.4, 0.4), cavity(gap=0.01), x=x, y=y, z=z)
    assert (found.code, found.detail, found.severity) == ("box-too-near", ("cavity",), "stop")
    assert found.value == pytest.approx(value, abs=2e-6)
    assert found.limit == 0.01


def test_an_obstacle_is_told_by_its_number():
    """Beside the arch the box is free; with 5 mm to it too near; across it collides."""
    space, crate = cavity(gap=0.01, obstacles=(arch(),)), plain(0.5, 0.4, 0.4)
    assert check_cavity(crate, space, x=0.45, y=0.02, z=0.22) == ()
    (near,) = check_cavity(crate, space, x=0.45, y=0.02, z=0.205)
    assert (near.detail, near.value) == (("obstacle 1",), pytest.approx(0.005))
    (inside,) = check_cavity(crate, space, x=0.45, y=0.02, z=0.05)
    assert (inside.detail, inside.value) == (("obstacle 1",), pytest.approx(0.0))


@pytest.mark.parametrize(
    ("size", "passes"),
    [
        ((0.3, 0.5, 0.9), True),
        ((0.9, 0.5, 0.3), True),
        ((0.5, 0.3, 0.9), True),
        ((0.3, 0.61, 0.9), False),
        ((0.41, 0.5, 0.9), False),
    ],
)
def test_two_of_three_dimensions_must_pass(size, passes):
    """An opening of 0.4 × 0.6, whichever side leads."""
    assert Opening(width=0.6, height=0.4).passes(*size) is passes


@pytest.mark.parametrize(
    ("size", "value", "limit"), [((0.3, 0.55, 0.75), 0.55, 0.5), ((0.45, 0.48, 0.75), 0.45, 0.4)]
)
def test_what_does_not_pass_is_told_with_the_side_that_sticks(size, value, limit):
    """The smaller dimension is held against the smaller side, the middle one against the larger."""
    space = cavity(opening=Opening(width=0.5, height=0.4))
    (found,) = check_cavity(plain(*size), space, x=0.01, y=0.01, z=0.01)
    assert found.code == "box-does-not-pass-opening"
    assert (found.value, found.limit) == (pytest.approx(value), limit)
    assert found.severity == "stop"


def test_a_box_cut_like_its_cavity_stands_in_it():
    """The outline less the gap touches every side at the gap and no more."""
    outline = Profile(points=((0.0, 0.0), (0.5, 0.0), (0.38, 0.4), (0.0, 0.4)))
    space = Cavity(profile=outline, width=0.5, gap=0.01)
    inner = Carcass(profile=outline.inset(0.01), width=0.48, thickness=0.018)
    assert check_cavity(inner, space, x=0.0, y=0.0, z=0.01) == ()
    (found,) = check_cavity(inner, space, x=0.001, y=0.0, z=0.01)
    # Moved 1 mm towards a wall whose normal is (0.4, 0.12) / 0.4176.
    assert found.value == pytest.approx(0.01 - 0.001 * 0.4 / np.hypot(0.4, 0.12), abs=1e-9)


@pytest.mark.parametrize(
    ("make", "error", "says"),
    [
        (lambda: cavity(width=0.0), ProfileError, ("measure-not-positive", "cavity-width")),
        (lambda: cavity(gap=-0.01), CavityError, ("gap-negative",)),
        (lambda: cavity(gap=0.31), CavityError, ("gap-fills-cavity",)),
        (lambda: cavity(gap=0.4, width=3.0), CavityError, ("gap-fills-cavity",)),
        (
            lambda: arch(points=((0, 0), (1, 1), (1, 0), (0, 1))),
            CavityError,
            ("obstacle-encloses-nothing",),
        ),
        (lambda: arch(start=0.5, end=0.2), CavityError, ("obstacle-ends-before-it-begins",)),
        (
            lambda: Opening(width=0.5, height=0.0),
            ProfileError,
            ("measure-not-positive", "opening-height"),
        ),
    ],
)
def test_impossible_cavities_say_why(make, error, says):
    """A space that is none is refused with value and limit."""
    with refused(error, *says):
        make()


def test_a_box_drawn_where_it_is_free_stays_there():
    """As drawn, in the middle of the width."""
    assert stand(plain(0.5, 0.4, 0.4), cavity()) == pytest.approx((0.0, 0.0, 0.2))


def test_a_box_finds_its_place():
    """Between two leaning walls there is one height at which a box goes; it is found."""
    profile = Profile(points=((0.2, 0.1), (0.6, 0.1), (0.8, 0.5), (0.0, 0.5)))
    space = Cavity(profile=profile, width=0.5, gap=0.01)
    # 0.55 wide between walls that lean 1 : 2 leave from y = 0.275 on, by hand.
    crate = plain(0.55, 0.19, 0.4)
    x, y, z = stand(crate, space)
    assert check_cavity(crate, space, x=x, y=y, z=z) == ()


def test_the_place_goes_round_an_obstacle():
    """The arch fills the lower rear; the box stands before, above or beside it."""
    space = cavity(gap=0.01, obstacles=(arch(end=None),))
    crate = plain(0.66, 0.5, 0.4)
    x, y, z = stand(crate, space)
    assert check_cavity(crate, space, x=x, y=y, z=z) == ()


def test_a_box_too_large_is_told_by_how_much():
    """20 mm too high: in the best place it lacks 10 mm and the gap at each end."""
    space, crate = cavity(gap=0.005), plain(0.5, 0.62, 0.4)
    x, y, z = stand(crate, space)
    (found,) = check_cavity(crate, space, x=x, y=y, z=z)
    assert found.value == pytest.approx(-0.01, abs=1e-5)


@pytest.mark.parametrize("seed", range(2))
def test_what_was_cut_from_a_room_finds_its_way_back(seed):
    """A rectangle cut out of a random leaning cavity and moved away is free again where put."""
    rng = np.random.default_rng(seed)
    found = 0
    for _ in range(60):
        lean, high = rng.uniform(-0.2, 0.2, size=2), rng.uniform(0.3, 0.5)
        points = ((0.0, 0.0), (0.6, 0.0), (0.6 + lean[0], high), (lean[1], high))
        space = Cavity(profile=Profile(points=points), width=0.5, gap=0.01)
        a, b = np.sort(rng.uniform(-0.2, 0.8, size=2))
        c, d = np.sort(rng.uniform(0.0, high, size=2))
        free = Polygon(points).buffer(-0.01 - 1e-5)
        if b - a < 0.06 or d - c < 0.06 or not free.covers(box(a, c, b, d)):
            continue
        found += 1
        crate = plain(b - a, d - c, 0.3)
        x, y, z = stand(crate, space)
        assert check_cavity(crate, space, x=x, y=y, z=z) == ()
    assert found >= 5
