"""What a plain grid of upright boxes finds in random cavities, fit finds too."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from acoustics.carcass.cavity.cavity import Cavity
from acoustics.carcass.cavity.fit import Wanted, fit
from acoustics.carcass.room.clearance import check_contents
from acoustics.carcass.shape.errors import CarcassError
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.shapes import rectangle_profile
from tests.acoustics.carcass.cavity.test_fit import wanted

# The grid [m], and how many of its boxes are looked at more closely.
STEP, LOOKED_AT = 0.005, 60
MANY = pytest.param(500, id="many", marks=pytest.mark.long)


def a_cavity(rng: np.random.Generator) -> Cavity:
    """An invented cavity with a level floor, an upright front and a leaning rear."""
    depth, height = rng.uniform(0.28, 0.6), rng.uniform(0.34, 0.6)
    top = depth * rng.uniform(0.5, 1.0)
    points = ((0, 0), (depth, 0), (top, height), (0, height))
    return Cavity(profile=Profile(points=points), width=rng.uniform(0.4, 1.0), gap=0.01)


def upright(cavity: Cavity, wish: Wanted) -> Carcass | None:
    """The first upright box on a grid of 5 mm that goes without a finding but notes."""
    (room,) = cavity.rooms()
    x0, y0, x1, y1 = room.region.bounds
    t = wish.stock.thickness
    taken = wish.load.driver.volume_behind(t)
    looked = 0
    for depth in np.arange(0.15, x1 - x0, STEP):
        for height in np.arange(0.30, y1 - y0, STEP):
            width = (wish.net_volume + taken) / ((depth - 2 * t) * (height - 2 * t)) + 2 * t
            if not 0.3 < width <= room.width or looked >= LOOKED_AT:
                continue
            # As far to the front and the floor as the room goes.
            corners = rectangle_profile(depth, height).polygon
            corners = corners.__class__([(x0 + x, y0 + y) for x, y in corners.exterior.coords])
            if not room.region.buffer(1e-9).covers(corners):
                continue
            looked += 1
            bare = Carcass(profile=rectangle_profile(depth, height), width=width, thickness=t)
            try:
                full = replace(bare, contents=wish.load.arrange(bare, "front"))
            except CarcassError:
                continue
            if all(f.severity == "note" for f in check_contents(full, wish.clearances)):
                return full
    return None


@pytest.mark.second_method
@pytest.mark.parametrize("count", [pytest.param(12, id="few"), MANY])
def test_what_a_grid_finds_fit_finds(count):
    """For random litres, small ones among them, no cavity is said to hold nothing that holds it."""
    rng = np.random.default_rng(11)
    held = 0
    for number in range(count):
        cavity, wish = a_cavity(rng), wanted(float(rng.uniform(6, 45)))
        box = upright(cavity, wish)
        if box is None:
            continue
        held += 1
        assert fit(cavity, wish).answers, f"cavity {number}: {box.profile.points}, {box.width}"
    assert held > count / 4


@pytest.mark.parametrize("count", [pytest.param(2, id="few"), MANY])
def test_a_little_more_than_the_smallest_goes(count):
    """1.05 to 2 times the least litres that fit names are found, and no limit is printed."""
    rng = np.random.default_rng(12)
    asked = 0
    for _ in range(count):
        cavity = a_cavity(rng)
        refused = fit(cavity, wanted(0.5))
        least = next((limit.volume for limit in refused.limits if limit.what == "parts"), None)
        if least is None or refused.largest.net_volume < 2.1 * least:
            continue
        for more in (1.05, 1.2, 2.0):
            asked += 1
            answer = fit(cavity, wanted(least * more * 1000))
            assert answer.answers, f"{least * 1000:.2f} L x {more}"
            assert not answer.limits
    assert asked > count / 4
