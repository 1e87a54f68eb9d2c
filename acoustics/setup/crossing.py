"""Two neighbouring ways around the frequency where one takes over from the other."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol

import numpy as np

from acoustics.errors import COUNT
from acoustics.names import Name
from acoustics.values import Complexes, Floats, require_between

HEARD: Floats = np.geomspace(10.0, 30_000.0, 1600)
OCTAVES = 1.0  # looked at on either side of the crossing
# Between polarities that differ by less nobody has to choose; common practice, no source [dB].
ALIKE_WITHIN = 0.5
BOTH_WITHIN = 12.0  # two ways further apart leave no hole in each other [dB]
DEEPEST = -80.0  # a null is told no deeper [dB]


class Polarity(StrEnum):
    """How two neighbours are connected against each other.

    Attributes:
        ALIKE: both the same way
        TURNED: one of them the other way
        EITHER: it makes no difference to the level
    """

    ALIKE = "alike"
    TURNED = "turned"
    EITHER = "either"


@dataclass(frozen=True, kw_only=True)
class Summed:
    """How far the sum of two ways strays from even, within an octave of their crossing.

    Attributes:
        lowest: its lowest level [dB]
        highest: its highest level [dB]
    """

    lowest: float
    highest: float


@dataclass(frozen=True, kw_only=True)
class Crossing:
    """Two ways that meet, and what either polarity makes of them.

    Attributes:
        frequency: where both are equally loud [Hz]
        level: how loud either is there [dB]
        alike: the sum with both the same way
        turned: the sum with one of them the other way
    """

    frequency: float
    level: float
    alike: Summed
    turned: Summed

    @property
    def better(self) -> Polarity:
        """The polarity that leaves the shallower dip.

        Returns: the polarity

        Source: definition.
        """
        gain = self.alike.lowest - self.turned.lowest
        if abs(gain) < ALIKE_WITHIN:
            return Polarity.EITHER
        return Polarity.ALIKE if gain > 0.0 else Polarity.TURNED


class Responds(Protocol):
    """Whatever changes a signal: filters, or filters with the bands of an equaliser."""

    def response(self, frequency: Floats) -> Complexes:
        """Complex gain at each frequency [-]."""
        ...


def crossing(lower: Responds, upper: Responds) -> Crossing | None:
    """Where two ways meet, and how even their sum is with either polarity.

    Args:
        lower: the way that plays below; with a low-pass
        upper: the way that plays above; with a high-pass

    Returns: the crossing, or None where the two never meet between 10 Hz and 30 kHz

    Valid: equal loudspeakers that arrive together; real ones add their own response and the car's.

    Source: complex sum; S. H. Linkwitz, "Active Crossover Networks for Noncoincident Drivers",
        JAES 24 (1976) 2-8.
    """
    below, above = lower.response(HEARD), upper.response(HEARD)
    difference = np.log(np.abs(below)) - np.log(np.abs(above))
    changes = np.flatnonzero((difference[:-1] > 0.0) & (difference[1:] <= 0.0))
    if not changes.size:
        return None
    # Of several the loudest: far below, rounding may cross them again.
    i = int(max(changes, key=lambda k: abs(below[k])))
    part = difference[i] / (difference[i] - difference[i + 1])
    at = float(HEARD[i] * (HEARD[i + 1] / HEARD[i]) ** part)
    around = at * np.geomspace(2.0**-OCTAVES, 2.0**OCTAVES, 401)
    low, high = lower.response(around), upper.response(around)
    return Crossing(
        frequency=at,
        level=float(20.0 * np.log10(abs(lower.response(np.array([at]))[0]))),
        alike=_summed(low + high),
        turned=_summed(low - high),
    )


def _summed(total: Complexes) -> Summed:
    level = 20.0 * np.log10(np.maximum(np.abs(total), 10.0 ** (DEEPEST / 20.0)))
    return Summed(lowest=float(level.min()), highest=float(level.max()))


@dataclass(frozen=True, kw_only=True)
class Alignment:
    """What brings two ways that were measured together around the frequency where they meet.

    Attributes:
        delay: what the upper way has to wait, below zero what the lower one has to [s]
        turned: whether one of them has to be turned round
        before: how far their sum falls short of both in step, at its worst, as they are [dB]
        after: the same with delay and polarity [dB]
    """

    delay: float
    turned: bool
    before: float
    after: float


def aligned(frequency: Floats, lower: Complexes, upper: Complexes, *, middle: float) -> Alignment:
    """Find the delay and polarity with which two measured ways add up best where they meet.

    Looked at within an octave of the middle where both are within 12 dB of each other, over delays
    of half a period there: further away lies the next half wave, which fits nearly as well.

    Args:
        frequency: frequencies, rising [Hz]
        lower: response of the way that plays below [-]
        upper: response of the way that plays above, its zero of time the same [-]
        middle: where they meet [Hz]

    Returns: delay and polarity, and what they bring

    Raises:
        OutOfRangeError: fewer than five frequencies lie where both play.

    Valid: both measured in one place against the same mark.

    Source: complex sum; least mean square of 20 log(|a + b|/(|a| + |b|)).
    """
    sizes = np.abs(lower), np.abs(upper)
    ratio = 20.0 * np.log10(np.maximum(sizes[0], 1e-12) / np.maximum(sizes[1], 1e-12))
    here = (np.abs(np.log2(frequency / middle)) <= OCTAVES) & (np.abs(ratio) <= BOTH_WITHIN)
    require_between(Name.POINTS, int(np.count_nonzero(here)), 5, 100_000, COUNT)
    f, low, high = frequency[here], lower[here], upper[here]
    delays = np.linspace(-0.5 / middle, 0.5 / middle, 201)
    turns = np.exp(-2j * np.pi * delays[:, None] * f[None, :])
    both = np.abs(low) + np.abs(high)

    def short(sign: float) -> Floats:
        total = np.abs(low + sign * high * turns) / both
        level: Floats = 20.0 * np.log10(np.maximum(total, 10.0 ** (DEEPEST / 20.0)))
        return level

    short_of = np.stack([short(1.0), short(-1.0)])
    sign, at = np.unravel_index(int(np.mean(short_of**2, axis=2).argmin()), short_of.shape[:2])
    as_it_is = short_of[0, len(delays) // 2]
    return Alignment(
        delay=float(delays[at]),
        turned=bool(sign),
        before=float(as_it_is.min()),
        after=float(short_of[sign, at].min()),
    )
