"""What the amplifier can do to the coils of a box, and what spares them."""

from __future__ import annotations

import math
from collections.abc import Container, Iterable
from dataclasses import dataclass

import numpy as np

from acoustics.circuit.filters import Family, Filter, Passes, Way
from acoustics.circuit.solver import Sweep
from acoustics.driver.heat import LIMITED, MUSIC, programme_power
from acoustics.sources import Source
from acoustics.values import Complexes
from jobs.design.box.channel_feed import Feed
from jobs.design.box.checks import box_finding
from jobs.design.box.figures import Floats
from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.wiring.channels import ChannelResult
from jobs.models import Box, Driver

# Spread evenly over ten octaves, as the programme is.
HEARD: Floats = np.geomspace(20.0, 20_000.0, 200)
# A high-pass that spares a coil: its order, and how high it may be before it takes the music.
ORDER, LOWEST, HIGHEST = 4, 15.0, 80.0


def check_coil(box: Box, part: Driver, alone: Sweep, feed: Feed) -> list[Finding]:
    """Hold what a programme puts into each coil against what its maker says the coil bears.

    The peaks just fill the amplifier. Music as it is mixed that is too much must not be fitted so;
    music limited hard, or clipped now and then, is for a person to decide.
    """
    if part.power is None:
        return [box_finding(box, "coil-power-unknown", severity="note", name=str(part))]
    coil = _Coil(
        box=box,
        resistance=float(alone.driver.re),
        voltage=float(np.asarray(alone.voltage)),
        impedance=alone.at(frequencies=HEARD).impedance,
    )
    ordinary, limited = (coil.power(feed.filters, crest) for crest in (MUSIC, LIMITED))
    if limited <= part.power:
        return []
    stop = ordinary > part.power
    power = ordinary if stop else limited
    findings = [
        box_finding(
            box,
            "programme-above-coil" if stop else "amplifier-above-coil",
            severity="stop" if stop else "look",
            value=power,
            limit=part.power,
            unit="W",
            source=(Source.DRIVER_SHEET,),
        ),
        box_finding(
            box,
            "gain-spares-coil",
            severity="note",
            value=10 * math.log10(limited / part.power),
            unit="dB",
        ),
    ]
    if (corner := _high_pass(coil, feed, power, part.power)) is not None:
        findings.append(
            box_finding(box, "high-pass-spares-coil", severity="note", value=corner, unit="Hz")
        )
    return findings


def check_channel_coils(channels: Iterable[ChannelResult], boxed: Container[int]) -> list[Finding]:
    """Hold a programme against the coils of channels that feed no box, by their nominal load."""
    findings = []
    for result in channels:
        channel = result.channel
        part = getattr(channel.speaker.part, "driver", None) if channel.speaker else None
        if result.power is None or part is None or channel.pk in boxed:
            continue
        if part.power is None:
            findings.append(_unknown(result, str(part)))
            continue
        peak = 2 * result.power / channel.speaker_count
        ordinary, limited = (peak * 10 ** (-crest / 10) for crest in (MUSIC, LIMITED))
        if limited <= part.power:
            continue
        stop = ordinary > part.power
        findings.append(
            Finding(
                code="programme-above-coil" if stop else "amplifier-above-coil",
                severity="stop" if stop else "look",
                section="channels",
                about=about(channel),
                name=channel.name,
                value=ordinary if stop else limited,
                limit=part.power,
                unit="W",
                source=(Source.DRIVER_SHEET,),
            )
        )
        findings.append(
            Finding(
                code="gain-spares-coil",
                severity="note",
                section="channels",
                about=about(channel),
                name=channel.name,
                value=10 * math.log10(limited / part.power),
                unit="dB",
            )
        )
    return findings


def _unknown(result: ChannelResult, name: str) -> Finding:
    return Finding(
        code="coil-power-unknown",
        severity="note",
        section="channels",
        about=about(result.channel),
        name=name,
    )


@dataclass(frozen=True)
class _Coil:
    """The coils of a box on their amplifier, as a programme meets them."""

    box: Box
    resistance: float
    voltage: float
    impedance: Complexes

    def power(self, filters: Way | None, crest: float) -> float:
        """Power in each coil of a programme whose peaks fill the amplifier."""
        power = programme_power(
            impedance=self.impedance,
            passed=_passed(filters),
            resistance=self.resistance,
            voltage=self.voltage,
            crest=crest,
        )
        return power / self.box.driver_count

    def heat(self, filters: Way | None) -> float:
        """What flows into the coils behind these filters, to compare at one volume."""
        return float(np.mean(_passed(filters) ** 2 / np.abs(self.impedance) ** 2))


def _passed(filters: Way | None) -> Floats:
    return np.ones_like(HEARD) if filters is None else np.abs(filters.response(HEARD))


def _high_pass(coil: _Coil, feed: Feed, power: float, bears: float) -> float | None:
    """Lowest high-pass that spares the coil with the volume left as it is; None when none does."""
    for corner in np.geomspace(LOWEST, HIGHEST, 24):
        cut = Filter(
            family=Family.BUTTERWORTH, order=ORDER, corner=float(corner), passes=Passes.HIGH
        )
        held = Way(filters=(*(feed.filters.filters if feed.filters else ()), cut))
        if power * coil.heat(held) / coil.heat(feed.filters) <= bears:
            return float(corner)
    return None
