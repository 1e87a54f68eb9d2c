"""The pictures of a job: design results handed to the drawing modules, for page and sheet alike."""

from __future__ import annotations

from collections.abc import Container, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from jobs import units
from jobs.design.box.boxes import QUIET_PORT, BoxResult, Curve
from jobs.design.job.whole import JobDesign
from jobs.design.records.about import about
from jobs.design.wiring.channels import ChannelResult
from jobs.drawings.pencil.axis import Axis
from jobs.drawings.pencil.chart import Chart, Limit, Marker, Series
from jobs.drawings.pencil.chart_picture import ChartPicture, picture
from jobs.drawings.pencil.nodes import Node
from jobs.drawings.wiring.power_tree import PowerTree, Run, power_tree
from jobs.drawings.wiring.signal_path import Link, SignalPath, signal_path
from jobs.drawings.wood.wood_pictures import views
from jobs.models import PowerNode
from jobs.models import Run as CableRun


@dataclass(frozen=True, kw_only=True)
class BoxPictures:
    """Everything drawn of one box."""

    views: Sequence[tuple[str, SafeString]]
    charts: Sequence[ChartPicture]


def curve_titles() -> dict[str, str]:
    """Name each curve of a box."""
    return {
        "spl": _("Level at 1 m, half space"),
        "excursion": _("Cone travel, one way"),
        "port_speed": _("Air speed in the port"),
        "radiator_excursion": _("Passive radiator travel, one way"),
        "impedance": _("Impedance at the amplifier, cable included"),
        "impedance_phase": _("Phase of that impedance"),
        "group_delay": _("Group delay"),
    }


def box(
    result: BoxResult,
    saved: BoxResult | None = None,
    *,
    without: Container[str] = (),
) -> BoxPictures:
    """Draw a box: its views when it has wood, its curves when it could be worked out."""
    key = f"box{result.box.pk or 'new'}"
    ghosts = [saved] if saved else []
    drawn = [name for name in result.curves if name not in without]
    charts = [_chart(key, name, [result], ghosts) for name in drawn]
    return BoxPictures(views=views(result, key), charts=charts)


def _chart(
    key: str, name: str, results: Sequence[BoxResult], ghosts: Sequence[BoxResult]
) -> ChartPicture:
    first = results[0].curves[name]
    factor, unit = units.drawn_in(first.kind)
    title = curve_titles()[name]
    series = [_series(_main(name, result), result.curves[name], factor) for result in results]
    series += [
        _series(beside_words(other, result), other, factor)
        for result in results
        for other in result.beside.get(name, ())
    ]
    series += [
        _series(_("saved"), result.curves[name], factor, ghost=True)
        for result in ghosts
        if name in result.curves
    ]
    limits = _limits(name, results, factor)
    spec = Chart(
        key=f"{key}-{name}".replace("_", "-"),
        title=title,
        description=_("%(title)s from 10 to 500 Hz at %(voltage)s.")
        % {"title": title, "voltage": units.show(results[0].voltage, "voltage")},
        x=Axis(label=_("frequency"), unit="Hz", low=10, high=500, log=True),
        y=_y_axis(name, unit, series, limits),
        series=series,
        limits=limits,
        markers=_markers(results) if name == "spl" else [],
    )
    return picture(spec)


def _main(name: str, result: BoxResult) -> str:
    """Name the main curve: by its box, or by its filters where it stands beside one without."""
    unfiltered = any(curve.name == "unfiltered" for curve in result.beside.get(name, ()))
    return _("with filters") if unfiltered else result.box.name


def beside_words(curve: Curve, result: BoxResult) -> str:
    """Say what a curve beside the main one is."""
    if curve.name == "unfiltered":
        return _("without filters")
    return _("at %(voltage)s") % {"voltage": units.show(result.box.test_voltage, "voltage")}


def _series(name: str, curve: Curve, factor: float, *, ghost: bool = False) -> Series:
    return Series(
        name=name,
        x=curve.frequencies.tolist(),
        y=(curve.values * factor).tolist(),
        ghost=ghost,
    )


def _limits(name: str, results: Sequence[BoxResult], factor: float) -> list[Limit]:
    """Draw the limits that belong to a curve, where they are known."""
    if name == "excursion" and results[0].driver and results[0].driver.xmax is not None:
        return [Limit(value=float(results[0].driver.xmax) * factor, words="Xmax")]
    if name == "port_speed":
        return [Limit(value=QUIET_PORT * factor, words=_("may be heard"))]
    return []


def _markers(results: Sequence[BoxResult]) -> list[Marker]:
    """Name the frequencies of a single box."""
    if len(results) > 1:
        return []
    words = {"fc": "fc", "fb": "fb", "f3": "f3"}
    return [
        Marker(
            x=figure.value, words=f"{words[figure.name]} {units.show(figure.value, figure.kind)}"
        )
        for figure in results[0].figures
        if figure.name in words and figure.value is not None
    ]


