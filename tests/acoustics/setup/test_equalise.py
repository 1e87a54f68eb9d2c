"""Bands of an equaliser: against the filters of scipy, known bumps, and rooms made at random."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy import signal

from acoustics.errors import OutOfRangeError
from acoustics.setup.bands import power_average, smoothed
from acoustics.setup.equalise import LEAK, Band, BandLimits, equalise

F = np.geomspace(20.0, 16_000.0, 240)
RATE = 48_000.0
LIMITS = BandLimits(
    bands=10, boost=6.0, cut=15.0, lowest_q=0.5, highest_q=10.0, low=40.0, high=16_000.0,
    sample_rate=RATE,
)  # fmt: skip
INSIDE = (LIMITS.low <= F) & (LIMITS.high >= F)
FLAT = np.zeros(len(F))


def by_scipy(bands: list[Band] | tuple[Band, ...]) -> np.ndarray:
    """Levels of bands at F by scipy's own frequency response."""
    total = np.zeros(len(F))
    for band in bands:
        digital = band.section(RATE)
        b, a = (digital.b0, digital.b1, digital.b2), (1.0, digital.a1, digital.a2)
        _w, response = signal.freqz(b, a, worN=2 * np.pi * F / RATE)
        total += 20.0 * np.log10(np.abs(response))
    return total


def room(seed: int, seats: int = 4) -> np.ndarray:
    """A car made at random: shared modes a little shifted from seat to seat, and each its own."""
    draw = np.random.default_rng(seed)
    modes = [
        (draw.uniform(35, 300), draw.uniform(-12, 9), draw.uniform(1.5, 8)) for _mode in range(8)
    ]
    tilt = draw.uniform(-1, 1)
    rows = []
    for _seat in range(seats):
        bands = [
            Band(frequency=f * draw.uniform(0.97, 1.03), gain=g * draw.uniform(0.6, 1.2), q=q)
            for f, g, q in modes
        ]
        bands += [
            Band(
                frequency=draw.uniform(300, 12_000), gain=draw.uniform(-6, 6), q=draw.uniform(2, 8)
            )
            for _own in range(3)
        ]
        level = 80.0 + tilt * np.log2(F / 1000.0) + by_scipy(bands) + draw.normal(0, 0.7, len(F))
        rows.append(smoothed(F, level, 6))
    return np.array(rows)


def test_what_the_bands_do_is_what_their_filters_do():
    """The change drawn is that of the digital filters by scipy.signal.freqz, to 1e-6 dB."""
    found = equalise(F, room(3), -0.5 * np.log2(F / 1000.0), LIMITS)
    assert len(found.bands) >= 3
    assert found.change == pytest.approx(by_scipy(found.bands), abs=1e-6)


@pytest.mark.parametrize("gain", [5.0, -5.0])
def test_one_bump_is_taken_away_by_its_mirror(gain):
    """A band of a known frequency, gain and Q in the curve is answered by its opposite."""
    bump = by_scipy([Band(frequency=125.0, gain=gain, q=2.0)])
    found = equalise(F, (80.0 + bump)[None, :], FLAT, LIMITS)
    first = max(found.bands, key=lambda band: abs(band.gain))
    assert first.frequency == pytest.approx(125.0, rel=0.03)
    assert first.gain == pytest.approx(-gain, abs=0.6)
    assert first.q == pytest.approx(2.0, rel=0.25)
    assert found.after < 0.1 * found.before


def test_what_is_wanted_already_is_left_alone():
    """A curve of the wanted shape, however loud, gets no band."""
    wanted = 6.0 / (1.0 + (F / 100.0) ** 2) - 0.5 * np.log2(F / 1000.0)
    found = equalise(F, (wanted + 83.0)[None, :], wanted, LIMITS)
    assert found.bands == ()
    assert found.level == pytest.approx(83.0, abs=1e-6)


def test_a_null_is_never_lifted():
    """A narrow dip of 20 dB stays: no band lifts it by more than half a decibel."""
    dip = by_scipy([Band(frequency=90.0, gain=-20.0, q=8.0)])
    found = equalise(F, (80.0 + dip)[None, :], FLAT, LIMITS)
    assert np.any(found.nulls)
    assert np.max(found.change[found.nulls]) <= LEAK + 1e-9
    assert not [band for band in found.bands if band.gain > 0 and 80.0 < band.frequency < 100.0]


@pytest.mark.parametrize("seeds", [range(5), pytest.param(range(5, 205), marks=pytest.mark.long)])
def test_half_the_error_goes_and_no_seat_is_worse(seeds):
    """Rooms at random: at least half the squared error less, nothing beyond what is allowed."""
    wanted = -0.5 * np.log2(F / 1000.0)
    for seed in seeds:
        levels = room(seed)
        found = equalise(F, levels, wanted, LIMITS)
        assert found.after**2 <= 0.5 * found.before**2, seed
        assert np.max(found.change) <= LIMITS.boost + 1e-6, seed
        kept = found.nulls | ~INSIDE
        assert np.max(found.change[kept]) <= LEAK + 1e-6, seed
        level = np.mean((power_average(levels) - wanted)[INSIDE & ~found.nulls])
        before = np.mean((levels - wanted - level)[:, INSIDE] ** 2, axis=1)
        after = np.mean((levels + found.change - wanted - found.level)[:, INSIDE] ** 2, axis=1)
        assert np.all(after <= before * (1 + 1e-6)), seed
        assert len(found.bands) <= LIMITS.bands
        for band in found.bands:
            assert LIMITS.lowest_q <= band.q <= LIMITS.highest_q
            assert -LIMITS.cut <= band.gain <= LIMITS.boost
            assert LIMITS.low - 0.1 <= band.frequency <= LIMITS.high + 0.1


def test_a_processor_that_cuts_alone_is_never_told_to_lift():
    """With no lift allowed, every band cuts, and the error still falls."""
    found = equalise(F, room(5), FLAT, replace(LIMITS, boost=0.0))
    assert found.bands
    assert all(band.gain < 0 for band in found.bands)
    assert found.after < found.before


@pytest.mark.parametrize(
    "wrong",
    [
        {"bands": 0},
        {"boost": -1.0},
        {"lowest_q": 0.0},
        {"highest_q": 0.4},
        {"high": 30.0},
        {"high": 24_000.0},
    ],
)
def test_limits_between_which_nothing_lies_are_refused(wrong):
    """No band, a negative lift, a Q of nothing, ends turned round, beyond half the sample rate."""
    with pytest.raises(OutOfRangeError):
        replace(LIMITS, **wrong)


def test_too_little_to_go_by_is_refused():
    """Fewer than ten points inside the limits are no curve."""
    with pytest.raises(OutOfRangeError):
        equalise(F, room(1), FLAT, replace(LIMITS, low=1000.0, high=1100.0))
