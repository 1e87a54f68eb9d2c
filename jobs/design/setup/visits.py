"""A later visit laid over the one before: what a channel plays no more, and what was turned.

A recorder's gain is another one each time. Where several channels were measured on both visits,
what all of them have in common is taken for that and left out.
"""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from statistics import median

import numpy as np

from acoustics.sources import Source
from acoustics.values import Floats
from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.setup.measured import Drawn, UnusableCurveError, drawn
from jobs.design.setup.starting import SECTION
from jobs.models import ChannelCurve
from jobs.models.base import written_day

# All of these: common practice, no source.
FALLEN = 6.0  # a seat, a window and a hand on the microphone change less [dB]
WIDE = 1.0  # over less, a single note is meant [octaves]
PLAYED = 20.0  # so far below its loudest a channel still plays [dB]
COMMON = 3  # channels that have something in common
BEYOND = 1.0  # a channel is loudest between its filters, or at most so far outside [octaves]
QUIET = 10.0  # below its loudest by so much, it hardly plays between its filters [dB]


@dataclass(frozen=True, kw_only=True)
class Visit:
    """One channel in one place on two days; `change` is now less then, over `frequency`."""

    now: Drawn
    then: Drawn
    frequency: Floats
    change: Floats
    # What all channels of both days have in common, already left out.
    common: float = 0.0

    @property
    def name(self) -> str:
        """What was measured."""
        return self.now.name

    @property
    def level(self) -> float:
        """How much louder it is in the middle of what it plays [dB]."""
        return float(np.median(self.change))

    @property
    def lost(self) -> tuple[float, float, float] | None:
        """From where to where, and by how much, it is quieter; None where it is not [Hz, Hz, dB].

        Of several stretches the widest.
        """
        edges = np.flatnonzero(np.diff(np.pad((self.change < -FALLEN).astype(int), 1)))
        stretches = [
            (self.frequency[first], self.frequency[last - 1], self.change[first:last])
            for first, last in edges.reshape(-1, 2)
        ]
        wide = [each for each in stretches if np.log2(each[1] / each[0]) >= WIDE]
        if not wide:
            return None
        low, high, change = max(wide, key=lambda each: each[1] / each[0])
        return float(low), float(high), float(-np.median(change))

    @property
    def turned(self) -> bool:
        """Whether its polarity against the mark is the other one now."""
        was, is_now = self.then.row.inverted, self.now.row.inverted
        return was is not None and is_now is not None and was != is_now

    @property
    def later(self) -> float | None:
        """How much later it arrives; None where that is within what both may be off [s]."""
        now, then = self.now.row, self.then.row
        if now.delay is None or then.delay is None:
            return None
        later = now.delay - then.delay
        sure = (now.delay_within or 0.0) + (then.delay_within or 0.0)
        return later if abs(later) > sure else None


def visits(rows: Iterable[ChannelCurve]) -> list[Visit]:
    """Pair the newest curve of each channel in a place with the last one of an earlier day."""
    grouped: dict[tuple[str, int | None], list[ChannelCurve]] = defaultdict(list)
    for row in sorted(rows, key=_by_day):
        grouped[row.place, row.channel_id].append(row)
    of_places: dict[str, list[Visit]] = defaultdict(list)
    for (place, _channel), every in grouped.items():
        before = [row for row in every if row.measured_on < every[-1].measured_on]
        if before and (pair := _pair(before[-1], every[-1])):
            of_places[place].append(pair)
    return [pair for pairs in of_places.values() for pair in _without_common(pairs)]


def _pair(then: ChannelCurve, now: ChannelCurve) -> Visit | None:
    """Lay two curves over each other where the earlier one played; None where neither can."""
    try:
        old, new = drawn(then), drawn(now)
    except UnusableCurveError:
        return None  # said where the curve is shown
    plays = old.frequency[old.level > old.level.max() - PLAYED]
    shared = plays[(plays >= new.frequency[0]) & (plays <= new.frequency[-1])]
    if shared.size < 2:
        return None
    change = _at(new, shared) - _at(old, shared)
    return Visit(now=new, then=old, frequency=shared, change=change)


def _at(curve: Drawn, frequency: Floats) -> Floats:
    level: Floats = np.interp(np.log(frequency), np.log(curve.frequency), curve.level)
    return level


def _without_common(pairs: Sequence[Visit]) -> list[Visit]:
    """Leave out what every channel of both days has in common: the gain of the recorder."""
    days = defaultdict(list)
    for pair in pairs:
        days[pair.now.row.measured_on, pair.then.row.measured_on].append(pair)
    settled = []
    for same in days.values():
        common = median(pair.level for pair in same) if len(same) >= COMMON else 0.0
        settled += [replace(pair, change=pair.change - common, common=common) for pair in same]
    return settled


def check_visits(rows: Sequence[ChannelCurve]) -> Iterator[Finding]:
    """Say what fell silent or was turned round since the visit before."""
    for pair in visits(rows):
        if pair.lost is not None:
            _low, _high, drop = pair.lost
            yield _finding(pair.now.row, "quieter-than-before", drop, FALLEN, "dB")
        if pair.turned:
            day = pair.then.row.measured_on
            turned = _finding(pair.now.row, "polarity-turned-since", day.isoformat())
            yield replace(turned, value_said=written_day(day))


def check_heard(rows: Iterable[ChannelCurve]) -> Iterator[Finding]:
    """Hold what was heard of a channel against its filters: another one may have been connected."""
    newest = {(row.place, row.channel_id): row for row in sorted(rows, key=_by_day)}
    for row in newest.values():
        channel = row.channel
        if channel is None:
            continue
        try:
            curve = drawn(row)
        except UnusableCurveError:
            continue
        low, high = channel.highpass_frequency or 0.0, channel.lowpass_frequency or np.inf
        own = curve.level[(curve.frequency >= low) & (curve.frequency <= high)]
        top = curve.level.max()
        if not own.size or own.max() > top - QUIET:
            continue  # it is heard where it should be, or nobody measured there
        # The middle of what is loud, not one peak of the car.
        loudest = float(np.median(curve.frequency[curve.level > top - FALLEN]))
        if loudest > high * 2.0**BEYOND:
            yield _finding(row, "heard-outside-its-band", loudest, high, "Hz")
        elif loudest < low / 2.0**BEYOND:
            yield _finding(row, "heard-outside-its-band", loudest, low, "Hz")


def _by_day(row: ChannelCurve) -> tuple[dt.date, int]:
    return row.measured_on, row.pk or 0


def _finding(
    row: ChannelCurve, code: str, value: float | str, limit: float | None = None, unit: str = ""
) -> Finding:
    return Finding(
        code=code,
        severity="look",
        section=SECTION,
        about=about(row),
        name=str(row),
        value=value,
        limit=limit,
        unit=unit,
        source=(Source.COMMON_PRACTICE,) if limit else (),
    )
