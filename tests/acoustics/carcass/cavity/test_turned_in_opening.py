"""A box turned in its opening, held against every angle tried in turn."""

import numpy as np
import pytest

from acoustics.carcass.cavity.cavity import Cavity, Opening, check_cavity
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.shapes import rectangle_profile

ANGLES = np.linspace(0.0, np.pi / 2, 20001)


def slack(p: float, q: float, width: float, height: float) -> float:
    """The best there is over all angles: what the opening has beyond what the rectangle needs."""
    across = p * np.cos(ANGLES) + q * np.sin(ANGLES)
    upward = p * np.sin(ANGLES) + q * np.cos(ANGLES)
    return float(np.minimum(width - across, height - upward).max())


@pytest.mark.second_method
@pytest.mark.parametrize("seed", range(4))
def test_the_formula_agrees_with_every_angle(seed):
    """Random boxes and openings: square on or turned goes through where some angle does."""
    rng = np.random.default_rng(seed)
    turned = 0
    for _ in range(500):
        width, height = rng.uniform(0.3, 1.0, size=2)
        a, b = max(width, height), min(width, height)
        # Near the limit, where the formula matters.
        size = (rng.uniform(0.9, 1.2) * a, rng.uniform(0.02, 0.6) * b, 2.0)
        best = slack(size[0], size[1], width, height)
        opening = Opening(width=width, height=height)
        passes = opening.passes(*size) or opening.passes_turned(*size)
        turned += opening.passes_turned(*size)
        if abs(best) > 1e-5:
            assert passes == (best > 0), (size, width, height)
    assert turned > 50


def test_a_box_that_must_be_turned_is_told():
    """By hand: 520 mm do not pass 500 × 300 mm square on, but 60 mm thick they do turned."""
    cavity = Cavity(
        profile=Profile(points=((0, 0), (1, 0), (1, 1), (0, 1))),
        width=1.0,
        opening=Opening(width=0.5, height=0.3),
    )
    flat, deep = (
        Carcass(profile=rectangle_profile(depth, 0.52), width=0.6, thickness=0.012)
        for depth in (0.06, 0.28)
    )
    codes = [[f.code for f in check_cavity(one, cavity, x=0, y=0, z=0)] for one in (flat, deep)]
    assert codes == [["box-passes-turned"], ["box-does-not-pass-opening"]]
