"""The records of a job drawn up as a power tree."""

from __future__ import annotations

from collections.abc import Sequence

from jobs import units
from jobs.design.records.about import about
from jobs.design.records.records import JobRecords
from jobs.design.wiring.amplifier_draw import fitted_amplifier, share_played
from jobs.design.wiring.cables import core, fitted, for_aluminium
from jobs.design.wiring.channels import ChannelResult
from jobs.design.wiring.cores import fuses_of
from jobs.design.wiring.returns import lead_resistance, passed, shared_returns
from jobs.design.wiring.states import charging, idle_limit, is_commanded, starting_current
from jobs.models import EquipmentItem, PowerNode, Processor, Run, Terminal, Vehicle
from wiring.cable.conductor import Conductor as Core
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.network.parts import Load, Source
from wiring.network.tree import Contact, Node, Tree
from wiring.network.tree import Run as TreeRun

# A DC-DC converter loses a tenth on the way; common practice, no source. It only makes the draw
# on its input side larger, which is the safe side.
CONVERTER_EFFICIENCY = 0.9
HOTTEST_ZONE = Run.Zone.ENGINE_BAY

_NODE_KIND: dict[str, str] = {PowerNode.Kind.BATTERY: "battery", PowerNode.Kind.BLOCK: "block"}
_CONTACT: dict[str, str] = {
    PowerNode.Kind.SWITCH: "switch",
    PowerNode.Kind.RELAY: "charge relay",
    PowerNode.Kind.DIODE: "diode",
}


def input_of(node: PowerNode) -> str:
    """The tree's id of the side a converter or contact takes from."""
    return f"{about(node).id} input"


def contact_of(node: PowerNode) -> str:
    """The tree's id of what joins the two sides of a switch, relay or isolator."""
    return f"{about(node).id} contact"


def draw_tree(records: JobRecords, runs: Sequence[Run], channels: Sequence[ChannelResult]) -> Tree:
    """Draw every node and every run that has two ends, and the car's own charging."""
    nodes, sources, loads, contacts = [], [], [], []
    for node in records.nodes:
        name = about(node).id
        if node.kind in PowerNode.TWO_SIDED:
            # It takes from one side and gives to the other: two nodes that share a housing.
            nodes += [Node(id=input_of(node), kind="load"), Node(id=name, kind="block")]
            if node.kind == PowerNode.Kind.DC_DC:
                loads.append(_converter_input(node))
            else:
                contacts.append(_contact(node, name))
        else:
            nodes.append(Node(id=name, kind=_NODE_KIND.get(node.kind, "load"), studs=2))
        if node.is_source:
            sources.append(_source(node, name, records.job.vehicle))
        load = _load(node, name, records, channels)
        if load is not None:
            loads.append(load)
    own = charging(records, {node.pk: about(node).id for node in records.nodes})
    return Tree(
        nodes=tuple(nodes),
        sources=(*sources, *([own] if own else [])),
        loads=tuple(loads),
        runs=(*(_tree_run(run) for run in runs), *contacts),
        shared=tuple(shared_returns(records, runs)),
    )


def _contact(node: PowerNode, name: str) -> TreeRun:
    contact = Contact(kind=_CONTACT[node.kind], rated_current=node.rated_current)
    return TreeRun(
        id=contact_of(node),
        start=input_of(node),
        end=name,
        conductor=None,
        length=None,
        return_path=None,
        contact=contact,
    )


def _converter_input(node: PowerNode) -> Load:
    given = (
        None
        if node.current_limit is None or node.voltage is None
        else node.current_limit * node.voltage / CONVERTER_EFFICIENCY
    )
    return Load(
        id=input_of(node),
        node=input_of(node),
        kind="power",
        value=given,
        highest_voltage=node.highest_voltage,
        standby=node.standby_current,
    )


_SOURCE_KIND: dict[str, str] = {
    PowerNode.Kind.DC_DC: "dc-dc",
    PowerNode.Kind.ALTERNATOR: "alternator",
    PowerNode.Kind.CAPACITOR: "capacitor",
}


