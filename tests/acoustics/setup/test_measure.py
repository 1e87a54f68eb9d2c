"""Simulated cars measured: level, delay, polarity and clock, and recordings that tell nothing."""

from __future__ import annotations

import numpy as np
import pytest

from acoustics.errors import RecordingError
from acoustics.setup.measure import measure
from acoustics.setup.wav import read_wav, wav
from tests.acoustics.setup.cars import KINDS, PLAYED, RATE, Car, car

# Recorded 40 dB above noise, clocks 50 ppm apart.
EACH = 1
EACH_LONG = 100


def held(simulated: Car) -> bool | None:
    """Hold what was measured against what is true; returns whether the polarity was told right."""
    found = measure(simulated.recording, RATE, PLAYED)
    shown = simulated.level > simulated.level.max() - 20.0
    shown &= (found.thirds > 25.0) & (found.thirds < 16_000.0)
    assert np.abs(found.level - simulated.level)[shown].max() < 0.2
    if found.delay is not None:
        assert abs(found.delay - simulated.delay) < found.delay_within
    assert (found.delay is None) == (found.inverted is None)
    assert found.clock == pytest.approx(simulated.clock, abs=1e-7)
    return None if found.inverted is None else found.inverted == simulated.inverted


def counted(each: int, seed: int) -> list[bool | None]:
    """Measure so many cars of each kind."""
    rng = np.random.default_rng(seed)
    return [held(car(rng, kind)) for kind in KINDS for _ in range(each)]


def test_a_few_cars_are_measured_as_they_are():
    """Third octaves within 0.2 dB, delays within what is stated, no polarity told wrong."""
    assert False not in counted(EACH, 3)


@pytest.mark.long
def test_five_hundred_cars_are_measured_as_they_are():
    """As above; a polarity is left open in at most one of ten."""
    told = counted(EACH_LONG, 11)
    assert len(told) == 500
    assert told.count(False) == 0
    assert told.count(None) <= 50


@pytest.mark.parametrize("kind", ["full", "tweeter"])
def test_a_delay_up_to_the_treble_is_known_to_twenty_microseconds(kind):
    """What plays above 10 kHz is told within 20 µs."""
    found = measure(car(np.random.default_rng(5), kind).recording, RATE, PLAYED)
    assert found.delay_within == pytest.approx(20e-6)


def test_delays_of_two_takes_may_be_compared():
    """The same channel moved by a millisecond is a millisecond later, whichever clock recorded."""
    here = measure(car(np.random.default_rng(8), "tweeter").recording, RATE, PLAYED)
    again = car(np.random.default_rng(8), "tweeter", clock=20e-6)
    moved = np.concatenate([np.zeros(480), again.recording])
    there = measure(moved, RATE, PLAYED)
    # The whole recording later is nothing: the mark is later too.
    assert there.delay == pytest.approx(here.delay, abs=5e-6)


def test_a_file_carries_a_recording():
    """Written as WAV and read again, the louder of two channels, it says the same."""
    simulated = car(np.random.default_rng(2), "mid")

    class Kept:
        seconds, channels = len(simulated.recording) / RATE, 2

        def samples(self, n, rate):
            loud = simulated.recording[n.astype(int)]
            return np.stack([0.01 * loud, loud], axis=1)

    samples, rate = read_wav(b"".join(wav(Kept(), rate=RATE, bits=24)))
    assert rate == RATE
    assert samples == pytest.approx(simulated.recording, abs=2e-7)


def _whole() -> np.ndarray:
    return car(np.random.default_rng(4), "tweeter").recording


BAD = {
    "recording-silent": lambda: 1e-6 * _whole(),
    "recording-clipped": lambda: np.clip(40.0 * _whole(), -1.0, 1.0),
    "recording-short": lambda: _whole()[: 3 * RATE],
    "marks-not-found": lambda: np.random.default_rng(1).standard_normal(8 * RATE) * 0.05,
}


@pytest.mark.parametrize("code", BAD)
def test_a_recording_that_tells_nothing_says_why(code):
    """Silence, clipping, an early end and noise alone each have an answer of their own."""
    with pytest.raises(RecordingError) as refused:
        measure(BAD[code](), RATE, PLAYED)
    assert refused.value.code == code


def test_a_recording_at_another_rate_than_its_file_says_is_not_measured():
    """Played back as if it were 44.1 kHz the marks are found at 48 kHz, and that is said."""
    with pytest.raises(RecordingError) as refused:
        measure(np.concatenate([_whole(), np.zeros(2 * RATE)]), 44_100, PLAYED)
    assert refused.value.code == "recording-other-rate"


def test_samples_that_were_lost_on_the_way_are_told():
    """A hole of two milliseconds between the marks would be taken for a clock and a delay."""
    whole = _whole()
    with pytest.raises(RecordingError) as refused:
        measure(np.concatenate([whole[: 3 * RATE], whole[3 * RATE + 300 :]]), RATE, PLAYED)
    assert refused.value.code == "recording-lost-samples"


@pytest.mark.parametrize(
    "content", [b"", b"RIFF", b"words and more words", b"RIFF\x00\x00\x00\x00WAVE"]
)
def test_what_is_no_wav_file_is_refused(content):
    """An empty file, a torn one and words."""
    with pytest.raises(RecordingError) as refused:
        read_wav(content)
    assert refused.value.code == "recording-not-wav"
