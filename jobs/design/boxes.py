"""A box worked out: its litres, its acoustic load, its curves, its figures and its findings."""

from __future__ import annotations

from dataclasses import dataclass, field

from acoustics.boxes import Box as Enclosure
from acoustics.driver import Driver as AcousticDriver
from acoustics.errors import AcousticsError
from acoustics.port import Port
from acoustics.solver import sweep
from jobs.design import drivers
from jobs.design.box_checks import QUIET_PORT, SECTION, box_finding, check_box
from jobs.design.box_figures import FREQUENCIES, Curve, Figure, curves_of, figures_of
from jobs.design.carcass import Wood
from jobs.design.enclosures import enclosure, wood_and_port
from jobs.design.findings import Finding, adopt
from jobs.models import Box, Driver

__all__ = ["QUIET_PORT", "BoxResult", "Curve", "work_out_box"]


@dataclass(frozen=True, kw_only=True)
class BoxResult:
    """What a box comes to; with `trouble` set, nothing but the reason could be worked out."""

    box: Box
    findings: list[Finding]
    trouble: str = ""
    driver: AcousticDriver | None = None
    load: Enclosure | None = None
    voltage: float = 2.83
    # What the amplifier can give; None when no channel says so.
    amplifier: float | None = None
    net_volume: float | None = None
    port: Port | None = None
    wood: Wood | None = None
    figures: list[Figure] = field(default_factory=list)
    curves: dict[str, Curve] = field(default_factory=dict)


def work_out_box(box: Box, voltage: float | None = None) -> BoxResult:
    """Work one box out; whatever stands in the way becomes a finding, never an exception."""
    part: Driver | None = getattr(box.driver.part, "driver", None) if box.driver else None
    if part is None:
        return BoxResult(
            box=box, findings=[box_finding(box, "box-without-driver", severity="look")]
        )
    found = []
    try:
        completed = drivers.completed(part)
        found += adopt(completed.findings, section=SECTION, where=str(part), record_id=box.pk)
        driver = drivers.equivalent(part, box, box.channel)
        port, made = wood_and_port(box)
        if made:
            found += adopt(made.findings, section=SECTION, where=box.name, record_id=box.pk)
        net = made.carcass.net_volume if made else box.wanted_volume
        load = enclosure(box, net, port)
        volts = voltage or box.test_voltage
        curves = sweep(driver=driver, box=load, frequencies=FREQUENCIES, voltage=volts)
        found += check_box(box, part, curves, net, made)
        return BoxResult(
            box=box,
            findings=found,
            driver=driver,
            load=load,
            voltage=volts,
            amplifier=voltage,
            net_volume=net,
            port=port,
            wood=made,
            figures=figures_of(driver, load, curves, net, made, port),
            curves=curves_of(curves),
        )
    except AcousticsError as error:
        found.append(box_finding(box, "box-cannot-be", value=str(error)))
        return BoxResult(box=box, findings=found, trouble=str(error))
