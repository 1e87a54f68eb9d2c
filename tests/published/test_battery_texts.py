"""Batteries against a battery-monitor manual and vehicle-maker service texts."""

import pytest

from wiring.supply.reserve import (
    NO_START_SHARE,
    exponent_from_reserve,
    key_off_time,
    peukert_exponent,
    peukert_time,
)

HOUR = 3600.0
DAY = 86_400.0

# Battery-monitor manual, table "Typical values for Peukert's exponent", page 26: 20-hour rating
# A·h, reserve minutes at 25 A, exponent. Left out: (105, 160) prints 1.28 and gives 1.29, and
# (43, 140) prints 1.20 and gives 0.96, which no battery has.
PAIRS = [
    (70, 130, 1.13),
    (86, 167, 1.12),
    (95, 188, 1.12),
    (85, 135, 1.23),
    (225, 447, 1.24),
    (225, 500, 1.10),
    (350, 760, 1.28),
    (180, 375, 1.14),
    (180, 388, 1.11),
    (235, 488, 1.19),
    (244, 530, 1.14),
    (250, 535, 1.17),
    (305, 660, 1.21),
    (130, 225, 1.24),
    (216, 450, 1.17),
]


@pytest.mark.parametrize(("ampere_hours", "minutes", "printed"), PAIRS)
def test_exponent_from_two_ratings(ampere_hours: float, minutes: float, printed: float) -> None:
    """The exponent follows from the 20-hour rating and the reserve minutes."""
    exponent = exponent_from_reserve(
        capacity=ampere_hours * HOUR, rated_time=20 * HOUR, reserve_capacity=minutes * 60
    )
    assert exponent == pytest.approx(printed, abs=0.006)


def test_the_base_of_the_law_is_named() -> None:
    """100 A·h at k = 1.2 gives 14.5 h at 5 A on a 1 A base and 20 h on the 20-hour base.

    Published: a public engineering page prints 14.5 h for C = I^k·t.
    """
    one_ampere = peukert_time(current=5, capacity=100 * HOUR, rated_time=100 * HOUR, exponent=1.2)
    twenty_hours = peukert_time(current=5, capacity=100 * HOUR, rated_time=20 * HOUR, exponent=1.2)
    assert one_ampere / HOUR == pytest.approx(14.5, abs=0.05)
    assert twenty_hours / HOUR == pytest.approx(20.0)


def test_key_off_days() -> None:
    """40 % of 60 A·h lasts 20.0 days at 50 mA and 33.3 at 30 mA; all of it about 50 days.

    Published: vehicle-maker bulletin (40 % used, no start) and a battery text (about 50 days).
    """
    usable = NO_START_SHARE * 60 * HOUR
    assert key_off_time(usable_capacity=usable, current=0.050) / DAY == pytest.approx(20.0)
    assert key_off_time(usable_capacity=usable, current=0.030) / DAY == pytest.approx(
        33.3, abs=0.05
    )
    assert key_off_time(usable_capacity=60 * HOUR, current=0.050) / DAY == pytest.approx(50, abs=1)


def test_exponent_ignores_the_order_of_the_discharges() -> None:
    """The two discharges may come in either order."""
    slow, fast = (3.5, 72_000.0), (25.0, 7_800.0)
    assert peukert_exponent(first=slow, second=fast) == pytest.approx(
        peukert_exponent(first=fast, second=slow)
    )
