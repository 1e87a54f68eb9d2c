"""A worked-out box held against its driver's limits and the litres wanted."""

from __future__ import annotations

from dataclasses import replace

from acoustics.air.modes import ModeVerdict
from acoustics.carcass.room.front import check_grille
from acoustics.circuit.limits import AUDIBLE_PORT_SPEED
from acoustics.circuit.solver import Sweep
from acoustics.circuit.tolerance_bands import SpreadBands, check_spread
from acoustics.driver.driver import Driver as AcousticDriver
from acoustics.enclosure.openings import Radiator
from acoustics.findings import Finding as AcousticFinding
from acoustics.sources import Source
from jobs import units
from jobs.design.box.channel_feed import played_up_to, shapeless
from jobs.design.box.enclosures import USUAL_VENTED_QL, hole_q, leak_q
from jobs.design.box.figures import pipe_resonances, port_speeds
from jobs.design.carcass.carcass import Wood
from jobs.design.carcass.contents import port_diameter
from jobs.design.carcass.rounding import check_rounding
from jobs.design.records.about import about
from jobs.design.records.findings import SEVERITIES, CalculatorFinding, Finding, Term, adopt
from jobs.design.records.fixed import held_findings, trouble_of
from jobs.models import Box, Channel, Driver
from jobs.models.box.box_kinds import Behind, kind_of

SECTION = "boxes"
# One limit for findings, curves and study alike.
PORT_SPEED = AUDIBLE_PORT_SPEED


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
                    place=(units.show(float(solved.voltage), "voltage"),),
                )
            )
    findings += [*_radiator(box, solved), *_assumed(box)]
    if box.channel and shapeless(box.channel):
        findings.append(box_finding(box, "filter-shape-unknown", severity="look"))
    findings += _ports(box, solved)
    has_air = kind_of(box).behind is not Behind.OPEN
    given = wood or box.shape == Box.Shape.MOULDED
    if has_air and given and box.wanted_volume and net and abs(net / box.wanted_volume - 1) > 0.05:
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
    findings += _grille(box, part, solved)
    if wood and box.round_over:
        rounding = check_rounding(box, wood)
        findings += adopt(
            rounding, section=SECTION, about=about(box), name=box.name, places=wood.places
        )
    findings += [
        *_two_chambers(box, wood),
        *_size(box, part, wood),
        *_by_rule(box),
    ]
    return findings


def check_feed(box: Box, proposed: Channel | None) -> list[Finding]:
    """Say that no channel feeds a box, or that one feeds fewer drivers than share its air."""
    channel = box.channel
    if channel is None:
        code = "box-without-channel" if proposed is None else "box-could-have-channel"
        place = () if proposed is None else (proposed.name,)
        return [
            box_finding(box, code, severity="note", value=box.test_voltage, unit="V", place=place)
        ]
    if channel.speaker_id == box.driver_id and channel.speaker_count < box.driver_count:
        return [
            box_finding(
                box,
                "drivers-wired-apart",
                severity="look",
                value=str(box.driver_count),
                limit=str(channel.speaker_count),
            )
        ]
    return []


def check_held(box: Box, mass: float | None) -> list[Finding]:
    """Ask of every box that is built how it is held in a crash; one that is not is a stop."""
    if not box.chosen or kind_of(box).behind in (Behind.OPEN, Behind.DOOR):
        return []
    # Which metal it goes into has nothing to do with what it weighs.
    weighed = None if trouble_of(box) == "nowhere" else mass
    return held_findings(box, section=SECTION, mass=weighed)


def _grille(box: Box, part: Driver, solved: Sweep) -> list[Finding]:
    """Hold a grille against the cone, as far as it may move or, where that is more, does."""
    if box.grille_height is None:
        return []
    checked = check_grille(
        height=box.grille_height,
        recess=box.driver_recess or 0.0,
        surround=part.surround_height,
        travel=max(part.xmax or 0.0, float(solved.excursion.max())),
    )
    return adopt(checked, section=SECTION, about=about(box), name=box.name)


def _two_chambers(box: Box, wood: Wood | None) -> list[Finding]:
    """Say what of two chambers has no wood yet, or is not as wanted."""
    kind = kind_of(box)
    if not kind.front_chamber:
        return []
    if wood is None:
        cut = box.material is not None and box.width is not None
        return [box_finding(box, "box-without-divider", severity="look")] if cut else []
    findings = []
    if box.baffle_layers > 1:
        layers = str(box.baffle_layers)
        findings.append(box_finding(box, "divider-one-layer", severity="look", value=layers))
    front, wanted = wood.front_volume, box.front_volume
    if front is not None and wanted and abs(front / wanted - 1) > 0.05:
        findings.append(
            box_finding(
                box,
                "front-volume-off-target",
                severity="look",
                value=front,
                limit=wanted,
                unit="m³",
                source=(Source.FIVE_PERCENT,),
            )
        )
    return findings


