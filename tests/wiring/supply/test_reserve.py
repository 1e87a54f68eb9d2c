"""Reserve time and key-off drain."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wiring.errors import OutOfRangeError
from wiring.supply.reserve import (
    NO_START_SHARE,
    Battery,
    check_key_off,
    check_reserve,
    key_off_time,
    peukert_time,
)

HOUR = 3600.0


def battery(
    capacity: float = 70 * HOUR, peukert: float = 1.2, usable_share: float = 0.4
) -> Battery:
    """An invented battery."""
    return Battery(
        capacity=capacity, rated_time=20 * HOUR, peukert=peukert, usable_share=usable_share
    )


def test_rated_current_lasts_the_rated_time() -> None:
    """C/H lasts H, whatever the exponent (definition)."""
    assert battery(usable_share=1.0).reserve_time(3.5) == pytest.approx(20 * HOUR)


def test_small_current_gets_no_more_than_the_capacity() -> None:
    """Below the rated current the law would promise more than the rating; it is not believed."""
    assert battery(usable_share=1.0).reserve_time(0.35) == pytest.approx(200 * HOUR)


@settings(deadline=None, max_examples=100)
@given(
    capacity=st.floats(20 * HOUR, 300 * HOUR),
    k=st.floats(1.0, 1.6),
    low=st.floats(0.1, 200),
    high=st.floats(0.1, 200),
)
def test_more_current_never_lasts_longer(
    capacity: float, k: float, low: float, high: float
) -> None:
    """Reserve time falls with the current and the charge given never exceeds the rating."""
    low, high = sorted((low, high))
    one = battery(capacity=capacity, peukert=k, usable_share=1.0)
    assert one.reserve_time(high) <= one.reserve_time(low) * (1 + 1e-9)
    assert one.reserve_time(high) * high <= capacity * (1 + 1e-9)


@pytest.mark.parametrize(
    ("added", "total", "codes"),
    [
        (0.010, 0.050, []),
        (0.0101, 0.050, ["key-off-added-high"]),
        (0.010, 0.0501, ["key-off-total-high"]),
        (None, 0.030, ["key-off-added-unknown"]),
        (0.0, None, ["key-off-total-unknown"]),
        (None, None, ["key-off-added-unknown", "key-off-total-unknown"]),
    ],
)
def test_key_off_limits(added: float | None, total: float | None, codes: list[str]) -> None:
    """10 mA added and 50 mA in all pass; more, or an unknown, is a finding."""
    assert [f.code for f in check_key_off(added=added, total=total)] == codes


@pytest.mark.parametrize(
    ("one", "wanted", "codes"),
    [
        (None, None, ["reserve-unknown"]),
        (battery(), None, []),
        (battery(), 600.0, []),
        (battery(), 24 * HOUR, ["reserve-short"]),
    ],
)
def test_reserve_against_the_wish(
    one: Battery | None, wanted: float | None, codes: list[str]
) -> None:
    """A wish that the battery cannot meet, or a battery nobody knows, is a finding."""
    assert [f.code for f in check_reserve(battery=one, current=10.0, wanted=wanted)] == codes


@pytest.mark.parametrize(
    "broken",
    [
        lambda: battery(capacity=0.0),
        lambda: battery(peukert=0.9),
        lambda: battery(peukert=2.0),
        lambda: battery(usable_share=0.0),
        lambda: battery(usable_share=1.1),
        lambda: battery().reserve_time(0.0),
        lambda: peukert_time(current=1.0, capacity=1.0, rated_time=1.0, exponent=0.5),
        lambda: key_off_time(usable_capacity=0.0, current=0.05),
        lambda: key_off_time(usable_capacity=1.0, current=0.0),
        lambda: check_key_off(added=-0.01, total=0.02),
        lambda: check_key_off(added=0.05, total=0.02),
        lambda: check_reserve(battery=None, current=0.0, wanted=None),
    ],
)
def test_impossible_input_is_refused(broken) -> None:
    """What cannot be raises an error of its own, never a number."""
    with pytest.raises(OutOfRangeError):
        broken()


def test_the_base_of_the_law_is_named() -> None:
    """100 A·h at k = 1.2 gives 100/5^1.2 = 14.5 h at 5 A on a base of 1 A, 20 h on 20 hours.

    Peukert's law in both its forms: C = I^k·t, and t = H·(C/(I·H))^k.
    """
    one_ampere = peukert_time(current=5, capacity=100 * HOUR, rated_time=100 * HOUR, exponent=1.2)
    twenty_hours = peukert_time(current=5, capacity=100 * HOUR, rated_time=20 * HOUR, exponent=1.2)
    assert one_ampere / HOUR == pytest.approx(100 / 5**1.2)
    assert twenty_hours / HOUR == pytest.approx(20.0)


def test_key_off_days() -> None:
    """40 % of 60 A·h, common practice, no source, lasts 24 A·h/50 mA = 20 days; all of it 50."""
    usable = NO_START_SHARE * 60 * HOUR
    assert key_off_time(usable_capacity=usable, current=0.050) / HOUR == pytest.approx(20 * 24)
    assert key_off_time(usable_capacity=usable, current=0.030) / HOUR == pytest.approx(24 / 0.03)
    assert key_off_time(usable_capacity=60 * HOUR, current=0.050) / HOUR == pytest.approx(50 * 24)
