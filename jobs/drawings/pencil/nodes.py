"""The boxes and small signs shared by the diagrams: things, fuses, finding marks in a row."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.safestring import SafeString

from jobs.drawings.pencil import svg
from jobs.drawings.pencil.marks import has_symbol, mark_at, mark_width, symbol_at
from jobs.drawings.pencil.svg import Point, el, group, text


@dataclass(frozen=True, kw_only=True)
class Node:
    """A thing in a diagram: what it is, its name, and lines under it (voltage, current, place).

    ``kind`` picks the symbol: battery, dc_dc, capacitor, block, amplifier, load, source,
    processor, speaker. ``marks`` are severities of findings that sit here. ``factory`` draws it
    as a part of the car that stays, in a dashed double frame; say so in a line too.
    """

    id: str
    kind: str
    name: str
    lines: Sequence[str] = ()
    marks: Sequence[str] = ()
    factory: bool = False


@dataclass(frozen=True, kw_only=True)
class NodeBox:
    """A node measured for drawing: its wrapped name and lines, and how much room it takes."""

    node: Node
    names: Sequence[str]
    lines: Sequence[str]
    width: float
    height: float
    repeated: bool


def measure(node: Node, width: float, font: float, *, repeated: bool = False) -> NodeBox:
    """Wrap a node's words to a width; a repeated one shows its name only."""
    indent = font * 2 + 4 if has_symbol(node.kind) else 4
    names = svg.wrap(node.name, (width - indent - 8) / 1.08, font, 3)
    lines = (
        []
        if repeated
        else [row for words in node.lines for row in svg.wrap(words, width - 14, font)]
    )
    rows = len(names) + len(lines) + (bool(node.marks) and not repeated) * 1.2
    return NodeBox(
        node=node,
        names=names,
        lines=lines,
        width=width,
        height=max(rows * 1.28 * font, 1.7 * font) + 8,
        repeated=repeated,
    )


def node_box(box: NodeBox, corner: Point, font: float) -> SafeString:
    """A label with its symbol, name and lines; dashed when it is drawn a second time."""
    x, y = corner
    node, row = box.node, 1.28 * font
    parts = [
        el(
            "rect",
            x=x,
            y=y,
            width=box.width,
            height=box.height,
            stroke="currentColor",
            stroke_width=1.3,
            stroke_dasharray="2 3" if box.repeated else "7 3" if node.factory else None,
        )
    ]
    if node.factory:
        parts.append(
            el(
                "rect",
                x=x + 2.6,
                y=y + 2.6,
                width=box.width - 5.2,
                height=box.height - 5.2,
                stroke="currentColor",
                stroke_width=0.6,
            )
        )
    left = x + 7
    if has_symbol(node.kind):
        parts.append(symbol_at(node.kind, (x + 5, y + 3.5), size=font * 1.35))
        left = x + 8 + font * 1.45
    middle = y + 4 + row / 2
    for words in box.names:
        parts.append(text(words, (left, middle), size=font, font_weight="600"))
        middle += row
    for words in box.lines:
        parts.append(text(words, (x + 7, middle), size=font))
        middle += row
    if not box.repeated:
        parts += marks_row(node.marks, (x + 7, middle - font / 2), box.width - 10, font)
    return group(*parts)


def marks_row(marks: Sequence[str], corner: Point, room: float, font: float) -> list[SafeString]:
    """Finding marks side by side, equal ones once, as many as there is room for."""
    x, y = corner
    end = x + room
    parts = []
    for severity in ("stop", "look", "note"):
        if severity in marks and x + mark_width(severity, font) <= end + 1:
            parts.append(mark_at(severity, (x, y), size=font))
            x += mark_width(severity, font) + 6
    return parts


def fuse_symbol(start: Point) -> SafeString:
    """A fuse on a cable: a frame the line runs through."""
    return el(
        "rect",
        x=start[0],
        y=start[1] - 6,
        width=26,
        height=12,
        stroke="currentColor",
        stroke_width=1.3,
    )
