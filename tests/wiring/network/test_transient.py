"""The sag on a bass note: against ngspice, against a quadrature, and against itself."""

import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from tests.refused import refused
from wiring.errors import OutOfRangeError
from wiring.network.feed import Feed
from wiring.network.transient import (
    BassNote,
    CapacitorBank,
    capacitor_benefit,
    check_transient,
    sag,
)

# Invented: feeds of a small car, a van with a long run, and one near the most it can give.
CASES = {
    "small car": (
        Feed(open_voltage=12.6, source_resistance=0.012, tail_resistance=0.001),
        BassNote(rest_power=60, power=800, duration=0.15),
        CapacitorBank(capacitance=1.0, series_resistance=0.0015),
    ),
    "long run": (
        Feed(open_voltage=14.4, source_resistance=0.028, tail_resistance=0.003),
        BassNote(rest_power=100, power=1200, duration=0.25),
        CapacitorBank(capacitance=2.0, series_resistance=0.004),
    ),
    "no series resistance": (
        Feed(open_voltage=12.2, source_resistance=0.020, tail_resistance=0.0),
        BassNote(rest_power=0, power=900, duration=0.1),
        CapacitorBank(capacitance=0.5, series_resistance=0.0),
    ),
    "near the most": (
        Feed(open_voltage=12.6, source_resistance=0.020, tail_resistance=0.002),
        BassNote(rest_power=50, power=1700, duration=0.2),
        CapacitorBank(capacitance=3.0, series_resistance=0.002),
    ),
    "past the most, carried by the bank": (
        Feed(open_voltage=12.6, source_resistance=0.020, tail_resistance=0.002),
        BassNote(rest_power=50, power=2000, duration=0.1),
        CapacitorBank(capacitance=8.0, series_resistance=0.001),
    ),
}


def _spice_voltage(
    feed: Feed, note: BassNote, bank: CapacitorBank, folder: Path
) -> tuple[np.ndarray, np.ndarray]:
    """Time and amplifier voltage of the same circuit in ngspice."""
    # ngspice has no zero resistor; a nano-ohm is four orders below the tolerance.
    esr = max(bank.series_resistance, 1e-9)
    tail = max(feed.tail_resistance, 1e-9)
    start = 0.01
    deck = f"""bass note
VE e 0 {feed.open_voltage}
RS e n {feed.source_resistance}
RT n a {tail}
RC n c {esr}
C1 c 0 {bank.capacitance}
VP p 0 PWL(0 {note.rest_power} {start} {note.rest_power}
+ {start + 1e-7} {note.power} 10 {note.power})
BL a 0 I=V(p)/V(a)
.options reltol=1e-6 abstol=1e-9 vntol=1e-9
.nodeset v(n)={feed.open_voltage} v(a)={feed.open_voltage} v(c)={feed.open_voltage}
.control
tran {note.duration / 2000} {start + note.duration} 0 {note.duration / 2000}
set wr_singlescale
wrdata {folder}/out.txt v(a)
.endc
.end
"""
    path = folder / "note.cir"
    path.write_text(deck)
    done = subprocess.run(
        ["ngspice", "-b", str(path)], capture_output=True, text=True, timeout=60, check=False
    )
    assert (folder / "out.txt").exists(), done.stdout + done.stderr
    data = np.loadtxt(folder / "out.txt")
    return data[:, 0] - start, data[:, 1]


@pytest.mark.second_method
@pytest.mark.parametrize("name", CASES)
def test_sag_agrees_with_ngspice(name: str, tmp_path: Path) -> None:
    """Lowest voltage and the whole curve lie within 10 mV of ngspice (second method)."""
    if shutil.which("ngspice") is None:
        pytest.skip("ngspice is not installed")
    feed, note, bank = CASES[name]
    ours = sag(feed, note, bank)
    assert ours.collapse_time is None
    time, voltage = _spice_voltage(feed, note, bank, tmp_path)
    during = (time > note.duration * 1e-3) & (time <= note.duration)
    curve = np.interp(time[during], ours.time, ours.voltage)
    assert np.max(np.abs(curve - voltage[during])) < 0.010
    assert ours.lowest == pytest.approx(voltage[during].min(), abs=0.010)
    assert ours.rest_voltage == pytest.approx(voltage[0], abs=0.010)


