"""Boards bent over kerfs: a chain of wedges that close, laid corner by corner."""

from __future__ import annotations

import math

import numpy as np
import pytest

from acoustics.carcass.panels.kerf_bend import KerfBend

BOARD = {"thickness": 0.018, "skin": 0.003, "blade": 0.0032}


def test_a_quarter_turn_by_hand():
    """A kerf of 3.2 mm, 15 mm deep, turns by 2 atan(3.2 / 30) = 12.18°: eight make 90°."""
    bend = KerfBend(**BOARD, radius=0.15, angle=math.pi / 2)
    assert math.degrees(bend.turn) == pytest.approx(12.177, abs=1e-3)
    assert bend.count == 8
    assert bend.length == pytest.approx(0.1485 * math.pi / 2)
    assert bend.places(0.1)[0] == pytest.approx(0.1 + bend.length / 16)
    assert len(bend.places(0.1)) == 8


@pytest.mark.parametrize("radius", [0.08, 0.15, 0.6])
@pytest.mark.parametrize("angle", [0.5, math.pi / 2, math.pi])
def test_the_chain_of_wedges_is_the_bend(radius, angle):
    """Second method: ribs as straight pieces that turn at every kerf until its mouth closes.

    Its corners on the inner face never pass each other, what it turns is the angle, and the
    middle of the skin lies on the circle asked for, to what a chord stands off its arc.
    """
    bend = KerfBend(**BOARD, radius=radius, angle=angle)
    places = np.array(bend.places(0.0))
    gaps = np.diff([0.0, *places, bend.length])
    turn = angle / bend.count
    at, heading, chain, mouths = np.zeros(2), 0.0, [np.zeros(2)], []
    for number, gap in enumerate(gaps):
        at = at + gap * np.array([math.cos(heading), math.sin(heading)])
        if number < bend.count:
            # Both lips of the kerf, on the inner face, before and after the turn.
            lips = []
            for side, way in ((-1, heading), (1, heading + turn)):
                along = np.array([math.cos(way), math.sin(way)])
                inward = np.array([-along[1], along[0]])
                lips.append(side * bend.blade / 2 * along + bend.depth * inward)
            across = np.array([math.cos(heading + turn / 2), math.sin(heading + turn / 2)])
            mouths.append(float((lips[1] - lips[0]) @ across))
            heading += turn
            chain.append(at)
    assert heading == pytest.approx(angle)
    assert min(mouths) > -1e-9
    # To first order the lip is as wide as said; cos of half a turn of a few degrees is left.
    assert mouths[0] == pytest.approx(bend.open_mouth, abs=0.01 * bend.blade)
    middle_radius = bend.radius - bend.skin / 2
    # The corners of a chain drawn round a circle of its own length: r' = (p / 2) / tan(turn / 2).
    centre = np.array([0.0, bend.spacing / 2 / math.tan(turn / 2)])
    away = [float(np.hypot(*(corner - centre))) for corner in chain[1:]]
    assert max(away) - min(away) < 1e-9
    assert away[0] == pytest.approx(middle_radius, rel=0.01)


def test_more_wood_left_takes_more_of_a_turn_for_each_kerf():
    """Shallower kerfs close sooner: fewer of them, further apart; none is left wider than cut."""
    counts = [KerfBend(**BOARD | {"skin": skin}, radius=0.2, angle=1.5).count
              for skin in (0.002, 0.004, 0.006)]  # fmt: skip
    assert counts == sorted(counts, reverse=True)
    bend = KerfBend(**BOARD, radius=0.2, angle=1.5)
    assert 0 <= bend.open_mouth < bend.blade
