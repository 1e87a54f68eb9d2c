"""Boards for amplifiers: holes where the screws go, air where the maker asks for it."""

import itertools
import math

import numpy as np
import pytest

from acoustics.carcass.panels.board import Mounted, check_board
from acoustics.carcass.shape.errors import ProfileError
from acoustics.carcass.shape.outline import Circle, rectangle
from tests.refused import refused

BOARD = rectangle(0, 0, 0.66, 0.26)


def amplifier(name: str = "mount 1", **more) -> Mounted:
    """An invented amplifier of 300 by 200 mm in the left half of the board."""
    return Mounted(
        **{"name": name, "middle": (0.18, 0.13), "size": (0.3, 0.2), "height": 0.058,
           "holes": (0.28, 0.17), "hole": 0.0035, "air": 0.03} | more
    )  # fmt: skip


def codes(*mounted: Mounted, openings=(), room: float | None = 0.1) -> dict[str, float]:
    """What is found, with its figure."""
    found = check_board(BOARD, openings, mounted, room=room)
    return {finding.code: finding.value for finding in found}


def test_holes_lie_where_the_maker_put_them():
    """Four, their middle that of the amplifier, as far apart as its sheet says."""
    drilled = amplifier().drilled
    assert np.mean([hole.centre for hole in drilled], axis=0) == pytest.approx((0.18, 0.13))
    apart = sorted(math.dist(a.centre, b.centre) for a, b in itertools.combinations(drilled, 2))
    assert apart == pytest.approx([0.17, 0.17, 0.28, 0.28, *[math.hypot(0.28, 0.17)] * 2])
    assert {hole.radius for hole in drilled} == {0.00175}
    assert amplifier(hole=None).drilled == ()


def test_feet_that_stand_out_need_board_too():
    """By hand: screws 0.34 m apart round 0.18 m reach 11.75 mm beyond a board 0.34 m wide."""
    wide = amplifier(holes=(0.34, 0.17))
    narrow = rectangle(0, 0, 0.34, 0.26)
    (beyond,) = check_board(narrow, (), [wide], room=0.1)
    assert (beyond.code, beyond.value) == ("mount-beyond-board", pytest.approx(0.01175, abs=1e-4))
    assert not list(check_board(narrow, (), [amplifier()], room=0.1))
    foot = (Circle(centre=(0.35, 0.045), radius=0.01),)
    assert "mount-over-opening" in codes(wide, openings=foot)
    assert codes(amplifier(), openings=foot) == {}


def test_two_amplifiers_leave_each_other_the_air_both_ask_for():
    """The greater claim counts; touching is crowding, standing in each other a stop."""
    beside = {"name": "mount 2", "middle": (0.5, 0.13), "size": (0.28, 0.2)}
    # 0.36 - 0.33 = 30 mm between them.
    assert codes(amplifier(), amplifier(**beside)) == {}
    assert codes(amplifier(), amplifier(**beside, air=0.04)) == {
        "mounts-crowded": pytest.approx(0.03)
    }
    assert list(codes(amplifier(), amplifier(**beside | {"middle": (0.45, 0.13)}))) == [
        "mounts-collide"
    ]


def test_room_over_a_board_holds_the_amplifier_and_its_air():
    """58 mm high and 30 mm of air want 88 mm; less is a look, less than its height a stop."""
    assert codes(amplifier(), room=0.088) == {}
    assert codes(amplifier(), room=0.08) == {"mount-without-air": 0.08}
    assert codes(amplifier(), room=0.05) == {"mount-higher-than-room": 0.05}
    assert set(codes(amplifier(air=None), room=None)) == {
        "mount-air-unknown", "mount-height-unknown",
    }  # fmt: skip


def test_what_stands_over_an_edge_or_an_opening_is_found():
    """By how far, and a cable hole under an amplifier is no cable hole."""
    assert codes(amplifier(middle=(0.14, 0.13)))["mount-beyond-board"] == pytest.approx(0.01)
    hole = Circle(centre=(0.1, 0.1), radius=0.02)
    assert "mount-over-opening" in codes(amplifier(), openings=(hole,))
    assert "mount-holes-unknown" in codes(amplifier(holes=None))
    with refused(ProfileError, "measure-of-part-not-positive"):
        amplifier(size=(0.0, 0.2))
