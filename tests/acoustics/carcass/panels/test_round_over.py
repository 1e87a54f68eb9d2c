"""Outer edges rounded over: not beyond the board, not into what sits there, and the cover."""

from __future__ import annotations

import math

import numpy as np
import pytest

from acoustics.carcass.panels.floor import cover_size
from acoustics.carcass.panels.round_over import check_round_over


@pytest.mark.parametrize(("radius", "flat", "codes"), [
    (0.018, None, []), (0.0181, None, ["round-over-beyond-board"]),
    (0.010, 0.010, []), (0.010, 0.008, ["round-over-meets-part"]),
    (0.010, -0.002, ["round-over-meets-part"]),
])  # fmt: skip
def test_a_radius_stays_within_its_board(radius, flat, codes):
    """By hand, on a board of 18 mm."""
    found = check_round_over(radius, board=0.018, flat=flat)
    assert [finding.code for finding in found] == codes


def test_a_cover_over_round_edges_is_as_long_as_its_way():
    """Second method: the way over the section, edge to edge, summed in short straight steps."""
    width, t, turned, r = 0.5, 0.018, 0.04, 0.012
    turn = np.linspace(math.pi, math.pi / 2, 2001)
    left = np.column_stack([r + r * np.cos(turn), t - r + r * np.sin(turn)])
    right = np.column_stack([width - left[::-1, 0], left[::-1, 1]])
    way = np.vstack([[turned, 0], [0, 0], left, right, [width, 0], [width - turned, 0]])
    long = float(np.hypot(*np.diff(way, axis=0).T).sum())
    covered, _up = cover_size(width=width, height=0.3, thickness=t, turned=turned, rounded=r)
    assert covered == pytest.approx(long, abs=1e-6)
