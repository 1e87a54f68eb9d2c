"""Test signals, reckoned sample by sample so that any stretch of one can be made on its own.

Levels count as AES17 does: a sine that just reaches full scale is 0 dBFS. The level of a noise is
that of the sine with the same rms.
"""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import ClassVar, Protocol

import numpy as np

from acoustics.names import Name
from acoustics.values import Floats, require_between, require_positive

FADE = 0.02  # a tone begins and ends so slowly that nothing clicks [s]
RATES = (44_100, 48_000)
QUIETEST = -60.0  # [dBFS]
LOOP = 2**18  # samples after which a noise begins again, without a seam
LOWEST_NOISE = 10.0  # [Hz]


class Signal(Protocol):
    """Anything that can be played.

    Attributes:
        seconds: how long it is [s]
        channels: how many channels it has [-]
    """

    @property
    def seconds(self) -> float: ...
    @property
    def channels(self) -> int: ...

    def samples(self, n: Floats, rate: int) -> Floats:
        """Amplitude of the samples with these numbers, one column for each channel."""
        ...


@dataclass(frozen=True, kw_only=True)
class Tone:
    """A sine.

    Attributes:
        frequency: frequency [Hz]
        level: level [dBFS]
        seconds: how long it is [s]
        channels: how many channels it has [-]

    Raises:
        OutOfRangeError: the level is not from -60 to 0 dBFS, or a figure is not above zero.
    """

    frequency: float
    level: float
    seconds: float
    channels: ClassVar[int] = 1

    def __post_init__(self) -> None:
        """Refuse what no file can hold."""
        require_positive(Name.FREQUENCY, self.frequency, "Hz")
        require_positive(Name.DURATION, self.seconds, "s")
        require_between(Name.LEVEL, self.level, QUIETEST, 0.0, "dB")

    def samples(self, n: Floats, rate: int) -> Floats:
        """sin(2π f n/rate), with soft ends."""
        require_between(Name.FREQUENCY, self.frequency, 0.0, rate / 2.0, "Hz")
        wave = np.sin(2.0 * np.pi * self.frequency / rate * n)
        return _column(_gain(self.level) * wave * _faded(n / rate, self.seconds))


@dataclass(frozen=True, kw_only=True)
class LogSweep:
    """A sine whose frequency rises by equal intervals in equal times.

    x = sin(2π f1 L (e^(t/L) − 1)), L = T/ln(f2/f1), rounded so that f1 L is whole: then every
    harmonic of it is the sweep itself, some time earlier, phase and all.

    Attributes:
        low: frequency it begins at f1 [Hz]
        high: frequency it ends at f2 [Hz]
        wanted: how long it is to be, to within one period of f1 [s]
        level: level [dBFS]
        channels: how many channels it has [-]

    Raises:
        OutOfRangeError: the frequencies do not rise, or a figure is not above zero.

    Source: A. Farina, "Simultaneous measurement of impulse response and distortion with a
        swept-sine technique", AES 108 (2000); A. Novak, P. Lotton, L. Simon, JAES 63 (2015) 786.
    """

    low: float
    high: float
    wanted: float
    level: float
    channels: ClassVar[int] = 1

    def __post_init__(self) -> None:
        """Refuse a sweep that does not rise."""
        require_positive(Name.FREQUENCY, self.low, "Hz")
        require_between(Name.HIGHEST_FREQUENCY, self.high, 2.0 * self.low, math.inf, "Hz")
        require_positive(Name.DURATION, self.wanted, "s")
        require_between(Name.LEVEL, self.level, QUIETEST, 0.0, "dB")

    @property
    def rate_of_rise(self) -> float:
        """Time in which the frequency grows by e.

        Returns: L [s]

        Source: as the class.
        """
        octaves = math.log(self.high / self.low)
        return max(round(self.low * self.wanted / octaves), 1) / self.low

    @property
    def seconds(self) -> float:
        """How long it is.

        Returns: duration [s]

        Source: as the class.
        """
        return self.rate_of_rise * math.log(self.high / self.low)

    def at(self, frequency: float) -> float:
        """When it passes a frequency, t = L ln(f/f1).

        Args:
            frequency: frequency [Hz]

        Returns: time since its beginning [s]

        Raises:
            OutOfRangeError: the sweep does not pass it.

        Source: as the class.
        """
        require_between(Name.FREQUENCY, frequency, self.low, self.high, "Hz")
        return self.rate_of_rise * math.log(frequency / self.low)

    def samples(self, n: Floats, rate: int) -> Floats:
        """The sweep, with soft ends."""
        require_between(Name.HIGHEST_FREQUENCY, self.high, 0.0, rate / 2.0, "Hz")
        t = np.clip(n / rate, 0.0, self.seconds)
        rise = self.rate_of_rise
        wave = np.sin(2.0 * np.pi * self.low * rise * (np.exp(t / rise) - 1.0))
        return _column(_gain(self.level) * wave * _faded(n / rate, self.seconds))


