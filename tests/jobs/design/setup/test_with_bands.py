"""How much less level brings back what bands took beyond a limit."""

from __future__ import annotations

import pytest

from jobs.design.setup.with_bands import Borne, Strain


def _strain(after: float, allowed: float | None = 1.0, before: float = 0.5) -> Strain:
    return Strain(before=before, after=after, allowed=allowed)


@pytest.mark.parametrize(
    ("travel", "power", "less"),
    [
        # By definition of the decibel: twice the travel 6.02 dB, twice the power 3.01 dB.
        (_strain(2.0), None, 6.0206),
        (None, _strain(2.0), 3.0103),
        # The larger of both.
        (_strain(2.0), _strain(10.0), 10.0),
        (_strain(2.0), _strain(1.5), 6.0206),
        (_strain(1.0), _strain(0.9), None),
        (_strain(2.0, allowed=None), None, None),
        # Beyond before the bands already, and no further.
        (_strain(2.0, before=2.0), None, None),
        (_strain(2.1, before=2.0), None, 6.4444),
    ],
)
def test_less_level_brings_back_what_the_bands_took(travel, power, less):
    """Twenty times the logarithm of travel, ten of power; nothing where nothing is beyond."""
    down = Borne(travel=travel, power=power).less
    assert down == (less if less is None else pytest.approx(less, abs=1e-3))
