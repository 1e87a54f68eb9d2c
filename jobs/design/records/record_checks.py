"""What the records of a job leave open or forbid, before anything is computed."""

from __future__ import annotations

from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords
from jobs.models import Panel, Vehicle
from wiring.sources import Source


def check_records(records: JobRecords) -> list[Finding]:
    """Hold the records against what must be known before anybody opens a panel."""
    return [*_car(records), *_factory(records), *_panels(records)]


def _car(records: JobRecords) -> list[Finding]:
    vehicle = records.job.vehicle
    car = about(vehicle)
    name = str(vehicle)
    findings = []
    if vehicle.has_high_voltage:
        findings.append(
            Finding(
                code="high-voltage-car",
                severity="look",
                section="car",
                about=car,
                name=name,
                source=(Source.ORANGE_COVERING,),
            )
        )
    if vehicle.figures_from:
        findings.append(
            Finding(
                code="car-taken-over",
                severity="look",
                section="car",
                about=car,
                name=name,
                value=vehicle.figures_from,
                value_said=vehicle.figures_from,
            )
        )
    missing = {
        "battery-place-unknown": vehicle.battery_place,
        "battery-chemistry-unknown": vehicle.battery_chemistry,
        "charging-source-unknown": vehicle.charging_source,
        "charging-current-unknown": vehicle.charging_current,
    }
    findings += [
        Finding(code=code, severity="look", section="car", about=car, name=name)
        for code, value in missing.items()
        if not value
    ]
    return findings


def _factory(records: JobRecords) -> list[Finding]:
    return [
        Finding(
            code="factory-fate-open",
            severity="look",
            section="car",
            about=about(part),
            name=str(part),
        )
        for part in records.factory_parts
        if not part.fate
    ]


def _panels(records: JobRecords) -> list[Finding]:
    return [
        finding for panel in records.panels for finding in check_panel(panel, records.job.vehicle)
    ]


def check_panel(panel: Panel, vehicle: Vehicle) -> list[Finding]:
    """Hold one panel against what must be known before it is opened."""
    findings = []
    if panel.airbag_near is None:
        findings.append(_panel("airbag-unknown", "look", panel))
    elif panel.airbag_near and not vehicle.airbag_procedure.strip():
        findings.append(_panel("airbag-procedure-missing", "stop", panel))
    if panel.glass_near is None:
        findings.append(_panel("glass-unknown", "look", panel))
    if panel.drilled is None:
        findings.append(_panel("drilling-unknown", "look", panel))
    elif panel.drilled:
        findings.append(_panel("drilled-panel", "note", panel))
    return findings


def _panel(code: str, severity: str, panel: Panel) -> Finding:
    return Finding(
        code=code, severity=severity, section="panels", about=about(panel), name=panel.name
    )
