"""What a job's runs lack: a signal or a turn-on for each device, a route for each run."""

from __future__ import annotations

from collections.abc import Iterator

from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt
from jobs.design.records.records import JobRecords
from jobs.design.wiring.schedule import SECTION
from jobs.models import EquipmentItem, LoomJoin, PowerNode, Processor, Run
from wiring.findings import Finding as RunFinding
from wiring.runs.returns import LINE_LEVEL
from wiring.sources import Source


def check_complete(records: JobRecords) -> Iterator[Finding]:
    """Name every device of the channel plan that nothing feeds or wakes, every run nobody laid."""
    signals = [run for run in records.runs if run.kind in (Run.Kind.LINE, Run.Kind.SPEAKER)]
    fed = {run.end.equipment_id for run in signals if run.end}
    woken = {item.pk for run in records.runs for item in run.woken}
    # A plan that begins at the amplifier's own speaker outputs is fed by what it plays.
    for item in _devices(records):
        if item.pk not in fed:
            yield _look(item, "signal-run-missing", str(item.part))
        if item.pk not in woken:
            yield _look(item, "turn-on-run-missing", str(item.part))
    for run in records.runs:
        if run.number and not run.route:
            yield _look(run, "route-missing", run.label)
        if run.kind == Run.Kind.CONTROL and run.relay and not run.relay_diode:
            unknown = run.relay_diode is None
            yield _look(run, "coil-diode-unknown" if unknown else "coil-without-diode", run.label)
    for node in records.nodes:
        yield from _relay(node)
    for join in records.joins:
        yield from _level(join)


def _devices(records: JobRecords) -> list[EquipmentItem]:
    """Processors and amplifiers of the channel plan, each once."""
    planned = [item for c in records.channels for item in (c.processor, c.amplifier) if item]
    return list({item.pk: item for item in planned}.values())


def _relay(node: PowerNode) -> Iterator[Finding]:
    """A relay has a coil, and the coil something that takes up its charge."""
    if node.kind != PowerNode.Kind.RELAY:
        return
    if node.coil_current is None:
        yield _look(node, "relay-without-coil", node.name)
    if not node.coil_diode:
        unknown = node.coil_diode is None
        yield _look(node, "coil-diode-unknown" if unknown else "coil-without-diode", node.name)


def _level(join: LoomJoin) -> Iterator[Finding]:
    """What was measured in the loom, held against the input that our run takes it to."""
    item = join.run.end.equipment if join.run and join.run.end else None
    sheet: Processor | None = getattr(item.part, "processor", None) if item else None
    if join.run is None or join.run.kind != Run.Kind.LINE or sheet is None or join.level is None:
        return
    if sheet.highest_input is None and join.level > LINE_LEVEL:
        yield _look(join, "input-limit-unknown", str(sheet))
    elif sheet.highest_input is not None and join.level > sheet.highest_input:
        finding = RunFinding(
            code="signal-above-input", about=about(join).id, value=join.level,
            limit=sheet.highest_input, unit="V", source=(Source.PART_SHEET,),
        )  # fmt: skip
        yield from adopt([finding], section=SECTION, about=about(join), name=str(join))


def _look(record: EquipmentItem | PowerNode | Run | LoomJoin, code: str, name: str) -> Finding:
    return Finding(code=code, severity="look", section=SECTION, about=about(record), name=name)
