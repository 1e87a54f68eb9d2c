"""Where nothing fits as it was asked, the driver may look another way."""

from __future__ import annotations

from dataclasses import replace

import pytest

from acoustics.carcass.cavity.cavity import Cavity
from acoustics.carcass.cavity.fit import fit
from acoustics.carcass.room.arrange import Load
from acoustics.carcass.shape.profile import Profile
from tests.acoustics.carcass.cavity.test_fit import assert_clear, driver, wanted

# Invented: under a boot floor, and behind a quarter panel; each way that a driver is too deep for.
FLOOR = ((0, 0), (0.6, 0), (0.6, 0.155), (0, 0.155))
SIDE = ((0, 0), (0.13, 0), (0.13, 0.5), (0, 0.5))


@pytest.mark.parametrize(
    ("corners", "size", "asked", "goes"),
    [(FLOOR, 0.5, "front", {"top"}), (SIDE, 0.4, "top", {"front", "rear"})],
)
def test_a_driver_too_deep_one_way_is_turned_to_where_it_goes(corners, size, asked, goes):
    """Each turned box has the litres, keeps every gap, and is what fit answers when asked so."""
    cavity = Cavity(profile=Profile(points=corners), width=0.9, gap=0.01)
    wish = wanted(14, facing=asked, load=Load(driver=driver(size)))
    found = fit(cavity, wish)
    assert not found.answers
    assert {way.facing for way in found.turned} == goes
    for way in found.turned:
        so = replace(wish, facing=way.facing)
        assert way.answer.net_volume == pytest.approx(0.014, rel=1e-6)
        assert_clear(way.answer, cavity, so)
        assert fit(cavity, so).answers
        assert fit(cavity, so).turned == ()


def test_what_goes_no_way_is_not_turned():
    """Too many litres are too many whichever way the driver looks."""
    cavity = Cavity(profile=Profile(points=FLOOR), width=0.9, gap=0.01)
    assert fit(cavity, wanted(400, load=Load(driver=driver(0.5)))).turned == ()
