"""What feeds a box: the amplifier's limits, the cable on the way, and the processor's filters."""

from __future__ import annotations

from dataclasses import dataclass

from acoustics.circuit.filters import Family, Filter, Norm, Passes, Way
from jobs.design.wiring.channels import ChannelResult
from jobs.models import Channel, FilterShape

_FAMILIES = {
    "bw": Family.BUTTERWORTH,
    "lr": Family.LINKWITZ_RILEY,
    "be": Family.BESSEL,
}
# The letter a shape ends in where its corner means something else than -3 or -6 dB.
_NORMS = {"p": Norm.PHASE, "d": Norm.DELAY}
DECIBELS_PER_ORDER = 6


@dataclass(frozen=True, kw_only=True)
class Feed:
    """What a channel brings to a box; None where it is not known."""

    voltage: float | None = None
    current: float | None = None
    cable_resistance: float | None = None
    # The filters as dialled in; None when nothing is filtered.
    filters: Way | None = None

    @property
    def series_resistance(self) -> float:
        """What the curves are drawn with: no cable while it is not known, as then most moves."""
        return self.cable_resistance or 0.0


NOTHING = Feed()


def feed_of(result: ChannelResult) -> Feed:
    """Return what a channel that was worked out brings to its box."""
    return Feed(
        voltage=result.voltage,
        current=result.current,
        cable_resistance=result.cable_resistance,
        filters=filters_of(result.channel),
    )


def filters_of(channel: Channel) -> Way | None:
    """Return the channel's filters; one without a shape cannot be reckoned and is left out."""
    sides = (
        (channel.highpass_frequency, channel.highpass_shape, Passes.HIGH),
        (channel.lowpass_frequency, channel.lowpass_shape, Passes.LOW),
    )
    filters = tuple(
        filter_of(corner, shape, passes) for corner, shape, passes in sides if corner and shape
    )
    return Way(filters=filters) if filters else None


def filter_of(corner: float, shape: str, passes: Passes) -> Filter:
    """Return a filter of the plan as the calculators know it."""
    norm = _NORMS.get(shape[-1:], Norm.MAGNITUDE)
    return Filter(
        family=_FAMILIES[shape[:2]], order=_order(shape), corner=corner, passes=passes, norm=norm
    )


def shapeless(channel: Channel) -> bool:
    """Whether a filter has a corner and no shape."""
    return any(
        corner and not shape
        for corner, shape in (
            (channel.highpass_frequency, channel.highpass_shape),
            (channel.lowpass_frequency, channel.lowpass_shape),
        )
    )


# A low-pass is heard past its corner: to where it has taken this much. Common practice, no source.
HEARD_DOWN_TO = 24.0


def played_up_to(channel: Channel) -> float | None:
    """Return the highest frequency a channel plays, or None while that is not known."""
    corner, shape = channel.lowpass_frequency, channel.lowpass_shape
    if not corner or not shape:
        return None
    octaves = HEARD_DOWN_TO / (_order(shape) * DECIBELS_PER_ORDER)
    return float(corner) * 2**octaves


def _order(shape: str) -> int:
    """Order of a shape: its value holds the slope, in decibels an octave."""
    return int(FilterShape(shape).value[2:].rstrip("pd")) // DECIBELS_PER_ORDER
