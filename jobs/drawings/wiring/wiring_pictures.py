"""The power tree and the signal path of a job, with its findings at the spot."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from jobs import units
from jobs.design.job.whole import JobDesign
from jobs.design.records.about import about
from jobs.design.wiring.channels import ChannelResult
from jobs.drawings.pencil.nodes import Node
from jobs.drawings.wiring.power_tree import PowerTree, Run, power_tree
from jobs.drawings.wiring.signal_path import Link, SignalPath, signal_path
from jobs.models import Fuse, PowerNode
from jobs.models import Run as CableRun


def power(design: JobDesign, *, brief: bool = False) -> list[SafeString]:
    """Draw the power tree with voltages, currents, gauges, fuses, and findings at the spot.

    In brief: what hangs on what, and the findings.
    """
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
                    if line and not brief
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
                    if line and not brief
                ],
                fuse="" if brief else _fuse(run.run.fuse),
                end_fuse="" if brief else _fuse(run.run.end_fuse),
                area=run.area,
                marks=marks(run.run),
            )
            for run in result.runs
            if run.run.start_id and run.run.end_id
        ],
    )
    return power_tree(spec)


def _fuse(fuse: Fuse | None) -> str:
    return units.show(fuse.rating, "current", exact=True) if fuse else ""


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