def _source(node: PowerNode, name: str, vehicle: Vehicle) -> Source:
    assert node.voltage is not None  # without it no tree is drawn up
    kind = _SOURCE_KIND.get(node.kind)
    return Source(
        id=name,
        node=name,
        kind=kind or ("starter battery" if node.cca else "second battery"),
        emf=node.voltage,
        resistance=node.internal_resistance,
        cold_cranking=node.cca,
        current_limit=node.current_limit,
        idle_limit=idle_limit(vehicle, node.current_limit) if kind == "alternator" else None,
        commanded=kind == "alternator" and is_commanded(vehicle),
        flat_voltage=node.flat_voltage,
        starting_current=starting_current(node) if kind is None else None,
        input_load=input_of(node) if node.kind == PowerNode.Kind.DC_DC else "",
    )


def _load(
    node: PowerNode, name: str, records: JobRecords, channels: Sequence[ChannelResult]
) -> Load | None:
    if node.kind == PowerNode.Kind.LOAD:
        sheet = _processor(node.equipment)
        return Load(
            id=name,
            node=name,
            kind="current",
            value=node.current,
            minimum_voltage=sheet.minimum_voltage if sheet else None,
            highest_voltage=node.highest_voltage or (sheet.highest_voltage if sheet else None),
            fuse_rating=node.fuse_rating or (sheet.fuse_rating if sheet else None),
            standby=node.standby_current,
        )
    if node.kind != PowerNode.Kind.AMPLIFIER:
        return None
    part, power, amplifier = fitted_amplifier(node, records, channels)
    played = share_played(records.job)
    return Load(
        id=name,
        node=name,
        kind="amplifier",
        value=power,
        efficiency=amplifier.efficiency if amplifier else None,
        music_power=float(amplifier.input_power(played)) if amplifier else None,
        minimum_voltage=part.minimum_voltage if part else None,
        highest_voltage=part.highest_voltage if part else None,
        fuse_rating=part.fuse_rating if part else None,
        standby=node.standby_current,
    )


def _processor(item: EquipmentItem | None) -> Processor | None:
    part: Processor | None = getattr(item.part, "processor", None) if item else None
    return part


def _tree_run(run: Run) -> TreeRun:
    assert run.start is not None
    assert run.end is not None
    conductor = core(run.conductor) if run.conductor else None
    return TreeRun(
        id=about(run).id,
        start=about(run.start).id,
        end=input_of(run.end) if run.end.kind in PowerNode.TWO_SIDED else about(run.end).id,
        conductor=conductor,
        length=run.length,
        return_path=_back(run, conductor),
        fuse_start=fitted(run.fuse, distance=run.fuse_distance, sheathed=run.fuse_sheathed),
        fuse_end=fitted(
            run.end_fuse, distance=run.end_fuse_distance, sheathed=run.end_fuse_sheathed
        ),
        zone=run.zone or HOTTEST_ZONE,
        ambient=None if run.ambient is None else units.celsius(run.ambient),
        bundled=run.bundle,
        aluminium_terminals=for_aluminium(_ends(run)),
        joints=_leads_on(run),
        drop_limit=run.drop_limit,
        diversity=run.diversity,
    )


def _ends(run: Run) -> list[Terminal | None]:
    """Every terminal of its plus: at both ends and at the fuses it is cut for."""
    at_fuses = [fuse.terminal for fuse in fuses_of(run) if fuse.parts_cable]
    return [run.start_terminal, run.end_terminal, *at_fuses]


def _leads_on(run: Run) -> float:
    """What the way back meets besides cable and body: where it goes on from a ground point."""
    if run.return_kind == Run.Return.CABLE:
        leads = [lead_resistance(p) if p.resistance is None else p.resistance for p in passed(run)]
    else:
        leads = [lead_resistance(p) for p in passed(run) if p.resistance is None]
    return sum(resistance for resistance in leads if resistance is not None)


def _back(run: Run, out: Core | None) -> CableReturn | ChassisReturn | None:
    """The way back: its own cable, or the body with the lead to it.

    What was measured at the ground point replaces what was entered for the run.
    """
    settled = run.return_conductor is not None
    conductor = core(run.return_conductor) if run.return_conductor else out
    if run.return_kind == Run.Return.CABLE:
        return CableReturn(conductor=conductor, length=run.return_length, settled=settled)
    if run.return_kind != Run.Return.CHASSIS:
        return None
    measured = [point.resistance for point in passed(run) if point.resistance is not None]
    led = settled or run.return_length is not None
    return ChassisReturn(
        resistance=sum(measured) if measured else run.chassis_resistance,
        conductor=conductor if led else None,
        length=run.return_length if led else None,
        settled=settled,
    )