@dataclass(frozen=True, kw_only=True)
class PinkNoise:
    """Noise with equal power in every octave: its density falls by 10 dB per decade.

    One loop of equal-powered lines with phases drawn once; it repeats without a seam.

    Attributes:
        level: level of the sine with the same rms [dBFS]
        seconds: how long it is [s]
        channels: how many channels it has [-]

    Raises:
        OutOfRangeError: the level is not from -60 to -14 dBFS, where no peak is cut yet.
    """

    level: float
    seconds: float
    channels: ClassVar[int] = 1

    def __post_init__(self) -> None:
        """Refuse a level whose peaks would be cut."""
        require_between(Name.LEVEL, self.level, QUIETEST, -14.0, "dB")
        require_positive(Name.DURATION, self.seconds, "s")

    def samples(self, n: Floats, rate: int) -> Floats:
        """The loop, as often as it takes, with soft ends."""
        loop = _pink_loop(rate)
        wave = loop[n.astype(int) % LOOP] * _gain(self.level) / math.sqrt(2.0)
        return _column(wave * _faded(n / rate, self.seconds))


@dataclass(frozen=True, kw_only=True)
class PolarityPulse:
    """A hump upwards and then a long shallow dip of the same area, again and again.

    A cone that is connected right moves out first; a microphone shows the hump first, upwards.

    Attributes:
        frequency: frequency whose half period the hump is [Hz]
        level: level of the hump's top [dBFS]
        seconds: how long it is [s]
        channels: how many channels it has [-]
        EVERY: from one pulse to the next [s]
        SHALLOWER: how much shallower and longer the dip is [-]

    Raises:
        OutOfRangeError: a figure is not above zero, or the level not from -60 to 0 dBFS.
    """

    frequency: float
    level: float
    seconds: float
    channels: ClassVar[int] = 1
    EVERY: ClassVar[float] = 0.5
    SHALLOWER: ClassVar[int] = 4

    def __post_init__(self) -> None:
        """Refuse a pulse that does not fit between two."""
        require_between(Name.FREQUENCY, self.frequency, 10.0, 20_000.0, "Hz")
        require_positive(Name.DURATION, self.seconds, "s")
        require_between(Name.LEVEL, self.level, QUIETEST, 0.0, "dB")

    def samples(self, n: Floats, rate: int) -> Floats:
        """Half a sine upwards, then one four times as long and a quarter as deep downwards."""
        half = 0.5 / self.frequency
        t = (n / rate) % self.EVERY
        up = np.where(t < half, np.sin(np.pi * np.clip(t / half, 0.0, 1.0)), 0.0)
        after = np.clip((t - half) / (self.SHALLOWER * half), 0.0, 1.0)
        down = np.where(t >= half, np.sin(np.pi * after), 0.0) / self.SHALLOWER
        return _column(_gain(self.level) * (up - down))