def _y_axis(name: str, unit: str, series: Sequence[Series], limits: Sequence[Limit]) -> Axis:
    values = np.concatenate([np.asarray(curve.y) for curve in series])
    label = {
        "spl": _("level"),
        "impedance": _("impedance"),
        "impedance_phase": _("phase"),
        "group_delay": _("delay"),
        "port_speed": _("speed"),
    }.get(name, _("travel"))
    if name == "spl":
        top = 5 * np.ceil((values.max() + 2) / 5)
        return Axis(label=label, unit=unit, low=float(top - 45), high=float(top))
    if name == "impedance_phase":
        return Axis(label=label, unit=unit, low=-90.0, high=90.0)
    highest = max([float(values.max()) * 1.1, *[limit.value * 1.15 for limit in limits]])
    return Axis(label=label, unit=unit, low=0.0, high=highest)


def power(design: JobDesign) -> list[SafeString]:
    """Draw the power tree with voltages, currents, gauges, fuses, and findings at the spot."""
    result = design.power
    if not result.nodes:
        return []
    still_open = [finding for finding in design.findings_of("power") if finding.is_open]

    def marks(row: PowerNode | CableRun) -> list[str]:
        return _worst(finding.severity for finding in still_open if finding.concerns(about(row)))

    spec = PowerTree(
        key="power",
        title=_("Power tree"),
        description=_("From the sources to what takes current; the thicker line is more copper."),
        nodes=[
            Node(
                id=str(node.node.pk),
                kind=node.node.kind,
                name=node.node.name,
                lines=[
                    line
                    for line in (
                        _shown(node.worst_voltage, "voltage"),
                        _shown(node.worst_current, "current"),
                        node.node.place,
                    )
                    if line
                ],
                marks=marks(node.node),
            )
            for node in result.nodes
        ],
        runs=[
            Run(
                label=run.run.label,
                start=str(run.run.start_id),
                end=str(run.run.end_id),
                words=[
                    line
                    for line in (
                        _cable(run.run.conductor.size) if run.run.conductor else "",
                        _shown(run.run.length, "cable_length"),
                        _shown(run.worst.current if run.worst else None, "current"),
                    )
                    if line
                ],
                fuse=_shown(run.run.fuse.rating, "current") if run.run.fuse else "",
                end_fuse=_shown(run.run.end_fuse.rating, "current") if run.run.end_fuse else "",
                area=run.area,
                marks=marks(run.run),
            )
            for run in result.runs
            if run.run.start_id and run.run.end_id
        ],
    )
    return power_tree(spec)


def _cable(size: str) -> str:
    return units.show_conductor(units.parse_conductor(size))


def _shown(value: float | None, kind: str) -> str:
    return "" if value is None else units.show(value, kind)


def _worst(severities: Iterable[str]) -> list[str]:
    """One mark at a spot says enough: the worst."""
    order = ("stop", "look", "note")
    return sorted(set(severities), key=order.index)[:1]


def signal(design: JobDesign) -> list[SafeString]:
    """Draw the way from every source to its speakers; factory parts that stay look different."""
    if not design.channels:
        return []
    nodes: dict[str, Node] = {}
    links: list[Link] = []
    for result in design.channels:
        _channel(result, nodes, links)
    spec = SignalPath(
        key="signal",
        title=_("Signal path"),
        description=_("From the sources on the left to the speakers on the right."),
        nodes=list(nodes.values()),
        links=links,
    )
    return [signal_path(spec)]


def _channel(result: ChannelResult, nodes: dict[str, Node], links: list[Link]) -> None:
    """Add the things a channel passes, and the links between those that are there."""
    channel = result.channel
    way: list[tuple[str, str, str]] = []  # node id, port it is entered by, port it is left by

    def passes(node: Node, into: str = "", out: str = "") -> None:
        nodes.setdefault(node.id, node)
        way.append((node.id, into, out))

    passes(Node(id=f"s{channel.source}", kind="source", name=channel.source))
    if channel.processor:
        name = str(channel.processor.part)
        out = _("out %(n)s") % {"n": channel.processor_output or "?"}
        passes(Node(id=f"p{channel.processor_id}", kind="processor", name=name), "", out)
    if channel.amplifier:
        name = str(channel.amplifier.part)
        port = _("ch %(n)s") % {"n": channel.amplifier_channel or "?"}
        if channel.bridged:
            port += "+"
        passes(Node(id=f"a{channel.amplifier_id}", kind="amplifier", name=name), port, port)
    if channel.speaker:
        name = channel.name
        load = "" if result.load is None else f", {units.show(result.load, 'resistance')}"
        lines = [f"{channel.speaker.part}{load}", channel.speaker.place]
        passes(Node(id=f"c{channel.pk}", kind="speaker", name=name, lines=lines))
    elif channel.factory_speaker:
        place = channel.factory_speaker.place
        lines = [_("factory, stays in use")]
        if place.casefold() != channel.name.casefold():
            lines = [place, *lines]
        passes(
            Node(id=f"c{channel.pk}", kind="speaker", name=channel.name, lines=lines, factory=True)
        )
    for (start, _into, out), (end, into, _out) in pairwise(way):
        link = Link(start=start, end=end, out=out, into=into, factory=nodes[end].factory)
        if link not in links:
            links.append(link)