# Not the small car: it has settled before its note ends, where the integral has no end.
@pytest.mark.parametrize("name", [name for name in CASES if name != "small car"])
def test_sag_agrees_with_a_quadrature(name: str) -> None:
    """The time to the lowest bank voltage is the integral of dv over its slope.

    Second method: scipy quad on the inverse of an equation that does not know the time.
    """
    feed, note, bank = CASES[name]
    esr, tail = bank.series_resistance, feed.tail_resistance

    def slope(v: float) -> float:
        # Newton on the two node equations, not the closed root the module uses.
        w = v
        for _ in range(60):
            i = note.power / w
            u = w + tail * i
            if esr == 0.0:
                w += 0.5 * (v - tail * i - w)
            else:
                balance = (feed.open_voltage - u) / feed.source_resistance - i - (u - v) / esr
                stiff = 1 / feed.source_resistance + 1 / esr
                w += 0.5 * balance / stiff
        i = note.power / w
        return ((feed.open_voltage - (w + tail * i)) / feed.source_resistance - i) / (
            bank.capacitance
        )

    rest = note.rest_power
    ours = sag(feed, note, bank)
    start = ours.rest_voltage + tail * rest / ours.rest_voltage
    # The bank's own voltage when the amplifier sits at the lowest voltage.
    current = note.power / ours.lowest
    node = ours.lowest + tail * current
    end = node - esr * ((feed.open_voltage - node) / feed.source_resistance - current)
    time, _ = quad(lambda v: 1.0 / slope(v), start, end, limit=200)
    assert time == pytest.approx(note.duration, rel=2e-3)


def test_bank_alone_feeds_as_long_as_its_energy() -> None:
    """With hardly any feed, 1 F falls from 14.4 V to 12 V in the time its energy lasts."""
    feed = Feed(open_voltage=14.4, source_resistance=1e4, tail_resistance=0.0)
    note = BassNote(rest_power=0, power=500, duration=31.68 / 500)
    bank = CapacitorBank(capacitance=1.0, series_resistance=0.0)
    assert sag(feed, note, bank).lowest == pytest.approx(12.0, abs=1e-3)


def test_held_time_is_never_promised_too_long() -> None:
    """At the end of the held time the voltage is still at the floor, a sample later it is not."""
    feed, note, bank = CASES["long run"]
    result = sag(feed, note, bank)
    floor = (result.voltage[0] + result.lowest) / 2
    held = result.held_time(floor)
    step = result.time[1]
    assert np.interp(held, result.time, result.voltage) >= floor
    assert np.interp(held + step, result.time, result.voltage) < floor
    assert result.held_time(result.lowest) == pytest.approx(note.duration)
    assert result.held_time(result.voltage[0] + 0.1) == 0.0


def test_without_a_bank_the_voltage_steps() -> None:
    """Without a bank the amplifier sits at the upper root of w² − E·w + P·R = 0 at once."""
    feed, note, _ = CASES["long run"]
    result = sag(feed, note)
    drop = 14.4 - result.lowest
    assert result.time.shape == result.voltage.shape == (2,)
    assert drop == pytest.approx(1200 / result.lowest * 0.031)
    assert result.held_time(result.lowest) == note.duration


def test_collapse_is_told_with_the_most_power() -> None:
    """A note beyond E²/4R is a stop that states the most the feed can give."""
    feed, _, bank = CASES["near the most"]
    note = BassNote(rest_power=50, power=2500, duration=0.5)
    found = check_transient(feed=feed, note=note, bank=bank, minimum_voltage=9.0, about="A1")
    stop = next(f for f in found if f.code == "note-collapses")
    assert stop.severity == "stop"
    assert stop.limit == pytest.approx(12.6**2 / 4 / 0.022)
    assert 0 < sag(feed, note, bank).collapse_time < note.duration
    assert sag(feed, note).collapse_time == 0.0


def test_a_bank_too_empty_for_the_note_collapses_at_once() -> None:
    """By Kirchhoff, by hand: 12.6 V behind 20 mΩ beside 3 V behind 5 mΩ are 4.92 V behind 4 mΩ,
    which with 2 mΩ more give 4.92² / 4 / 6 mΩ = 1008.6 W and no more, at half of 4.92 V."""
    feed = Feed(open_voltage=12.6, source_resistance=0.020, tail_resistance=0.002)
    bank = CapacitorBank(capacitance=1.0, series_resistance=0.005)
    ends = {}
    for power in (1008.0, 1009.0):
        note = BassNote(rest_power=50, power=power, duration=0.1)
        ends[power] = sag(feed, note, bank, bank_voltage=3.0)
    assert ends[1009.0].collapse_time == 0.0
    assert ends[1009.0].voltage == pytest.approx([4.92 / 2])
    assert ends[1009.0].time == pytest.approx([0.0])
    assert ends[1008.0].collapse_time is None


