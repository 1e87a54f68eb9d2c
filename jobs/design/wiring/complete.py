"""What a job's runs lack: a signal or a turn-on for each device, a route for each run."""

from __future__ import annotations

from collections.abc import Iterator

from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords
from jobs.design.wiring.factory_signals import is_between, wakes_itself
from jobs.design.wiring.schedule import SECTION
from jobs.models import EquipmentItem, PowerNode, Run


def check_complete(records: JobRecords) -> Iterator[Finding]:
    """Name every device of the channel plan that nothing feeds or wakes, every run nobody laid."""
    signals = [run for run in records.runs if run.kind in (Run.Kind.LINE, Run.Kind.SPEAKER)]
    fed = {run.end.equipment_id for run in signals if run.end}
    turning_on = [run for run in records.runs if not run.mutes]
    woken = {item.pk for run in turning_on for item in run.woken}
    # A plan that begins at the amplifier's own speaker outputs is fed by what it plays.
    for item in _devices(records):
        if item.pk not in fed:
            yield _look(item, "signal-run-missing", str(item.part))
        if item.pk not in woken and not wakes_itself(item):
            yield _look(item, "turn-on-run-missing", str(item.part))
    for run in records.runs:
        if run.number and not run.route:
            yield _look(run, "route-missing", run.label)
        if run.kind == Run.Kind.CONTROL and run.relay and not run.relay_diode:
            unknown = run.relay_diode is None
            yield _look(run, "coil-diode-unknown" if unknown else "coil-without-diode", run.label)
    for node in records.nodes:
        yield from _relay(node)


def _devices(records: JobRecords) -> list[EquipmentItem]:
    """Processors and amplifiers of the channel plan, each once."""
    planned = [item for c in records.channels for item in (c.processor, c.amplifier) if item]
    between = [item for item in records.equipment if is_between(item)]
    return list({item.pk: item for item in (*planned, *between)}.values())


def _relay(node: PowerNode) -> Iterator[Finding]:
    """A relay has a coil, and the coil something that takes up its charge."""
    if node.kind != PowerNode.Kind.RELAY:
        return
    if node.coil_current is None:
        yield _look(node, "relay-without-coil", node.name)
    if not node.coil_diode:
        unknown = node.coil_diode is None
        yield _look(node, "coil-diode-unknown" if unknown else "coil-without-diode", node.name)


def _look(record: EquipmentItem | PowerNode | Run, code: str, name: str) -> Finding:
    return Finding(code=code, severity="look", section=SECTION, about=about(record), name=name)
