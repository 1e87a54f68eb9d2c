"""Batteries against an engineering page and vehicle-maker service texts."""

import pytest

from wiring.supply.reserve import (
    NO_START_SHARE,
    key_off_time,
    peukert_time,
)

HOUR = 3600.0
DAY = 86_400.0


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