def _ports(box: Box, solved: Sweep) -> list[Finding]:
    """Hold each port to the speed of its air, and to what it plays of its own."""
    findings = []
    for name, fastest in port_speeds(solved):
        if fastest > PORT_SPEED:
            findings.append(
                _finding(
                    box,
                    name,
                    "hole-noisy" if name == "open hole" else "port-noisy",
                    value=fastest,
                    limit=PORT_SPEED,
                    unit="m/s",
                    source=(Source.SMALL_PORT,),
                )
            )
    top = played_up_to(box.channel) if box.channel else None
    for name, rings in pipe_resonances(solved):
        if top is not None and rings < top:
            findings.append(
                _finding(
                    box,
                    name,
                    "port-rings-in-band",
                    value=rings,
                    limit=top,
                    unit="Hz",
                    source=(Source.RAYLEIGH_PIPE,),
                )
            )
    return findings


def _finding(box: Box, name: str, code: str, **data: object) -> Finding:
    """A finding about one port; a box's first needs no name of its own."""
    detail = () if name in ("port", "open hole") else (name,)
    place = tuple(Term((word,)) for word in detail)
    return box_finding(box, code, *detail, severity="look", place=place, **data)


def _by_rule(box: Box) -> list[Finding]:
    """What of the ports was chosen by a rule."""
    diameter = port_diameter(box) if kind_of(box).port else None
    if diameter is None or box.port_diameter is not None:
        return []
    return [
        box_finding(
            box,
            "port-area-by-rule",
            severity="note",
            value=diameter,
            unit="m",
            source=(Source.SMALL_PORT_AREA,),
        )
    ]


def _assumed(box: Box) -> list[Finding]:
    """What nobody entered and is taken as usual, each by its name."""
    findings, kind = [], kind_of(box)
    leaks = kind.behind not in (Behind.OPEN, Behind.DOOR)
    if leaks and box.ql is None:
        usual = leak_q(box)
        source = Source.SMALL_LEAKAGE if usual == USUAL_VENTED_QL else Source.COMMON_PRACTICE
        findings.append(
            box_finding(
                box, "leakage-assumed", severity="note", value=usual, unit="-", source=(source,)
            )
        )
    if kind.hole and not box.hole:
        findings.append(box_finding(box, "factory-hole-unsaid", severity="look"))
    if kind.hole and box.hole == Box.Hole.OPEN and box.qp is None:
        findings.append(
            box_finding(box, "hole-loss-assumed", severity="note", value=hole_q(box), unit="-")
        )
    return findings


def check_sure(
    box: Box,
    driver: AcousticDriver,
    bands: SpreadBands | None,
    modes: ModeVerdict | None,
    *,
    top_known: bool,
    voltage: float,
) -> list[Finding]:
    """Collect what spread and standing waves say under the box's name, worst first.

    Where nobody said how high the box plays, there is nothing to hold the waves against.
    """
    findings: list[CalculatorFinding] = [*modes.findings] if modes and top_known else []
    if modes and not top_known:
        lowest = float(modes.modes.frequencies[0])
        findings.append(AcousticFinding(code="band-top-unknown", value=lowest, unit="Hz"))
    adopted = adopt(findings, section=SECTION, about=about(box), name=box.name)
    if bands:
        xmax = None if driver.xmax is None else float(driver.xmax)
        strays = adopt(
            check_spread(bands, xmax=xmax), section=SECTION, about=about(box), name=box.name
        )
        at = (units.show(voltage, "voltage"),)
        adopted += [replace(finding, place=at) for finding in strays]
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
            place=(units.show(float(solved.voltage), "voltage"),),
        )
    ]


def _size(box: Box, part: Driver, wood: Wood | None) -> list[Finding]:
    """Without the driver's dimensions nothing can be held against the wood."""
    panels = wood is not None or box.shape == Box.Shape.MOULDED
    if not panels or (part.depth is not None and part.cutout_diameter is not None):
        return []
    return [box_finding(box, "driver-size-unknown", severity="look", name=str(part))]
