"""Levels in bands, over places, and smoothed: published values and limit cases."""

import numpy as np
import pytest

from acoustics.setup.bands import THIRDS, band_levels, power_average, smoothed


def test_third_octaves_are_those_of_the_standard():
    """IEC 61260-1, base ten: 31.6228 Hz has its edges at 28.1838 and 35.4814 Hz."""
    at = THIRDS[np.abs(THIRDS - 31.5).argmin()]
    assert (at, at * 10**-0.05, at * 10**0.05) == pytest.approx((31.6228, 28.1838, 35.4814), 1e-5)


def test_a_flat_line_is_flat_in_every_band():
    """A magnitude of 2 is 6.02 dB in every third octave."""
    frequency = np.linspace(1.0, 24_000.0, 200_000)
    level = band_levels(frequency, np.full(200_000, 2.0), THIRDS)
    assert level == pytest.approx(6.0206, abs=1e-3)


def test_places_are_averaged_by_their_power():
    """80, 86 and 74 dB are 82.416 dB on average, not 80."""
    # 10 log mean 10^(L/10), reckoned by hand.
    assert power_average(np.array([[80.0], [86.0], [74.0]])) == pytest.approx(82.416, abs=1e-3)


@pytest.mark.parametrize(("fraction", "high"), [(3, 0.60), (6, 0.15), (12, 0.04)])
def test_smoothing_lifts_a_slope_by_what_is_said(fraction, high):
    """On 24 dB per octave thirds lie 0.60 dB high, sixths 0.15, twelfths 0.04."""
    # Integral of 10^(2.4 x) over 1/n octave, reckoned apart.
    frequency = np.geomspace(20.0, 20_000.0, 2000)
    slope = 24.0 * np.log2(frequency / 1000.0)
    off = (smoothed(frequency, slope, fraction) - slope)[700:1300]
    assert off == pytest.approx(high, abs=0.03)


def test_smoothing_leaves_a_flat_line_alone():
    """Up to its ends."""
    frequency = np.geomspace(20.0, 20_000.0, 500)
    assert smoothed(frequency, np.full(500, 70.0), 6) == pytest.approx(70.0, abs=0.02)


@pytest.mark.parametrize("order", [1, -1])
def test_what_lies_far_below_the_rest_stays_a_number(order):
    """Seven octaves of 48 dB: the deep end of a filter on paper is no infinity and no higher."""
    f = np.geomspace(20.0, 20_000.0, 400)
    level = -48.0 * np.abs(np.log2(f / f[0 if order > 0 else -1]))
    off = smoothed(f, level, 12) - level
    assert np.isfinite(off).all()
    assert off[5:-5].min() > -1e-3
    assert off[5:-5].max() < 0.5


def test_a_deep_hole_between_two_bands_stays_one():
    """300 dB deep on paper, it is no infinity: what lies beside it leaves it as it is."""
    f = np.geomspace(20.0, 20_000.0, 400)
    level = np.where((f > 200.0) & (f < 2000.0), -300.0, 0.0)
    off = smoothed(f, level, 12)
    assert off[(f > 250.0) & (f < 1600.0)] == pytest.approx(-300.0)
    assert off[(f < 150.0) | (f > 2600.0)] == pytest.approx(0.0, abs=1e-9)
