"""End corrections of slots against the integral over every pair of points, from `slots.py`."""

from __future__ import annotations

import pytest

from acoustics.enclosure.port import End, RectangularOpening
from tests.second_method.slots import correction

pytestmark = pytest.mark.second_method

MIRRORS = {End.FLANGED: 0, End.ON_WALL: 1, End.IN_CORNER: 2}


@pytest.mark.parametrize("end", MIRRORS)
@pytest.mark.parametrize("aspect", [1, 2, 3, 5, 8, 10, 20])
def test_slot(end: End, aspect: int) -> None:
    """A slot in a wall, with its long side on another, and in a corner of both."""
    slot = RectangularOpening(width=0.03 * aspect, height=0.03)
    expected = correction(0.03 * aspect, 0.03, mirrors=MIRRORS[end])
    assert slot.end_correction(end) == pytest.approx(expected, rel=1e-7)
