"""The power tree: from the sources to what takes current, line width by conductor.

Depth runs to the right. Four columns print well across an upright A4 page; give more a page on its
side. All words come from the caller.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from django.utils.safestring import SafeString

from jobs.drawings.pencil import svg
from jobs.drawings.pencil.nodes import Node, fuse_symbol, marks_row, measure, node_box
from jobs.drawings.pencil.svg import DrawingError, group, outline, text


@dataclass(frozen=True, kw_only=True)
class Run:
    """One cable from a node to a node: label, words on it, fuses at its ends, conductor area.

    ``words`` stand under the line (gauge, length, drop). ``fuse`` stands at the start,
    ``end_fuse`` at the end, ``""`` for none; ``area`` [m²] sets the line's width, ``None`` when
    nobody knows it yet, which is drawn dashed.
    """

    label: str
    start: str
    end: str
    words: Sequence[str] = ()
    fuse: str = ""
    end_fuse: str = ""
    area: float | None = None
    marks: Sequence[str] = ()


@dataclass(frozen=True, kw_only=True)
class PowerTree:
    """All nodes and runs of one drawing. ``most_rows`` is how many leaves one page holds."""

    key: str
    title: str
    description: str
    nodes: Sequence[Node]
    runs: Sequence[Run]
    most_rows: int = 14
    accent: str = "currentColor"


def power_tree(spec: PowerTree) -> list[SafeString]:
    """Draw the tree; several drawings when it has more leaves than one page holds.

    Each drawing repeats the way from the source, so every page can be read by itself.
    """
    forest = _forest(spec)
    leaves = [twig for root in forest for twig in root.leaves()]
    pages = max(1, math.ceil(len(leaves) / spec.most_rows))
    size = math.ceil(len(leaves) / pages)
    drawings = []
    for page in range(pages):
        kept = {id(leaf) for leaf in leaves[page * size : (page + 1) * size]}
        shown = [part for root in forest if (part := root.only(kept)) is not None]
        key = spec.key if pages == 1 else f"{spec.key}-{page + 1}"
        drawings.append(_columns(replace(spec, key=key), shown))
    return drawings


def line_width(area: float | None) -> float:
    """Stroke width for a conductor: grows with its diameter, from hair to finger thick."""
    if area is None:
        return 1.4
    if not (math.isfinite(area) and area > 0):
        message = f"a conductor's area is a number above 0 m², got {area}"
        raise DrawingError(message)
    return min(1.0 + 0.62 * math.sqrt(area * 1e6), 7.0)


@dataclass(kw_only=True)
class _Twig:
    """A node in its place: the run that feeds it, what it feeds, where it is drawn."""

    node: Node
    feed: Run | None = None
    twigs: list["_Twig"] = field(default_factory=list)
    repeated: bool = False

    def leaves(self) -> Iterator["_Twig"]:
        if not self.twigs:
            yield self
        for twig in self.twigs:
            yield from twig.leaves()

    def all(self, depth: int = 0) -> Iterator[tuple[int, "_Twig"]]:
        yield depth, self
        for twig in self.twigs:
            yield from twig.all(depth + 1)

    def only(self, kept: set[int]) -> "_Twig | None":
        """The tree with these leaves only, or none of it."""
        twigs = [part for twig in self.twigs if (part := twig.only(kept)) is not None]
        if not twigs and id(self) not in kept:
            return None
        return _Twig(node=self.node, feed=self.feed, twigs=twigs, repeated=self.repeated)


def _forest(spec: PowerTree) -> list[_Twig]:
    """The runs as trees from their sources.

    A node fed twice (a source at each end of a cable, a loop by mistake) grows once; the other
    run ends in a repeat of its name, so that nothing entered is left out of the drawing.
    """
    nodes = {node.id: node for node in spec.nodes}
    if not nodes:
        message = "a power tree needs at least one node"
        raise DrawingError(message)
    for run in spec.runs:
        for end in (run.start, run.end):
            if end not in nodes:
                message = f"run {run.label} names a node that is not in the tree: {end}"
                raise DrawingError(message)
    fed = {run.end for run in spec.runs}
    grown: set[str] = set()

    def grow(node: Node, feed: Run | None) -> _Twig:
        twig = _Twig(node=node, feed=feed, repeated=node.id in grown)
        if twig.repeated:
            return twig
        grown.add(node.id)
        twig.twigs = [grow(nodes[run.end], run) for run in spec.runs if run.start == node.id]
        return twig

    roots = [grow(node, None) for node in spec.nodes if node.id not in fed]
    # What hangs on no source (a loop) still has to be seen.
    return roots + [grow(node, None) for node in spec.nodes if node.id not in grown]


_FONT = 11.5
_ROW = 1.28 * _FONT


def _run_rows(run: Run, room: float) -> tuple[str, list[str]]:
    """What stands on the line beside the label, and the rows under it."""
    first, *rest = run.words or [""]
    if svg.text_width(first, _FONT) > room - svg.text_width(run.label, _FONT) * 1.1 - 8:
        first, rest = "", list(run.words)
    return first, [row for words in rest for row in svg.wrap(words, room, _FONT)]


def _columns(spec: PowerTree, forest: Sequence[_Twig]) -> SafeString:
    """Depth to the right, one leaf under the other, parents in the middle of what they feed."""
    placed = [(depth, twig) for root in forest for depth, twig in root.all()]
    columns = 1 + max(depth for depth, _ in placed)
    wide, gap = (140.0, 170.0) if columns <= 3 else (120.0, 122.0)
    boxes = {id(t): measure(t.node, wide, _FONT, repeated=t.repeated) for _, t in placed}
    ups, downs = [1.5 * _ROW + 6], [_ROW]
    for _, twig in placed:
        half = boxes[id(twig)].height / 2
        ups.append(half)
        downs.append(half)
        if twig.feed:
            rows = len(_run_rows(twig.feed, gap - 34)[1])
            rows += bool(twig.feed.fuse or twig.feed.end_fuse) + bool(twig.feed.marks)
            downs.append(12 + rows * _ROW)
    pitch = max(ups) + max(downs) + 8
    middles = _middles(forest, max(ups) + 6, pitch)
    wires, words = [], []
    for depth, twig in placed:
        x, y = 6 + depth * (wide + gap), middles[id(twig)]
        words.append(node_box(boxes[id(twig)], (x, y - boxes[id(twig)].height / 2), _FONT))
        for child in twig.twigs:
            assert child.feed is not None
            start, end, low = x + wide, x + wide + gap, middles[id(child)]
            trunk = start + 14
            path = [(start, y), (trunk, y), (trunk, low), (end, low)]
            wires.append(_wire(child.feed, outline(path, closed=False), spec.accent))
            words.append(_run_words(child.feed, trunk, end, low))
    leaves = sum(1 for root in forest for _ in root.leaves())
    return svg.document(
        # The widest first, so that a thin line beside it on the same trunk stays visible.
        *[wire for _, wire in sorted(wires, key=lambda pair: -pair[0])],
        *words,
        key=spec.key,
        title=spec.title,
        description=spec.description,
        width=12 + columns * wide + (columns - 1) * gap,
        height=max(ups) + (leaves - 1) * pitch + max(downs) + 12,
    )


def _middles(forest: Sequence[_Twig], first: float, pitch: float) -> dict[int, float]:
    middles: dict[int, float] = {}
    rows = iter(range(10**6))

    def settle(twig: _Twig) -> float:
        ys = [settle(child) for child in twig.twigs]
        y = (ys[0] + ys[-1]) / 2 if ys else first + next(rows) * pitch
        middles[id(twig)] = y
        return y

    for root in forest:
        settle(root)
    return middles


def _wire(run: Run, d: str, accent: str) -> tuple[float, SafeString]:
    width = line_width(run.area)
    stroke = group(
        svg.el(
            "path",
            d=d,
            stroke=accent,
            stroke_width=width,
            stroke_linejoin="miter",
            stroke_dasharray="5 3" if run.area is None else None,
        )
    )
    return width, stroke


def _run_words(run: Run, start: float, end: float, y: float) -> SafeString:
    """Label and words on a level stretch of cable, its fuses on the line."""
    x, room = start + 8, end - start - 20
    half = line_width(run.area) / 2
    first, below = _run_rows(run, room)
    fused = bool(run.fuse or run.end_fuse)
    above = y - (max(half, 6.0) if fused else half) - 3 - _FONT / 2
    parts = [
        text(run.label, (x, above), size=_FONT, font_weight="600"),
        text(first, (x + svg.text_width(run.label, _FONT) * 1.1 + 6, above), size=_FONT),
    ]
    row = y + (max(half, 6.0) if fused else half) + 3 + _FONT / 2
    if fused:
        part = room if not (run.fuse and run.end_fuse) else room / 2 - 3
        if run.fuse:
            parts.append(fuse_symbol((x, y)))
            parts.append(text(svg.fit(run.fuse, part, _FONT), (x, row), size=_FONT))
        if run.end_fuse:
            words = svg.fit(run.end_fuse, part, _FONT)
            parts.append(fuse_symbol((end - 34, y)))
            parts.append(text(words, (end - 8, row), size=_FONT, anchor="end"))
        if run.fuse or not below or svg.text_width(below[0] + run.end_fuse, _FONT) > room - 8:
            row += _ROW
    for words in below:
        parts.append(text(words, (x, row), size=_FONT))
        row += _ROW
    parts += marks_row(run.marks, (x, row - _FONT / 2), room, _FONT)
    return group(*parts)
