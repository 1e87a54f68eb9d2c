"""What a hand marks on a piece: recesses, and how round the corners of an opening are."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import box

from acoustics.carcass.shape.outline import QUARTER, Circle, Loop, rectangle
from jobs.design.wood.marking import marks_of
from jobs.design.wood.pieces import Piece, Pocket


def _piece(**more) -> Piece:
    plain = {"label": "A1", "name": "front", "quantity": 1, "thickness": 0.018,
             "outline": rectangle(0.0, 0.0, 0.6, 0.4)}  # fmt: skip
    return Piece(**plain | more)


def _rounded(radius: float) -> Loop:
    """An opening of 200 x 120 mm with rounded corners, its lower left corner at (100, 50)."""
    area = box(0.1, 0.05, 0.3, 0.17).buffer(-radius).buffer(radius, quad_segs=QUARTER)
    return Loop(points=tuple(area.exterior.coords[:-1]))


@pytest.mark.parametrize("face", ["outside", "inside"])
def test_a_recess_is_marked_by_its_middle_its_width_its_face_and_its_depth(face):
    """A round one; its depth is said with its unit."""
    figure = Circle(centre=(0.2, 0.15), radius=0.07)
    (mark,) = marks_of(_piece(pockets=(Pocket(figure=figure, depth=0.006, face=face),)))
    assert mark.what == f"recess, {face}, 6.0\N{NO-BREAK SPACE}mm deep"
    assert (mark.at, mark.diameter) == ((0.2, 0.15), pytest.approx(0.14))


@pytest.mark.parametrize("radius", [0.01, 0.025, 0.04])
def test_an_opening_with_four_corners_alike_is_marked_by_their_radius(radius):
    """One mark in its middle says across, up and round."""
    (mark,) = marks_of(_piece(holes=(_rounded(radius),)))
    assert mark.at == pytest.approx((0.2, 0.11))
    assert mark.size == pytest.approx((0.2, 0.12))
    assert mark.radius == pytest.approx(radius, abs=1e-4)


def test_a_square_opening_has_no_radius():
    """Its size says all."""
    (mark,) = marks_of(_piece(holes=(rectangle(0.1, 0.05, 0.3, 0.17),)))
    assert (mark.radius, mark.size) == (None, pytest.approx((0.2, 0.12)))


def test_one_corner_cut_off_is_no_radius_though_the_area_would_fit():
    """What a corner of 50 mm takes is as much as four rounded ones: its corners are marked."""
    cut = Loop(points=((0.15, 0.05), (0.3, 0.05), (0.3, 0.17), (0.1, 0.17), (0.1, 0.1)))
    opening, *corners = marks_of(_piece(holes=(cut,)))
    assert opening.radius is None
    # 50 x 50 / 2 mm² would be four corners of this radius.
    assert math.sqrt(0.05 * 0.05 / 2 / (4 - math.pi)) == pytest.approx(0.038, abs=1e-3)
    assert len(corners) == 5
