"""The supply of a job: charging, reserve, key-off drain, bass notes and heat of the amplifiers."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeVar

from django.utils.translation import gettext as _

from jobs.design.bass import Bass, check_bass, play_bass
from jobs.design.channels import ChannelResult
from jobs.design.findings import CalculatorFinding, Finding, adopt
from jobs.design.loads import fitted_amplifier, share_played
from jobs.design.power import SECTION, PowerResult, input_of, name_of
from jobs.design.records import JobRecords
from jobs.models import EquipmentItem, PowerNode, Vehicle
from wiring.amplifier import Amplifier
from wiring.errors import WiringError
from wiring.heat import AmplifierHeat, amplifier_heat, check_heat
from wiring.reserve import NO_START_SHARE, Battery, check_key_off, check_reserve, key_off_time
from wiring.supply import (
    Alternator,
    DcDcConverter,
    Demand,
    SupplyBudget,
    Tap,
    VehicleSupply,
    check_supply,
    supply_budget,
    vehicle_cautions,
)

# Said on the page of the car by a finding of its own (jobs.design.checks).
SAID_OF_THE_CAR = frozenset(
    {
        "high-voltage-vehicle-caution",
        "alternator-rated-current-unknown",
        "dc-dc-current-unknown",
    }
)
# The least a car may command its 12 V network to; from memory, and it makes the currents larger.
COMMANDED_VOLTAGE = 12.2
# Sources above these feed 12 V parts from another network: 48 V of a mild hybrid, or what
# UN R100, 2.42, calls high voltage.
FORTY_EIGHT_ABOVE, HIGH_ABOVE = 30.0, 60.0
DAY = 86_400.0
T = TypeVar("T")


@dataclass(frozen=True, kw_only=True)
class Reserve:
    """How long one group of batteries plays with the engine off; None when a figure is missing."""

    batteries: Sequence[PowerNode]
    current: float
    time: float | None


@dataclass(frozen=True, kw_only=True)
class KeyOff:
    """What is drawn asleep, and how long the car still starts; None when not measured."""

    added: float | None
    total: float | None
    added_time: float | None
    total_time: float | None

    @property
    def added_days(self) -> int | None:
        """Whole days until our parts alone have taken what the start needs."""
        return None if self.added_time is None else int(self.added_time // DAY)

    @property
    def total_days(self) -> int | None:
        """Whole days with the car's own drain on top."""
        return None if self.total_time is None else int(self.total_time // DAY)


@dataclass(frozen=True, kw_only=True)
class Heat:
    """The heat of one amplifier where it sits."""

    node: PowerNode
    item: EquipmentItem
    heat: AmplifierHeat


@dataclass(frozen=True, kw_only=True)
class SupplyResult:
    """The supply worked out; what could not be is None or missing, and a finding says why."""

    share: float
    amplifiers: Sequence[PowerNode] = ()
    source: Alternator | DcDcConverter | None = None
    demand: Demand | None = None
    budget: SupplyBudget | None = None
    reserves: Sequence[Reserve] = ()
    key_off: KeyOff | None = None
    bass: Sequence[Bass] = ()
    heat: Sequence[Heat] = ()
    findings: Sequence[Finding] = ()

    @property
    def balance(self) -> Sequence[tuple[str, float | None, float | None]]:
        """(what, at speed, at idle) from what the car gives to what is left; None where unknown."""
        source, demand, budget = self.source, self.demand, self.budget
        if source is None or demand is None or budget is None:
            return ()

        def less(current: float | None) -> float | None:
            return None if current is None else -current

        car, charge, audio = demand.vehicle_current, demand.charge_current, budget.audio_average
        return (
            (_("charging, hot"), source.output(idling=False), source.output(idling=True)),
            (_("the car itself"), less(car), less(car)),
            (_("the batteries after a start"), less(charge), less(charge)),
            (_("our parts, average"), -audio, -audio),
            (_("left"), budget.spare_driving, budget.spare_idling),
        )


@dataclass
class _Work:
    """One job's supply while it is worked out."""

    records: JobRecords
    power: PowerResult
    share: float
    amplifiers: dict[int, Amplifier]
    found: list[Finding] = field(default_factory=list)

    @property
    def vehicle(self) -> Vehicle:
        return self.records.job.vehicle

    def nodes(self, *kinds: str) -> list[PowerNode]:
        return [node for node in self.records.nodes if node.kind in kinds]

    def say(self, found: Iterable[CalculatorFinding], node: PowerNode | None = None) -> None:
        said = [one for one in found if one.code not in SAID_OF_THE_CAR]
        adopted = adopt(said, section=SECTION, record_id=node.pk if node else None)
        self.found += [replace(one, where=node.name) if node else one for one in adopted]

    def attempt(self, where: str, work: Callable[[], T]) -> T | None:
        """Do a piece of work; what a calculator refuses becomes a finding."""
        try:
            return work()
        except WiringError as error:
            self.found.append(
                Finding(
                    code="supply-cannot-be",
                    severity="look",
                    section=SECTION,
                    where=where,
                    value=str(error),
                    refused=error,
                )
            )
            return None


def work_out_supply(
    records: JobRecords, channels: Sequence[ChannelResult], power: PowerResult
) -> SupplyResult:
    """Work the supply out of a tree that was solved; without an amplifier there is none."""
    share = share_played(records.job)
    work = _Work(records=records, power=power, share=share, amplifiers={})
    nodes = work.nodes(PowerNode.Kind.AMPLIFIER)
    if not nodes:
        return SupplyResult(share=share)
    if not records.job.programme:
        work.found.append(
            Finding(
                code="programme-unknown",
                severity="note",
                section=SECTION,
                where=records.job.code,
            )
        )
    for node in nodes:
        _meet(work, node, channels)
    work.say(vehicle_cautions(_network(work)))
    key_off = work.attempt(records.job.code, lambda: _key_off(work))
    if power.music is None or power.music.status != "solved":
        return SupplyResult(
            share=share,
            amplifiers=nodes,
            key_off=key_off,
            heat=_heat(work),
            findings=tuple(work.found),
        )
    source = work.attempt(str(work.vehicle), lambda: _source(work.vehicle))
    demand = work.attempt(str(work.vehicle), lambda: _demand(work))
    if source and demand:
        said = check_supply(source=source, demand=demand, vehicle=_network(work))
        cautions = {one.code for one in vehicle_cautions(_network(work))}
        known = work.vehicle.charging_source
        work.say(
            one
            for one in said
            if one.code not in cautions and (known or not one.code.startswith("alternator"))
        )
    bass = [played for node in nodes if (played := _bass(work, node))]
    return SupplyResult(
        share=share,
        amplifiers=nodes,
        source=source,
        demand=demand,
        budget=supply_budget(source, demand) if source and demand else None,
        reserves=_reserves(work),
        key_off=key_off,
        bass=bass,
        heat=_heat(work),
        findings=tuple(work.found),
    )


def _meet(work: _Work, node: PowerNode, channels: Sequence[ChannelResult]) -> None:
    """Reckon an amplifier; one that cannot be has stopped the whole tree already."""
    try:
        found = fitted_amplifier(node, node.name, work.records, channels).amplifier
    except WiringError:
        return
    if found:
        work.amplifiers[node.pk] = found


# -- charging -----------------------------------------------------------------------------------


def _network(work: _Work) -> VehicleSupply:
    highest = max((node.voltage or 0.0 for node in work.records.nodes), default=0.0)
    tap = Tap.FORTY_EIGHT if highest > FORTY_EIGHT_ABOVE else Tap.LOW
    return VehicleSupply(
        start_stop=work.vehicle.start_stop,
        smart_charging=work.vehicle.smart_charging,
        high_voltage=work.vehicle.has_high_voltage,
        tap=Tap.HIGH if highest > HIGH_ABOVE else tap,
    )


def _source(vehicle: Vehicle) -> Alternator | DcDcConverter:
    if vehicle.charging_source == Vehicle.Charging.DC_DC:
        return DcDcConverter(
            current_limit=vehicle.charging_current, accessory_limit=vehicle.accessory_limit
        )
    return Alternator(
        rated_current=vehicle.charging_current,
        idle_current=vehicle.charging_current_idle,
        hot_factor=vehicle.charging_hot_share,
    )


def _demand(work: _Work) -> Demand:
    assert work.power.music is not None
    at_loads = [state.voltage for state in work.power.music.loads.values()]
    lowest = min([*at_loads, COMMANDED_VOLTAGE] if work.vehicle.smart_charging else at_loads)
    return Demand(
        amplifiers=tuple(work.amplifiers.values()),
        share=work.share,
        voltage=lowest,
        # A second battery behind a converter is one of the batteries that recover.
        other_current=sum(node.current or 0.0 for node in work.nodes(PowerNode.Kind.LOAD)),
        vehicle_current=work.vehicle.vehicle_current,
        charge_current=work.vehicle.recovery_current,
    )


# -- engine off ---------------------------------------------------------------------------------


def _reserves(work: _Work) -> list[Reserve]:
    """Every group of batteries that feeds an amplifier without a converter in between."""
    tree, music = work.power.tree, work.power.music
    assert tree is not None
    assert music is not None
    inputs = {input_of(node) for node in work.nodes(PowerNode.Kind.DC_DC)}
    reserves, seen = [], set[str]()
    for node in work.nodes(PowerNode.Kind.AMPLIFIER):
        if name_of(node) in seen:
            continue
        group = tree.reach(name_of(node))
        seen |= group
        drawn = sum(
            music.loads[load.name].current
            for load in tree.loads
            if load.node in group and load.node not in inputs and load.name in music.loads
        )
        batteries = [one for one in work.nodes(PowerNode.Kind.BATTERY) if name_of(one) in group]
        found = work.attempt(node.name, lambda b=batteries, d=drawn: _reserve(work, b, d))  # type: ignore[misc]
        reserves += [found] if found else []
    return reserves


def _reserve(work: _Work, batteries: Sequence[PowerNode], current: float) -> Reserve:
    """Batteries side by side share the current after their capacity; the first to tire counts."""
    wanted = work.records.job.reserve_wanted
    everything = sum(node.charge or 0.0 for node in batteries)
    if not batteries or any(node.charge is None for node in batteries):
        work.say(check_reserve(battery=None, current=current, wanted=wanted))
        return Reserve(batteries=batteries, current=current, time=None)
    times: list[float | None] = []
    for node in batteries:
        battery, part = _battery(node), current * (node.charge or 0.0) / everything
        work.say(check_reserve(battery=battery, current=part, wanted=wanted), node)
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


def _key_off(work: _Work) -> KeyOff:
    """What our parts draw asleep, with the car's own on top; the car's battery has to start it."""
    kinds = PowerNode.Kind
    asleep = [n.standby_current for n in work.nodes(kinds.AMPLIFIER, kinds.LOAD, kinds.DC_DC)]
    known = [one for one in asleep if one is not None]
    added = sum(known) if len(known) == len(asleep) else None
    own = work.vehicle.sleep_current
    total = None if added is None or own is None else added + own
    work.say(check_key_off(added=added, total=total))
    charge = work.vehicle.battery_charge

    def lasts(current: float | None) -> float | None:
        if charge is None or not current:
            return None
        return key_off_time(usable_capacity=charge * NO_START_SHARE, current=current)

    return KeyOff(added=added, total=total, added_time=lasts(added), total_time=lasts(total))


# -- amplifiers ---------------------------------------------------------------------------------


def _bass(work: _Work, node: PowerNode) -> Bass | None:
    amplifier, item = work.amplifiers.get(node.pk), node.equipment
    if amplifier is None or item is None:
        return None
    banks = work.nodes(PowerNode.Kind.CAPACITOR)
    work.found += [
        Finding(
            code="capacitance-unknown",
            severity="look",
            section=SECTION,
            where=bank.name,
            record_id=bank.pk,
        )
        for bank in banks
        if bank.capacitance is None
    ]
    least = work.records.amplifiers[item.part_id].minimum_voltage
    played = work.attempt(
        node.name,
        lambda: play_bass(node, amplifier, work.power, share=work.share, banks=banks, least=least),
    )
    if played:
        work.say(check_bass(played), node)
    return played


def _heat(work: _Work) -> list[Heat]:
    rows = []
    for node in work.nodes(PowerNode.Kind.AMPLIFIER):
        amplifier, item = work.amplifiers.get(node.pk), node.equipment
        if amplifier is None or item is None:
            continue
        closed = None if item.ventilated is None else not item.ventilated
        work.say(check_heat(amplifier, share=work.share, closed_space=closed), node)
        heat = amplifier_heat(amplifier, work.share)
        rows.append(Heat(node=node, item=item, heat=heat))
    return rows
