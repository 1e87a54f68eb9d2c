"""What a recording of a played sweep says of one channel: response, delay, polarity and noise.

The delay is that of the channel against the speaker that played the mark: what lies between both
arrivals, less what the response itself takes. A direct sound that is stronger than its echoes makes
a response of least phase; what the measured phase has beyond that is a pure delay and a sign.
"""

from dataclasses import dataclass

import numpy as np

from acoustics.errors import Quantity, RecordingError
from acoustics.setup.bands import THIRDS, band_levels, smoothed_floor
from acoustics.setup.signals import RATES, LogSweep, MarkedSweep
from acoustics.values import Complexes, Floats

FASTEST_CLOCK = 1.0e-3  # within it the second mark is looked for [-]
# Two quartz clocks are each off by 100 ppm at most, as sold: further apart, samples were lost.
# From memory, with as much again to spare [-].
CLOCKS_APART = 4.0e-4
EARLIEST, LATEST = -0.02, 0.06  # where the arrival is looked for, against the mark [s]
KEPT = 0.5  # of the response, from before its arrival [s]
BEFORE = 0.06  # [s]
IN_BAND = 30.0  # below the loudest third octave by so much the phase still counts [dB]
LOUD = 10.0  # likewise, for what a channel plays [dB]
TREBLE = 12_000.0  # who plays that high is told within 20 µs [Hz]
DRAWN_ABOVE_NOISE = 20.0  # for a level to be believed as far as its phase [dB]
SURE = 1.25  # the pulse that is left has one sign so much stronger than the other
FULL_SCALE, CUT_SAMPLES = 0.999, 3
SOFT_LOW, SOFT_HIGH = 0.6, 0.1  # ends of a sweep that are not used [octaves]
HIGHEST_ORDER = 10  # of a roll-off: filter, speaker and room together
FINER = 8  # steps between samples when a peak is looked for
SILENCE = 1.0e-4  # rms of a recording in which nothing was played, re full scale


@dataclass(frozen=True, kw_only=True)
class Measured:
    """One channel as it was recorded.

    Attributes:
        thirds: middle frequencies of third octaves [Hz]
        level: level in each, re the signal as played [dB]
        noise: noise in each, likewise [dB]
        frequency: frequencies of the response [Hz]
        response: complex response, its zero of time at the arrival of the mark [-]
        delay: delay against the mark, None where it cannot be told [s]
        delay_within: how far the delay may be off, likewise [s]
        inverted: whether the polarity is the turned one of the mark, None where it cannot be told
        clock: how much faster the recorder's clock ran, None without two marks [-]
    """

    thirds: Floats
    level: Floats
    noise: Floats
    frequency: Floats
    response: Complexes
    delay: float | None
    delay_within: float | None
    inverted: bool | None
    clock: float | None


def measure(recording: Floats, rate: int, played: MarkedSweep) -> Measured:
    """Work out what a channel did to the sweep that was recorded.

    Both marks are found by correlation and tell the recorder's clock; the sweep is made anew at
    that clock and divided out, H = Y X*/(|X|² + ε).

    Args:
        recording: what the microphone heard, full scale 1 [-]
        rate: sample rate of the recording [Hz]
        played: what was played

    Returns: what the recording says

    Raises:
        RecordingError: silent, clipped, too short, without the marks, with samples lost on the
            way, or of another sample rate than it says.

    Valid: one microphone, one place, speakers that do not move meanwhile.

    Source: A. Farina, AES 108 (2000), by division of spectra; least phase from the level: A. V.
        Oppenheim & R. W. Schafer, Discrete-Time Signal Processing, ch. 11, from memory.
    """
    _check(recording, rate, played)
    first, clock = _sure_marks(recording, rate, played)
    clock_rate = rate * (1.0 + clock)
    mark = _divided(recording, rate, clock_rate, first, played.mark)
    # The mark's speaker delays it too: what counts is when its sound arrived, not its loudest.
    begin = first + (_arrival(mark).delay or 0.0) * rate
    begin += (played.SWEEP_AT - played.MARK_AT) * clock_rate
    heard = _divided(recording, rate, clock_rate, begin, played.sweep)
    arrival = _arrival(heard)
    return Measured(
        thirds=THIRDS,
        level=heard.level,
        noise=heard.noise,
        frequency=heard.frequency,
        response=heard.response,
        delay=arrival.delay,
        delay_within=arrival.within,
        inverted=arrival.inverted,
        clock=clock,
    )


