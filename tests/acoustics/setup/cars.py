"""Simulated cars: a channel with filters and echoes, played and recorded with two clocks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from acoustics.circuit.filters import Family, Filter, Passes
from acoustics.setup.bands import THIRDS, band_levels
from acoustics.setup.signals import LogSweep, MarkedSweep

RATE = 48_000
PLAYED = MarkedSweep(sweep=LogSweep(low=10.0, high=20_000.0, wanted=4.0, level=-12.0))
KINDS = ("full", "tweeter", "mid", "woofer", "bass")
GAIN = 0.3


@dataclass(frozen=True)
class Car:
    """What was recorded, and what is true of it."""

    recording: np.ndarray
    level: np.ndarray  # in third octaves [dB]
    delay: float
    inverted: bool
    clock: float


def car(rng: np.random.Generator, kind: str, *, noise: float = -40.0, clock: float = 50e-6) -> Car:
    """A random channel of this kind; direct sound stronger than its echoes together."""
    clock = float(rng.choice([-1, 1])) * clock
    count = int(PLAYED.seconds * RATE) + RATE // 2
    played = PLAYED.samples(np.arange(count) / (1.0 + clock), RATE)
    size = 1 << (count - 1).bit_length() + 1
    f = np.fft.rfftfreq(size) * RATE * (1.0 + clock)
    response = _response(rng, kind, np.maximum(f, 1e-3))
    flight, delay = rng.uniform(0.002, 0.006), rng.uniform(0.0, 0.008)
    inverted = bool(rng.integers(2))
    heard = response * (-1.0 if inverted else 1.0) * np.exp(-2j * np.pi * f * (flight + delay))
    marker = Filter(family=Family.LINKWITZ_RILEY, order=4, corner=2000.0, passes=Passes.HIGH)
    mark = marker.response(np.maximum(f, 1e-3)) * np.exp(-2j * np.pi * f * flight)
    total = sum(
        np.fft.irfft(np.fft.rfft(played[:, k], size) * h, size)[:count]
        for k, h in enumerate((heard, mark))
    )
    recording = GAIN * np.asarray(total)
    begin = int(PLAYED.SWEEP_AT * RATE)
    rms = np.sqrt(np.mean(recording[begin : begin + 4 * RATE] ** 2))
    recording = recording + rng.standard_normal(count) * rms * 10 ** (noise / 20)
    usable = f < 23_000.0
    level = band_levels(f[usable], GAIN * np.abs(response[usable]), THIRDS)
    return Car(recording, level, float(delay), inverted, clock)


def _response(rng: np.random.Generator, kind: str, f: np.ndarray) -> np.ndarray:
    corners = {
        "full": (None, None),
        "tweeter": (rng.uniform(2000, 5000), None),
        "mid": (rng.uniform(150, 500), rng.uniform(2000, 5000)),
        "woofer": (rng.uniform(40, 100), rng.uniform(200, 600)),
        "bass": (rng.uniform(20, 30), rng.uniform(60, 120)),
    }[kind]
    order, family = int(rng.choice([2, 4])), rng.choice([Family.BUTTERWORTH, Family.LINKWITZ_RILEY])
    own = 700.0 if kind == "tweeter" else rng.uniform(15, 25)
    cuts = [(own, Passes.HIGH), (30_000.0, Passes.LOW)]
    response = np.prod(
        [
            Filter(family=Family.BUTTERWORTH, order=2, corner=corner, passes=side).response(f)
            for corner, side in cuts
        ],
        axis=0,
    )
    for corner, side in zip(corners, (Passes.HIGH, Passes.LOW), strict=True):
        if corner:
            cut = Filter(family=family, order=order, corner=corner, passes=side)
            response = response * cut.response(f)
    count = int(rng.integers(2, 7))
    sizes = rng.dirichlet(np.ones(count)) * rng.uniform(0.3, 0.85) * rng.choice([-1, 1], count)
    later = rng.uniform(0.0004, 0.02, count)
    echoes = sum(a * np.exp(-2j * np.pi * f * t) for a, t in zip(sizes, later, strict=True))
    return response * (1.0 + np.asarray(echoes))
