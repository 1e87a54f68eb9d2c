"""A bass note at one amplifier: what is shown of it, against a source behind one resistance."""

from __future__ import annotations

import math

import numpy as np
import pytest

from jobs.design.wiring.bass import BEFORE, COMMON_BANK, NOTE_LENGTH, Bass
from jobs.models import PowerNode
from wiring.network.feed import Feed
from wiring.network.transient import BassNote, CapacitorBank

# Invented: 12.6 V behind 20 mΩ can give 12.6²/(4·0.02) = 1984.5 W and no more.
FEED = Feed(open_voltage=12.6, source_resistance=0.015, tail_resistance=0.005)
MOST = 12.6**2 / 0.08
BANK = CapacitorBank(capacitance=20.0, series_resistance=0.001)


def played(
    watts: float, bank: CapacitorBank | None = None, duration: float = NOTE_LENGTH, **more: object
) -> Bass:
    """A note from 50 W to so many."""
    return Bass(
        node=PowerNode(name="amplifier"),
        feed=FEED,
        note=BassNote(rest_power=50.0, power=watts, duration=duration),
        bank=bank,
        bank_node=None,
        least=more.get("least"),
    )


def at_rest(watts: float) -> float:
    """Voltage at an amplifier of constant power: the upper root of w² − E·w + P·R = 0."""
    return (12.6 + math.sqrt(12.6**2 - 4 * watts * 0.02)) / 2


def test_gain_is_the_lift_of_the_lowest_voltage():
    """A large bank holds a note up; what it lifts counts from the voltage without it."""
    note = played(1200.0, BANK)
    assert note.bare.lowest == pytest.approx(at_rest(1200.0))
    assert note.gain == pytest.approx(note.sag.lowest - at_rest(1200.0))
    assert 0.1 < note.gain < at_rest(50.0) - at_rest(1200.0)
    assert not note.collapses
    assert note.common is None
    assert note.common_gain is None


@pytest.mark.parametrize("duration", [0.001, 20.0], ids=["the bank outlasts it", "it outlasts"])
def test_no_gain_is_told_where_the_feed_collapses(duration: float):
    """More than the feed can give has no lowest voltage to compare with, whatever a bank does."""
    note = played(MOST * 1.05, BANK, duration)
    assert note.bare.collapse_time is not None
    assert note.collapses is (duration > 1)
    assert note.gain is None


def test_a_common_bank_is_offered_only_where_there_is_none():
    """Its gain counts from the tree as it stands, and is not told where the feed collapses."""
    note = played(1200.0)
    assert note.gain is None
    assert note.held is None
    assert note.sag.lowest == note.bare.lowest == pytest.approx(at_rest(1200.0))
    # At the end of the note a bank of 1 F is at rest again: 20 mΩ × 1 F is far below 0.25 s.
    assert note.common_gain == pytest.approx(0.0, abs=1e-3)
    assert COMMON_BANK.capacitance * 0.02 < NOTE_LENGTH / 10
    short = played(1200.0, duration=0.005)
    assert short.common_gain == pytest.approx(short.common.lowest - at_rest(1200.0))
    assert short.common_gain > 0.05
    assert played(MOST * 1.05, duration=0.001).common_gain is None
    assert played(MOST * 1.05, duration=20.0).common_gain is None


@pytest.mark.parametrize(
    ("bank", "held_up", "plain"), [(BANK, "bank", "bare"), (None, "common", "bare")]
)
def test_each_line_is_called_by_what_feeds_it(bank: CapacitorBank | None, held_up: str, plain: str):
    """The line without a bank drops at once to the closed form; the other one lies above it."""
    lines = played(1200.0, bank).lines()
    assert set(lines) == {held_up, plain}
    for time, volts in lines.values():
        assert time[0] == -BEFORE
        assert volts[:2] == pytest.approx([at_rest(50.0)] * 2)
        assert time[-1] == pytest.approx(NOTE_LENGTH)
    time, bare = lines[plain]
    assert bare[2:] == pytest.approx(np.full(len(bare) - 2, at_rest(1200.0)))
    upper_time, upper = lines[held_up]
    early = (upper_time > 0) & (upper_time < 0.005)
    assert early.sum() > 3
    assert (upper[early] > at_rest(1200.0) + 0.01).all()


def test_held_counts_the_time_a_bank_adds():
    """Without a bank the voltage is below at once; with one only later."""
    note = played(1200.0, BANK, least=11.3)
    assert note.held == pytest.approx(note.sag.held_time(note.least))
    assert 0.0 < note.held < NOTE_LENGTH
    assert played(1200.0, BANK).held is None
    assert played(1200.0, least=11.0).held is None
