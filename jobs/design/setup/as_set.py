"""The set-up as it was left: each channel's newest values, and what moved since the time before."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from acoustics.sources import Source
from jobs import units
from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.setup.starting import SECTION, SetUp, Start
from jobs.models import Channel, ChannelSetting

# How far a meter and a knob may differ before it is said: common practice, no source.
GAIN_OFF = 0.1
SHOWN_AS = {
    "highpass_frequency": "frequency",
    "lowpass_frequency": "frequency",
    "level": "level",
    "delay": "time",
    "gain_voltage": "voltage",
}


@dataclass(frozen=True, kw_only=True)
class AsSet:
    """A channel with what it starts from, what it was set to, and what was set before."""

    start: Start
    now: ChannelSetting | None = None
    before: ChannelSetting | None = None

    @property
    def channel(self) -> Channel:
        """The channel."""
        return self.start.channel

    @property
    def moved(self) -> list[tuple[str, str, str]]:
        """What is another value than the time before: (what, then, now)."""
        if self.now is None or self.before is None:
            return []
        return [
            (_label(name), _shown(self.before, name), _shown(self.now, name))
            for name in (*ChannelSetting.FIELDS, "gain_voltage", "preset", "note")
            if getattr(self.before, name) != getattr(self.now, name)
        ]


def as_set(setup: SetUp, settings: Sequence[ChannelSetting]) -> list[AsSet]:
    """Lay what was set beside what each channel starts from; of several the newest holds."""
    rows: dict[int, list[ChannelSetting]] = defaultdict(list)
    for row in sorted(settings, key=lambda row: (row.set_on, row.pk or 0), reverse=True):
        rows[row.channel_id].append(row)
    return [AsSet(start=start, **_newest(rows[start.channel.pk])) for start in setup.starts]


def _newest(rows: Sequence[ChannelSetting]) -> dict[str, Any]:
    return dict(zip(("now", "before"), rows, strict=False))


def check_as_set(channels: Sequence[AsSet]) -> Iterator[Finding]:
    """Hold the gain that was measured against what the amplifier and the coil ask for."""
    for each in channels:
        gain, row = each.start.gain, each.now
        if row is None or gain is None or row.gain_voltage is None:
            continue
        more = row.gain_voltage / gain.reading
        if abs(more - 1.0) <= GAIN_OFF:
            continue
        too_much = more > 1.0
        yield Finding(
            code="gain-above-start" if too_much else "gain-below-start",
            severity="look" if too_much else "note",
            section=SECTION,
            about=about(each.channel),
            name=each.channel.name,
            value=row.gain_voltage,
            limit=gain.reading,
            unit="V",
            source=(Source.COMMON_PRACTICE,),
        )


def _label(name: str) -> str:
    return str(getattr(ChannelSetting._meta.get_field(name), "verbose_name", name))


def _shown(row: ChannelSetting, name: str) -> str:
    """A value as a person reads it."""
    value = getattr(row, name)
    if name in SHOWN_AS:
        return units.show(value, SHOWN_AS[name])
    if name.endswith("_shape"):
        return str(getattr(row, f"get_{name}_display")()) or "–"
    if name == "inverted":
        return _("inverted") if value else _("as it is")
    return str(value) or "–"
