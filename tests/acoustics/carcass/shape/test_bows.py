"""Arcs as straight lines, against the closed form of a segment and shapely's own circle."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import Point, Polygon

from acoustics.carcass.shape.bows import straightened

SQUARE = [[0.0, 0.0], [0.4, 0.0], [0.4, 0.4], [0.0, 0.4]]


def _with(bow: float, *, turned: bool = False) -> list[list[float]]:
    corners = [[*corner, bow] for corner in SQUARE]
    return corners[::-1] if turned else corners


def segment(chord: float, bow: float) -> float:
    """Area between a chord and its arc: r² (θ − sin θ) / 2, by definition."""
    radius = (chord**2 / 4 + bow**2) / (2 * bow)
    angle = 4 * math.atan(2 * bow / chord)
    return radius**2 * (angle - math.sin(angle)) / 2


@pytest.mark.parametrize("bow", [0.01, 0.1, 0.2, -0.01, -0.1])
@pytest.mark.parametrize("turned", [False, True])
def test_area_follows_the_closed_form(bow, turned):
    """Many short lines enclose the square and four segments, whichever way the tape went round."""
    fine = straightened(_with(bow, turned=turned), within=False, deviation=1e-7, most=4000)
    area = 0.16 + math.copysign(4 * segment(0.4, abs(bow)), bow)
    assert Polygon(fine).area == pytest.approx(area, rel=1e-4)


def test_four_half_circles_touch_their_circles():
    """Bows of half an edge are half circles: every corner lies on one, by shapely."""
    points = straightened(_with(0.2), within=False, deviation=1e-4, most=64)
    middles = [Point(0.2, 0.0), Point(0.4, 0.2), Point(0.2, 0.4), Point(0.0, 0.2)]
    for point in points:
        assert min(abs(middle.distance(Point(point)) - 0.2) for middle in middles) < 1e-9


@pytest.mark.parametrize("bow", [0.05, 0.2, -0.02, -0.06])
def test_nothing_lies_outside_and_little_is_lost(bow):
    """Within: the coarse outline lies inside the fine one, and 1 mm off it at most."""
    coarse = Polygon(straightened(_with(bow), within=True, most=99))
    fine = Polygon(straightened(_with(bow), within=False, deviation=1e-8, most=9000))
    assert coarse.difference(fine.buffer(1e-6)).area == 0
    assert fine.exterior.hausdorff_distance(coarse.exterior) < 1.1e-3


def test_straight_edges_stay_and_an_edge_without_length_is_no_arc():
    """Without a bow every corner is as it was; two corners in one place do no harm."""
    assert straightened(SQUARE, within=True) == tuple((x, y) for x, y in SQUARE)
    twice = [[0.0, 0.0, 0.1], [0.0, 0.0], [1.0, 0.0], [1.0, 1.0]]
    assert len(straightened(twice, within=True)) == 4
