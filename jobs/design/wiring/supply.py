"""The supply of a job: charging, reserve, key-off drain, bass notes and heat of the amplifiers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords
from jobs.design.wiring.amplifier_draw import fitted_amplifier, share_played
from jobs.design.wiring.bass import Bass, check_bass, play_bass
from jobs.design.wiring.channels import ChannelResult
from jobs.design.wiring.engine_off import KeyOff, Reserve, work_out_key_off, work_out_reserves
from jobs.design.wiring.power import SECTION, PowerResult
from jobs.design.wiring.supply_work import Work
from jobs.models import EquipmentItem, PowerNode, Vehicle
from wiring.errors import WiringError
from wiring.supply.heat import AmplifierHeat, amplifier_heat, check_heat
from wiring.supply.supply import (
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

# The least a car may command its 12 V network to; from memory, and it makes the currents larger.
COMMANDED_VOLTAGE = 12.2
# Sources above these feed 12 V parts from another network: 48 V of a mild hybrid, or what
# UN R100, 2.42, calls high voltage.
FORTY_EIGHT_ABOVE, HIGH_ABOVE = 30.0, 60.0
# Nobody asks for these of a car whose charging source is not known.
OF_ALTERNATOR = {
    "alternator-rated-current-unknown",
    "alternator-idle-current-unknown",
    "alternator-hot-factor-unknown",
}


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
            (_("to spare"), budget.spare_driving, budget.spare_idling),
        )


def work_out_supply(
    records: JobRecords, channels: Sequence[ChannelResult], power: PowerResult
) -> SupplyResult:
    """Work the supply out of a tree that was solved; without an amplifier there is none."""
    share = share_played(records.job)
    work = Work(records=records, power=power, share=share, amplifiers={})
    nodes = work.nodes(PowerNode.Kind.AMPLIFIER)
    if not nodes:
        return SupplyResult(share=share)
    if not records.job.programme:
        work.findings.append(
            Finding(
                code="programme-unknown",
                severity="note",
                section=SECTION,
                about=about(records.job),
                name=records.job.code,
            )
        )
    for node in nodes:
        _meet(work, node, channels)
    work.say(vehicle_cautions(_network(work)))
    key_off = work.attempt(records.job, lambda: work_out_key_off(work), what="key off")
    fed = power.music.loads if power.music and power.music.status == "solved" else {}
    if not all(about(node).id in fed for node in nodes):
        return SupplyResult(
            share=share,
            amplifiers=nodes,
            key_off=key_off,
            heat=_heat(work),
            findings=tuple(work.findings),
        )
    source = work.attempt(work.vehicle, lambda: _source(work.vehicle), what="charging source")
    demand = work.attempt(work.vehicle, lambda: _demand(work), what="demand")
    if source and demand:
        findings = check_supply(source=source, demand=demand, vehicle=_network(work))
        cautions = {finding.code for finding in vehicle_cautions(_network(work))}
        known = work.vehicle.charging_source
        nodes_by_id = {about(node).id: node for node in nodes}
        for finding in findings:
            if finding.code in cautions or (finding.code in OF_ALTERNATOR and not known):
                continue
            if finding.about in nodes_by_id:
                work.say_of(nodes_by_id[finding.about], [finding])
            else:
                work.say([finding])
    if any(node.pk in work.amplifiers and node.equipment for node in nodes):
        work.findings += _unknown_banks(work)
    bass = [played for node in nodes if (played := _bass(work, node))]
    return SupplyResult(
        share=share,
        amplifiers=nodes,
        source=source,
        demand=demand,
        budget=supply_budget(source, demand) if source and demand else None,
        reserves=work_out_reserves(work),
        key_off=key_off,
        bass=bass,
        heat=_heat(work),
        findings=tuple(work.findings),
    )


def _meet(work: Work, node: PowerNode, channels: Sequence[ChannelResult]) -> None:
    """Reckon an amplifier; one that cannot be has stopped the whole tree already."""
    try:
        amplifier = fitted_amplifier(node, work.records, channels).amplifier
    except WiringError:
        return
    if amplifier:
        work.amplifiers[node.pk] = amplifier


# -- charging -----------------------------------------------------------------------------------


def _network(work: Work) -> VehicleSupply:
    highest = _highest_at_parts(work)
    tap = Tap.FORTY_EIGHT if highest > FORTY_EIGHT_ABOVE else Tap.LOW
    return VehicleSupply(
        start_stop=work.vehicle.start_stop,
        smart_charging=work.vehicle.smart_charging,
        high_voltage=work.vehicle.has_high_voltage,
        tap=Tap.HIGH if highest > HIGH_ABOVE else tap,
    )


def _highest_at_parts(work: Work) -> float:
    """The highest voltage that reaches a part of ours; what a converter separates does not."""
    tree = work.power.tree
    if tree is None:
        return max((node.voltage or 0.0 for node in work.records.nodes), default=0.0)
    inputs = {source.input_load for source in tree.sources}
    parts = {load.node for load in tree.loads if load.id not in inputs}
    return max((s.emf for s in tree.sources if parts & tree.reach(s.node)), default=0.0)


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


def _demand(work: Work) -> Demand:
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


def _unknown_banks(work: Work) -> list[Finding]:
    return [
        Finding(
            code="capacitance-unknown",
            severity="look",
            section=SECTION,
            about=about(bank),
            name=bank.name,
        )
        for bank in work.nodes(PowerNode.Kind.CAPACITOR)
        if bank.capacitance is None
    ]


# -- amplifiers ---------------------------------------------------------------------------------


def _bass(work: Work, node: PowerNode) -> Bass | None:
    amplifier, item = work.amplifiers.get(node.pk), node.equipment
    if amplifier is None or item is None:
        return None
    banks = work.nodes(PowerNode.Kind.CAPACITOR)
    least = work.records.amplifiers[item.part_id].minimum_voltage
    played = work.attempt(
        node,
        lambda: play_bass(node, amplifier, work.power, share=work.share, banks=banks, least=least),
        what="bass note",
    )
    if played:
        work.say_of(node, check_bass(played))
    return played


def _heat(work: Work) -> list[Heat]:
    rows = []
    for node in work.nodes(PowerNode.Kind.AMPLIFIER):
        amplifier, item = work.amplifiers.get(node.pk), node.equipment
        if amplifier is None or item is None:
            continue
        closed = None if item.ventilated is None else not item.ventilated
        work.say_of(node, check_heat(amplifier, share=work.share, closed_space=closed))
        heat = amplifier_heat(amplifier, work.share)
        rows.append(Heat(node=node, item=item, heat=heat))
    return rows
