"""Outlines with arcs, rounded corners and edges measured from a batten."""

import math
from itertools import pairwise

import numpy as np
import pytest
from shapely.geometry import Polygon

from acoustics.carcass.shape.edges import Corner, edged, inset, measured
from acoustics.carcass.shape.errors import ProfileError
from acoustics.carcass.shape.outline import Loop
from tests.refused import refused

SQUARE = ((0.0, 0.0), (0.8, 0.0), (0.8, 0.5), (0.0, 0.5))


def corners(*more: dict) -> list[Corner]:
    """An invented panel of 0.8 by 0.5 m, each corner with what is said of it."""
    return [Corner(at=at, **said) for at, said in zip(SQUARE, more, strict=True)]


def counted(points, step: float = 0.0005) -> float:
    """The area of an outline by counting the cells of a raster whose middles it holds."""
    ring = np.array(points)
    low, high = ring.min(axis=0), ring.max(axis=0)
    xs = np.arange(low[0] + step / 2, high[0], step)
    starts, ends, cells = ring, np.roll(ring, -1, axis=0), 0
    for y in np.arange(low[1] + step / 2, high[1], step):
        met = (starts[:, 1] > y) != (ends[:, 1] > y)
        a, b = starts[met], ends[met]
        cross = np.sort(a[:, 0] + (b[:, 0] - a[:, 0]) * (y - a[:, 1]) / (b[:, 1] - a[:, 1]))
        cells += int((np.searchsorted(cross, xs) % 2 == 1).sum())
    return cells * step**2


def test_a_rounded_corner_takes_off_what_a_circle_leaves():
    """Four corners of 60 mm take (4 - pi) r² off; a raster of 0.5 mm counts the same."""
    drawn = edged(corners(*[{"radius": 0.06}] * 4))
    wanted = 0.8 * 0.5 - (4 - math.pi) * 0.06**2
    # Chords within 0.1 mm of the arc lose at most 0.1 mm along 2 pi r.
    assert 0 <= wanted - Loop(points=drawn.points).area < 1e-4 * 2 * math.pi * 0.06
    assert counted(drawn.points) == pytest.approx(wanted, abs=1e-4)
    at = {drawn.points[spot.index] for spot in drawn.spots}
    assert {(0.06, 0.0), (0.74, 0.0)} <= {(round(x, 9), round(y, 9)) for x, y in at}


def test_a_hollow_corner_is_rounded_outwards():
    """In the inner corner of an L the rounding fills wood in, and says that it is hollow."""
    places = ((0, 0), (0.6, 0), (0.6, 0.2), (0.3, 0.2), (0.3, 0.5), (0, 0.5))
    sharp = [Corner(at=at) for at in places]
    rounded = [Corner(at=at, radius=0.05 if at == (0.3, 0.2) else 0.0) for at in places]
    gained = Loop(points=edged(rounded).points).area - Loop(points=edged(sharp).points).area
    assert gained == pytest.approx((1 - math.pi / 4) * 0.05**2, rel=0.03)
    assert [spot.hollow for spot in edged(rounded).spots if spot.kind == "round"] == [True, True]


def test_a_batten_gives_the_curve_a_lath_would_take():
    """Stations of a sine arch: the lath goes through each and lies within 0.1 mm between them."""
    along = np.linspace(0, 0.8, 9)
    stations = tuple((float(x), float(0.03 * math.sin(math.pi * x / 0.8))) for x in along)
    drawn = edged(corners({}, {}, {"stations": stations}, {}))
    pinned = [drawn.points[spot.index] for spot in drawn.spots if spot.kind == "station"]
    for (x, out), point in zip(stations[1:-1], pinned, strict=True):
        assert point == pytest.approx((0.8 - x, 0.5 + out))
    for x, y in drawn.points:
        if y > 0.5:
            assert y - 0.5 == pytest.approx(0.03 * math.sin(math.pi * (0.8 - x) / 0.8), abs=2e-4)
    # The area under half a sine of height h and length l is 2 h l / pi.
    assert counted(drawn.points) == pytest.approx(0.4 + 2 * 0.03 * 0.8 / math.pi, abs=1e-4)


