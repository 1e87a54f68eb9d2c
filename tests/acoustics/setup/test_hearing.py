"""Weightings and times of hearing: against the table of the standard and published times."""

from __future__ import annotations

import numpy as np
import pytest

from acoustics.errors import OutOfRangeError
from acoustics.setup.hearing import a_weight, c_weight, time_a_day, time_a_week

# IEC 61672-1:2013, table 3, from memory: nominal frequency, A, C.
TABLE = [
    *((31.5, -39.4, -3.0), (63.0, -26.2, -0.8), (125.0, -16.1, -0.2), (250.0, -8.6, 0.0)),
    *((500.0, -3.2, 0.0), (1000.0, 0.0, 0.0), (2000.0, 1.2, -0.2), (4000.0, 1.0, -0.8)),
    *((8000.0, -1.1, -3.0), (16_000.0, -6.6, -8.5)),
]


@pytest.mark.parametrize(("nominal", "in_a", "in_c"), TABLE)
def test_weightings_are_those_of_the_standard(nominal, in_a, in_c):
    """At the exact frequencies of the octaves both round to the table's tenths."""
    exact = np.array([1000.0 * 10.0 ** (round(10 * np.log10(nominal / 1000.0)) / 10.0)])
    assert a_weight(exact)[0] == pytest.approx(in_a, abs=0.051)
    assert c_weight(exact)[0] == pytest.approx(in_c, abs=0.051)


@pytest.mark.parametrize(
    ("level", "minutes"), [(85, 480), (88, 240), (91, 120), (94, 60), (97, 30), (100, 15)]
)
def test_times_of_a_day(level, minutes):
    """NIOSH 98-126, table 1-1: 85 dB eight hours, every 3 dB half of it."""
    assert time_a_day(level) == pytest.approx(minutes * 60)


@pytest.mark.parametrize(("level", "hours"), [(80, 40.0), (90, 4.0), (100, 0.4)])
def test_times_of_a_week(level, hours):
    """ITU-T H.870, adults: 80 dB 40 hours a week, ten times the energy a tenth of it."""
    assert time_a_week(level) == pytest.approx(hours * 3600)


@pytest.mark.parametrize("weight", [a_weight, c_weight])
def test_no_frequency_is_refused(weight):
    """0 Hz has no weighting."""
    with pytest.raises(OutOfRangeError):
        weight(np.array([0.0]))
