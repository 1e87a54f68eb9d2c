"""A proposal held against cone, coil and neighbours once more, with its bands in place."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from acoustics.circuit.solver import Sweep
from acoustics.driver.heat import LIMITED, programme_power
from acoustics.errors import AcousticsError
from acoustics.setup.crossing import Alignment, aligned, crossing
from acoustics.values import Complexes, Floats
from jobs.design.box.boxes import BoxResult
from jobs.design.setup.measured import POINTS, Place, response_of
from jobs.design.setup.plan import driver_of, in_the_open
from jobs.design.setup.proposal import Proposal
from jobs.design.setup.starting import Meeting, way_of
from jobs.design.wiring.channels import ChannelResult
from jobs.models import Channel

SHORTEST = 20e-6  # no processor and no ear does anything with less: common practice, no source [s]
# Spread evenly over ten octaves, as the programme is.
HEARD: Floats = np.geomspace(20.0, 20_000.0, 200)


@dataclass(frozen=True, kw_only=True)
class Strain:
    """What a part comes to before and with the bands, and what its maker allows."""

    before: float
    after: float
    # None where the maker's figure is not entered.
    allowed: float | None

    @property
    def beyond(self) -> bool:
        """Whether the bands bring it beyond what is allowed, or further beyond."""
        return self.allowed is not None and self.after > max(self.allowed, self.before * 1.001)


@dataclass(frozen=True, kw_only=True)
class Borne:
    """Cone and coil of a channel at the amplifier's full voltage; None where it is not known."""

    travel: Strain | None
    power: Strain | None

    @property
    def less(self) -> float | None:
        """How much less level brings back what the bands took beyond the limits [dB]."""
        down = 0.0
        for strain, tenfold in ((self.travel, 20.0), (self.power, 10.0)):
            if strain is not None and strain.beyond and strain.allowed:
                down = max(down, tenfold * math.log10(strain.after / strain.allowed))
        return down or None


def borne(proposal: Proposal, result: ChannelResult, box: BoxResult | None) -> Borne:
    """Hold the bands against cone and coil: no amplifier gives more than its full voltage."""
    alone = box.alone if box is not None else in_the_open(result, None)
    full = box is None or box.amplifier is not None
    if alone is None or not full:
        return Borne(travel=None, power=None)
    return Borne(
        travel=_travel(proposal, alone),
        power=_power(proposal, alone, result.channel, box.box.driver_count if box else 1),
    )


def _travel(proposal: Proposal, alone: Sweep) -> Strain:
    frequency = alone.frequencies
    filters = np.abs(way_of(proposal.channel).response(frequency))
    with_bands = np.minimum(filters * np.abs(proposal.response(frequency)), 1.0)
    part = driver_of(proposal.channel.speaker)
    return Strain(
        before=float(np.max(alone.excursion * np.minimum(filters, 1.0))),
        after=float(np.max(alone.excursion * with_bands)),
        allowed=part.xmax if part else None,
    )


def _power(proposal: Proposal, alone: Sweep, channel: Channel, count: int) -> Strain:
    """Mean power of music limited hard, in each coil, its peaks just filling the amplifier."""
    filters = np.abs(way_of(channel).response(HEARD))
    impedance = alone.at(frequencies=HEARD).impedance

    def power(passed: Floats) -> float:
        whole = programme_power(
            impedance=impedance,
            passed=passed,
            resistance=float(alone.driver.re),
            voltage=float(np.asarray(alone.voltage)),
            crest=LIMITED,
        )
        return whole / count

    part = driver_of(channel.speaker)
    return Strain(
        before=power(filters),
        after=power(filters * np.abs(proposal.response(HEARD))),
        allowed=part.power if part else None,
    )


@dataclass(frozen=True)
class _Filtered:
    """A channel's filters, and its bands where some are proposed."""

    channel: Channel
    proposal: Proposal | None

    def response(self, frequency: Floats) -> Complexes:
        """Filters and bands one after the other [-]."""
        response = way_of(self.channel).response(frequency)
        return response if self.proposal is None else response * self.proposal.response(frequency)


@dataclass(frozen=True, kw_only=True)
class Heard:
    """Two neighbours as they were recorded in one place, with their bands."""

    place: str
    lower: Channel
    upper: Channel
    alignment: Alignment

    @property
    def waits(self) -> Channel | None:
        """Who has to wait; None where it is hardly worth it."""
        if abs(self.alignment.delay) < SHORTEST:
            return None
        return self.upper if self.alignment.delay > 0.0 else self.lower

    @property
    def wait(self) -> float:
        """How long."""
        return abs(self.alignment.delay)


def heard_together(
    meetings: Sequence[Meeting], seats: Iterable[Place], proposals: Mapping[int, Proposal]
) -> list[Heard]:
    """Fit delay and polarity of neighbours that were recorded in one place, bands in place."""
    pairs = []
    for place in seats:
        responses = {
            curve.row.channel_id: response
            for curve in place.curves
            if (response := response_of(curve.row)) is not None
        }
        for meeting in meetings:
            ways = [
                responses[each.pk] * proposals[each.pk].response(POINTS)
                for each in (meeting.lower, meeting.upper)
                if each.pk in responses and each.pk in proposals
            ]
            if len(ways) < 2:
                continue
            try:
                alignment = aligned(POINTS, *ways, middle=meeting.met.frequency)
            except AcousticsError:
                continue  # one of them does not play where the other does
            pairs.append(
                Heard(
                    place=place.name,
                    lower=meeting.lower,
                    upper=meeting.upper,
                    alignment=alignment,
                )
            )
    return pairs


def met_again(meetings: Sequence[Meeting], proposals: Mapping[int, Proposal]) -> list[Meeting]:
    """Sum neighbours of which one has bands once more; those without any are left out."""
    again = []
    for meeting in meetings:
        lower, upper = meeting.lower, meeting.upper
        bands = proposals.get(lower.pk), proposals.get(upper.pk)
        if not any(proposal and proposal.bands for proposal in bands):
            continue
        met = crossing(_Filtered(lower, bands[0]), _Filtered(upper, bands[1]))
        if met is not None:
            again.append(replace(meeting, met=met))
    return again