def test_the_lath_is_the_least_bent_curve_through_its_pins():
    """Against a chain of 400 links of least bending, solved here: the same to 0.1 mm."""
    pins = {0.0: 0.0, 0.2: 0.035, 0.3: 0.02, 0.65: -0.015, 0.8: 0.0}
    drawn = edged(corners({"stations": tuple(list(pins.items())[1:-1])}, {}, {}, {}))
    n, step = 401, 0.8 / 400
    second = (np.eye(n, k=-1) - 2 * np.eye(n) + np.eye(n, k=1))[1:-1] / step**2
    held = [round(x / step) for x in pins]
    free = np.setdiff1d(np.arange(n), held)
    right = -second[:, held] @ np.array(list(pins.values()))
    chain = np.zeros(n)
    chain[held] = list(pins.values())
    chain[free] = np.linalg.lstsq(second[:, free], right, rcond=None)[0]
    for x, y in drawn.points:
        if y <= 0.05 and 0.001 < x < 0.799:
            # Outwards of the lower edge is down.
            assert -y == pytest.approx(np.interp(x, np.linspace(0, 0.8, n), chain), abs=1e-4)


def test_an_end_of_a_batten_may_lie_off_its_corner():
    """A station at 0 steps out from the corner, so that the batten need not touch."""
    drawn = edged(corners({}, {}, {"stations": ((0.0, 0.02), (0.8, 0.02))}, {}))
    area = Loop(points=drawn.points).area
    assert area == pytest.approx(0.8 * 0.52)


def test_a_smaller_outline_keeps_its_arcs():
    """Less 6 mm all round is the parallel curve; radii shrink by it, hollow ones grow."""
    drawn = edged(
        [
            Corner(at=(0.0, 0.0), radius=0.05),
            Corner(at=(0.8, 0.0)),
            Corner(at=(0.9, 0.25), bow=-0.03),
            Corner(at=(0.8, 0.5), stations=((0.2, 0.01),)),
            Corner(at=(0.1, 0.5)),
            Corner(at=(0.0, 0.4)),
        ]
    )
    smaller = inset(drawn, 0.006)
    length = sum(
        math.dist(a, b)
        for a, b in zip(drawn.points, (*drawn.points[1:], drawn.points[0]), strict=True)
    )
    # Steiner: a parallel curve of one turn loses by times its length, less pi by² at least.
    lost = counted(drawn.points) - counted(smaller.points)
    assert lost == pytest.approx(0.006 * length, abs=4 * 0.006**2 + 1e-4)
    radii = {spot.kind: spot.radius for spot in smaller.spots if spot.radius}
    assert radii["round"] == pytest.approx(0.044)
    assert radii["arc"] == pytest.approx(((0.1**2 + 0.25**2) / 4 + 0.03**2) / 0.06 + 0.006)
    assert inset(drawn, 0.0) is drawn


def test_outlines_that_cannot_be_say_why():
    """Rounded beside an arc, rounded too much, stations off the batten or on each other."""
    with refused(ProfileError, "round-beside-curve", corner=2):
        edged(corners({"bow": 0.02}, {"radius": 0.02}, {}, {}))
    with refused(ProfileError, "round-too-large", corner=1, limit=0.4):
        edged(corners({"radius": 0.42}, {"radius": 0.4}, {}, {}))
    with refused(ProfileError, "station-off-batten", along=0.9, limit=0.8):
        edged(corners({"stations": ((0.9, 0.01),)}, {}, {}, {}))
    with refused(ProfileError, "stations-coincide", corner=1):
        edged(corners({"stations": ((0.4, 0.01), (0.4, 0.02))}, {}, {}, {}))
    with refused(ProfileError, "no-such-corner", corner=5, most=4):
        measured(corners({}, {}, {}, {}), [(5, 0.1, 0.01)])
    with refused(ProfileError, "gap-closes-outline", gap=0.3):
        inset(edged(corners({}, {}, {}, {})), 0.3)


def test_roundings_that_meet_leave_no_edge_of_nothing():
    """By hand: 0.4 x 0.2 m, every corner rounded by 0.1 m, is two half circles 0.2 m apart.

    Made 10 mm smaller all round it is pi 0.09^2 + 0.2 x 0.18 m^2.
    """
    places = ((0.0, 0.0), (0.4, 0.0), (0.4, 0.2), (0.0, 0.2))
    whole = edged([Corner(at=at, radius=0.1) for at in places])
    gaps = [math.dist(a, b) for a, b in pairwise([*whole.points, whole.points[0]])]
    assert min(gaps) > 1e-4
    assert Polygon(whole.points).area == pytest.approx(math.pi * 0.1**2 + 0.2 * 0.2, rel=1e-3)
    smaller = Polygon(inset(whole, 0.01).points)
    assert smaller.area == pytest.approx(math.pi * 0.09**2 + 0.2 * 0.18, rel=1e-3)
    assert all(0 <= spot.index < len(whole.points) for spot in whole.spots)
