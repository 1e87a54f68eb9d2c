"""How long a fuse takes: straight lines on double-logarithmic paper between entered points."""

import math

import pytest

from tests.refused import refused
from wiring.cable.fuse import Fuse, opening_time, usable_current, warm_rating
from wiring.errors import OutOfRangeError, UnknownDataError, WiringError

# Invented, round on double-logarithmic paper: four times the current, a sixteenth of the time.
FUSE = Fuse(kind="strip", rating=50.0, opening=((2.0, 8.0), (8.0, 0.5), (16.0, 0.25)))


@pytest.mark.parametrize(
    ("current", "seconds"),
    [
        # On that paper the point half-way is the geometric mean of both: √(2·8) = 4 times, and
        # √(8·½) = 2 s; a quarter of the way is half-way to half-way: √(2·4), √(8·2).
        (100.0, 8.0),
        (100.0 * math.sqrt(2), 4.0),
        (200.0, 2.0),
        (200.0 * math.sqrt(2), 1.0),
        (400.0, 0.5),
        # The second stretch falls less steeply: half-way is √(8·16) times and √(½·¼) s.
        (400.0 * math.sqrt(2), 0.25 * math.sqrt(2)),
        (800.0, 0.25),
    ],
)
def test_between_two_points_the_time_lies_on_the_chord(current: float, seconds: float) -> None:
    """Equal steps in the logarithm of current are equal steps in the logarithm of time."""
    assert opening_time(FUSE, current) == pytest.approx(seconds, rel=1e-12)


def test_above_the_last_point_current_squared_times_time_stays() -> None:
    """Twice the current of the last point opens in a quarter of its time."""
    assert opening_time(FUSE, 1600.0) == pytest.approx(0.25 / 4)


def test_below_the_first_point_nothing_is_promised() -> None:
    """A current just under the first point may flow for ever; at the point the time is known."""
    assert opening_time(FUSE, 99.999) == math.inf
    assert opening_time(FUSE, 100.0) == 8.0


def test_a_fuse_without_points_has_no_time() -> None:
    """Unknown is refused, and so is a current of nothing."""
    with pytest.raises(UnknownDataError):
        opening_time(Fuse(kind="strip", rating=50.0), 200.0)
    with pytest.raises(WiringError):
        opening_time(FUSE, 0.0)


@pytest.mark.parametrize(
    ("rerating", "ambient", "share"),
    [
        # By hand, I_n · (1 - k · (T - 25)); without the maker's figure 0.5 % per kelvin.
        (None, 65.0, 0.8),
        (0.002, 65.0, 0.92),
        (0.0, 150.0, 1.0),
        (0.02, 74.0, 0.02),
        (None, 25.0, 1.0),
        (None, -60.0, 1.0),
    ],
)
def test_warm_air_takes_its_share_of_a_rating(rerating, ambient: float, share: float) -> None:
    """A fuse loses its maker's share per kelvin above 25 °C and gains nothing below."""
    fuse = Fuse(kind="strip", rating=50.0, rerating=rerating)
    assert warm_rating(fuse, ambient=ambient) == pytest.approx(50.0 * share)
    assert usable_current(fuse, ambient=ambient) == pytest.approx(0.75 * 50.0 * share)


def test_air_no_fuse_works_in_is_refused() -> None:
    """Beyond -60 to 150 °C, and where nothing of the rating is left, with the bound."""
    fuse = Fuse(kind="strip", rating=50.0, rerating=0.02)
    for ambient in (-60.5, 150.5):
        with refused(OutOfRangeError, "between", "fuse-ambient", value=ambient) as caught:
            warm_rating(fuse, ambient=ambient)
        assert (caught.value.given["low"].value, caught.value.given["high"].value) == (-60, 150)
    with refused(OutOfRangeError, "below", "fuse-ambient", value=75.0, limit=25 + 1 / 0.02):
        warm_rating(fuse, ambient=75.0)
    assert warm_rating(fuse, ambient=74.999) > 0  # what it says is allowed is


def test_a_rerating_is_between_nothing_and_two_per_cent_per_kelvin() -> None:
    """What is beyond either end is refused, the ends are not."""
    for rerating in (-1e-6, 0.0201):
        with refused(OutOfRangeError, "between", "rerating", value=rerating) as caught:
            Fuse(kind="strip", rating=50.0, rerating=rerating)
        assert (caught.value.given["low"].value, caught.value.given["high"].value) == (0, 0.02)
    assert Fuse(kind="strip", rating=50.0, rerating=0.02).rerating == 0.02
