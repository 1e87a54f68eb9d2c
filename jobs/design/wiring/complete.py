"""What a job's runs lack: a signal, a turn-on and a route, a converter, a bus, a mute."""

from __future__ import annotations

from collections.abc import Iterator

from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt
from jobs.design.records.records import JobRecords
from jobs.design.wiring.schedule import SECTION
from jobs.models import EquipmentItem, Job, LoomJoin, PowerNode, Processor, Run
from wiring.findings import Finding as RunFinding
from wiring.runs.returns import LINE_LEVEL
from wiring.sources import Source

Carries, Device = LoomJoin.Carries, Processor.Device
SIGNAL_RUNS = (Run.Kind.LINE, Run.Kind.SPEAKER, Run.Kind.CONTROL)
SOUND = (Carries.HIGH, Carries.LINE)


def check_complete(records: JobRecords) -> Iterator[Finding]:
    """Name every device of the channel plan that nothing feeds or wakes, every run nobody laid."""
    signals = [run for run in records.runs if run.kind in (Run.Kind.LINE, Run.Kind.SPEAKER)]
    fed = {run.end.equipment_id for run in signals if run.end}
    turning_on = [run for run in records.runs if not run.mutes]
    woken = {item.pk for run in turning_on for item in run.woken}
    # A plan that begins at the amplifier's own speaker outputs is fed by what it plays.
    for item in _devices(records):
        if item.pk not in fed:
            yield _finding(item, "signal-run-missing", "look", str(item.part))
        if item.pk not in woken and not _wakes_itself(item):
            yield _finding(item, "turn-on-run-missing", "look", str(item.part))
    for run in records.runs:
        if run.number and not run.route:
            yield _finding(run, "route-missing", "look", run.label)
        if run.kind == Run.Kind.CONTROL and run.relay and not run.relay_diode:
            unknown = run.relay_diode is None
            yield _finding(
                run, "coil-diode-unknown" if unknown else "coil-without-diode", "look", run.label
            )
    for node in records.nodes:
        yield from _relay(node)


def _devices(records: JobRecords) -> list[EquipmentItem]:
    """Processors and amplifiers of the channel plan, each once."""
    planned = [item for c in records.channels for item in (c.processor, c.amplifier) if item]
    between = [item for item in records.equipment if _is_between(item)]
    return list({item.pk: item for item in (*planned, *between)}.values())


def _relay(node: PowerNode) -> Iterator[Finding]:
    """A relay has a coil, and the coil something that takes up its charge."""
    if node.kind != PowerNode.Kind.RELAY:
        return
    if node.coil_current is None:
        yield _finding(node, "relay-without-coil", "look", node.name)
    if not node.coil_diode:
        unknown = node.coil_diode is None
        yield _finding(
            node, "coil-diode-unknown" if unknown else "coil-without-diode", "look", node.name
        )


def _sheet_of(item: EquipmentItem | None) -> Processor | None:
    """The figures of a processor, line converter or interface; None for anything else."""
    return getattr(item.part, "processor", None) if item else None


def _is_between(item: EquipmentItem) -> bool:
    """Whether it stands between the factory loom and the processor."""
    sheet = _sheet_of(item)
    return sheet is not None and sheet.device != Device.PROCESSOR


def _wakes_itself(item: EquipmentItem) -> bool:
    """Whether it needs no turn-on run, as its sheet says."""
    sheet = _sheet_of(item)
    return sheet is not None and bool(sheet.wakes_itself)


def check_factory_signals(records: JobRecords) -> Iterator[Finding]:
    """Hold each join against the input it leads to; name what a converter, bus or call lacks."""
    for join in records.joins:
        if not join.carries:
            yield _finding(join, "join-kind-unknown", "look", str(join))
        yield from _taken(join)
    fed = {
        run.end.equipment_id
        for run in records.runs
        if run.kind == Run.Kind.POWER and run.start and run.end
    }
    data = {
        item.pk for join in records.joins if join.carries == Carries.DATA for item in _ends_at(join)
    }
    for item in filter(_is_between, records.equipment):
        sheet = _sheet_of(item)
        assert sheet is not None
        # A converter of coils alone takes no current; what nobody has read may.
        if item.pk not in fed and sheet.current != 0:
            yield _finding(item, "device-without-supply", "look", str(item.part))
        if sheet.device == Device.INTERFACE and item.pk not in data:
            yield _finding(item, "interface-without-data", "stop", str(item.part))
    yield from _calls(records)


def _calls(records: JobRecords) -> Iterator[Finding]:
    """Who has a processor or converter play in place of the factory's own is asked about calls."""
    job = records.job
    muted = any(run.mutes and run.woken for run in records.runs)
    if job.calls_heard and not muted:
        yield _finding(job, "mute-run-missing", "look", job.code)
    if job.calls_heard is None and any(_sheet_of(item) for item in records.equipment):
        yield _finding(job, "calls-open", "look", job.code)


def _ends_at(join: LoomJoin) -> list[EquipmentItem]:
    """The device that the signal of a join is led to."""
    run = join.run
    item = run.end.equipment if run and run.end and run.kind in SIGNAL_RUNS else None
    return [item] if item else []


def _taken(join: LoomJoin) -> Iterator[Finding]:
    """What was found in the loom, held against the input that our run takes it to."""
    for item in _ends_at(join):
        sheet = _sheet_of(item)
        if sheet is None:
            continue
        if join.carries == Carries.DATA and sheet.device != Device.INTERFACE:
            yield _finding(join, "data-without-interface", "stop", f"{join} > {sheet}")
        elif join.carries in SOUND or not join.carries:
            yield from _level(join, sheet)


def _level(join: LoomJoin, sheet: Processor) -> Iterator[Finding]:
    limit, level = sheet.highest_input, join.level
    high = join.carries == Carries.HIGH or (level is not None and level > LINE_LEVEL)
    if limit is None and high:
        # An input nobody has read is a line input, unless the part is made for high level.
        made_for_it = sheet.device == Device.CONVERTER or join.carries != Carries.HIGH
        code = "input-limit-unknown" if made_for_it else "high-level-into-line"
        yield _finding(join, code, "look" if made_for_it else "stop", str(sheet))
    elif limit is not None and level is None and join.carries:
        yield _finding(join, "join-level-unknown", "look", str(join))
    elif limit is not None and level is not None and level > limit:
        finding = RunFinding(
            code="signal-above-input", about=about(join).id, value=level,
            limit=limit, unit="V", source=(Source.PART_SHEET,),
        )  # fmt: skip
        yield from adopt([finding], section=SECTION, about=about(join), name=str(join))


def _finding(
    record: EquipmentItem | Job | LoomJoin | PowerNode | Run, code: str, severity: str, name: str
) -> Finding:
    return Finding(code=code, severity=severity, section=SECTION, about=about(record), name=name)
