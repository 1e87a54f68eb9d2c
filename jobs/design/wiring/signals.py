"""Line-level and control runs worked out: treble, company of power runs, turn-on current."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt
from jobs.design.records.records import JobRecords
from jobs.design.wiring.complete import check_complete, check_factory_signals
from jobs.design.wiring.control import OnTheTree, check_control, fed_by_supply
from jobs.design.wiring.power import PowerResult
from jobs.design.wiring.schedule import SECTION, together
from jobs.models import EquipmentItem, LoomJoin, Panel, Run
from wiring.errors import WiringError
from wiring.runs.signal_runs import LineRun, TurnOn, check_line_run, check_turn_on

SIGNALS = (Run.Kind.LINE, Run.Kind.SPEAKER)
# Told once for all runs.
_TOGETHER = {"line-treble-unknown", "line-beside-power-unknown", "route-missing"}


@dataclass(frozen=True, kw_only=True)
class SignalResult:
    """What comes of the line-level and control runs."""

    turn_ons: dict[str, TurnOn] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)


def work_out_signals(records: JobRecords, power: PowerResult) -> SignalResult:
    """Check every line-level and control run, and whether one is missing."""
    findings: list[Finding] = []
    turn_ons = {}
    # A bus or fibre has no treble to lose.
    data = _joined(records, LoomJoin.Carries.DATA)
    supplied = _joined(records, LoomJoin.Carries.SUPPLY)
    tree = OnTheTree(records.runs, power)
    for run in records.runs:
        try:
            on_supply = fed_by_supply(run, supplied)
            if run.kind in SIGNALS and on_supply:
                findings.append(_finding(run, "signal-on-supply", "stop", ""))
            if run.kind == Run.Kind.LINE and run.pk not in data:
                findings += _line(run, records.runs)
            elif run.kind == Run.Kind.CONTROL:
                line = turn_ons[run.label] = _turn_on(run, on_supply=on_supply)
                findings += _control(run, line)
                findings += check_control(run, line, tree, on_supply=on_supply)
        except WiringError as error:
            refused = _finding(run, "run-cannot-be", "stop", str(error))
            findings.append(replace(refused, refused=error))
    findings += check_complete(records)
    findings += check_factory_signals(records)
    alike = [finding for finding in findings if finding.code in _TOGETHER]
    return SignalResult(
        turn_ons=turn_ons,
        findings=[finding for finding in findings if finding.code not in _TOGETHER]
        + together(records.job, alike),
    )


def _joined(records: JobRecords, carries: LoomJoin.Carries) -> set[int | None]:
    """Keys of the runs that meet this in the factory loom."""
    return {join.run_id for join in records.joins if join.carries == carries}


def _finding(run: Run, code: str, severity: str, value: str) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        section=SECTION,
        about=about(run),
        name=run.label,
        value=value,
    )


def _line(run: Run, runs: Iterable[Run]) -> list[Finding]:
    findings = adopt(
        check_line_run(
            LineRun(
                id=about(run).id,
                length=run.length,
                source_resistance=run.source_resistance,
                capacitance_per_length=run.conductor.capacitance if run.conductor else None,
                beside_power=run.beside_power,
            )
        ),
        section=SECTION,
        about=about(run),
        name=run.label,
    )
    company = _company(run, runs) if run.beside_power is None else []
    if not company:
        return findings
    # The routes tell what nobody has written down: one panel may be a crossing, two are a way.
    panels_of = Counter(about(power).id for _panel, beside in company for power in beside)
    along = max(panels_of.values()) > 1
    keys = (
        _listed(about(panel).id, [about(run_beside).id for run_beside in power])
        for panel, power in company
    )
    told = (
        _listed(str(panel), [run_beside.label for run_beside in power]) for panel, power in company
    )
    shares = replace(
        _finding(
            run,
            "line-along-power" if along else "line-shares-panel",
            "look" if along else "note",
            "; ".join(keys),
        ),
        value_said="; ".join(told),
    )
    return [
        shares if finding.code == "line-beside-power-unknown" else finding for finding in findings
    ]


def _listed(panel: str, runs: Iterable[str]) -> str:
    return f"{panel}: {', '.join(runs)}"


def _company(run: Run, runs: Iterable[Run]) -> list[tuple[Panel, list[Run]]]:
    """The power runs behind the same panels, by panel."""
    power = [(run, _panels(run)) for run in runs if run.kind == Run.Kind.POWER]
    shared = []
    for stretch in run.route:
        beside = [power_run for power_run, panels in power if stretch.panel_id in panels]
        if stretch.panel and beside:
            shared.append((stretch.panel, beside))
    return shared


def _panels(run: Run) -> set[int | None]:
    return {stretch.panel_id for stretch in run.route}


def _turn_on(run: Run, *, on_supply: bool | None) -> TurnOn:
    item = run.start.equipment if run.start else None
    processor = getattr(item.part, "processor", None) if item else None
    limit = run.source_limit
    if limit is None and processor is not None:
        limit = processor.turn_on_limit
    if limit is None and run.fuse is not None and on_supply:
        limit = run.fuse.rating
    if run.current is not None or run.mutes:
        inputs: list[float | None] = [run.current]
    else:
        inputs = [_input_current(item) for item in run.woken] or [None]
    return TurnOn(
        id=about(run).id,
        source_limit=limit,
        input_currents=inputs,
        relay=run.relay,
        relay_coil=run.relay_coil,
    )


def _input_current(item: EquipmentItem) -> float | None:
    amplifier = getattr(item.part, "amplifier", None)
    if amplifier is None or amplifier.turn_on_current is None:
        return None
    return float(amplifier.turn_on_current * item.quantity)


def _control(run: Run, line: TurnOn) -> list[Finding]:
    findings = adopt(check_turn_on(line), section=SECTION, about=about(run), name=run.label)
    if run.length is None:
        findings.append(_finding(run, "run-length-unknown", "look", ""))
    return findings
