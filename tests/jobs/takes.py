"""A recording of the marked sweep, as a person brings one along."""

from __future__ import annotations

import numpy as np
from django.core.files.uploadedfile import SimpleUploadedFile

from acoustics.setup.wav import wav
from jobs.design.setup.played import MARKED

RATE = 48_000


class Heard:
    """A recording of the marked sweep: the channel 1 ms later than the mark, and turned round."""

    channels = 1

    def __init__(self, *, loud: float = 0.3) -> None:
        count = int(MARKED.seconds * RATE) + RATE // 4
        played = MARKED.samples(np.arange(count) / (1.0 + 50e-6), RATE)
        self.samples_of = np.zeros(count)
        self.samples_of[144:] += loud * played[:-144, 1]
        self.samples_of[192:] -= loud * played[:-192, 0]
        noise = np.random.default_rng(1).standard_normal(count)
        self.samples_of += 1e-3 * loud * noise
        self.seconds = count / RATE

    def samples(self, n, rate):
        return self.samples_of[n.astype(int)][:, None]


def recording(*, loud: float = 0.3) -> SimpleUploadedFile:
    """The recording as a file."""
    content = b"".join(wav(Heard(loud=loud), rate=RATE, bits=16))
    return SimpleUploadedFile("take.wav", content, "audio/wav")
