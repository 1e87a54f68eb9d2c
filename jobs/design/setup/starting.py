"""The values a channel starts from: level, delay, polarity, the voltage to set, its filters."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from acoustics.air.air import STANDARD
from acoustics.circuit.biquads import Biquad
from acoustics.circuit.filters import Filter, Passes, Way, alignment_delays
from acoustics.errors import AcousticsError
from acoustics.setup.crossing import Crossing, Polarity, crossing
from acoustics.setup.passive import Piece, l_pad, network
from acoustics.setup.sections import sections
from acoustics.setup.start import (
    TEST_LEVEL,
    TIMES_RESONANCE,
    GainSetting,
    beams_from,
    gain_setting,
    in_samples,
    largest_level,
    tone_frequency,
)
from acoustics.values import Complexes, Floats
from jobs.design.box.channel_feed import filters_of
from jobs.design.box.drivers import completed
from jobs.design.records.about import about
from jobs.design.records.findings import Finding, reason
from jobs.design.records.records import JobRecords
from jobs.design.setup.plan import driver_of, sample_rate
from jobs.design.wiring.channels import ChannelResult
from jobs.models import Channel, Driver

__all__ = ["TEST_LEVEL", "Meeting", "SetUp", "chain_sums", "chains", "way_of", "work_out_setup"]

SECTION = "setup"
# Two corners further apart than this are no crossover; common practice, no source.
OCTAVES_APART = 1.0
SPEED_OF_SOUND = float(STANDARD.speed_of_sound)
HEARD: Floats = np.geomspace(20.0, 20_000.0, 361)
SMALLEST_PAD = 0.5  # below it nobody hears the difference: common practice, no source [dB]


@dataclass(frozen=True, kw_only=True)
class FilterParts:
    """One filter of a channel: as a processor's sections, and as coils and capacitors."""

    cut: Filter
    digital: tuple[Biquad, ...] = ()
    # Why there are no sections, in the reader's language.
    trouble: str = ""
    passive: tuple[Piece, ...] = ()

    @property
    def is_high_pass(self) -> bool:
        """Whether it lets through what is above its corner."""
        return self.cut.passes is Passes.HIGH

    @property
    def coefficients(self) -> list[list[str]]:
        """b0 b1 b2 a1 a2 of each section, to be typed into a processor: with a decimal point."""
        return [typed_coefficients(each) for each in self.digital]


def typed_coefficients(section: Biquad) -> list[str]:
    """b0 b1 b2 a1 a2 of a section, to be typed into a processor: with a decimal point."""
    figures = (section.b0, section.b1, section.b2, section.a1, section.a2)
    return [f"{value:.12g}" for value in figures]


@dataclass(frozen=True, kw_only=True)
class Start:
    """What one channel starts from; None where a figure is not known."""

    channel: Channel
    load: float | None
    # Twice the resonance, and where the cone begins to beam: where its filters belong between.
    lowest: float | None = None
    highest: float | None = None
    tone: float | None = None
    gain: GainSetting | None = None
    # Loudest it plays, at 1 m without the car, and how far it is turned down to match the others.
    loudest: float | None = None
    trim: float | None = None
    delay: float | None = None
    samples: int | None = None
    filters: tuple[FilterParts, ...] = ()
    pad: tuple[Piece, Piece] | None = None

    @property
    def behind(self) -> float | None:
        """The delay as a length of air."""
        return None if self.delay is None else self.delay * SPEED_OF_SOUND


@dataclass(frozen=True, kw_only=True)
class Meeting:
    """Two channels of one side that take over from each other."""

    lower: Channel
    upper: Channel
    met: Crossing

    @property
    def planned(self) -> Polarity:
        """How the plan connects them."""
        return Polarity.ALIKE if self.lower.inverted == self.upper.inverted else Polarity.TURNED

    @property
    def holds(self) -> bool:
        """Whether the plan has the better polarity."""
        return self.met.better in (Polarity.EITHER, self.planned)

    @property
    def lowest(self) -> float:
        """The deepest dip of the sum as planned."""
        summed = self.met.alike if self.planned is Polarity.ALIKE else self.met.turned
        return summed.lowest


@dataclass(frozen=True, kw_only=True)
class SetUp:
    """Everything a set-up starts from."""

    starts: Sequence[Start] = ()
    meetings: Sequence[Meeting] = ()
    findings: list[Finding] = field(default_factory=list)


