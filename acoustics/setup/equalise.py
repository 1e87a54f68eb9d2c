"""Bands of an equaliser that bring what was measured nearer to a target, seat by seat no worse."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

import numpy as np
import numpy.typing as npt

from acoustics.circuit.biquads import Biquad, BiquadKind, biquad
from acoustics.errors import COUNT
from acoustics.names import Name
from acoustics.setup.bands import power_average, smoothed
from acoustics.values import Floats, require_between, require_positive

NULL = 6.0  # so far below the octave round it the sound cancels, and lifting it only heats [dB]
LEAK = 0.5  # the most the bands together may lift a null or what is out of bounds [dB]
LEAST = 0.02  # a band that takes away less of the squared error there was is not proposed [-]
SPARE = 4.0  # the most all bands together may turn the channel down, on average [dB]
WORTH = 0.5  # nor is one that lifts or cuts less [dB]
# Steps in which bands are tried at first, then round the best: octaves, and shares of Q.
COARSE, NEAR = 1.0 / 6.0, np.linspace(-1.0, 1.0, 5)
SWEEPS = 2

Bools = npt.NDArray[np.bool_]


@dataclass(frozen=True, kw_only=True)
class BandLimits:
    """What the processor offers on a channel, and where the channel plays.

    Attributes:
        bands: how many bands [-]
        boost: most lift of a band, and of all together [dB]
        cut: most cut of a band [dB]
        lowest_q: broadest band [-]
        highest_q: narrowest band [-]
        low: lowest frequency that may be lifted or cut [Hz]
        high: highest [Hz]
        sample_rate: of the processor [Hz]

    Raises:
        OutOfRangeError: a limit is negative or turned round, or the highest frequency is not
            below half the sample rate.
    """

    bands: int
    boost: float
    cut: float
    lowest_q: float
    highest_q: float
    low: float
    high: float
    sample_rate: float

    def __post_init__(self) -> None:
        """Refuse limits between which nothing lies."""
        require_between(Name.BANDS, self.bands, 1, 64, COUNT)
        require_between(Name.GAIN, self.boost, 0.0, 40.0, "dB")
        require_between(Name.GAIN, self.cut, 0.0, 60.0, "dB")
        require_positive(Name.FILTER_Q, self.lowest_q, "-")
        require_between(Name.FILTER_Q, self.highest_q, self.lowest_q, 100.0, "-")
        require_positive(Name.FREQUENCY, self.low, "Hz")
        require_between(Name.FREQUENCY, self.high, self.low, 0.49 * self.sample_rate, "Hz")


@dataclass(frozen=True, kw_only=True)
class Band:
    """One band, as it is dialled in.

    Attributes:
        frequency: its middle [Hz]
        gain: lift, negative for a cut [dB]
        q: quality factor as the cookbook defines it [-]
    """

    frequency: float
    gain: float
    q: float

    def section(self, sample_rate: float) -> Biquad:
        """The band as a digital filter.

        Args:
            sample_rate: of the processor [Hz]

        Returns: the filter

        Source: R. Bristow-Johnson, Audio EQ Cookbook, W3C Working Group Note, 8 June 2021.
        """
        return biquad(
            BiquadKind.PEAKING,
            frequency=self.frequency,
            sample_rate=sample_rate,
            q=self.q,
            gain=self.gain,
        )


@dataclass(frozen=True, kw_only=True)
class Equalised:
    """Bands that were found, and what they do.

    Attributes:
        bands: in the order of their frequencies
        level: what the target is raised by to meet the average with the bands [dB]
        change: what the bands do at each frequency [dB]
        before: difference from the target, average of the seats but for its nulls, root of the mean
            square [dB]
        after: the same with the bands [dB]
        nulls: where the sound cancels, one answer for each frequency
    """

    bands: tuple[Band, ...]
    level: float
    change: Floats
    before: float
    after: float
    nulls: Bools


@dataclass(frozen=True, kw_only=True)
class _Task:
    frequency: Floats
    inside: Bools
    heard: Bools  # of those inside, all but the nulls
    seats: Floats  # how far each seat is off, [seats, n] inside the bounds
    off: Floats  # how far their average is off, nulls left out
    held: Bools  # where nothing may be lifted, over all frequencies
    limits: BandLimits

    def change(self, bands: list[Band]) -> Floats:
        """What bands do at every frequency."""
        if not bands:
            return np.zeros(len(self.frequency))
        f, q, gain = (np.array([getattr(band, name) for band in bands]) for name in _FIELDS)
        shapes = _shapes(self.frequency, f, q, gain, self.limits.sample_rate)
        return cast("Floats", np.sum(shapes, axis=0))

    def error(self, bands: list[Band]) -> float:
        """Root of the mean square of what is left, the level free."""
        return float(np.std(self.off + self.change(bands)[self.heard]))


_FIELDS = ("frequency", "q", "gain")


def equalise(frequency: Floats, levels: Floats, target: Floats, limits: BandLimits) -> Equalised:
    """Find bands that lessen the squared difference from the target, one band after another.

    Each band is the one that lessens it most among those that leave no seat worse, lift no null,
    nothing out of bounds and nothing beyond the limit; then each is found anew beside the others.

    Args:
        frequency: frequencies, rising, equally far apart in octaves [Hz]
        levels: level at each, one row for each seat [dB]
        target: wanted level at each, up to a constant [dB]
        limits: what may be dialled in

    Returns: the bands and what they do

    Raises:
        OutOfRangeError: fewer than ten frequencies lie within the limits.

    Source: greedy choice of bands, then one at a time; definition.
    """
    inside = (frequency >= limits.low) & (frequency <= limits.high)
    require_between(Name.POINTS, int(np.count_nonzero(inside)), 10, 100_000, COUNT)
    average = power_average(levels)
    off = average - target
    nulls = off < smoothed(frequency, off, 1) - NULL
    heard = inside & ~nulls
    level = float(np.mean(off[heard]))
    task = _Task(
        frequency=frequency,
        inside=inside,
        heard=heard,
        seats=(np.atleast_2d(levels) - target - level)[:, inside],
        off=(off - level)[heard],
        held=nulls | ~inside,
        limits=limits,
    )
    bands = _found(task)
    change = task.change(bands)
    return Equalised(
        bands=tuple(sorted(bands, key=lambda band: band.frequency)),
        level=level + float(np.mean(task.off + change[heard])),
        change=change,
        before=task.error([]),
        after=task.error(bands),
        nulls=nulls,
    )


def _found(task: _Task) -> list[Band]:
    bands: list[Band] = []
    everywhere, untouched = _everywhere(task.limits), task.error([])
    for _number in range(task.limits.bands):
        band = _best(task, bands, *everywhere)
        if band is None:
            break
        if task.error(bands) ** 2 - task.error([*bands, band]) ** 2 < LEAST * untouched**2:
            break
        bands.append(band)
    for _sweep in range(SWEEPS):
        for place, band in enumerate(bands):
            others = [*bands[:place], *bands[place + 1 :]]
            bands[place] = _best(task, others, *_round(band, task.limits)) or band
    return bands


def _everywhere(limits: BandLimits) -> tuple[Floats, Floats]:
    """Frequencies and Qs to try first, each with each."""
    octaves = np.log2(limits.high / limits.low)
    f = limits.low * 2.0 ** np.linspace(0.0, octaves, max(2, int(np.ceil(octaves / COARSE)) + 1))
    q = np.geomspace(limits.lowest_q, limits.highest_q, 6)
    grid = np.meshgrid(f, q, indexing="ij")
    return grid[0].ravel(), grid[1].ravel()


def _round(band: Band, limits: BandLimits) -> tuple[Floats, Floats]:
    """Frequencies and Qs near those of a band, its own among them."""
    f = np.clip(band.frequency * 2.0 ** (NEAR * COARSE / 2.0), limits.low, limits.high)
    q = np.clip(band.q * 1.35**NEAR, limits.lowest_q, limits.highest_q)
    grid = np.meshgrid(f, q, indexing="ij")
    return grid[0].ravel(), grid[1].ravel()


def _best(task: _Task, others: list[Band], f: Floats, q: Floats) -> Band | None:
    """The band, of these middles and Qs, that lessens the error most beside the others."""
    limits = task.limits
    rest = task.change(others)
    off, seats = task.off + rest[task.heard], task.seats + rest[task.inside]
    f, q = np.round(f, 1), np.clip(np.round(q, 2), limits.lowest_q, limits.highest_q)
    # Its gain by least squares from a shape of 6 dB; then that and less of it, as they are.
    shape = _shapes(task.frequency, f, q, np.full(len(f), 6.0), limits.sample_rate) / 6.0
    here = shape[:, task.heard]
    here = here - np.mean(here, axis=1, keepdims=True)
    gain = np.clip(-(here @ off) / np.sum(here**2, axis=1), -limits.cut, limits.boost)
    shares = (1.0, 0.6, 0.3) if len(f) <= len(NEAR) ** 2 else (1.0, 0.5)
    f, q = np.tile(f, len(shares)), np.tile(q, len(shares))
    gain = np.round(np.concatenate([share * gain for share in shares]), 1)
    change = _shapes(task.frequency, f, q, gain, limits.sample_rate)
    left = off + change[:, task.heard]
    level = np.mean(left, axis=1)
    allowed = _allowed(task, rest, seats, change, level) & (np.abs(gain) >= WORTH)
    if not np.any(allowed):
        return None
    error = np.mean(left**2, axis=1) - level**2
    least = int(np.argmin(np.where(allowed, error, np.inf)))
    return Band(frequency=float(f[least]), gain=float(gain[least]), q=float(q[least]))


def _allowed(task: _Task, rest: Floats, seats: Floats, change: Floats, level: Floats) -> Bools:
    """Which changes leave every seat no worse than untouched and lift nothing that is held."""
    total = rest + change
    fits = np.max(total, axis=1) <= task.limits.boost + 1e-9
    fits &= np.mean(total[:, task.heard], axis=1) >= -SPARE
    if np.any(task.held):
        fits &= np.max(total[:, task.held], axis=1) <= LEAK
    here = change[:, task.inside]
    n = here.shape[1]
    mean = np.mean(seats, axis=1)[:, None] + np.mean(here, axis=1)[None, :]
    errors = (
        np.mean(seats**2, axis=1)[:, None]
        + 2.0 * seats @ here.T / n
        + np.mean(here**2, axis=1)[None, :]
        + level * (level - 2.0 * mean)
    )
    untouched = np.mean(task.seats**2, axis=1)[:, None]
    return cast("Bools", fits & np.all(errors <= untouched * (1.0 + 1e-9), axis=0))


def _shapes(frequency: Floats, f: Floats, q: Floats, gain: Floats, rate: float) -> Floats:
    """Level of many bands, one row each, by the equations of the cookbook."""
    w0 = 2.0 * np.pi * f / rate
    alpha, cos, a = np.sin(w0) / (2.0 * q), np.cos(w0), 10.0 ** (gain / 40.0)
    # |b0 + b1 z + b2 z²|² in φ = sin²(w/2), which keeps its digits at low frequencies.
    phi = np.sin(np.pi * frequency / rate)[None, :] ** 2

    def power(side: Floats) -> Floats:
        b0, b1, b2 = (1.0 + side)[:, None], (-2.0 * cos)[:, None], (1.0 - side)[:, None]
        half = ((b0 + b1 + b2) / 2.0) ** 2
        return half - phi * (4.0 * b0 * b2 * (1.0 - phi) + b1 * (b0 + b2))

    level: Floats = 10.0 * np.log10(power(alpha * a) / power(alpha / a))
    return level
