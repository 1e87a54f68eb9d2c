"""Boxes over a plan, past what stands in a corner of the cavity, against a count of small cubes."""

from __future__ import annotations

import numpy as np
import pytest

from acoustics.carcass.cavity.cavity import Cavity, Obstacle, apart, check_cavity
from acoustics.carcass.cavity.fit import fit
from acoustics.carcass.cavity.fit_bases import CORNER, TAPER
from acoustics.carcass.cavity.over_plan import largest_over_plan, over_plan
from acoustics.carcass.cavity.place_in_cavity import stand
from acoustics.carcass.room.clearance import check_contents
from acoustics.carcass.shape.profile import Profile
from tests.acoustics.carcass.cavity.test_fit import wanted

FEW, MANY = pytest.param(3, id="few"), pytest.param(60, id="many", marks=pytest.mark.long)


def a_cavity(rng: np.random.Generator) -> Cavity:
    """An invented cavity with a leaning rear and a block in one of its corners, low or high."""
    depth, height, width = rng.uniform(0.4, 0.7), rng.uniform(0.4, 0.6), rng.uniform(0.7, 1.1)
    points = ((0, 0), (depth, 0), (depth * rng.uniform(0.6, 1.0), height), (0, height))
    x0, x1 = (-0.1, depth * 0.3) if rng.random() < 0.5 else (depth * rng.uniform(0.6, 0.8), 0.8)
    y0, y1 = (0.0, height * rng.uniform(0.4, 1.0)) if rng.random() < 0.7 else (height / 2, height)
    across = (0.0, width * 0.25) if rng.random() < 0.5 else (width * 0.7, None)
    block = Obstacle(
        name="block",
        points=((x0, y0), (x1, y0), (x1, y1), (x0, y1)),
        start=across[0],
        end=across[1],
    )
    profile = Profile(points=points)
    return Cavity(profile=profile, width=width, gap=0.01, obstacles=(block,))


def cubes(answer, cavity: Cavity, floor: float, count: int = 40) -> tuple[np.ndarray, np.ndarray]:
    """Middles of small cubes round a body in the cavity, and which of them lie within it."""
    body = answer.carcass
    x0, _y0, x1, high = body.profile.polygon.bounds
    axes = [
        low + (np.arange(count) + 0.5) / count * (far - low)
        for low, far in ((x0, x1), (0.0, high), (0.0, body.width))
    ]
    middles = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1).reshape(-1, 3)
    inside = np.ones(len(middles), dtype=bool)
    for plane in body.outer.values():
        inside &= middles @ np.asarray(plane.normal) <= plane.distance
    return middles + np.array((0.0, floor, answer.z)), inside


@pytest.mark.second_method
@pytest.mark.parametrize("count", [FEW, MANY])
def test_no_cube_of_a_box_over_a_plan_lies_where_it_must_not(count):
    """Every small cube keeps the gap to walls and block; litres are exact; nothing is found wrong.

    The cubes are held against the cavity's own figures: no polygon and no plane is shared.
    """
    rng = np.random.default_rng(35)
    kinds = []
    for _ in range(count):
        cavity, wish = a_cavity(rng), wanted(float(rng.uniform(25, 60)))
        for answer in over_plan(cavity, wish):
            kinds.append(answer.kind)
            assert answer.net_volume == pytest.approx(wish.net_volume, rel=1e-6)
            assert not [f for f in check_contents(answer.carcass) if f.severity != "note"]
            x, floor, z = stand(answer.carcass, cavity)
            assert not check_cavity(answer.carcass, cavity, x=x, y=floor, z=z)
            middles, inside = cubes(answer, cavity, floor)
            points = middles[inside] + np.array((x, 0.0, z - answer.z))
            _assert_free(points, cavity)
    assert set(kinds) == {CORNER, TAPER}