def work_out_setup(records: JobRecords, channels: Sequence[ChannelResult]) -> SetUp:
    """Work out what each amplified channel starts from, and how neighbours meet."""
    ours = [result for result in channels if result.channel.amplifier is not None]
    starts = _trimmed([_start(result) for result in ours])
    starts = _delayed(starts)
    meetings = list(_meetings([start.channel for start in starts]))
    findings = [*_unknown(records, starts), *_holes(meetings)]
    return SetUp(starts=starts, meetings=meetings, findings=findings)


def chains(setup: SetUp) -> list[list[Meeting]]:
    """Return what plays together, each from its lowest way up; those set alike once.

    A chain is its meetings: what stands at the top of one is at the bottom of none.
    """
    above = {meeting.upper.pk: meeting for meeting in setup.meetings}
    tops = above.keys() - {meeting.lower.pk for meeting in setup.meetings}
    chained: dict[tuple[object, ...], list[Meeting]] = {}
    for top in (pk for pk in above if pk in tops):
        chain, channel = [above[top]], above[top].lower
        while channel.pk in above and len(chain) < len(above):
            chain.insert(0, above[channel.pk])
            channel = above[channel.pk].lower
        ways = [chain[0].lower, *[meeting.upper for meeting in chain]]
        alike = tuple((way_of(way), way.inverted) for way in ways)
        chained.setdefault(alike, chain)
    return list(chained.values())


@dataclass(frozen=True, kw_only=True)
class ChainSums:
    """The ways of a chain and their sums over frequency [Hz, dB]."""

    frequencies: Floats
    ways: Sequence[tuple[str, Floats]]
    better: Floats
    planned: Floats


def chain_sums(chain: Sequence[Meeting]) -> ChainSums:
    """Sum a chain by its filters alone, each way turned as the crossing below it asks."""
    channels = [chain[0].lower, *[meeting.upper for meeting in chain]]
    responses = [way_of(channel).response(HEARD) for channel in channels]
    better = planned = responses[0]
    sign = 1.0
    for meeting, response in zip(chain, responses[1:], strict=True):
        polarity = meeting.planned if meeting.holds else meeting.met.better
        sign *= 1.0 if polarity is Polarity.ALIKE else -1.0
        better = better + sign * response
        turned = meeting.upper.inverted != channels[0].inverted
        planned = planned + (-response if turned else response)
    names = [channel.name for channel in channels]
    return ChainSums(
        frequencies=HEARD,
        ways=list(zip(names, map(_level, responses), strict=True)),
        better=_level(better),
        planned=_level(planned),
    )


def _level(response: Complexes) -> Floats:
    level: Floats = 20.0 * np.log10(np.maximum(np.abs(response), 1e-6))
    return level


def way_of(channel: Channel) -> Way:
    """Return a channel's filters alone, without level, delay and polarity."""
    return filters_of(channel) or Way()


def _start(result: ChannelResult) -> Start:
    channel, part = result.channel, driver_of(result.channel.speaker)
    tone = tone_frequency(channel.highpass_frequency, channel.lowpass_frequency)
    gain = _gain(result, part, tone)
    cuts = filters_of(channel)
    return Start(
        channel=channel,
        load=result.load,
        lowest=TIMES_RESONANCE * part.fs if part and part.fs else None,
        highest=beams_from(part.sd) if part and part.sd else None,
        tone=tone,
        gain=gain,
        loudest=_loudest(channel, part, gain),
        filters=tuple(_parts(cut, result) for cut in (cuts.filters if cuts else ())),
    )


def _gain(result: ChannelResult, part: Driver | None, tone: float) -> GainSetting | None:
    if result.voltage is None or result.load is None:
        return None
    bears = part.power * result.channel.speaker_count if part and part.power else None
    passed = float(np.abs(way_of(result.channel).response(np.array([tone]))[0]))
    return gain_setting(
        amplifier=result.voltage, load=result.load, bears=bears, passed=max(passed, 1e-6)
    )


def _loudest(channel: Channel, part: Driver | None, gain: GainSetting | None) -> float | None:
    """The catalogue's level at 2.83 V, or what its Thiele-Small figures lead to."""
    if part is None or gain is None:
        return None
    level = part.sensitivity
    if level is None:
        try:
            level = float(completed(part).driver.reference_level())
        except AcousticsError:
            return None
        level += _coils_alone(channel, part)
    series = channel.connection == Channel.Connection.SERIES
    count = channel.speaker_count
    return largest_level(
        level,
        gain.full,
        in_series=count if series else 1,
        in_parallel=1 if series else count,
    )


def _coils_alone(channel: Channel, part: Driver) -> float:
    """What wiring the coils side by side adds: completed, a driver has them in a row [dB]."""
    if channel.coil_connection == Channel.Connection.SERIES:
        return 0.0
    return 20.0 * math.log10(part.coils)


