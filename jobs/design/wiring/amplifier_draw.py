"""What the amplifiers of the power tree are to their supply."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from jobs.design.records.about import about
from jobs.design.records.records import JobRecords
from jobs.design.wiring.channels import ChannelResult
from jobs.models import Amplifier as Part
from jobs.models import Job, PowerNode
from wiring.supply.amplifier import Amplifier, AmplifierClass, share_of_crest

# Crest factor of each programme; common practice, no source.
CREST: Mapping[str, float] = {
    Job.Programme.COMPRESSED: 7.8,
    Job.Programme.MUSIC: 12.0,
    Job.Programme.QUIET: 20.0,
}
# The idle current on a sheet is taken at this voltage. From memory: the test voltage of ANSI/
# CTA-2006; a lower one would make the idle power smaller, so this is the safe side.
SHEET_VOLTAGE = 14.4


class Fitted(NamedTuple):
    """An amplifier of the tree: its catalogue part, and itself where its figures suffice."""

    part: Part | None
    power: float | None
    amplifier: Amplifier | None


def share_played(job: Job) -> float:
    """Average output over full output; the loudest programme where nobody noted one."""
    return float(share_of_crest(CREST[job.programme or Job.Programme.COMPRESSED]))


def fitted_amplifier(
    node: PowerNode, records: JobRecords, channels: Sequence[ChannelResult]
) -> Fitted:
    """Reckon an amplifier from its sheet and from what the channel plan asks of it."""
    item = node.equipment
    part = records.amplifiers.get(item.part_id) if item else None
    if part is None or item is None:
        return Fitted(None, None, None)
    mine = [channel for channel in channels if channel.channel.amplifier_id == item.pk]
    planned = [channel.power for channel in mine if channel.power is not None]
    rated = max((row.power for row in part.ratings.all() if not row.bridged), default=None)
    everything = None if rated is None else rated * part.channels
    # Without a plan, or with a channel nobody can reckon, it may give all it has.
    power = sum(planned) if mine and len(planned) == len(mine) else everything
    if power is None or part.efficiency is None:
        return Fitted(part, power, None)
    return Fitted(part, power, _at_plan(part, about(node).id, power, everything or power))


def _at_plan(part: Part, key: str, power: float, rated: float) -> Amplifier:
    """The amplifier with the planned channels at full swing and the others idling."""
    idle = None if part.quiescent_current is None else part.quiescent_current * SHEET_VOLTAGE
    stage = AmplifierClass(part.stage)
    assert part.efficiency is not None
    whole = Amplifier(
        id=key,
        stage=stage,
        rated_output=max(rated, power),
        efficiency=part.efficiency,
        idle_power=idle,
    )
    # Every driven channel takes its part of the rise from idle to full input.
    full, least = float(whole.input_power(1.0)), idle or 0.0
    taken = least + (full - least) * power / whole.rated_output
    return Amplifier(
        id=key, stage=stage, rated_output=power, efficiency=power / taken, idle_power=idle
    )
