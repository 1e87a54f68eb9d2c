"""A cabin is a bound or a measured curve, and a text that is neither says which line and why."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobs.design.box.cabin import UnreadableCurveError, cabin_of, read_transfer
from jobs.design.box.figures import FREQUENCIES
from jobs.models import CabinCurve, Vehicle

# Invented: a gain that falls, from 16 to 400 Hz.
POINTS = [(16.0, 16.5), (20.0, 15.0), (25.0, 13.5), (31.5, 11.5), (40.0, 8.5), (50.0, 5.5)]
POINTS += [(63.0, 3.0), (80.0, -1.5), (125.0, -3.0), (250.0, 1.0), (400.0, 0.5)]


def text(points=POINTS, join="\t") -> str:
    return "\n".join(join.join(map(str, point)) for point in points)


def trouble(content: str) -> str:
    with pytest.raises(UnreadableCurveError) as caught:
        read_transfer(content)
    return str(caught.value)


def test_a_curve_is_read_as_it_was_written():
    """Points, tabs, semicolons, decimal commas and a phase come out as the same numbers."""
    comma = text(join=";").replace(".", ",")
    for content in (text(), text(join="  "), comma, "Hz\tdB\n" + text()):
        assert read_transfer(content).level.tolist() == [gain for _f, gain in POINTS]
    with_phase = read_transfer(text([(*point, -90.0) for point in POINTS]))
    assert with_phase.phase.tolist() == [-90.0] * len(POINTS)


def test_a_heading_in_kilohertz_is_taken_at_its_word():
    """A file in kHz with a heading that says so is read in hertz."""
    content = "kHz\tdB\n" + text([(f / 1000, gain) for f, gain in POINTS])
    assert read_transfer(content).frequency == pytest.approx([f for f, _gain in POINTS])


@pytest.mark.parametrize(
    ("content", "line", "reason"),
    [
        (text([(gain, f) for f, gain in POINTS]), "Line 2, “15.0\t20.0”", "Frequency must be"),
        (
            text([(40 - n, 10.0 * n + 20) for n in range(20)]),
            "Line 6, “35\t70.0”",
            "frequency first",
        ),
        (text([(f / 1000, gain) for f, gain in POINTS]), "Line 11", "kHz"),
        (text(join=",").replace(".", ","), "Line 1", "commas"),
        ("", "fewer than 8 lines", "numbers"),
        ("Hz\tdB\n", "fewer than 8 lines", "numbers"),
        (text(POINTS[:3]), "fewer than 8 lines", "numbers"),
        (text() + "\n500\tloud", "Line 12, “500\tloud”", "not a number"),
        (text() + "\n500\t1\t2\t3", "Line 12", "two or three columns"),
        (text() + "\n90\t1", "Line 12, “90\t1”", "go one way"),
        ("GIF89a\x00\x01\x02", "Line 1", "no text file"),
        (text([(f, gain + 80) for f, gain in POINTS]), "Line 1", "more than 60 dB"),
        ("\n".join(f"{n + 600}\t1" for n in range(20)), "10 and 500 Hz", "nothing"),
    ],
    ids=lambda value: str(value)[:20].replace("\n", "·").replace("\x00", "0"),
)
def test_a_text_that_is_no_curve_names_line_and_reason(content, line, reason):
    """Swapped, in kHz, ambiguous, empty, binary, of odd columns: each has its own sentence."""
    said = trouble(content)
    assert line in said
    assert reason in said


def test_ten_megabytes_are_refused_with_their_size():
    """A text of ten megabytes is refused by its size, before anybody reads its lines."""
    said = trouble("20.0\t1.0\n" * 1_200_000)
    assert "MB" in said
    assert "at most" in said


@given(st.binary(max_size=300))
@settings(deadline=None, max_examples=150)
def test_whatever_is_sent_is_read_or_refused(content):
    """No bytes end in anything but a finite curve or a sentence."""
    try:
        curve = read_transfer(content.decode("latin-1"))
    except UnreadableCurveError as error:
        said = str(error)
    else:
        said = "a curve" if np.isfinite(curve.level).all() else ""
    assert said


@given(
    volume=st.floats(1.0, 15.0, allow_nan=False),
    length=st.floats(1.0, 6.0, allow_nan=False),
)
@settings(deadline=None, max_examples=60)
def test_the_bound_only_adds_falls_and_ends_at_the_first_standing_wave(volume, length):
    """It is never below the half space, never rises with frequency, and ends at c/2L."""
    cabin = cabin_of(Vehicle(cabin_volume=volume, cabin_length=length), [])
    assert (cabin.gain >= 0).all()
    assert (np.diff(cabin.gain) <= 1e-9).all()
    # c = 343.2 m/s at 20 °C; Morse & Ingard, Theoretical Acoustics (1968), § 9.5.
    assert cabin.frequencies[-1] == pytest.approx(343.2 / (2 * length))
    at_20 = np.interp(20.0, cabin.frequencies, cabin.gain)
    # Second method: uniform pressure rho c² dV/V over that of a simple source in a half space,
    # rho w² dV/(2 pi r) at 1 m, for any dV.
    w, c = 2 * math.pi * 20.0, 343.2
    ratio = (c**2 / volume) / (w**2 / (2 * math.pi))
    assert at_20 == pytest.approx(max(20 * math.log10(ratio), 0.0), abs=0.02)


def test_a_measured_curve_takes_the_place_of_the_bound():
    """With a curve the car's volume no longer counts, and nothing is said where nobody measured."""
    car = Vehicle(cabin_volume=3.2, cabin_length=2.6)
    cabin = cabin_of(car, [CabinCurve(content=text()), CabinCurve(content="broken")])
    assert cabin.bound is None
    assert (cabin.frequencies[0] >= 16.0, cabin.frequencies[-1] <= 400.0) == (True, True)
    flat = cabin.level(np.full(FREQUENCIES.size, 90.0))
    assert np.interp(31.5, cabin.frequencies, flat) == pytest.approx(101.5, abs=0.05)


def test_what_is_not_known_of_a_cabin_is_named():
    """Without volume or length there is no bound, and the missing one is named."""
    assert "cabin length" in cabin_of(Vehicle(cabin_volume=3.0), []).trouble
    nothing = cabin_of(Vehicle(), [])
    assert "cabin air volume, cabin length" in nothing.trouble
    assert not nothing.is_known
    assert cabin_of(Vehicle(), [CabinCurve(content="spoilt")]).trouble