@dataclass(frozen=True, kw_only=True)
class LeftRight:
    """Which input is which: one beep left, two beeps right, three on both; again and again.

    Attributes:
        frequency: frequency of the beeps [Hz]
        level: level [dBFS]
        seconds: how long it is [s]
        channels: how many channels it has [-]
        BEEP: length of a beep, and of a step of the round [s]
        LEFT: steps at which the left beeps [-]
        RIGHT: steps at which the right beeps [-]
        ROUND: steps of a round [-]

    Raises:
        OutOfRangeError: a figure is not above zero, or the level not from -60 to 0 dBFS.
    """

    frequency: float
    level: float
    seconds: float
    channels: ClassVar[int] = 2
    BEEP: ClassVar[float] = 0.25
    LEFT: ClassVar[tuple[int, ...]] = (0, 10, 12, 14)
    RIGHT: ClassVar[tuple[int, ...]] = (4, 6, 10, 12, 14)
    ROUND: ClassVar[int] = 18

    def __post_init__(self) -> None:
        """Refuse what no file can hold."""
        require_positive(Name.FREQUENCY, self.frequency, "Hz")
        require_positive(Name.DURATION, self.seconds, "s")
        require_between(Name.LEVEL, self.level, QUIETEST, 0.0, "dB")

    def samples(self, n: Floats, rate: int) -> Floats:
        """The beeps of the left in the first column, those of the right in the second."""
        require_between(Name.FREQUENCY, self.frequency, 0.0, rate / 2.0, "Hz")
        t = n / rate
        step = np.floor(t / self.BEEP).astype(int) % self.ROUND
        inside = _faded(t % self.BEEP, self.BEEP)
        wave = _gain(self.level) * np.sin(2.0 * np.pi * self.frequency * t) * inside
        return np.stack([wave * np.isin(step, side) for side in (self.LEFT, self.RIGHT)], axis=1)


@dataclass(frozen=True, kw_only=True)
class MarkedSweep:
    """A sweep on the left; before and after it a short one on the right that marks the time.

    What is measured goes through the left input, the marks through the right one and always the
    same speaker: then the delays of several recordings may be held against each other. Two marks
    tell how fast the recorder's clock runs.

    Attributes:
        sweep: the sweep
        channels: how many channels it has [-]
        MARK_AT: when the first mark begins [s]
        SWEEP_AT: when the sweep begins [s]
        TAIL: silence behind the sweep and behind each mark, for the car to fall silent [s]
    """

    sweep: LogSweep
    channels: ClassVar[int] = 2
    MARK_AT: ClassVar[float] = 0.5
    SWEEP_AT: ClassVar[float] = 1.5
    TAIL: ClassVar[float] = 1.0

    @property
    def mark(self) -> LogSweep:
        """The mark: a third of a second from 300 Hz to 18 kHz.

        Returns: the short sweep

        Source: definition.
        """
        return LogSweep(low=300.0, high=18_000.0, wanted=0.33, level=self.sweep.level)

    @property
    def second_mark_at(self) -> float:
        """When the second mark begins.

        Returns: time since the beginning [s]

        Source: definition.
        """
        return self.SWEEP_AT + self.sweep.seconds + self.TAIL

    @property
    def seconds(self) -> float:
        """How long it is, with the silence before and behind.

        Returns: duration [s]

        Source: definition.
        """
        return self.second_mark_at + self.mark.seconds + self.TAIL

    def samples(self, n: Floats, rate: int) -> Floats:
        """The sweep in the first column, the marks in the second."""
        sweep = self.sweep.samples(n - self.SWEEP_AT * rate, rate)
        marks = [
            self.mark.samples(n - at * rate, rate) for at in (self.MARK_AT, self.second_mark_at)
        ]
        return np.concatenate([sweep, marks[0] + marks[1]], axis=1)


def _gain(level: float) -> float:
    return float(10.0 ** (level / 20.0))


def _column(wave: Floats) -> Floats:
    return wave[:, None]


def _faded(t: Floats, seconds: float) -> Floats:
    """A raised cosine at both ends, nothing outside."""
    fade = min(FADE, seconds / 4.0)
    near = np.clip(np.minimum(t, seconds - t) / fade, 0.0, 1.0)
    rise: Floats = 0.5 - 0.5 * np.cos(np.pi * near)
    return rise


@lru_cache(maxsize=len(RATES))
def _pink_loop(rate: int) -> Floats:
    """Lines of 1/√f with phases drawn once, rms 1."""
    frequency = np.fft.rfftfreq(LOOP, 1.0 / rate)
    phase = np.random.default_rng(17).uniform(0.0, 2.0 * np.pi, len(frequency))
    size = np.where(frequency >= LOWEST_NOISE, np.maximum(frequency, 1.0) ** -0.5, 0.0)
    wave: Floats = np.fft.irfft(size * np.exp(1j * phase), LOOP)
    return wave / float(np.sqrt(np.mean(wave**2)))
