"""The supply with the engine off: how long it plays, and how long the car still starts."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from jobs.design.records.about import about
from jobs.design.records.findings import adopt
from jobs.design.wiring.power import SECTION
from jobs.design.wiring.supply_work import Work
from jobs.models import PowerNode
from wiring.errors import require_not_negative
from wiring.names import Name
from wiring.supply.reserve import (
    NO_START_SHARE,
    Battery,
    check_key_off,
    check_reserve,
    key_off_time,
)

DAY = 86_400.0
# Shares of the capacity left, both common practice, no source: a battery is worn out at 80 %, and
# lead-acid gives about 60 % at -18 °C.
AGED, COLD = 0.8, 0.6
SURE_DAYS = 90  # wiring.reserve.key_off_time is good for weeks, not months


@dataclass(frozen=True, kw_only=True)
class Reserve:
    """How long one group of batteries plays with the engine off; None when a figure is missing."""

    batteries: Sequence[PowerNode]
    current: float
    time: float | None

    @property
    def cold_time(self) -> float | None:
        """The same with an old battery in the cold: four fifths for age, three for -18 °C."""
        return None if self.time is None else self.time * AGED * COLD


@dataclass(frozen=True, kw_only=True)
class KeyOff:
    """What is drawn asleep, and how long the car still starts; None when not measured."""

    added: float | None
    total: float | None
    added_time: float | None
    total_time: float | None

    @property
    def added_lasts(self) -> str:
        """How long our parts alone leave enough for a start, in words."""
        return _days(self.added_time)

    @property
    def total_lasts(self) -> str:
        """The same with the car's own drain on top."""
        return _days(self.total_time)


def _days(time: float | None) -> str:
    """Whole days; a battery empties by itself too, so a long time is not said to the day."""
    if time is None:
        return _("how long is not known")
    if time > SURE_DAYS * DAY:
        return _("more than %(n)d days") % {"n": SURE_DAYS}
    days = int(time // DAY)
    return ngettext("%(n)d day", "%(n)d days", days) % {"n": days}


def work_out_reserves(work: Work) -> list[Reserve]:
    """Every group of batteries that feeds an amplifier without a converter in between."""
    tree, music = work.power.tree, work.power.music
    assert tree is not None
    assert music is not None
    reserves, seen = [], set[str]()
    for node in work.nodes(PowerNode.Kind.AMPLIFIER):
        if about(node).id in seen:
            continue
        group = tree.reach(about(node).id)
        seen |= group
        drawn = sum(
            music.loads[load.id].current
            for load in tree.loads
            # A converter takes nothing in with the engine off: its input is no load then.
            if load.node in group and load.id in music.loads
        )
        batteries = [node for node in work.nodes(PowerNode.Kind.BATTERY) if about(node).id in group]
        reserve = work.attempt(
            node,
            lambda n=node, b=batteries, d=drawn: _reserve(work, n, b, d),  # type: ignore[misc]
            what="reserve",
        )
        reserves += [reserve] if reserve else []
    return reserves


def _reserve(work: Work, fed: PowerNode, batteries: Sequence[PowerNode], current: float) -> Reserve:
    """Batteries side by side share the current after their capacity; the first to tire counts."""
    wanted = work.records.job.reserve_wanted
    everything = sum(node.charge or 0.0 for node in batteries)
    if not batteries or any(node.charge is None for node in batteries):
        unknown = check_reserve(battery=None, current=current, wanted=wanted)
        # Of the first battery nobody knows the capacity of; of the amplifier where there is none.
        blind = next((node for node in batteries if node.charge is None), fed)
        work.findings += adopt(unknown, section=SECTION, about=about(blind), name="", places={})
        return Reserve(batteries=batteries, current=current, time=None)
    times: list[float | None] = []
    for node in batteries:
        battery, part = _battery(node), current * (node.charge or 0.0) / everything
        work.say_of(node, check_reserve(battery=battery, current=part, wanted=wanted))
        times.append(battery.reserve_time(part) if battery else None)
    known = [time for time in times if time is not None]
    return Reserve(
        batteries=batteries, current=current, time=min(known) if len(known) == len(times) else None
    )


def _battery(node: PowerNode) -> Battery | None:
    # One that has to start the engine keeps what it needs for that.
    usable = NO_START_SHARE if node.usable_share is None and node.cca else node.usable_share
    if node.charge is None or node.rated_time is None or node.peukert is None or usable is None:
        return None
    return Battery(
        capacity=node.charge,
        rated_time=node.rated_time,
        peukert=node.peukert,
        usable_share=usable,
    )


def work_out_key_off(work: Work) -> KeyOff:
    """What our parts draw asleep, with the car's own on top; the car's battery has to start it."""
    kinds = PowerNode.Kind
    asleep = [n.standby_current for n in work.nodes(kinds.AMPLIFIER, kinds.LOAD, kinds.DC_DC)]
    known = [current for current in asleep if current is not None]
    for current in known:
        require_not_negative(name=Name.KEY_OFF_CURRENT, value=current, unit="A")
    added = sum(known) if len(known) == len(asleep) else None
    own = work.vehicle.sleep_current
    total = None if added is None or own is None else added + own
    work.say(check_key_off(added=added, total=total))
    charge = work.vehicle.battery_charge

    def lasts(current: float | None) -> float | None:
        if charge is None or current is None:
            return None
        if current == 0:
            return math.inf
        return key_off_time(usable_capacity=charge * NO_START_SHARE, current=current)

    return KeyOff(added=added, total=total, added_time=lasts(added), total_time=lasts(total))
