"""The signal path: sources, processor outputs, amplifier channels, speakers, left to right.

A layered graph with ports: things of one kind stand in one column, their ports are sorted, the
columns are shuffled until lines run level, and every line bends in a lane of its own.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from django.utils.safestring import SafeString

from jobs.drawings.pencil import svg
from jobs.drawings.pencil.nodes import Node, NodeBox, measure, node_box
from jobs.drawings.pencil.svg import DrawingError, Point, el, group, outline, text

_FONT = 11.5
_ROW = 1.28 * _FONT
_LANE = 7.0
_WIDE = 160.0
_GAP = 12.0
_WORDS = 96.0
_COLUMNS = ("source", "processor", "amplifier", "speaker")


@dataclass(frozen=True, kw_only=True)
class Link:
    """One line from an output to an input, with the names of both ports and words on it.

    Ports without a name share one place beside the thing's name. A factory link is dashed.
    """

    start: str
    end: str
    out: str = ""
    into: str = ""
    words: str = ""
    factory: bool = False


@dataclass(frozen=True, kw_only=True)
class SignalPath:
    """All things and links of one drawing. Each node's kind is the column it stands in."""

    key: str
    title: str
    description: str
    nodes: Sequence[Node]
    links: Sequence[Link]
    accent: str = "currentColor"


@dataclass(kw_only=True)
class _Place:
    """A thing in its column, or the spot where a long line passes through one."""

    id: str
    box: NodeBox | None = None
    ins: Sequence[str] = ()
    outs: Sequence[str] = ()
    factory: bool = False
    top: float = 0.0

    @property
    def head(self) -> float:
        return self.box.height if self.box else _ROW

    @property
    def height(self) -> float:
        named = max(len([p for p in self.ins if p]), len([p for p in self.outs if p]))
        return self.head + named * _ROW + (4 if named else 0)

    def port(self, name: str, ports: Sequence[str]) -> float:
        """How far below the top a port lies."""
        if not name:
            return min(self.head, 1.7 * _FONT + 8) / 2
        return self.head + ([p for p in ports if p].index(name) + 0.5) * _ROW


def signal_path(spec: SignalPath) -> SafeString:
    """Draw the path with as few crossings as a few sweeps over the columns find."""
    columns, links = _columns(spec)
    places = {place.id: place for column in columns for place in column}
    where = {place.id: k for k, column in enumerate(columns) for place in column}
    tall = max(sum(place.height + _GAP for place in column) for column in columns)
    for column in columns:
        y = 0.0
        for place in column:
            place.top = y
            y += place.height + _GAP
    for sweep in range(6):
        forwards = sweep % 2 == 0
        ways = range(1, len(columns)) if forwards else range(len(columns) - 2, -1, -1)
        for k in ways:
            _settle(columns[k], links, places, tall, forwards=forwards)
    lefts, width = _lefts(columns, links, where)

    def ends(link: Link) -> tuple[Point, Point]:
        start, end = places[link.start], places[link.end]
        x0 = lefts[where[link.start]] + _WIDE
        y0 = 6 + start.top + start.port(link.out, start.outs)
        y1 = 6 + end.top + end.port(link.into, end.ins)
        return (x0, y0), (lefts[where[link.end]], y1)

    parts: list[SafeString] = []
    for k in range(len(columns) - 1):
        parts += _wires([n for n in links if where[n.start] == k], ends, spec.accent)
    for k, column in enumerate(columns):
        parts += [_thing(place, lefts[k]) for place in column]
    return svg.document(
        *parts,
        key=spec.key,
        title=spec.title,
        description=spec.description,
        width=width,
        height=max(place.top + place.height for place in places.values()) + 14,
    )


def _columns(spec: SignalPath) -> tuple[list[list[_Place]], list[Link]]:
    """Things by column, and links cut into pieces that each cross one gap only."""
    kinds = [kind for kind in _COLUMNS if any(node.kind == kind for node in spec.nodes)]
    where = {}
    for node in spec.nodes:
        if node.kind not in kinds:
            message = f"{node.name} is a {node.kind}; a signal path knows {', '.join(_COLUMNS)}"
            raise DrawingError(message)
        where[node.id] = kinds.index(node.kind)
    if not kinds:
        message = "a signal path needs at least one thing"
        raise DrawingError(message)
    columns: list[list[_Place]] = [[] for _ in kinds]
    for node in spec.nodes:
        place = _Place(
            id=node.id,
            box=measure(node, _WIDE, _FONT),
            ins=sorted({n.into for n in spec.links if n.end == node.id}, key=_natural),
            outs=sorted({n.out for n in spec.links if n.start == node.id}, key=_natural),
        )
        columns[where[node.id]].append(place)
    pieces: list[Link] = []
    for number, link in enumerate(spec.links):
        if link.start not in where or link.end not in where:
            message = f"a link names a thing that is not drawn: {link.start} to {link.end}"
            raise DrawingError(message)
        first, last = where[link.start], where[link.end]
        if first >= last:
            message = f"a link runs from left to right, not from {link.start} to {link.end}"
            raise DrawingError(message)
        stops = [f"\0{number}-{k}" for k in range(first + 1, last)]
        for k, stop in enumerate(stops):
            columns[first + 1 + k].append(_Place(id=stop, factory=link.factory))
        knots = [link.start, *stops, link.end]
        for a, b in pairwise(knots):
            piece = replace(link, start=a, end=b)
            if a != link.start:
                piece = replace(piece, out="")
            if b != link.end:
                piece = replace(piece, into="", words="")
            pieces.append(piece)
    return columns, pieces


