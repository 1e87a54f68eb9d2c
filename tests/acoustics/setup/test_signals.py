"""Test signals as WAV files, read back by the standard library."""

from __future__ import annotations

import io
import wave

import numpy as np
import pytest
import soundfile
from scipy import signal as second

from acoustics.errors import OutOfRangeError
from acoustics.setup.signals import (
    LeftRight,
    LogSweep,
    MarkedSweep,
    PinkNoise,
    PolarityPulse,
    Tone,
)
from acoustics.setup.wav import flac, wav, wav_length

FORMATS = [(rate, bits) for rate in (44_100, 48_000) for bits in (16, 24)]


def read(played, rate: int, bits: int) -> np.ndarray:
    """What the standard library reads out of the file, as parts of full scale."""
    content = b"".join(wav(played, rate=rate, bits=bits))
    assert len(content) == wav_length(played, rate=rate, bits=bits)
    with wave.open(io.BytesIO(content)) as file:
        assert (file.getframerate(), file.getsampwidth()) == (rate, bits // 8)
        assert file.getnchannels() == played.channels
        raw = np.frombuffer(file.readframes(file.getnframes()), np.uint8)
    frames = raw.reshape(-1, bits // 8).astype(np.int64)
    whole = sum(frames[:, k] << (8 * k) for k in range(bits // 8))
    whole = np.where(whole >= 2 ** (bits - 1), whole - 2**bits, whole)
    return whole.reshape(-1, played.channels) / (2 ** (bits - 1) - 1)


def level(samples: np.ndarray) -> float:
    """Level by the rms, a full-scale sine counting as 0 dB."""
    return float(10 * np.log10(2 * np.mean(samples**2)))


@pytest.mark.parametrize(("rate", "bits"), FORMATS)
@pytest.mark.parametrize(("frequency", "dbfs"), [(40.0, -12.0), (1000.0, 0.0), (6300.0, -30.0)])
def test_a_tone_has_its_level_and_its_frequency(rate, bits, frequency, dbfs):
    """Within 0.01 dB, in every format, at its frequency and nowhere else."""
    samples = read(Tone(frequency=frequency, level=dbfs, seconds=3.0), rate, bits)[:, 0]
    middle = samples[rate : 2 * rate]  # whole periods: one second
    assert level(middle) == pytest.approx(dbfs, abs=0.01)
    spectrum = np.abs(np.fft.rfft(middle))
    assert int(spectrum.argmax()) == round(frequency)
    assert abs(samples[0]) < 1e-4
    assert np.abs(np.diff(samples[: rate // 500])).max() < 0.2 * 10 ** (dbfs / 20)


@pytest.mark.parametrize("rate", [44_100, 48_000])
def test_pink_noise_falls_by_ten_decibels_a_decade(rate):
    """Between 20 Hz and 20 kHz the density falls by 10 dB per decade within half a decibel."""
    # Second method: Welch's estimate by scipy.signal.
    samples = read(PinkNoise(level=-20.0, seconds=30.0), rate, 24)[:, 0]
    assert level(samples[rate:-rate]) == pytest.approx(-20.0, abs=0.1)
    frequency, density = second.welch(samples, rate, nperseg=2**16)
    inside = (frequency >= 20.0) & (frequency <= 20_000.0)
    decades = np.log10(frequency[inside])
    # Each octave counts alike, not each line.
    weights = np.sqrt(1.0 / frequency[inside])
    slope, _ = np.polyfit(decades, 10 * np.log10(density[inside]), 1, w=weights)
    assert slope == pytest.approx(-10.0, abs=0.5)
    thirds = 1000.0 * 10 ** (np.arange(-16, 13) / 10.0)
    power = [
        density[(frequency >= f * 10**-0.05) & (frequency < f * 10**0.05)].mean() * f
        for f in thirds
    ]
    assert 10 * np.log10(max(power) / min(power)) < 1.0


def test_pink_noise_is_never_cut_and_begins_anew_without_a_seam():
    """Its highest peak stays below full scale at the loudest level there is."""
    samples = read(PinkNoise(level=-14.0, seconds=12.0), 48_000, 16)[:, 0]
    assert np.abs(samples).max() < 0.99
    steps = np.abs(np.diff(samples))
    assert steps[2**18 - 2 : 2**18 + 1].max() < steps.max()
    with pytest.raises(OutOfRangeError):
        PinkNoise(level=-6.0, seconds=1.0)


def test_a_sweep_passes_each_frequency_when_its_table_says():
    """Counted by its zero crossings, the slow sweep is at 63 Hz when the table says so."""
    sweep = LogSweep(low=20.0, high=500.0, wanted=60.0, level=-20.0)
    assert sweep.seconds == pytest.approx(60.0, abs=0.2)
    samples = read(sweep, 48_000, 24)[:, 0]
    for frequency in (31.5, 63.0, 125.0, 250.0):
        at = sweep.at(frequency)
        around = samples[int((at - 0.25) * 48_000) : int((at + 0.25) * 48_000)]
        crossings = np.count_nonzero(np.diff(np.signbit(around)))
        assert crossings / 2 / 0.5 == pytest.approx(frequency, rel=0.05)
    with pytest.raises(OutOfRangeError):
        sweep.at(600.0)


def test_the_measuring_sweep_is_as_its_makers_say():
    """20 Hz to 20 kHz in 10 s: L is 1.45 s, harmonics lie L ln n earlier, f1 L is whole."""
    # Farina 2000; L = T/ln(f2/f1) = 1.447648 s before it is rounded.
    sweep = LogSweep(low=20.0, high=20_000.0, wanted=10.0, level=-12.0)
    assert sweep.rate_of_rise == pytest.approx(1.447648, abs=0.5 / 20.0)
    assert sweep.rate_of_rise * 20.0 == pytest.approx(round(sweep.rate_of_rise * 20.0))
    assert level(read(sweep, 48_000, 24)[48_000:-48_000, 0]) == pytest.approx(-12.0, abs=0.05)


def test_a_polarity_pulse_goes_up_first_and_has_no_mean():
    """The hump is upwards and before the dip, half a second apart; both have one area."""
    samples = read(PolarityPulse(frequency=125.0, level=-12.0, seconds=2.0), 48_000, 24)[:, 0]
    first = samples[:24_000]
    assert first.max() == pytest.approx(10 ** (-12 / 20), rel=1e-3)
    assert first.argmax() < first.argmin()
    assert abs(first.mean()) < 1e-5
    assert samples[24_000 : 24_000 + 192].max() == pytest.approx(first.max())


def test_the_beeps_say_which_side_is_which():
    """One beep on the left, two on the right, three on both."""
    played = LeftRight(frequency=500.0, level=-20.0, seconds=LeftRight.ROUND * LeftRight.BEEP)
    samples = read(played, 44_100, 16)
    beeps = np.abs(samples[: LeftRight.ROUND * 11_025].reshape(LeftRight.ROUND, 11_025, 2))
    heard = beeps.max(axis=1) > 0.01
    left, right = heard[:, 0], heard[:, 1]
    assert (np.sum(left & ~right), np.sum(right & ~left), np.sum(left & right)) == (1, 2, 3)
    beep = samples[: LeftRight.ROUND * 11_025, 0].reshape(LeftRight.ROUND, 11_025)[left][0]
    assert int(np.abs(np.fft.rfft(beep)).argmax()) == 500 // 4  # a quarter of a second


def test_the_mark_comes_first_and_on_the_other_side():
    """A mark on the right, the sweep on the left, and a mark once more when it is silent."""
    marked = MarkedSweep(sweep=LogSweep(low=20.0, high=20_000.0, wanted=2.0, level=-12.0))
    samples = read(marked, 48_000, 16)
    begin = [int(np.flatnonzero(np.abs(samples[:, k]) > 0.02)[0]) / 48_000 for k in (1, 0)]
    assert begin == pytest.approx([0.5, 1.5], abs=0.03)
    between = slice(48_000, int((marked.second_mark_at - 0.01) * 48_000))
    assert np.abs(samples[between, 1]).max() == 0.0
    assert np.abs(samples[between.stop :, 1]).max() > 0.1
    assert np.abs(samples[between.stop :, 0]).max() == 0.0


@pytest.mark.parametrize(
    ("rate", "bits"), [(96_000, 16), (8000, 16), (48_000, 8), (48_000, 32), (0, 16)]
)
def test_other_formats_are_refused(rate, bits):
    """Only 44.1 and 48 kHz, 16 and 24 bit are written."""
    with pytest.raises(OutOfRangeError):
        wav(Tone(frequency=100.0, level=-12.0, seconds=1.0), rate=rate, bits=bits)


@pytest.mark.parametrize(("rate", "bits"), FORMATS)
def test_packed_without_loss_it_is_the_same(rate, bits):
    """Sample by sample what the WAV file holds, with rate and width of its first block.

    Source: RFC 9639, 8.2: of the streaminfo, 20 bits of rate, 3 of channels, 5 of width, each of
    these two less one; libsndfile reads it back
    """
    played = LeftRight(frequency=1000.0, level=-20.0, seconds=2.3)
    content = flac(played, rate=rate, bits=bits)
    head = int.from_bytes(content[18:26], "big")
    assert content[:4] == b"fLaC"
    assert (head >> 44, head >> 41 & 7, head >> 36 & 31) == (rate, 1, bits - 1)
    assert head & 2**36 - 1 == round(2.3 * rate)
    back, _rate = soundfile.read(io.BytesIO(content), dtype="int32", always_2d=True)
    assert np.array_equal(
        back >> (32 - bits), np.rint(read(played, rate, bits) * (2 ** (bits - 1) - 1))
    )