def test_rest_beyond_the_feed_is_refused() -> None:
    """A rest level the feed cannot give has no start to sag from."""
    feed = CASES["small car"][0]
    note = BassNote(rest_power=4000, power=5000, duration=0.1)
    with refused(OutOfRangeError, "at-most", "rest-power", value=4000):
        sag(feed, note)


@pytest.mark.parametrize(
    ("minimum", "code"),
    [(None, "amplifier-minimum-voltage-unknown"), (12.0, "note-below-minimum-voltage")],
)
def test_minimum_voltage(minimum: float | None, code: str) -> None:
    """An unknown or broken least supply voltage is a finding."""
    feed, note, bank = CASES["small car"]
    found = check_transient(feed=feed, note=note, bank=bank, minimum_voltage=minimum, about="A1")
    assert code in {f.code for f in found}


def test_small_bank_is_told_to_buy_little() -> None:
    """A bank that settles long before the note ends is named for what it is."""
    feed, note, bank = CASES["small car"]
    found = check_transient(feed=feed, note=note, bank=bank, minimum_voltage=9.0, about="A1")
    assert {f.code for f in found} == {
        "capacitor-needs-fuse-and-slow-charge",
        "capacitor-gain-small",
    }
    benefit = capacitor_benefit(feed=feed, note=note, bank=bank, floor=12.0)
    assert benefit.gain is not None
    assert 0.0 <= benefit.gain < 0.1
    assert 0.0 < benefit.held < note.duration


@pytest.mark.parametrize(
    "broken",
    [
        lambda: Feed(open_voltage=12.6, source_resistance=0.0, tail_resistance=0.0),
        lambda: Feed(open_voltage=12.6, source_resistance=0.01, tail_resistance=-0.1),
        lambda: Feed(open_voltage=float("nan"), source_resistance=0.01, tail_resistance=0.0),
        lambda: CapacitorBank(capacitance=0.0, series_resistance=0.0),
        lambda: BassNote(rest_power=100, power=50, duration=0.1),
        lambda: BassNote(rest_power=0, power=float("inf"), duration=0.1),
        lambda: BassNote(rest_power=0, power=50, duration=0.0),
    ],
)
def test_impossible_input_is_refused(broken) -> None:
    """What cannot be raises an error of its own, never a number."""
    with pytest.raises(OutOfRangeError):
        broken()


feeds = st.builds(
    Feed,
    open_voltage=st.floats(11.0, 15.0),
    source_resistance=st.floats(0.003, 0.05),
    tail_resistance=st.floats(0.0, 0.005),
)
banks = st.builds(
    CapacitorBank,
    capacitance=st.floats(0.1, 10.0),
    series_resistance=st.floats(0.0, 0.01),
)


@settings(deadline=None, max_examples=40)
@given(feed=feeds, bank=banks, share=st.floats(0.05, 0.95), duration=st.floats(0.01, 0.5))
def test_a_bank_never_lowers_the_lowest_voltage(
    feed: Feed, bank: CapacitorBank, share: float, duration: float
) -> None:
    """Lowest voltage with a bank lies between the settled one and the rest."""
    note = BassNote(rest_power=0.0, power=share * feed.most_power, duration=duration)
    with_bank, without = sag(feed, note, bank), sag(feed, note)
    assert without.lowest - 1e-6 <= with_bank.lowest <= with_bank.rest_voltage + 1e-6
    assert np.all(np.diff(with_bank.voltage) <= 1e-6)


@settings(deadline=None, max_examples=25)
@given(feed=feeds, bank=banks, share=st.floats(0.1, 0.9))
def test_more_capacitance_never_lowers_the_lowest_voltage(
    feed: Feed, bank: CapacitorBank, share: float
) -> None:
    """Twice the capacitance holds at least as high."""
    note = BassNote(rest_power=0.0, power=share * feed.most_power, duration=0.1)
    twice = CapacitorBank(
        capacitance=2 * bank.capacitance, series_resistance=bank.series_resistance
    )
    assert sag(feed, note, twice).lowest >= sag(feed, note, bank).lowest - 1e-6
