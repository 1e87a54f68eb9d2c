"""What the records of a job leave open or forbid, before anything is computed."""

from __future__ import annotations

from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords


def check_records(records: JobRecords) -> list[Finding]:
    """Hold the records against what must be known before anybody opens a panel."""
    return [*_car(records), *_factory(records), *_panels(records)]


def _car(records: JobRecords) -> list[Finding]:
    vehicle = records.job.vehicle
    where = str(vehicle)
    found = []
    if vehicle.has_high_voltage:
        found.append(
            Finding(
                code="high-voltage-car",
                severity="look",
                section="car",
                where=where,
                source="UN R100, 5.1.1.5.3: orange covering",
            )
        )
    missing = {
        "battery-place-unknown": vehicle.battery_place,
        "battery-chemistry-unknown": vehicle.battery_chemistry,
        "charging-source-unknown": vehicle.charging_source,
        "charging-current-unknown": vehicle.charging_current,
    }
    found += [
        Finding(code=code, severity="look", section="car", where=where)
        for code, value in missing.items()
        if not value
    ]
    return found


def _factory(records: JobRecords) -> list[Finding]:
    return [
        Finding(
            code="factory-fate-open",
            severity="look",
            section="car",
            where=str(part),
            record_id=part.pk,
        )
        for part in records.factory_parts
        if not part.fate
    ]


def _panels(records: JobRecords) -> list[Finding]:
    found = []
    procedure = records.job.vehicle.airbag_procedure.strip()
    for panel in records.panels:
        if panel.airbag_near is None:
            found.append(_panel("airbag-unknown", "look", panel.name, panel.pk))
        elif panel.airbag_near and not procedure:
            found.append(_panel("airbag-procedure-missing", "stop", panel.name, panel.pk))
        if panel.drilled:
            found.append(_panel("drilled-panel", "note", panel.name, panel.pk))
    return found


def _panel(code: str, severity: str, where: str, pk: int | None) -> Finding:
    return Finding(code=code, severity=severity, section="panels", where=where, record_id=pk)
