"""A worked-out box held against its driver's limits and the litres wanted."""

from __future__ import annotations

from acoustics.air.modes import ModeVerdict
from acoustics.circuit.solver import Sweep
from acoustics.circuit.tolerance_bands import SpreadBands, check_spread
from acoustics.driver.driver import Driver as AcousticDriver
from acoustics.enclosure.openings import Radiator
from acoustics.sources import Source
from jobs.design.box.channel_feed import shapeless
from jobs.design.carcass.carcass import Wood
from jobs.design.records.about import about
from jobs.design.records.findings import SEVERITIES, Finding, adopt
from jobs.models import Box, Driver

SECTION = "boxes"
# Peak air speed in a port, m/s: engineering guidance, not a limit of any standard.
QUIET_PORT, NOISY_PORT = 10.0, 17.0


def box_finding(box: Box, code: str, *detail: str, **data: object) -> Finding:
    severity = str(data.pop("severity", "stop"))
    return Finding(
        code=code,
        severity=severity,
        section=SECTION,
        about=about(box, *detail),
        name=str(data.pop("name", box.name)),
        **data,  # type: ignore[arg-type]
    )


def check_box(
    box: Box,
    part: Driver,
    solved: Sweep,
    net: float | None,
    wood: Wood | None,
) -> list[Finding]:
    """Hold a box against its driver's limits and against the litres wanted."""
    findings = []
    if part.xmax is None:
        findings.append(box_finding(box, "xmax-unknown", severity="look", name=str(part)))
    else:
        over = solved.excursion > part.xmax
        if over.any():
            findings.append(
                box_finding(
                    box,
                    "excursion-above-xmax",
                    severity="look",
                    value=float(solved.excursion.max()),
                    limit=part.xmax,
                    unit="m",
                    source=(Source.DRIVER_SHEET,),
                )
            )
    findings += _radiator(box, solved)
    if box.channel and shapeless(box.channel):
        findings.append(box_finding(box, "filter-shape-unknown", severity="look"))
    if solved.port_speed is not None:
        fastest = float(solved.port_speed.max())
        if fastest > QUIET_PORT:
            code = "port-noisy" if fastest > NOISY_PORT else "port-audible"
            findings.append(
                box_finding(
                    box,
                    code,
                    severity="look" if fastest > NOISY_PORT else "note",
                    value=fastest,
                    limit=NOISY_PORT if fastest > NOISY_PORT else QUIET_PORT,
                    unit="m/s",
                    source=(Source.COMMON_PRACTICE,),
                )
            )
    if wood and box.wanted_volume and net and abs(net / box.wanted_volume - 1) > 0.05:
        findings.append(
            box_finding(
                box,
                "volume-off-target",
                severity="look",
                value=net,
                limit=box.wanted_volume,
                unit="m³",
                source=(Source.FIVE_PERCENT,),
            )
        )
    findings += _size(box, part, wood)
    return findings


def check_sure(
    box: Box, driver: AcousticDriver, bands: SpreadBands | None, modes: ModeVerdict | None
) -> list[Finding]:
    """Collect what spread and standing waves say under the box's name, worst first."""
    findings = [*modes.findings] if modes else []
    if bands:
        xmax = None if driver.xmax is None else float(driver.xmax)
        findings += check_spread(bands, xmax=xmax)
    adopted = adopt(findings, section=SECTION, about=about(box), name=box.name)
    return sorted(adopted, key=lambda finding: SEVERITIES.index(finding.severity))


def _radiator(box: Box, solved: Sweep) -> list[Finding]:
    """Hold an undriven cone against how far it may move."""
    cones = [flow.opening for flow in solved.load.flows if isinstance(flow.opening, Radiator)]
    if not cones or solved.radiator_excursion is None:
        return []
    limit, part = cones[0].xmax, box.radiator.part if box.radiator else box.name
    if limit is None:
        return [box_finding(box, "radiator-xmax-unknown", severity="look", name=str(part))]
    travel = float(solved.radiator_excursion.max())
    if travel <= limit:
        return []
    return [
        box_finding(
            box,
            "radiator-above-xmax",
            severity="look",
            value=travel,
            limit=float(limit),
            unit="m",
            source=(Source.DRIVER_SHEET,),
        )
    ]


def _size(box: Box, part: Driver, wood: Wood | None) -> list[Finding]:
    """Without the driver's dimensions nothing can be held against the wood."""
    if wood is None or (part.depth is not None and part.cutout_diameter is not None):
        return []
    return [box_finding(box, "driver-size-unknown", severity="look", name=str(part))]
