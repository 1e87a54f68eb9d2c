"""A grille clears the surround and the travel of the cone behind it."""

import numpy as np
import pytest

from acoustics.carcass.room.front import check_grille


@pytest.mark.parametrize(
    ("more", "codes"),
    [
        ({}, []),
        ({"height": 0.0259}, ["grille-near-cone"]),
        ({"height": 0.0229}, ["grille-hits-cone"]),
        ({"height": 0.0229, "recess": 0.005}, []),
        ({"travel": 0.02}, ["grille-hits-cone"]),
        ({"surround": None}, ["grille-not-checked"]),
    ],
)
def test_a_grille_stands_clear_of_a_cone_at_full_travel(more, codes):
    """11 mm of surround and 12 mm of travel want 23 mm, and 3 mm more to be sure."""
    given = {"height": 0.026, "recess": 0.0, "surround": 0.011, "travel": 0.012} | more
    assert [finding.code for finding in check_grille(**given)] == codes


def test_the_limit_is_where_a_moving_cone_would_touch():
    """A cone stepped through one swing touches a grille exactly where the check calls a stop."""
    swing = 0.011 + 0.012 * np.sin(np.linspace(0, 2 * np.pi, 721))
    for height in np.arange(0.0205, 0.0255, 0.001):
        touches = bool((swing > height).any())
        stops = [
            f.code for f in check_grille(height=height, recess=0, surround=0.011, travel=0.012)
        ]
        assert ("grille-hits-cone" in stops) == touches
