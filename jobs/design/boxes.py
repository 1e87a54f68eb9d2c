"""A box worked out: its litres, its acoustic load, its curves, its figures and its findings."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from acoustics import boxes as kinds
from acoustics.driver import Driver as AcousticDriver
from acoustics.errors import AcousticsError
from acoustics.openings import Vent
from acoustics.port import End, Port, RectangularOpening, RoundOpening, port_for_tuning
from acoustics.solver import Sweep, sweep
from jobs.design import drivers
from jobs.design.carcass import Wood, wood
from jobs.design.findings import Finding, adopt
from jobs.models import Box, Driver

Floats = npt.NDArray[np.float64]

FREQUENCIES: Floats = np.geomspace(10.0, 500.0, 240)
SECTION = "boxes"
# Peak air speed in a port, m/s: engineering guidance, not a limit of any standard.
QUIET_PORT, NOISY_PORT = 10.0, 17.0


@dataclass(frozen=True, kw_only=True)
class Curve:
    """One curve over frequency; `kind` says how its values are shown."""

    name: str
    kind: str
    frequencies: Floats
    values: Floats


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One number with its name, its kind of quantity and where it comes from."""

    name: str
    value: float | None
    kind: str
    source: str = ""


@dataclass(frozen=True, kw_only=True)
class BoxResult:
    """What a box comes to; with `trouble` set, nothing but the reason could be worked out."""

    box: Box
    findings: list[Finding]
    trouble: str = ""
    driver: AcousticDriver | None = None
    voltage: float = 2.83
    net_volume: float | None = None
    port: Port | None = None
    wood: Wood | None = None
    figures: list[Figure] = field(default_factory=list)
    curves: dict[str, Curve] = field(default_factory=dict)


def _finding(box: Box, code: str, **data: object) -> Finding:
    severity = str(data.pop("severity", "stop"))
    return Finding(
        code=code,
        severity=severity,
        section=SECTION,
        where=str(data.pop("where", box.name)),
        record_id=box.pk,
        **data,  # type: ignore[arg-type]
    )


def work_out_box(box: Box, voltage: float | None = None) -> BoxResult:
    """Work one box out; whatever stands in the way becomes a finding, never an exception."""
    part: Driver | None = getattr(box.driver.part, "driver", None) if box.driver else None
    if part is None:
        return BoxResult(box=box, findings=[_finding(box, "box-without-driver", severity="look")])
    found = []
    try:
        completed = drivers.completed(part)
        found += adopt(completed.findings, section=SECTION, where=str(part), record_id=box.pk)
        driver = drivers.equivalent(part, box, box.channel)
        port, made = _wood_and_port(box)
        if made:
            found += adopt(made.findings, section=SECTION, where=box.name, record_id=box.pk)
        net = made.carcass.net_volume if made else box.wanted_volume
        enclosure = _enclosure(box, net, port)
        volts = voltage or box.test_voltage
        curves = sweep(driver=driver, box=enclosure, frequencies=FREQUENCIES, voltage=volts)
        found += _check(box, part, driver, curves, net, made)
        return BoxResult(
            box=box,
            findings=found,
            driver=driver,
            voltage=volts,
            net_volume=net,
            port=port,
            wood=made,
            figures=_figures(box, driver, enclosure, curves, net, made, port),
            curves=_curves(curves),
        )
    except AcousticsError as error:
        found.append(_finding(box, "box-cannot-be", value=str(error)))
        return BoxResult(box=box, findings=found, trouble=str(error))


def _wood_and_port(box: Box) -> tuple[Port | None, Wood | None]:
    """Cut the wood and size the port together: a port takes litres from the box it tunes."""
    if box.kind == Box.Kind.VENTED and box.port_length is None and box.wanted_tuning:
        made = wood(box, port_length=None)
        port = None
        # The displacement of the port changes the length that tunes the box; this settles fast.
        for _ in range(8):
            net = made.carcass.net_volume if made else box.wanted_volume
            if net is None:
                return None, made
            port = _tuned_port(box, net)
            made = wood(box, port_length=port.length)
        return port, made
    port = _given_port(box)
    return port, wood(box, port_length=port.length if port else None)


def _opening(box: Box) -> RoundOpening | RectangularOpening | None:
    if box.port_shape == Box.PortShape.SLOT:
        if box.port_width is None or box.port_height is None:
            return None
        return RectangularOpening(width=box.port_width, height=box.port_height)
    return None if box.port_diameter is None else RoundOpening(diameter=box.port_diameter)