def _parts(cut: Filter, result: ChannelResult) -> FilterParts:
    passive = network(cut, result.load) if result.load else ()
    rate = sample_rate(result.channel)
    if rate is None:
        return FilterParts(cut=cut, passive=passive)
    try:
        return FilterParts(cut=cut, passive=passive, digital=sections(cut, rate))
    except AcousticsError as error:
        return FilterParts(cut=cut, passive=passive, trouble=reason(error))


def _trimmed(starts: Sequence[Start]) -> list[Start]:
    """Turn every channel down to the least loud of those whose level is known."""
    known = [start.loudest for start in starts if start.loudest is not None]
    lowest = min(known, default=0.0)
    return [
        start
        if start.loudest is None
        else replace(start, trim=lowest - start.loudest, pad=_pad(start, start.loudest - lowest))
        for start in starts
    ]


def _pad(start: Start, down: float) -> tuple[Piece, Piece] | None:
    if start.load is None or not SMALLEST_PAD <= down <= 40.0:
        return None
    return l_pad(start.load, down)


def _delayed(starts: Sequence[Start]) -> list[Start]:
    """Let every channel wait for the farthest of those whose distance is known."""
    known = [start.channel.distance for start in starts if start.channel.distance]
    if not known:
        return list(starts)
    delays = iter(alignment_delays(np.array(known), speed_of_sound=SPEED_OF_SOUND))
    return [
        _waiting(start, float(next(delays))) if start.channel.distance else start
        for start in starts
    ]


def _waiting(start: Start, delay: float) -> Start:
    rate = sample_rate(start.channel)
    samples = None if rate is None else in_samples(delay, rate)
    return replace(start, delay=delay, samples=samples)


def _meetings(channels: Sequence[Channel]) -> Iterator[Meeting]:
    """Let each channel with a high-pass find the one below it: of its side, the nearest corner.

    Of several with one corner the nearest in the plan is meant. Both sides of a car are as a rule
    set alike, and meet alike.
    """
    crossings: dict[tuple[Way, Way], Crossing | None] = {}
    for upper in channels:
        below = [other for other in channels if _takes_over(other, upper)]
        if not below:
            continue
        lower = min(below, key=lambda other: (_apart(other, upper), _steps(other, upper)))
        ways = way_of(lower), way_of(upper)
        if ways not in crossings:
            crossings[ways] = crossing(*ways)
        if (met := crossings[ways]) is not None:
            yield Meeting(lower=lower, upper=upper, met=met)


def _takes_over(lower: Channel, upper: Channel) -> bool:
    if lower.pk == upper.pk or not (lower.lowpass_shape and upper.highpass_shape):
        return False
    if not (lower.lowpass_frequency and upper.highpass_frequency):
        return False
    sides = {lower.side, upper.side} - {"", Channel.Side.BOTH}
    return len(sides) < 2 and _apart(lower, upper) <= OCTAVES_APART


def _apart(lower: Channel, upper: Channel) -> float:
    """Octaves between the two corners, to a thousandth: what is equal is to count as equal."""
    assert lower.lowpass_frequency is not None
    assert upper.highpass_frequency is not None
    return round(abs(math.log2(lower.lowpass_frequency / upper.highpass_frequency)), 3)


def _steps(lower: Channel, upper: Channel) -> int:
    return abs(lower.position - upper.position)


def _unknown(records: JobRecords, starts: Sequence[Start]) -> Iterator[Finding]:
    """Say once for all channels what nobody has measured or entered."""
    lacking = {
        "distances-unknown": [start.channel for start in starts if not start.channel.distance],
        "sensitivities-unknown": [start.channel for start in starts if start.loudest is None],
        "sample-rates-unknown": [
            start.channel
            for start in starts
            if start.channel.processor and sample_rate(start.channel) is None
        ],
    }
    for code, channels in lacking.items():
        if channels:
            yield Finding(
                code=code,
                severity="note",
                section=SECTION,
                about=about(records.job),
                name=records.job.code,
                also=tuple(about(channel) for channel in channels),
                value=" ".join(about(channel).id for channel in channels),
                value_said=", ".join(channel.name for channel in channels),
            )


def _holes(meetings: Iterable[Meeting]) -> Iterator[Finding]:
    for meeting in meetings:
        if meeting.holds:
            continue
        yield Finding(
            code="polarity-makes-hole",
            severity="look",
            section=SECTION,
            about=about(meeting.upper, about(meeting.lower).id),
            also=(about(meeting.lower),),
            name=f"{meeting.upper.name} · {meeting.lower.name}",
            value=meeting.lowest,
            unit="dB",
        )
