"""The channel plan worked out: loads, power, cable loss, and outputs that are used twice."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt
from jobs.design.records.records import JobRecords
from jobs.design.wiring.cables import air_round, core
from jobs.models import Amplifier, AmplifierRating, Channel, Run
from wiring.cable.ampacity import ampacity
from wiring.cable.conductor import CLASS_5, metric
from wiring.cable.drop import voltage_drop
from wiring.errors import WiringError
from wiring.runs.speaker_runs import (
    AmplifierOutput,
    SpeakerRun,
    check_speaker_run,
    parallel,
    series,
    speaker_run,
)

SECTION = "channels"
# Said of each cable of a channel; what is said besides holds for the channel.
_OF_A_CABLE = {
    "speaker-run-resistance-unknown",
    "speaker-run-ampacity-unknown",
    "speaker-run-over-ampacity",
    "speaker-run-loss",
}


@dataclass(frozen=True, kw_only=True)
class ChannelResult:
    """One channel with what it comes to; None where a figure is not known."""

    channel: Channel
    load: float | None = None
    rating: AmplifierRating | None = None
    power: float | None = None
    voltage: float | None = None
    # The most its sheet shows it to give into any load, in this mode.
    current: float | None = None
    # Lower than the amplifier is made for: what it would give there nobody has stated.
    below_lowest: bool = False
    cable: Run | None = None
    # Loop at 20 °C; None while conductor or length are not known.
    cable_resistance: float | None = None
    run: SpeakerRun | None = None
    # The same with the next larger cable of IEC 60228, and its nominal area.
    one_up: SpeakerRun | None = None
    next_area: float | None = None
    findings: list[Finding] = field(default_factory=list)

    @property
    def power_there(self) -> float | None:
        """What its sheet promises into this load; nothing below the lowest it is made for."""
        return None if self.below_lowest else self.power

    @property
    def cable_damping(self) -> float | None:
        """Load over the loop of the cable alone: the most the damping can be."""
        if not self.load or not self.cable_resistance:
            return None
        return self.load / self.cable_resistance


def work_out_channels(records: JobRecords) -> list[ChannelResult]:
    """Work every channel out, then look for outputs claimed twice."""
    cables = [run for run in records.runs if run.kind == Run.Kind.SPEAKER]
    results = [
        _one(channel, records, [run for run in cables if run.channel_id == channel.pk])
        for channel in records.channels
    ]
    for result, finding in _claimed_twice(results):
        result.findings.append(finding)
    return results


def speaker_load(channel: Channel) -> float | None:
    """Nominal load of everything on the channel, or None when a figure is missing."""
    part = getattr(channel.speaker.part, "driver", None) if channel.speaker else None
    if part is None or part.nominal_impedance is None:
        return None
    return wired(channel, part.nominal_impedance, part.coils)


def wired(channel: Channel, each: float, coils: int) -> float:
    """What everything on a channel comes to, of so many ohms for each coil of its drivers."""
    of_one = [each] * coils
    driver = series(of_one) if channel.coil_connection == "series" else parallel(of_one)
    drivers = [driver] * channel.speaker_count
    return float(abs(series(drivers) if channel.connection == "series" else parallel(drivers)))


def rating_for(amplifier: Amplifier, channel: Channel, load: float) -> AmplifierRating | None:
    """The rating that bounds this load: the highest rated load not above it, else the lowest.

    Below that load the amplifier gives at most the voltage of the rating, which is the safe side.
    """
    rows = [row for row in amplifier.ratings.all() if row.bridged == channel.bridged]
    below = [row for row in rows if row.load <= load * 1.001]
    if below:
        return max(below, key=lambda row: row.load)
    return min(rows, key=lambda row: row.load, default=None)


def _finding(channel: Channel, code: str, severity: str, *detail: str, **data: object) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        section=SECTION,
        about=about(channel, *detail),
        name=channel.name,
        **data,  # type: ignore[arg-type]
    )


def _one(channel: Channel, records: JobRecords, cables: Sequence[Run]) -> ChannelResult:
    findings = _incomplete(channel)
    load = speaker_load(channel)
    amplifier = records.amplifiers.get(channel.amplifier.part_id) if channel.amplifier else None
    # Of several it is played through the one that holds back least; unknown counts as nothing.
    ordered: list[Run | None] = sorted(cables, key=lambda run: _cable(run)[0] or 0.0)
    cable, *others = ordered or [None]
    resistance, _carries = _cable(cable)
    bare = ChannelResult(
        channel=channel, load=load, cable=cable, cable_resistance=resistance, findings=findings
    )
    if amplifier is None:
        return bare
    if channel.amplifier_channel and channel.amplifier_channel > amplifier.channels:
        findings.append(
            _finding(
                channel,
                "amplifier-channel-beyond-last",
                "stop",
                value=str(channel.amplifier_channel),
                limit=str(amplifier.channels),
            )
        )
    rating = rating_for(amplifier, channel, load or 0.0)
    if rating is None or channel.speaker is None:
        return bare
    output = AmplifierOutput(
        power=rating.power,
        power_load=rating.load,
        bridged=channel.bridged,
        lowest_load=amplifier.lowest_load,
        lowest_bridged_load=amplifier.lowest_load_bridged,
    )
    findings += _said_of(channel, cable, output, load)
    for other in others:
        of_other = _said_of(channel, other, output, load)
        findings += [finding for finding in of_other if finding.code in _OF_A_CABLE]
    if load is None:
        return bare
    next_area, larger = _one_up(cable)
    lowest = amplifier.lowest_load_bridged if channel.bridged else amplifier.lowest_load
    return replace(
        bare,
        below_lowest=lowest is not None and load < lowest * 0.999,
        next_area=next_area,
        one_up=None
        if larger is None
        else speaker_run(output=output, load=load, cable_resistance=larger),
        rating=rating,
        power=output.voltage**2 / load,
        voltage=output.voltage,
        current=max(
            math.sqrt(row.power / row.load)
            for row in amplifier.ratings.all()
            if row.bridged == channel.bridged
        ),
        run=speaker_run(output=output, load=load, cable_resistance=resistance or 0.0),
    )


def _said_of(
    channel: Channel, cable: Run | None, output: AmplifierOutput, load: float | None
) -> list[Finding]:
    """What the checks say of a channel and one of its cables, each under a key of its own."""
    resistance, carries = _cable(cable)
    raw = check_speaker_run(
        output=output,
        load=load,
        cable_resistance=resistance,
        ampacity=carries,
        about=about(channel).id,
    )
    name = " · ".join([channel.name, *([cable.label] if cable else [])])
    adopted = adopt(raw, section=SECTION, about=about(channel), name=name)
    if cable is None:
        return adopted
    at_cable = about(channel, about(cable).id)
    return [
        replace(finding, about=at_cable) if finding.code in _OF_A_CABLE else finding
        for finding in adopted
    ]


def _one_up(run: Run | None) -> tuple[float | None, float | None]:
    """Area and loop at 20 °C of the next larger class 5 cable; None beyond the table."""
    if run is None or run.conductor is None or run.length is None:
        return None, None
    try:
        area = core(run.conductor).area
        larger = next((a * 1e-6 for a in CLASS_5 if a * 1e-6 > area * 1.01), None)
        if larger is None:
            return None, None
        return larger, voltage_drop(current=1.0, length=run.length, conductor=metric(larger))
    except WiringError:
        return None, None


def _cable(run: Run | None) -> tuple[float | None, float | None]:
    """Loop resistance at 20 °C and what the conductor may carry; None where unknown."""
    if run is None or run.conductor is None or run.length is None:
        return None, None
    try:
        conductor = core(run.conductor)
        loop = voltage_drop(current=1.0, length=run.length, conductor=conductor)
        return loop, ampacity(conductor, ambient=air_round(run), bundled=run.bundle).current
    except WiringError:
        return None, None


def _incomplete(channel: Channel) -> list[Finding]:
    """Say what the plan leaves open; a factory amplifier is nobody's gap."""
    findings = []
    if channel.speaker is None and channel.factory_speaker is None:
        findings.append(_finding(channel, "channel-without-speaker", "look"))
    if channel.speaker is not None and channel.amplifier is None:
        findings.append(_finding(channel, "channel-without-amplifier", "look"))
    if channel.amplifier is not None and channel.amplifier_channel is None:
        findings.append(_finding(channel, "channel-without-output", "look"))
    processor = getattr(channel.processor.part, "processor", None) if channel.processor else None
    wanted = channel.processor_output
    if processor is not None and wanted is not None and wanted > processor.outputs:
        findings.append(
            _finding(
                channel,
                "processor-output-beyond-last",
                "stop",
                value=str(wanted),
                limit=str(processor.outputs),
            )
        )
    return findings


def _claimed_twice(results: list[ChannelResult]) -> list[tuple[ChannelResult, Finding]]:
    """Find amplifier channels that two channels of the plan claim, bridged pairs included."""
    claims: list[tuple[tuple[int, int], ChannelResult]] = []
    for result in results:
        channel = result.channel
        if channel.amplifier_id is None or channel.amplifier_channel is None:
            continue
        taken = (0, 1) if channel.bridged else (0,)
        claims += [
            ((channel.amplifier_id, channel.amplifier_channel + more), result) for more in taken
        ]
    counts = Counter(claim for claim, _ in claims)
    return [
        (
            result,
            _finding(
                result.channel,
                "amplifier-channel-claimed-twice",
                "stop",
                str(claim[1]),
                value=str(claim[1]),
            ),
        )
        for claim, result in claims
        if counts[claim] > 1
    ]
