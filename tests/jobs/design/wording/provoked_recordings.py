"""Recordings that tell nothing, one way to bring each about."""

from __future__ import annotations

import numpy as np

from acoustics.setup.measure import measure
from acoustics.setup.signals import LogSweep, MarkedSweep, Tone
from acoustics.setup.wav import read_wav, wav

RATE = 48_000
PLAYED = MarkedSweep(sweep=LogSweep(low=20.0, high=20_000.0, wanted=1.0, level=-12.0))
LENGTH = int(PLAYED.seconds * RATE)


def _long() -> None:
    read_wav(b"".join(wav(Tone(frequency=50.0, level=-12.0, seconds=125.0), rate=44_100, bits=16)))


def _telephone() -> bytes:
    content = bytearray(b"".join(wav(PLAYED, rate=44_100, bits=16)))
    content[24:28] = (16_000).to_bytes(4, "little")
    return bytes(content)


def _heard() -> np.ndarray:
    """Both sides of what is played, some silence behind."""
    played = PLAYED.samples(np.arange(LENGTH, dtype=float), RATE).sum(axis=1)
    return np.concatenate([played, np.zeros(RATE)])


def _holed() -> np.ndarray:
    """A thousandth of the way between the marks is missing, in the midst of the sweep."""
    middle = int(2.0 * RATE)
    return np.concatenate([_heard()[:middle], _heard()[middle + 90 :]])


def _measured(recording: np.ndarray) -> None:
    measure(recording, RATE, PLAYED)


RECORDINGS = {
    "recording too short": (lambda: _measured(np.ones(RATE)), "ends after 1"),
    "recording silent": (lambda: _measured(np.zeros(LENGTH)), "nothing is heard"),
    "recording cut": (lambda: _measured(np.ones(LENGTH)), "reaches full scale"),
    "recording without marks": (
        lambda: _measured(0.1 * np.random.default_rng(1).standard_normal(LENGTH)),
        "marks of the sweep are not",
    ),
    "no recording": (lambda: read_wav(b"words"), "no WAV file"),
    "recording too long": (_long, "at most are read"),
    "recording of a telephone": (lambda: read_wav(_telephone()), "like a telephone"),
    "recording of another rate": (
        lambda: measure(_heard(), 44_100, PLAYED),
        "but it was recorded at 48",
    ),
    "recording with a hole": (lambda: _measured(_holed()), "samples were lost"),
}