def _inner_end(box: Box) -> End:
    return End.ON_WALL if box.port_shape == Box.PortShape.SLOT else End.FREE


def _tuned_port(box: Box, net: float) -> Port:
    opening = _opening(box)
    if opening is None or box.wanted_tuning is None:
        what = "the size of the port's opening"
        raise _MissingFigureError(what)
    return port_for_tuning(
        box.wanted_tuning, volume=net, opening=opening, inner=_inner_end(box), count=box.port_count
    )


def _given_port(box: Box) -> Port | None:
    opening = _opening(box)
    if opening is None or box.port_length is None:
        return None
    return Port(
        opening=opening, length=box.port_length, inner=_inner_end(box), count=box.port_count
    )


class _MissingFigureError(AcousticsError):
    """A figure the kind of box cannot do without."""

    def __init__(self, what: str) -> None:
        super().__init__(f"{what} is missing")


def _need(value: float | None, what: str) -> float:
    if value is None:
        raise _MissingFigureError(what)
    return value


def _q(value: float | None) -> float:
    return math.inf if value is None else value


def _enclosure(box: Box, net: float | None, port: Port | None) -> kinds.Box:
    """Return the acoustic load of a box record."""
    kind, q = box.kind, {"ql": _q(box.ql), "qa": _q(box.qa)}
    if kind == Box.Kind.INFINITE_BAFFLE:
        return kinds.InfiniteBaffle()
    volume = _need(net, "the net volume, or the outside dimensions and the sheet material,")
    if kind == Box.Kind.SEALED:
        return kinds.Sealed(volume=volume, fill=box.fill, **q)
    if kind == Box.Kind.DOOR:
        return kinds.Door(
            volume=volume, ql=_need(box.ql, "the leakage QL of the door"), opening=_hole(box)
        )
    if kind == Box.Kind.PASSIVE_RADIATOR:
        part = getattr(box.radiator.part, "driver", None) if box.radiator else None
        if part is None:
            what = "the passive radiator"
            raise _MissingFigureError(what)
        return kinds.PassiveRadiatorBox(volume=volume, radiator=drivers.radiator(part, box), **q)
    if port is None:
        what = "the port: its opening, and its length or the tuning wanted,"
        raise _MissingFigureError(what)
    vent = Vent.of(port)
    if kind == Box.Kind.VENTED:
        return kinds.Vented(volume=volume, vent=vent, qp=_q(box.qp), **q)
    front_volume = _need(box.front_volume, "the volume of the front chamber")
    front = kinds.Vented(volume=front_volume, vent=vent, qp=_q(box.qp), **q)
    if kind == Box.Kind.BAND_PASS_4:
        return kinds.BandPass(rear=kinds.Sealed(volume=volume, fill=box.fill, **q), front=front)
    rear_port = Port(
        opening=RoundOpening(diameter=_need(box.rear_port_diameter, "the rear port's diameter")),
        length=_need(box.rear_port_length, "the rear port's length"),
        inner=End.FREE,
    )
    rear = kinds.Vented(volume=volume, vent=Vent.of(rear_port), qp=_q(box.qp), **q)
    return kinds.BandPass(rear=rear, front=front)


# A hole in sheet metal is a very short port: the metal's own thickness.
SHEET_METAL = 0.001


def _hole(box: Box) -> Vent | None:
    """Return what the factory hole beside the driver is, acoustically."""
    if box.hole != Box.Hole.OPEN:
        return None
    area = _need(box.hole_area, "the area of the factory hole")
    opening = RoundOpening(diameter=2 * math.sqrt(area / math.pi))
    return Vent.of(Port(opening=opening, length=SHEET_METAL, inner=End.FLANGED))


def _curves(solved: Sweep) -> dict[str, Curve]:
    def curve(name: str, kind: str, values: Floats | None) -> dict[str, Curve]:
        if values is None:
            return {}
        return {
            name: Curve(name=name, kind=kind, frequencies=FREQUENCIES, values=np.asarray(values))
        }

    return {
        **curve("spl", "level", solved.spl),
        **curve("excursion", "length", solved.excursion),
        **curve("port_speed", "speed", solved.port_speed),
        **curve("radiator_excursion", "length", solved.radiator_excursion),
        **curve("impedance", "resistance", np.abs(solved.impedance)),
        **curve("group_delay", "time", solved.group_delay),
    }


def _cutoff(solved: Sweep, name: str) -> float | None:
    try:
        return float(getattr(solved, name))
    except AcousticsError:
        return None  # the sweep does not reach that far down