def _check(recording: Floats, rate: int, played: MarkedSweep) -> None:
    seconds = len(recording) / rate
    if seconds < played.second_mark_at:
        value, limit = Quantity(seconds, "s"), Quantity(played.seconds, "s")
        raise RecordingError(code="recording-short", value=value, limit=limit)
    if float(np.sqrt(np.mean(recording**2))) < SILENCE:
        raise RecordingError(code="recording-silent")
    at_top = np.abs(recording) >= FULL_SCALE
    runs = at_top[:-2] & at_top[1:-1] & at_top[2:]
    if np.count_nonzero(runs) >= CUT_SAMPLES:
        at = int(np.flatnonzero(runs)[0]) / rate
        raise RecordingError(code="recording-clipped", value=Quantity(at, "s"))


def _sure_marks(recording: Floats, rate: int, played: MarkedSweep) -> tuple[float, float]:
    """Both marks, or why they are not where they belong."""
    try:
        first, clock = _marks(recording, rate, played)
    except RecordingError:
        _refuse_other_rate(recording, rate, played)
        raise
    if abs(clock) > CLOCKS_APART:
        _refuse_other_rate(recording, rate, played)
        apart, limit = Quantity(abs(clock)), Quantity(CLOCKS_APART)
        raise RecordingError(code="recording-lost-samples", value=apart, limit=limit)
    return first, clock


def _refuse_other_rate(recording: Floats, rate: int, played: MarkedSweep) -> None:
    """Say so where both marks are there at another rate than the file claims."""
    for other in RATES:
        if other == rate or len(recording) < played.second_mark_at * other * (1 + FASTEST_CLOCK):
            continue
        try:
            _first, clock = _marks(recording, other, played)
        except RecordingError:
            continue
        if abs(clock) <= CLOCKS_APART:
            claimed, true = Quantity(rate, "Hz"), Quantity(other, "Hz")
            raise RecordingError(code="recording-other-rate", value=claimed, limit=true)


def _marks(recording: Floats, rate: int, played: MarkedSweep) -> tuple[float, float]:
    """Sample at which the first mark arrives, and how much faster the recorder's clock runs."""
    mark = played.mark.samples(np.arange(round(played.mark.seconds * rate), dtype=float), rate)
    likeness = _correlated(recording, mark[:, 0])
    nominal = (played.second_mark_at - played.MARK_AT) * rate
    slack = int(nominal * FASTEST_CLOCK) + 2
    # Both marks together are a figure that nothing else in the recording has.
    pair = np.minimum(
        likeness[: len(likeness) - int(nominal) - slack],
        _widest(likeness, int(nominal), slack),
    )
    first = int(pair.argmax())
    if pair[first] < 8.0 * float(np.median(likeness)):
        raise RecordingError(code="marks-not-found")
    around = likeness[first + int(nominal) - slack : first + int(nominal) + slack]
    second = first + int(nominal) - slack + int(around.argmax())
    length = len(mark) + rate // 20
    apart = second - first + _shift(recording[first:][:length], recording[second:][:length])
    return float(first), float(apart / nominal - 1.0)


def _widest(likeness: Floats, nominal: int, slack: int) -> Floats:
    """For each sample the best likeness about one interval later."""
    later = likeness[nominal - slack :]
    count = len(likeness) - nominal - slack
    # Two passes of a running maximum cover the slack on both sides.
    width, best = 1, later[: count + 2 * slack].copy()
    while width < 2 * slack:
        step = min(width, 2 * slack - width)
        best[:-step] = np.maximum(best[:-step], best[step:])
        width += step
    return best[:count]


def _correlated(recording: Floats, mark: Floats) -> Floats:
    size = _fast(len(recording) + len(mark))
    spectrum = np.fft.rfft(recording, size) * np.conj(np.fft.rfft(mark, size))
    return np.abs(np.fft.irfft(spectrum, size)[: len(recording)])


def _shift(a: Floats, b: Floats) -> float:
    """Samples by which b is later than a, between samples by a parabola on a finer grid."""
    length = min(len(a), len(b))
    size = _fast(2 * length)
    cross = np.fft.rfft(b[:length], size) * np.conj(np.fft.rfft(a[:length], size))
    curve = np.fft.irfft(cross, size * FINER)
    k = int(curve.argmax())
    low, top, high = curve[k - 1], curve[k], curve[(k + 1) % len(curve)]
    at = k + 0.5 * (low - high) / (low - 2.0 * top + high)
    at = at - len(curve) if at > len(curve) / 2 else at
    return float(at / FINER)


@dataclass(frozen=True, kw_only=True)
class _Heard:
    """A sweep divided out of a stretch of the recording; `start` is where the response was cut."""

    frequency: Floats
    response: Complexes
    level: Floats
    noise: Floats
    start: float


