"""Curves of one place put together, and how far a recording lies above the noise."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from jobs.design.setup.measured import (
    POINTS,
    Drawn,
    UnusableCurveError,
    _above_noise,
    _waits,
    average,
    drawn,
    read_level,
)
from jobs.models import ChannelCurve


def _drawn(first: int, last: int, level: float) -> Drawn:
    """A level curve over some of the points."""
    points = POINTS[first : last + 1]
    row = ChannelCurve(place="driver's seat")
    return Drawn(row=row, frequency=points, level=np.full(len(points), level))


def test_the_average_is_that_of_powers_where_all_curves_are():
    """80 and 86 dB: half of 1 and 3.98 times the power is 83.96 dB, by hand; ends included."""
    both = average([_drawn(0, 20, 80.0), _drawn(10, 40, 86.0)])
    assert both is not None
    points, level = both
    assert points == pytest.approx(POINTS[10:21])
    assert level == pytest.approx(np.full(11, 10 * np.log10((10**8.0 + 10**8.6) / 2)), abs=1e-9)


@pytest.mark.parametrize(("start", "some"), [(19, True), (20, False), (21, False)])
def test_curves_that_hardly_meet_have_no_average(start, some):
    """Two points in common are a curve; one, or none, is not."""
    both = average([_drawn(0, 20, 80.0), _drawn(start, 40, 86.0)])
    assert (both is not None) == some


def test_one_curve_has_no_average():
    """It is its own."""
    assert average([_drawn(0, 20, 80.0)]) is None
    assert average([]) is None


def test_above_the_noise_counts_where_it_is_loud_and_the_noise_is_known():
    """The middle one of the loud third octaves whose noise was heard; nowhere above it, none."""
    level = np.array([-10.0, -11.0, -12.0, -13.0, -80.0])
    noise = np.array([-60.0, -np.inf, -52.0, -43.0, -81.0])
    heard: Any = SimpleNamespace(level=level, noise=noise)
    # 50, 40 and 30 dB; the second is of unknown noise, the last is not loud.
    assert _above_noise(heard) == pytest.approx(40.0)
    buried: Any = SimpleNamespace(level=level, noise=level + 1.0)
    assert _above_noise(buried) is None


def test_each_waits_for_the_last_by_what_both_may_be_off():
    """The last waits for nothing, off by its own; a curve without a mark takes no part."""

    def row(channel: int, delay: float | None, within: float | None) -> ChannelCurve:
        return ChannelCurve(
            channel_id=channel, recorded=delay is not None, delay=delay, delay_within=within
        )

    first, last = row(1, 1.0e-3, 20e-6), row(2, 3.5e-3, 30e-6)
    waits = _waits([first, last, row(3, None, None)])
    assert [(wait.row, wait.wait, wait.within) for wait in waits] == [
        (first, pytest.approx(2.5e-3), pytest.approx(50e-6)),
        (last, 0.0, pytest.approx(30e-6)),
    ]
    assert _waits([first]) == []


def _text(*rows: tuple[float, float]) -> str:
    """Columns under a head."""
    return "Hz\tdB\n" + "".join(f"{f}\t{level}\n" for f, level in rows)


def test_the_first_value_that_is_no_level_is_named_by_its_line():
    """200 dB is one, 201 is not; the line is that of the text, its head counted."""
    rows = [(100.0 * (n + 1), 200.0 * (-1) ** n) for n in range(8)]
    assert list(read_level(_text(*rows))[1]) == [level for _f, level in rows]
    with pytest.raises(UnusableCurveError) as refused:
        read_level(_text(*rows, (1000.0, 201.0), (2000.0, 60.0), (4000.0, -300.0)))
    assert "line 10" in str(refused.value).lower()


def test_a_curve_is_kept_between_its_ends():
    """10 Hz and 40 kHz are kept; what lies beyond is not, and one point left is no curve."""
    beyond = [(40_001.0 + n, 60.0) for n in range(8)]
    frequency, _level = read_level(_text((9.9, 60.0), (10.0, 61.0), (40_000.0, 62.0), *beyond))
    assert list(frequency) == [10.0, 40_000.0]
    with pytest.raises(UnusableCurveError) as refused:
        read_level(_text((9.9, 60.0), (10.0, 61.0), *beyond))
    assert str(refused.value) == "The curve has nothing between 10 Hz and 40 kHz."


@pytest.mark.parametrize(
    ("low", "high", "beyond"),
    [
        (20.0, 16_000.0, False),
        (20.0, 500.0, True),
        (100.0, 16_000.0, True),
        (19.9, 15_900.0, False),
        (20.5, 16_000.0, True),
        (20.0, 15_500.0, True),
    ],
)
def test_a_calibration_that_ends_before_the_curve_is_said(low, high, beyond):
    """From 20 Hz to 16 kHz it has to reach, as far as the curve does; a hundredth is let pass."""

    def lines(start: float, end: float) -> str:
        return "\n".join(f"{frequency:.6f} 80" for frequency in np.geomspace(start, end, 8))

    row = ChannelCurve(content=lines(10.0, 20_000.0), calibration=lines(low, high))
    assert drawn(row).beyond == beyond