def _figures(
    box: Box,
    driver: AcousticDriver,
    enclosure: kinds.Box,
    solved: Sweep,
    net: float | None,
    made: Wood | None,
    port: Port | None,
) -> list[Figure]:
    """List the figures of the box in the order a fabricator asks for them."""
    figures = [Figure(name="net_volume", value=net, kind="volume")]
    if made:
        volumes = made.carcass.volumes
        figures += [
            Figure(name="gross_volume", value=volumes.gross, kind="volume"),
            Figure(name="taken_by_driver", value=volumes.parts, kind="volume"),
            Figure(name="taken_by_port", value=volumes.ports, kind="volume"),
            Figure(name="taken_by_braces", value=volumes.braces + volumes.layers, kind="volume"),
        ]
    if isinstance(enclosure, kinds.Sealed):
        fc = float(enclosure.resonance(driver))
        figures += [
            Figure(name="fc", value=fc, kind="frequency", source="Small 1972, JAES 20, 798"),
            Figure(name="qtc", value=_qtc(driver, enclosure), kind="ratio"),
        ]
    elif isinstance(enclosure, kinds.Vented | kinds.PassiveRadiatorBox):
        fb = float(enclosure.resonance(driver))
        figures.append(Figure(name="fb", value=fb, kind="frequency", source="Helmholtz resonance"))
    if port is not None:
        figures.append(Figure(name="port_length", value=port.length, kind="length"))
    figures += [
        Figure(name=name, value=_cutoff(solved, name), kind="frequency")
        for name in ("f3", "f6", "f10")
    ]
    figures += [
        Figure(name="largest_excursion", value=float(solved.excursion.max()), kind="length"),
        Figure(
            name="lowest_impedance", value=float(abs(solved.impedance).min()), kind="resistance"
        ),
    ]
    if solved.port_speed is not None:
        figures.append(
            Figure(name="largest_port_speed", value=float(solved.port_speed.max()), kind="speed")
        )
    return figures


def _qtc(driver: AcousticDriver, enclosure: kinds.Sealed) -> float:
    """Qtc from all losses: 1/Qtc = 1/(Qts √(1+α)) + 1/QL + 1/QA at fc."""
    ratio = float(enclosure.resonance(driver) / driver.fs)
    return 1 / (1 / (float(driver.qts) * ratio) + 1 / float(enclosure.ql) + 1 / float(enclosure.qa))


def _check(
    box: Box,
    part: Driver,
    driver: AcousticDriver,
    solved: Sweep,
    net: float | None,
    made: Wood | None,
) -> list[Finding]:
    """Hold a box against its driver's limits and against the litres wanted."""
    found = []
    if part.xmax is None:
        found.append(_finding(box, "xmax-unknown", severity="look", where=str(part)))
    else:
        over = solved.excursion > part.xmax
        if over.any():
            found.append(
                _finding(
                    box,
                    "excursion-above-xmax",
                    severity="look",
                    value=float(solved.excursion.max()),
                    limit=part.xmax,
                    unit="m",
                    source="the driver's data sheet",
                )
            )
    if solved.port_speed is not None:
        fastest = float(solved.port_speed.max())
        if fastest > QUIET_PORT:
            code = "port-noisy" if fastest > NOISY_PORT else "port-audible"
            found.append(
                _finding(
                    box,
                    code,
                    severity="look" if fastest > NOISY_PORT else "note",
                    value=fastest,
                    limit=NOISY_PORT if fastest > NOISY_PORT else QUIET_PORT,
                    unit="m/s",
                    source="engineering guidance, common practice, no source",
                )
            )
    if made and box.wanted_volume and net and abs(net / box.wanted_volume - 1) > 0.05:
        found.append(
            _finding(
                box,
                "volume-off-target",
                severity="look",
                value=net,
                limit=box.wanted_volume,
                unit="m³",
                source="common practice, no source: 5 %",
            )
        )
    found += _depth(box, part, made)
    return found


def _depth(box: Box, part: Driver, made: Wood | None) -> list[Finding]:
    """The driver must clear the wall behind it."""
    if made is None:
        return []
    if part.depth is None or part.cutout_diameter is None:
        return [_finding(box, "driver-size-unknown", severity="look", where=str(part))]
    outline = made.carcass.air_profile.polygon.bounds
    inside = outline[2] - outline[0]
    if part.depth >= inside:
        return [
            _finding(
                box,
                "driver-deeper-than-box",
                value=part.depth,
                limit=inside,
                unit="m",
                source="the driver's data sheet and the cut list",
            )
        ]
    return []
