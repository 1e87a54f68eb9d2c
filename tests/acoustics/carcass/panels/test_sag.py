"""How far a floor bends between its supports."""

from __future__ import annotations

import math

import pytest

from acoustics.carcass.panels.floor import Floor
from acoustics.carcass.panels.sag import bending, check_bending, sag, widest_span
from acoustics.carcass.shape.outline import Loop, rectangle

BIRCH = 9.0e9  # Young's modulus of a sheet; invented, of the size sheets have [Pa]


def floor(*supports: Loop) -> Floor:
    """A floor of 1.0 x 0.6 m on these."""
    return Floor(
        outline=rectangle(0.0, 0.0, 1.0, 0.6),
        openings=(),
        supports=tuple((f"support {n}", loop) for n, loop in enumerate(supports, start=1)),
    )


def batten(u: float) -> Loop:
    """A batten 40 mm wide, its middle at u, from edge to edge."""
    return rectangle(u - 0.02, 0.0, u + 0.02, 0.6)


def test_between_two_battens_the_span_is_what_lies_free_between_them():
    """By hand: 1.0 - 0.04 - 0.04; a third in the middle leaves less than half."""
    assert widest_span(floor(batten(0.02), batten(0.98))) == pytest.approx(0.92, abs=1e-4)
    assert widest_span(floor(batten(0.02), batten(0.5), batten(0.98))) == pytest.approx(
        0.44, abs=1e-4
    )


def test_on_four_blocks_the_span_runs_from_corner_to_corner():
    """The middle of the floor is as far from each block's inner corner, by Pythagoras."""
    blocks = [
        rectangle(u, v, u + 0.1, v + 0.1) for u in (0.0, 0.9) for v in (0.0, 0.5)
    ]  # inner corners at (0.1, 0.1) and so on
    assert widest_span(floor(*blocks)) == pytest.approx(math.hypot(0.8, 0.4), abs=2e-3)


def test_a_board_bends_as_the_beam_and_no_less_than_the_plate():
    """F L³ / 48 E I by hand; an endless plate, 0.01695 F L² / D (Timoshenko, from memory), less."""
    load, span, t = 80.0, 0.5, 0.012
    force, inertia = load * 9.80665, span * t**3 / 12
    bends = sag(span=span, thickness=t, modulus=BIRCH, load=load)
    assert bends == pytest.approx(force * span**3 / (48 * BIRCH * inertia))
    rigidity = BIRCH * t**3 / (12 * (1 - 0.3**2))
    plate = 0.01695 * force * span**2 / rigidity
    assert plate < bends < 1.5 * plate


def test_what_is_not_known_is_said_and_what_bends_too_far():
    """80 kg on 12 mm over 0.92 m: 10.7 mm where 4.6 are usual; over 0.44 m 2.4 mm where 2.2 are."""

    def codes(on: Floor, thickness: float = 0.012, **known: float | None) -> list[str]:
        given = {"modulus": BIRCH, "load": 80.0} | known
        bends = bending(on, thickness=thickness, **given)
        return [finding.code for finding in check_bending(bends)]

    wide, narrow = (
        floor(batten(0.02), batten(0.98)),
        floor(batten(0.02), batten(0.5), batten(0.98)),
    )
    assert codes(wide) == ["floor-sags"]
    assert codes(narrow, 0.015) == []
    assert codes(wide, load=None) == ["floor-load-unknown"]
    assert codes(wide, modulus=None) == ["floor-stiffness-unknown"]
    one = floor(rectangle(0.0, 0.0, 1.0, 0.6))  # it lies all over: nothing spans
    assert bending(one, thickness=0.012, modulus=None, load=None) is None


def test_a_floor_on_nothing_has_no_span():
    """Where all supports lie beside it, nothing of it lies between them."""
    assert widest_span(floor(rectangle(2.0, 0.0, 2.1, 0.6))) == 0.0
