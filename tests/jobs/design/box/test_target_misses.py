"""What the channel's filters make of the frequency a box was asked to reach."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from acoustics.circuit.filters import Family, Filter, Passes, Way
from acoustics.circuit.solver import sweep
from acoustics.enclosure.boxes import Sealed
from jobs import units
from jobs.design.box.boxes import FREQUENCIES
from jobs.design.box.targets import Target, _filtered_miss
from tests.acoustics.drivers import REFERENCE

HIGH_PASS = Way(
    filters=(Filter(passes=Passes.HIGH, family=Family.LINKWITZ_RILEY, order=4, corner=60.0),)
)
ALONE = sweep(driver=REFERENCE, box=Sealed(volume=0.04), frequencies=FREQUENCIES)
PLAYED = float(ALONE.at(frequencies=FREQUENCIES, filters=HIGH_PASS).f3)


@pytest.mark.parametrize(
    ("want", "value", "missed"),
    [
        ("f3", PLAYED * 1.009, False),
        ("f3", PLAYED * 1.02, True),
        ("f3", PLAYED / 1.02, True),
        ("qtc", 0.7, False),
    ],
)
def test_a_filter_that_moves_the_frequency_by_a_hundredth_is_said(want, value, missed):
    """With where it is 3 dB down as it is played; of another target nothing is said."""
    result = SimpleNamespace(feed=SimpleNamespace(filters=HIGH_PASS))
    at = units.show(PLAYED, "frequency")
    says = [f"As the channel's filters play it, it is 3 dB down at {at}."] if missed else []
    assert _filtered_miss(result, Target(want=want, value=value), ALONE) == says


def test_a_box_no_filter_stands_before_is_played_as_it_is():
    """Nothing is said of filters that are not there."""
    result = SimpleNamespace(feed=SimpleNamespace(filters=None))
    assert _filtered_miss(result, Target(want="f3", value=10.0), ALONE) == []
