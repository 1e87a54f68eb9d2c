"""From measured curves to bands of the equaliser, channel by channel, for a wanted curve."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from django.utils.translation import gettext as _

from acoustics.errors import AcousticsError
from acoustics.setup.bands import power_average
from acoustics.setup.equalise import Band, BandLimits, Equalised, equalise
from acoustics.values import Complexes, Floats
from jobs.design.records.findings import reason
from jobs.design.setup.measured import POINTS, Drawn, places, read_level
from jobs.design.setup.plan import driver_of, processor_of, sample_rate
from jobs.design.setup.starting import typed_coefficients, way_of
from jobs.models import Channel, ChannelCurve, Processor, TargetCurve

BASS_BELOW = 100.0  # where half of the lift is reached [Hz]
MIDDLE = 1000.0  # a slope turns about it [Hz]


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """How the sound is wanted at the ears: as flat as it comes, or with a lift and a slope."""

    lift: float = 0.0  # of the bass [dB]
    fall: float = 0.0  # towards the treble [dB an octave]
    own: TargetCurve | None = None  # what they are added to, instead of a level line

    def at(self, frequency: Floats) -> Floats:
        """The wanted level at each frequency, up to a constant [dB]."""
        lifted = self.lift / (1.0 + (frequency / BASS_BELOW) ** 2)
        curve: Floats = lifted - self.fall * np.log2(frequency / MIDDLE)
        if self.own is not None:
            at, level = read_level(self.own.content)
            curve = curve + np.interp(np.log(frequency), np.log(at), level)
        return curve


@dataclass(frozen=True, kw_only=True)
class ProposedBand:
    """One band, with what it costs and what a processor may be given instead."""

    band: Band
    coefficients: Sequence[str]

    @property
    def power(self) -> float | None:
        """How many times the power it takes there, of a lift."""
        return 10.0 ** (self.band.gain / 10.0) if self.band.gain > 0 else None

    @property
    def travel(self) -> float | None:
        """How many times as far the cone moves there, of a lift."""
        return 10.0 ** (self.band.gain / 20.0) if self.band.gain > 0 else None


@dataclass(frozen=True, kw_only=True)
class Proposal:
    """What one channel is proposed, or why nothing is."""

    channel: Channel
    seats: Sequence[str]
    why_not: str = ""
    equalised: Equalised | None = None
    bands: Sequence[ProposedBand] = ()
    frequency: Floats | None = None
    measured: Floats | None = None
    wanted: Floats | None = None

    def response(self, frequency: Floats) -> Complexes:
        """What the bands do to a signal, all of them one after the other [-]."""
        total = np.ones(len(frequency), dtype=complex)
        rate = sample_rate(self.channel)
        if rate is None:
            return total
        for each in self.bands:
            total = total * each.band.section(rate).response(np.minimum(frequency, rate / 2.0))
        return total

    @property
    def lifts(self) -> bool:
        """Whether a band lifts anything."""
        return any(each.power is not None for each in self.bands)


def propose(
    channels: Iterable[Channel], rows: Iterable[ChannelCurve], wanted: Wanted
) -> list[Proposal]:
    """Propose bands for every channel that was measured, over all places it was measured in."""
    by_channel: dict[int, list[tuple[str, Drawn]]] = defaultdict(list)
    for place in places(rows):
        for curve in place.curves:
            if curve.row.channel_id:
                by_channel[curve.row.channel_id].append((place.name, curve))
    return [
        _propose(channel, by_channel[channel.pk], wanted)
        for channel in channels
        if channel.pk in by_channel
    ]


def _propose(channel: Channel, seats: Sequence[tuple[str, Drawn]], wanted: Wanted) -> Proposal:
    names = [name for name, _curve in seats]
    part = processor_of(channel)
    if missing := _missing(part) or _no_low_end(channel):
        return Proposal(channel=channel, seats=names, why_not=missing)
    assert part is not None
    low = max(curve.frequency[0] for _name, curve in seats)
    high = min(curve.frequency[-1] for _name, curve in seats)
    points = POINTS[(low <= POINTS) & (high >= POINTS)]
    try:
        levels = np.array([np.interp(points, c.frequency, c.level) for _name, c in seats])
        target = wanted.at(points) + _slopes(channel, points)
        equalised = equalise(points, levels, target, _limits(channel, part, points))
    except AcousticsError as error:
        return Proposal(channel=channel, seats=names, why_not=reason(error))
    return Proposal(
        channel=channel,
        seats=names,
        equalised=equalised,
        bands=[_band(band, part.sample_rate) for band in equalised.bands],
        frequency=points,
        measured=power_average(levels),
        wanted=target + equalised.level,
    )


def _slopes(channel: Channel, points: Floats) -> Floats:
    """What the channel's own filters take away: towards its neighbours it is meant to fall."""
    passed = np.abs(way_of(channel).response(points))
    slopes: Floats = 20.0 * np.log10(np.maximum(passed, 1e-6))
    return slopes


def _missing(part: Processor | None) -> str:
    """What has to be known of the processor first, in words."""
    if part is None:
        return _("It has no processor on the channel plan.")
    needed = {
        "sample_rate": part.sample_rate,
        "bands": part.bands,
        "most_boost": part.most_boost,
        "most_cut": part.most_cut,
        "lowest_q": part.lowest_q,
        "highest_q": part.highest_q,
    }
    fields = {field.name: str(field.verbose_name) for field in Processor._meta.fields}
    lacks = [fields[name] for name, value in needed.items() if value is None]
    if not lacks:
        return ""
    values = {"part": part, "figures": ", ".join(lacks)}
    return _("Of %(part)s these are not entered: %(figures)s.") % values


def _no_low_end(channel: Channel) -> str:
    """Without a high-pass or a resonance nobody knows how low a band may lift."""
    driver = driver_of(channel.speaker)
    if channel.highpass_frequency or (driver and driver.fs):
        return ""
    return _("Neither its high-pass nor the resonance of its speaker is entered.")


def _limits(channel: Channel, part: Processor, points: Floats) -> BandLimits:
    """Where the channel plays: between its filters, and never below its driver's resonance."""
    driver = driver_of(channel.speaker)
    lowest = [points[0] if len(points) else 0.0, channel.highpass_frequency]
    lowest += [driver.fs if driver else None]
    highest = [points[-1] if len(points) else 0.0, channel.lowpass_frequency]
    assert part.sample_rate is not None
    return BandLimits(
        bands=part.bands or 0,
        boost=part.most_boost or 0.0,
        cut=part.most_cut or 0.0,
        lowest_q=part.lowest_q or 0.0,
        highest_q=part.highest_q or 0.0,
        low=float(max(f for f in lowest if f is not None)),
        high=float(min(f for f in highest if f is not None)),
        sample_rate=part.sample_rate,
    )


def _band(band: Band, rate: float | None) -> ProposedBand:
    assert rate is not None
    return ProposedBand(band=band, coefficients=typed_coefficients(band.section(rate)))