def _natural(name: str) -> list[tuple[int, str]]:
    """Sorts port 10 after port 9."""
    return [
        (int(part), "") if part.isdigit() else (0, part)
        for part in re.split(r"(\d+)", name)
        if part
    ]


def _settle(
    column: list[_Place],
    links: Sequence[Link],
    places: dict[str, _Place],
    tall: float,
    *,
    forwards: bool,
) -> None:
    """Move the things of a column as near as they can to what they are joined with."""
    wanted: dict[str, list[float]] = {place.id: [] for place in column}
    for link in links:
        start, end = places[link.start], places[link.end]
        out, into = start.port(link.out, start.outs), end.port(link.into, end.ins)
        if forwards and link.end in wanted:
            wanted[link.end].append(start.top + out - into)
        elif not forwards and link.start in wanted:
            wanted[link.start].append(end.top + into - out)
    sizes = [place.height + _GAP for place in column]
    middles = [
        (sum(w) / len(w) if (w := wanted[place.id]) else place.top) + size / 2
        for place, size in zip(column, sizes, strict=True)
    ]
    settled = svg.spread(middles, sizes, 0, max(tall, sum(sizes)))
    for place, middle, size in zip(column, settled, sizes, strict=True):
        place.top = middle - size / 2
    column.sort(key=lambda place: place.top)


def _lefts(
    columns: Sequence[Sequence[_Place]], links: Sequence[Link], where: dict[str, int]
) -> tuple[list[float], float]:
    """Where each column begins, with room for lanes and words before it, and the whole width."""
    lefts = [6.0]
    for k in range(len(columns) - 1):
        here = [link for link in links if where[link.start] == k]
        words = max([svg.text_width(link.words, _FONT) for link in here], default=0)
        lefts.append(lefts[-1] + _WIDE + len(here) * _LANE + min(words, _WORDS) + 24)
    return lefts, lefts[-1] + _WIDE + 6


def _wires(
    links: Sequence[Link], ends: Callable[[Link], tuple[Point, Point]], accent: str
) -> list[SafeString]:
    """The lines of one gap, each bending in its own lane so that two never lie on each other.

    Lines that fall take lanes from the far side in the order they start, lines that rise from
    the near side: so neighbours nest instead of crossing.
    """
    placed = [(*ends(link), link) for link in links]
    rising = sorted((p for p in placed if p[1][1] < p[0][1]), key=lambda p: (p[0][1], p[1][1]))
    falling = sorted((p for p in placed if p[1][1] >= p[0][1]), key=lambda p: (-p[0][1], -p[1][1]))
    parts = []
    for lane, ((x0, y0), (x1, y1), link) in enumerate([*rising, *falling]):
        bend = x0 + 10 + lane * _LANE
        path = [(x0, y0), (bend, y0), (bend, y1), (x1, y1)]
        parts.append(
            el(
                "path",
                d=outline(path if abs(y1 - y0) > 0.05 else [path[0], path[3]], closed=False),
                stroke=accent,
                stroke_width=1.5,
                stroke_linejoin="round",
                stroke_dasharray="6 3" if link.factory else None,
            )
        )
        if link.words:
            words = svg.fit(link.words, _WORDS, _FONT)
            parts.append(text(words, (x1 - 5, y1 - _FONT * 0.65), size=_FONT, anchor="end"))
    return parts


def _thing(place: _Place, left: float) -> SafeString:
    """A thing with its ports, inputs on the left and outputs on the right."""
    top = 6 + place.top
    if place.box is None:
        y = top + place.port("", ())
        dashes = "6 3" if place.factory else None
        end = (left + _WIDE, y)
        return svg.line((left, y), end, stroke_width=1.5, stroke_dasharray=dashes)
    parts = [node_box(place.box, (left, top), _FONT)]
    ports = [(name, place.ins, left, "start") for name in place.ins if name]
    ports += [(name, place.outs, left + _WIDE, "end") for name in place.outs if name]
    for name, side, x, anchor in ports:
        y = top + place.port(name, side)
        inwards = 7 if anchor == "start" else -7
        words = svg.fit(name, _WIDE / 2 - 10, _FONT)
        parts.append(el("circle", cx=x, cy=y, r=2.4, fill="currentColor"))
        if anchor == "start" and name in place.outs:
            continue  # one row, one name: it stands where the line goes on
        parts.append(text(words, (x + inwards, y), size=_FONT, anchor=anchor))
    if ports:
        foot = el(
            "path",
            d=f"M{left:.1f} {top + place.head:.1f}V{top + place.height:.1f}h{_WIDE:.1f}"
            f"V{top + place.head:.1f}",
            stroke="currentColor",
            stroke_width=1.3,
            stroke_dasharray="7 3" if place.box.node.factory else None,
        )
        parts.append(foot)
    return group(*parts)
