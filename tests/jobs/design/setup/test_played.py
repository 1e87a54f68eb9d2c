"""The test signals of a job: where the table of the rattle sweep is read."""

from __future__ import annotations

import pytest

from jobs.design.setup.played import RATTLE, TABLE_AT


def test_the_table_is_read_at_the_third_octaves_of_the_sweep():
    """Nominal mid-band frequencies lie within 1 % of 1000 · 10^(n/10) Hz.

    IEC 61260-1:2014, 5.3 and annex E (base ten, nominal frequencies); from memory.
    """
    exact = [1000.0 * 10 ** (n / 10) for n in range(-17, -3)]
    assert list(TABLE_AT) == pytest.approx(exact, rel=0.01)
    assert (TABLE_AT[0], TABLE_AT[-1]) == (RATTLE.low, RATTLE.high)
    assert all(float(f"{f:.3g}") == f for f in TABLE_AT)