def _assert_free(points: np.ndarray, cavity: Cavity) -> None:
    gap = cavity.gap - 1e-6
    x, y, z = points.T
    assert z.min() >= gap
    assert z.max() <= cavity.width - gap
    (_, _), (depth, _), (top, height), _ = cavity.profile.points
    assert x.min() >= gap
    assert y.min() >= gap
    assert y.max() <= height - gap
    assert (x <= depth + (top - depth) * y / height - gap).all()
    (block,) = cavity.obstacles
    (x0, y0), _, (x1, y1), _ = block.points
    far = cavity.width if block.end is None else block.end
    off = [
        np.maximum(np.maximum(low - at, at - high), 0.0)
        for at, low, high in ((x, x0, x1), (y, y0, y1), (z, block.start, far))
    ]
    assert np.sqrt(sum(o**2 for o in off)).min() >= gap


@pytest.mark.second_method
@pytest.mark.parametrize("seed", range(3))
def test_the_distance_of_two_solids_against_random_points(seed):
    """No pair of 20 000 random points in two boxes turned at random lies nearer (brute force)."""
    rng = np.random.default_rng(seed)
    corners = np.array([(x, y, z) for x in (0, 1) for y in (0, 1) for z in (0, 1)], dtype=float)
    turn, _ = np.linalg.qr(rng.normal(size=(3, 3)))
    first = corners * rng.uniform(0.2, 0.6, 3)
    second = (corners * rng.uniform(0.2, 0.6, 3)) @ turn + rng.normal(size=3)
    measured = apart(first, second)
    shares = rng.dirichlet([0.15] * 8, size=(2, 20_000))
    nearest = np.linalg.norm(shares[0] @ first - shares[1] @ second, axis=1).min()
    assert measured <= nearest + 1e-6
    assert nearest <= measured + 0.12
    assert apart(first, first + 0.05) == pytest.approx(0.0, abs=1e-6)


def test_what_goes_only_past_a_corner_is_no_nothing_fits():
    """A block in a rear corner leaves no prism of these litres, and a box over a plan goes."""
    block = Obstacle(
        name="block", points=((0.3, 0.0), (0.6, 0.0), (0.6, 0.5), (0.3, 0.5)), start=0.55
    )
    square = Profile(points=((0, 0), (0.5, 0), (0.5, 0.45), (0, 0.45)))
    cavity = Cavity(profile=square, width=0.9, gap=0.01, obstacles=(block,))
    most = largest_over_plan(cavity, wanted(30))
    answers = fit(cavity, wanted(most.net_volume * 1000 * 0.98)).answers
    assert {a.kind for a in answers} & {CORNER}
    refused = fit(cavity, wanted(most.net_volume * 1000 * 1.6))
    assert not refused.answers
    assert refused.largest.net_volume >= most.net_volume * (1 - 1e-9)


def test_a_cavity_the_other_way_round_takes_the_same_box():
    """Front and rear changed over, cavity and driver both: the same wood and space in each kind."""

    def boxes(facing: str) -> list[tuple[str, float, float]]:
        def at(x: float) -> float:
            return x if facing == "front" else 0.5 - x

        corners = [(at(x), y) for x, y in ((0.0, 0.0), (0.5, 0.0), (0.4, 0.45), (0.0, 0.45))]
        block = tuple((at(x), y) for x, y in ((0.3, 0.0), (0.6, 0.0), (0.6, 0.5), (0.3, 0.5)))
        obstacle = Obstacle(name="block", points=block, start=0.55)
        # Counter-clockwise either way.
        profile = Profile(points=tuple(corners if facing == "front" else corners[::-1]))
        cavity = Cavity(profile=profile, width=0.9, gap=0.01, obstacles=(obstacle,))
        return [(a.kind, a.wood, a.space) for a in over_plan(cavity, wanted(60, facing=facing))]

    there, back = boxes("front"), boxes("rear")
    assert [kind for kind, _wood, _space in there] == [CORNER, TAPER]
    for ours, theirs in zip(there, back, strict=True):
        assert ours[0] == theirs[0]
        assert ours[1:] == pytest.approx(theirs[1:], rel=1e-6)
