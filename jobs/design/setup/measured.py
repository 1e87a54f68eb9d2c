"""What was measured in the seat, ready to be drawn and compared: curves, delays, polarity."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from django.utils.translation import gettext as _

from acoustics.columns import parse_columns
from acoustics.errors import AcousticsError, SweepFileError
from acoustics.setup.bands import power_average, smoothed
from acoustics.setup.measure import DRAWN_ABOVE_NOISE, LOUD, Measured, measure
from acoustics.setup.wav import read_wav
from acoustics.values import Complexes, Floats
from jobs.design.records.findings import reason
from jobs.design.setup.played import MARKED
from jobs.design.wording.columns import column_trouble
from jobs.models import ChannelCurve

LOUDEST = 200.0  # no level in a car is beyond it [dB]
LOWEST, HIGHEST = 10.0, 40_000.0  # of a curve that is kept [Hz]
FRACTION = 6  # of an octave, for drawing
POINTS: Floats = np.geomspace(20.0, 16_000.0, 24 * 10)


class UnusableCurveError(ValueError):
    """A text or a recording holds no curve; the message says why."""


@dataclass(frozen=True, kw_only=True)
class Recorded:
    """What a recording came to, as it is kept."""

    content: str
    delay: float | None
    delay_within: float | None
    inverted: bool | None
    # How far above the noise it lies where it plays; None where it is nowhere far enough.
    above_noise: float | None


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """A curve that can be drawn, smoothed; `beyond` says what the calibration does not cover."""

    row: ChannelCurve
    frequency: Floats
    level: Floats
    beyond: bool = False

    @property
    def name(self) -> str:
        """What it is of."""
        return str(self.row.channel or _("all together"))


@dataclass(frozen=True, kw_only=True)
class Place:
    """What was measured in one place: its curves, and those whose delays may be compared."""

    name: str
    curves: Sequence[Drawn]
    # Why one cannot be drawn: its name, and the reason.
    troubles: Sequence[tuple[str, str]]
    waits: Sequence[Wait]


@dataclass(frozen=True, kw_only=True)
class Wait:
    """What a channel has to wait for the last of them, and how far that may be off."""

    row: ChannelCurve
    wait: float
    within: float


def read_recording(content: bytes) -> Recorded:
    """Work a recording of the marked sweep out, or raise UnusableCurveError."""
    try:
        samples, rate = read_wav(content)
        measured = measure(samples, rate, MARKED)
    except AcousticsError as error:
        raise UnusableCurveError(reason(error)) from error
    level = 20.0 * np.log10(np.maximum(np.abs(measured.response), 1e-9))
    inside = (measured.frequency >= 15.0) & (measured.frequency <= 18_000.0)
    fine = smoothed(measured.frequency[inside], level[inside], 24)
    at = np.interp(np.log(POINTS), np.log(measured.frequency[inside]), fine)
    # Against the mark, delay and all: two of one place may be added up.
    response = np.interp(POINTS, measured.frequency, measured.response)
    phase: Floats = np.degrees(np.angle(response))
    rows = "\n".join(
        f"{f:.2f}\t{value:.2f}\t{angle:.1f}"
        for f, value, angle in zip(POINTS, at, phase, strict=True)
    )
    return Recorded(
        content=f"Hz\tdB\t°\n{rows}\n",
        delay=measured.delay,
        delay_within=measured.delay_within,
        inverted=measured.inverted,
        above_noise=_above_noise(measured),
    )


def _above_noise(measured: Measured) -> float | None:
    """How far the third octaves a channel plays in lie above the noise, half of them farther."""
    if not np.any(measured.level > measured.noise + DRAWN_ABOVE_NOISE):
        return None
    plays = (measured.level > measured.level.max() - LOUD) & np.isfinite(measured.noise)
    return float(np.median((measured.level - measured.noise)[plays]))


def read_level(text: str) -> tuple[Floats, Floats]:
    """Frequency and level of a text of columns, or raise UnusableCurveError with the line."""
    try:
        columns = parse_columns(text)
        beyond = np.flatnonzero(np.abs(columns.value) > LOUDEST)
        if beyond.size:
            raise SweepFileError(code="not-a-gain", line=columns.lines[int(beyond[0])])
    except SweepFileError as error:
        raise UnusableCurveError(column_trouble(error, text)) from error
    kept = (columns.frequency >= LOWEST) & (columns.frequency <= HIGHEST)
    if np.count_nonzero(kept) < 2:
        message = _("The curve has nothing between 10 Hz and 40 kHz.")
        raise UnusableCurveError(message)
    return columns.frequency[kept], columns.value[kept]


def drawn(row: ChannelCurve) -> Drawn:
    """A kept curve less what its microphone adds, smoothed; or raise UnusableCurveError."""
    frequency, level, beyond = _shape(row.content, row.calibration)
    return Drawn(row=row, frequency=frequency, level=level, beyond=beyond)


@lru_cache(maxsize=128)
def _shape(content: str, calibration: str) -> tuple[Floats, Floats, bool]:
    """Frequencies, levels, and whether the calibration ends before them: read once."""
    frequency, level = read_level(content)
    beyond = False
    if calibration:
        at, adds = read_level(calibration)
        level = level - np.interp(np.log(frequency), np.log(at), adds)
        beyond = bool(at[0] > max(frequency[0], 20.0) * 1.01)
        beyond = beyond or bool(at[-1] < min(frequency[-1], 16_000.0) / 1.01)
    points = POINTS[(frequency[0] <= POINTS) & (frequency[-1] >= POINTS)]
    shown = np.interp(np.log(points), np.log(frequency), smoothed(frequency, level, FRACTION))
    return points, shown, beyond


def response_of(row: ChannelCurve) -> Complexes | None:
    """Response of a recording at POINTS against its mark; None of anything else."""
    if not row.recorded:
        return None
    try:
        columns = parse_columns(row.content)
    except SweepFileError:
        return None
    if columns.phase is None or len(columns.frequency) != len(POINTS):
        return None
    size, angle = 10.0 ** (columns.value / 20.0), np.radians(columns.phase)
    response: Complexes = size * np.cos(angle) + 1j * size * np.sin(angle)
    return response


def places(rows: Iterable[ChannelCurve]) -> list[Place]:
    """Group what was measured by its place; the newest of each channel counts."""
    grouped: dict[str, dict[int | None, ChannelCurve]] = defaultdict(dict)
    for row in sorted(rows, key=lambda row: (row.measured_on, row.pk)):
        grouped[row.place][row.channel_id] = row
    return [_place(name, list(newest.values())) for name, newest in grouped.items()]


def _place(name: str, rows: Sequence[ChannelCurve]) -> Place:
    curves, troubles = [], []
    for row in rows:
        try:
            curves.append(drawn(row))
        except UnusableCurveError as error:
            troubles.append((str(row), str(error)))
    return Place(name=name, curves=curves, troubles=troubles, waits=_waits(rows))


def _waits(rows: Sequence[ChannelCurve]) -> list[Wait]:
    """What each has to wait for the last one: of recordings with marks alone."""
    known = [row for row in rows if row.recorded and row.channel_id and row.delay is not None]
    if len(known) < 2:
        return []
    last = max(known, key=lambda row: row.delay or 0.0)
    assert last.delay is not None
    return [
        Wait(
            row=row,
            wait=last.delay - (row.delay or 0.0),
            within=(row.delay_within or 0.0) + (0.0 if row is last else last.delay_within or 0.0),
        )
        for row in known
    ]


def average(curves: Sequence[Drawn]) -> tuple[Floats, Floats] | None:
    """Power average of curves over the frequencies that all of them have."""
    if len(curves) < 2:
        return None
    low = max(curve.frequency[0] for curve in curves)
    high = min(curve.frequency[-1] for curve in curves)
    points = POINTS[(low <= POINTS) & (high >= POINTS)]
    if len(points) < 2:
        return None
    rows = [np.interp(points, curve.frequency, curve.level) for curve in curves]
    return points, power_average(np.array(rows))
