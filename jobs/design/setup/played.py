"""The test signals of a job: what each is for, how loud, how long, and what to beware of."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

import numpy as np
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from acoustics.setup.signals import (
    RATES,
    LeftRight,
    LogSweep,
    MarkedSweep,
    PinkNoise,
    PolarityPulse,
    Signal,
    Tone,
)
from acoustics.setup.start import TEST_LEVEL, tone_frequency
from acoustics.setup.wav import BITS, flac, wav, wav_length
from acoustics.values import Floats
from jobs.models import Channel

__all__ = ["BITS", "KINDS", "RATES", "Played", "rattle_table", "signal_named", "signals"]

KINDS = ("wav", "flac")
MEASURING = LogSweep(low=10.0, high=20_000.0, wanted=10.0, level=-15.0)
# What a recording is worked out against.
MARKED = MarkedSweep(sweep=MEASURING)
RATTLE = LogSweep(low=20.0, high=400.0, wanted=120.0, level=-12.0)
TABLE_AT = (
    20.0,
    25.0,
    31.5,
    40.0,
    50.0,
    63.0,
    80.0,
    100.0,
    125.0,
    160.0,
    200.0,
    250.0,
    315.0,
    400.0,
)


@dataclass(frozen=True, kw_only=True)
class InTheSeat:
    """The marked sweep as a microphone hears it from a tweeter of an invented car.

    It arrives 0.6 ms after the mark, turned round, with two echoes, noise, and a recorder whose
    clock is 30 ppm slow.
    """

    seconds: float = MARKED.seconds + 0.3
    channels: ClassVar[int] = 1
    ARRIVALS: ClassVar = ((1.0e-3, 1, 0.25), (1.6e-3, 0, -0.3), (4.9e-3, 0, -0.06), (7e-3, 0, 0.05))
    BRIGHT: ClassVar = 60e-6  # a dipole so far apart has no bass [s]

    def samples(self, n: Floats, rate: int) -> Floats:
        """Amplitude of the samples with these numbers."""
        heard = 2e-4 * np.random.default_rng(int(n[0])).standard_normal(len(n))
        for late, column, share in self.ARRIVALS:
            for more, sign in ((0.0, 1.0), (self.BRIGHT, -1.0)):
                then = n * (1.0 + 30e-6) - (late + more) * rate
                heard += share * sign * np.where(then >= 0.0, self._played(then, rate, column), 0.0)
        return heard[:, None]

    @staticmethod
    def _played(n: Floats, rate: int, column: int) -> Floats:
        amplitude: Floats = MARKED.samples(np.maximum(n, 0.0), rate)[:, column]
        return amplitude


@dataclass(frozen=True, kw_only=True)
class Played:
    """One file: what is in it, what it is for, and what to beware of."""

    slug: str
    title: Promise
    use: Promise
    beware: Promise
    signal: Signal
    level: float
    # Of a signal that is made for one channel.
    channel: Channel | None = None

    def name(self, rate: int, bits: int, kind: str) -> str:
        """What the file is called."""
        which = f"-{self.channel.pk}" if self.channel else ""
        return f"{self.slug}{which}-{rate}-{bits}.{kind}"

    def length(self, rate: int, bits: int) -> int:
        """How many bytes it has."""
        return wav_length(self.signal, rate=rate, bits=bits)

    def pieces(self, rate: int, bits: int) -> Iterator[bytes]:
        """The WAV file, a second at a time."""
        return wav(self.signal, rate=rate, bits=bits)

    def packed(self, rate: int, bits: int) -> bytes:
        """The FLAC file, whole: what stands in its header is known at its end."""
        return flac(self.signal, rate=rate, bits=bits)


_EARS = _("Start turned down. Ear protection where it has to be loud.")
_UNPLUGGED = _("Speakers unplugged while a gain is set: a steady tone heats a coil.")


def signals(channels: list[Channel], *, to_try: bool = False) -> list[Played]:
    """Return what a job plays: what is the same for all first, then a tone and a pulse for each.

    To try the file way of measuring there is a recording nobody made.
    """
    shared = [_rattle(), _pink(), _left_right(), _sweep(), _marked(), *([_recording()] * to_try)]
    return [*shared, *(make(each) for make in (_tone, _pulse) for each in channels)]


def signal_named(slug: str, channel: Channel | None, *, to_try: bool = False) -> Played | None:
    """Return one of them; what is made for a channel needs one, and the rest takes none."""
    every = signals([channel] if channel else [], to_try=to_try)
    return next(
        (
            each
            for each in every
            if each.slug == slug and (each.channel is not None) == bool(channel)
        ),
        None,
    )


def rattle_table() -> list[tuple[str, float]]:
    """When the slow sweep passes which frequency: the time as a player shows it, and the hertz."""
    return [(_clock(RATTLE.at(frequency)), frequency) for frequency in TABLE_AT]


def _clock(seconds: float) -> str:
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes}:{rest:02d}"


def _rattle() -> Played:
    return Played(
        slug="slow-sweep",
        title=_("Slow sweep for rattles"),
        use=_("Walk round the car while it rises; the time on the player says the frequency."),
        beware=_("Bass this slow moves cones far: raise the level step by step."),
        signal=RATTLE,
        level=RATTLE.level,
    )


def _pink() -> Played:
    return Played(
        slug="pink-noise",
        title=_("Pink noise"),
        use=_("Equal power in every octave: to compare left and right, and one seat with another."),
        beware=_EARS,
        signal=PinkNoise(level=-20.0, seconds=60.0),
        level=-20.0,
    )


def _left_right() -> Played:
    return Played(
        slug="left-right",
        title=_("Which channel is which"),
        use=_("One beep left, two beeps right, three on both."),
        beware=_EARS,
        signal=LeftRight(
            frequency=1000.0, level=-20.0, seconds=4 * LeftRight.ROUND * LeftRight.BEEP
        ),
        level=-20.0,
    )


def _sweep() -> Played:
    return Played(
        slug="sweep",
        title=_("Sweep to measure with"),
        use=_("Play it through one channel and record it: level and phase of that channel."),
        beware=_EARS,
        signal=MEASURING,
        level=MEASURING.level,
    )


def _marked() -> Played:
    return Played(
        slug="marked-sweep",
        title=_("Sweep with a time mark"),
        use=_(
            "The sweep is on the left, short marks before and after it on the right. Lead the "
            "right input to one speaker that stays the same: then delays may be compared."
        ),
        beware=_EARS,
        signal=MARKED,
        level=MEASURING.level,
    )


def _recording() -> Played:
    return Played(
        slug="recording",
        title=_("A recording to try"),
        use=_(
            "What a microphone hears of a tweeter in an invented car: add it as a recording to see "
            "level, delay and polarity worked out of a file."
        ),
        beware=_("It is there in the demo alone."),
        signal=InTheSeat(),
        level=-12.0,
    )


def _tone(channel: Channel) -> Played:
    frequency = tone_frequency(channel.highpass_frequency, channel.lowpass_frequency)
    return Played(
        slug="tone",
        title=_("Tone to set the gain with"),
        use=_("Set the gain of this channel until the meter shows the reading on the set-up page."),
        beware=_UNPLUGGED,
        signal=Tone(frequency=frequency, level=TEST_LEVEL, seconds=60.0),
        level=TEST_LEVEL,
        channel=channel,
    )


def _pulse(channel: Channel) -> Played:
    frequency = tone_frequency(channel.highpass_frequency, channel.lowpass_frequency)
    return Played(
        slug="polarity",
        title=_("Pulse for polarity"),
        use=_("The cone moves out first, or a recording begins upwards. Filters blur it: compare."),
        beware=_EARS,
        signal=PolarityPulse(frequency=frequency, level=TEST_LEVEL, seconds=20.0),
        level=TEST_LEVEL,
        channel=channel,
    )