def _divided(
    recording: Floats, rate: int, clock_rate: float, begin: float, sweep: LogSweep
) -> _Heard:
    """Divide a sweep out that began at a sample; the zero of time lies there."""
    start = max(int(begin) - rate // 4, 0)
    piece = recording[start : int(begin + sweep.seconds * clock_rate) + int(0.9 * rate)]
    size = _fast(2 * len(piece))
    # Made anew at the recorder's clock: no sample of the recording is moved.
    n = (np.arange(len(piece), dtype=float) - (begin - start)) * rate / clock_rate
    x, y = np.fft.rfft(sweep.samples(n, rate)[:, 0], size), np.fft.rfft(piece, size)
    power = np.abs(x) ** 2
    frequency: Floats = np.fft.rfftfreq(size, 1.0 / rate).astype(np.float64)
    h = y * np.conj(x) / (power + 1e-9 * power.max()) * _inside(frequency, sweep)
    whole = np.fft.irfft(h, size)
    return _cut(np.concatenate([whole[-rate:], whole[:rate]]), rate, rate, sweep)


def _inside(frequency: Floats, sweep: LogSweep) -> Floats:
    """What a sweep passed, with ends so soft that they do not ring."""
    octaves = np.log2(np.maximum(frequency, 1e-3))
    low = np.clip((octaves - np.log2(sweep.low)) / SOFT_LOW, 0.0, 1.0)
    high = np.clip((np.log2(sweep.high) - octaves) / SOFT_HIGH, 0.0, 1.0)
    inside: Floats = np.sin(np.pi / 2 * low) ** 2 * np.sin(np.pi / 2 * high) ** 2
    return inside


def _cut(heard: Floats, zero: int, rate: int, sweep: LogSweep) -> _Heard:
    """Keep the response from shortly before its arrival until it has died away."""
    first = zero + int(EARLIEST * rate)
    peak = first + int(np.abs(heard[first : zero + int(LATEST * rate)]).argmax())
    start, length = peak - int(BEFORE * rate), int(KEPT * rate)
    piece = heard[start : start + length] * _window(length, int(BEFORE * rate), int(0.1 * rate))
    quiet = heard[start - int(0.2 * rate) : start - int(0.02 * rate)]
    size = _fast(4 * length)
    frequency: Floats = np.fft.rfftfreq(size, 1.0 / rate).astype(np.float64)
    response = np.fft.rfft(piece, size) * np.exp(-2j * np.pi * frequency * (start - zero) / rate)
    noise = np.abs(np.fft.rfft(quiet, size)) * np.sqrt(length / len(quiet))
    floor = smoothed_floor(band_levels(frequency, noise, THIRDS))
    edge = 10.0**0.05
    swept = (THIRDS / edge > sweep.low * 2.0**SOFT_LOW) & (
        THIRDS * edge < sweep.high / 2.0**SOFT_HIGH
    )
    return _Heard(
        frequency=frequency,
        response=response,
        level=band_levels(frequency, np.abs(response), THIRDS),
        noise=np.where(swept, floor, np.inf),
        start=(start - zero) / rate,
    )


def _window(length: int, rise: int, fall: int) -> Floats:
    window = np.ones(length)
    window[: rise // 2] = np.sin(np.linspace(0.0, np.pi / 2, rise // 2)) ** 2
    window[-fall:] = np.cos(np.linspace(0.0, np.pi / 2, fall)) ** 2
    return window


@dataclass(frozen=True)
class _Arrival:
    """Delay, how sure, and whether turned round; None where it cannot be told."""

    delay: float | None = None
    within: float | None = None
    inverted: bool | None = None


def _arrival(heard: _Heard) -> _Arrival:
    """Delay and polarity, from what the phase has beyond the least there can be."""
    level, frequency = heard.level, heard.frequency
    plays = (level > level.max() - IN_BAND) & (level > heard.noise + DRAWN_ABOVE_NOISE)
    if not plays.any():
        return _Arrival()
    edge = 10.0**0.05
    low, high = float(THIRDS[plays].min() / edge), float(THIRDS[plays].max() * edge)
    size = 2 * (len(frequency) - 1)
    least = least_phase(frequency, np.abs(heard.response), level, heard.noise)
    beyond = heard.response * np.exp(-1j * least)
    unit = beyond / np.maximum(np.abs(beyond), 1e-30)
    pulse = np.fft.irfft(unit * _weight(frequency, low, high), size * FINER)
    rate = frequency[1] * size * FINER
    first = int((heard.start - 0.005) * rate)
    last = int((heard.start + BEFORE + 0.03) * rate)
    stretch = pulse[np.arange(first, last) % len(pulse)]
    up, down = float(stretch.max()), float(-stretch.min())
    if max(up, down) < SURE * min(up, down):
        return _Arrival()  # one half wave or the next: neither sign nor delay can be told
    at = int(stretch.argmax() if up >= down else stretch.argmin())
    loud = THIRDS[level > level.max() - LOUD].max() * edge
    return _Arrival((first + at) / rate, _within(float(loud)), down > up)


def _within(high: float) -> float:
    """How far a delay may be off: the roll-off beyond what is heard is guessed.

    The bounds hold for 500 simulated cars (`tests/acoustics/setup/test_measure.py`).
    """
    return 20e-6 if high > TREBLE else max(80e-6, 0.13 / high)


def _weight(frequency: Floats, low: float, high: float) -> Floats:
    """Flat over the logarithm between two frequencies, with soft ends of a third octave."""
    octaves = np.log2(np.maximum(frequency, 1e-3))
    rise = np.clip((octaves - np.log2(low)) * 3.0, 0.0, 1.0)
    fall = np.clip((np.log2(high) - octaves) * 3.0, 0.0, 1.0)
    weight: Floats = np.sin(np.pi / 2 * np.minimum(rise, fall)) ** 2
    return weight


def least_phase(frequency: Floats, size: Floats, level: Floats, noise: Floats) -> Floats:
    """Phase of the response of least phase with this level, by folding its cepstrum.

    Where the level is lost in the noise it is drawn on with the slope it had before.

    Args:
        frequency: evenly spaced frequencies from 0 [Hz]
        size: magnitude of the response there [-]
        level: the same in third octaves [dB]
        noise: the noise in third octaves [dB]

    Returns: phase [rad]

    Source: as `measure`.
    """
    log = _drawn_on(frequency, np.log(np.maximum(size, 1e-12)), level, noise)
    cepstrum = np.fft.irfft(log)
    half = len(cepstrum) // 2
    cepstrum[1:half] *= 2.0
    cepstrum[half + 1 :] = 0.0
    phase: Floats = np.imag(np.fft.rfft(cepstrum))
    return phase


def _drawn_on(frequency: Floats, log: Floats, level: Floats, noise: Floats) -> Floats:
    """Beyond what is heard above the noise, the roll-off that fits what is heard best."""
    heard = np.flatnonzero(level > noise + DRAWN_ABOVE_NOISE)
    first, last = int(heard[0]), int(heard[-1])
    low, high = float(THIRDS[first]), float(THIRDS[last])
    seen = slice(first, last + 1)
    ratio = THIRDS[seen], level[seen]
    f = np.maximum(frequency, frequency[1] / 2.0)
    nepers = np.log(10.0) / 20.0
    drawn = log.copy()
    above, below = f > high, f < low
    drawn[above] = nepers * (level[last] + _roll_off(*ratio, f[above] / high))
    mirrored = 1.0 / ratio[0][::-1], ratio[1][::-1]
    drawn[below] = nepers * (level[first] + _roll_off(*mirrored, low / f[below]))
    return drawn


def _roll_off(f: Floats, level: Floats, beyond: Floats) -> Floats:
    """How far a low-pass falls beyond the last frequency heard, by its ratio to that one [dB].

    Order and corner are those whose curve lies nearest to the levels, the echoes averaged out.
    """
    corner = f[-1] * np.geomspace(1.0 / 64.0, 4.0, 73)[:, None]
    top = _top(level)
    # Only from where it falls: what lies below is the other side's affair.
    peak = int(np.flatnonzero(level >= top - 3.0)[-1])
    side, shown = f[peak // 2 :], level[peak // 2 :]
    fits = []
    for order in range(HIGHEST_ORDER + 1):
        model = -10.0 * np.log10(1.0 + (side / corner) ** (2 * order)) if order else 0.0 * side
        rest = shown - model - top
        rest = rest - np.clip(np.mean(rest, axis=-1, keepdims=True), -3.0, 3.0)
        squares = np.mean(np.minimum(rest**2, 100.0), axis=-1) * np.ones(len(corner))
        k = int(squares.argmin())
        fits.append((float(squares[k]), order, float(corner[k, 0])))
    # Of two that fit alike the less steep.
    least = min(fits)[0]
    _squares, order, at = next(fit for fit in fits if fit[0] <= 1.1 * least + 0.05)
    if not order:
        return np.zeros(len(beyond))
    fall: Floats = -10.0 * np.log10(
        (1.0 + (beyond * f[-1] / at) ** (2 * order)) / (1.0 + (f[-1] / at) ** (2 * order))
    )
    return fall


def _top(level: Floats) -> float:
    """Level of the passband: the mean of the louder third of the bands."""
    return float(np.mean(np.sort(level)[-max(len(level) // 3, 1) :]))


def _fast(length: int) -> int:
    """A length that transforms fast: the next power of two."""
    return 1 << (length - 1).bit_length()
