"""Litres of moulded shapes: fills, areas at heights, the skin; the spacers of their ring."""

from __future__ import annotations

import math

import numpy as np
import pytest
import trimesh

from acoustics.carcass.panels.moulded import Litres, check_litres, filled, lined, stacked
from acoustics.carcass.panels.spacers import spacers
from acoustics.carcass.shape.errors import CarcassError, PlacementError
from acoustics.errors import MissingError, OutOfRangeError
from tests.refused import refused

R = 0.2  # of a ball [m]
BALL = 4 / 3 * math.pi * R**3


def section(body: trimesh.Trimesh, level: float) -> float:
    """The area of a level cut through a body that is round about z, triangle by triangle."""
    cut = trimesh.intersections.mesh_plane(body, (0, 0, 1), (0, 0, level))
    (ax, ay, _), (bx, by, _) = cut.transpose(1, 2, 0)
    return float(np.abs(ax * by - ay * bx).sum() / 2)


def test_fills_are_their_mean_and_as_sure_as_their_spread_says():
    """By hand, s = 0.158 L; t(0.975, 4) = 2.776: NIST/SEMATECH e-Handbook, 1.3.6.7.2."""
    fills = filled([0.0198, 0.0199, 0.0200, 0.0201, 0.0202])
    assert fills.value == pytest.approx(0.0200)
    assert fills.error == pytest.approx(2.776 * math.sqrt(2.5) * 1e-4 / math.sqrt(5), rel=2e-4)
    # Two alike are no proof: t(0.975, 1) = 12.706.
    assert filled([0.020, 0.0202]).error == pytest.approx(12.706 * 1e-4, rel=1e-4)
    granules = filled([0.020, 0.020, 0.020], packing=0.02)
    assert granules.error == pytest.approx(0.02 * 0.020)


def test_a_single_fill_tells_nothing_of_how_sure_it_is():
    """Its error is not known, which is no zero, and a finding."""
    once = filled([0.02])
    assert (once.error, once.share) == (None, None)
    assert Litres(value=0.02, error=0.001).share == pytest.approx(0.05)
    assert [f.code for f in check_litres(once, 0.018)] == ["litres-error-unknown"]


def test_areas_of_a_ball_and_a_cone_give_their_litres_at_any_heights():
    """Both areas are quadratic in height, which Simpson's rule integrates exactly."""
    rng = np.random.default_rng(3)
    for count in (3, 4, 7, 10):
        heights = [-R, *sorted(rng.uniform(-R, R, count - 2)), R]
        ball = stacked([(h, math.pi * (R**2 - h**2)) for h in heights[::-1]])
        assert ball.value == pytest.approx(BALL, rel=1e-9)
        assert (ball.error is None) == (count < 5)
        cone = stacked([(h, math.pi * (0.3 - 0.4 * h) ** 2) for h in np.linspace(0, 0.5, count)])
        assert cone.value == pytest.approx(math.pi * 0.5 / 3 * (0.3**2 + 0.3 * 0.1 + 0.1**2))


def test_the_error_of_areas_holds_what_the_shape_really_is():
    """Nine in ten of bodies drawn at random, cut at 5 to 9 heights; the litres of their meshes.

    A body is a line turned about z (trimesh); its corners lie where no cut is made.
    """
    rng, held, told = np.random.default_rng(11), 0, []
    for k in range(120):
        line = [(0.0, 0.0), *zip(rng.uniform(0.06, 0.2, 5), np.linspace(0, 0.35, 5), strict=True)]
        body = trimesh.creation.revolve(np.array([*line, (0.0, 0.35)]), sections=24)
        heights = np.linspace(0.0, 0.35, 5 + k % 5)
        # A hair inside the ends, where a cut meets the floor itself.
        areas = [section(body, level) for level in np.clip(heights, 1e-6, 0.35 - 1e-6)]
        litres = stacked(list(zip(heights, areas, strict=True)))
        held += abs(litres.value - body.volume) <= litres.error
        told.append(litres.error / body.volume)
    assert held >= 108
    assert np.median(told) < 0.25  # an error that holds anything would tell nothing


def test_a_skin_inside_a_ball_leaves_the_smaller_ball():
    """4/3 π (R - t)³, but for t³; the error holds what is left out, and what the skin strays."""
    t = 0.005
    inside = lined(Litres(value=BALL, error=0.0), surface=4 * math.pi * R**2, thickness=t, stray=0)
    smaller = 4 / 3 * math.pi * (R - t) ** 3
    assert inside.value == pytest.approx(smaller, abs=4 / 3 * math.pi * t**3 * 1.001)
    assert abs(inside.value - smaller) <= inside.error
    stray = lined(Litres(value=BALL, error=0.0), surface=0.6, thickness=t, stray=0.001)
    assert stray.error > 0.6 * 0.001
    # A cube too: its inside is known without any formula.
    cube = lined(Litres(value=0.4**3, error=0.0), surface=6 * 0.4**2, thickness=t, stray=0)
    assert abs(cube.value - (0.4 - 2 * t) ** 3) <= cube.error
    assert lined(Litres(value=BALL, error=None), surface=0.6, thickness=t, stray=0).error is None
    assert lined(Litres(value=BALL, error=0.0), surface=0.6, thickness=t, stray=None).error is None


def test_what_cannot_be_measured_so_is_refused():
    """Each with what it turns on."""
    with pytest.raises(MissingError):
        filled([])
    with pytest.raises(OutOfRangeError):
        filled([0.02, 0.0])
    with pytest.raises(MissingError):
        stacked([(0.0, 0.1)])
    for sections, code in (
        ([(0.0, 0.1), (0.2, 0.1), (0.2, 0.3)], "sections-coincide"),
        ([(0.0, 0.0), (0.1, 0.0), (0.2, 0.0)], "sections-enclose-nothing"),
    ):
        with refused(CarcassError, code):
            stacked(sections)
    ball = Litres(value=BALL, error=0.0)
    with refused(CarcassError, "skin-too-small"):
        lined(ball, surface=4 * math.pi * R**2 * 0.99, thickness=0.005, stray=0)
    with refused(CarcassError, "skin-fills-shape"):
        lined(ball, surface=5.0, thickness=0.01, stray=0)


def test_spacers_hold_every_point_of_the_ring_where_it_leans():
    """Their tops lie in the plane through the middle, turned about the way across, by hand."""
    lean, raised = math.radians(25), 0.15
    for spacer in spacers(count=5, raised=raised, lean=lean, circle=0.3, width=0.04):
        for height, off in ((spacer.length, 0.02), (spacer.shorter, -0.02)):
            assert height == pytest.approx(raised + (spacer.along + off) * math.tan(lean))
        on_ring = math.hypot(spacer.along / math.cos(lean), spacer.across)
        assert on_ring == pytest.approx(0.15)
    with refused(PlacementError, "spacer-vanishes"):
        spacers(count=4, raised=0.05, lean=lean, circle=0.3, width=0.04)
