"""Paper templates at full size: one part cut into pages that are glued edge over edge.

Every page is drawn in millimetres and must be printed at 100 %; the black bar at its foot
measures 100 mm when it was. Pages that would be empty are left out.
"""

import math
from dataclasses import dataclass

from django.utils.safestring import SafeString

from jobs.drawings.pencil import svg
from jobs.drawings.pencil.curves import Frame, clip
from jobs.drawings.pencil.svg import DrawingError, Point, el, group, line, text
from jobs.drawings.wood.wood import Part

_FOOT = 15.0  # millimetres kept free of cut lines under the drawing, for the bar and the words
_FONT = 4.2
_STEPS = 240  # a hole of 300 mm is then true to 0.02 mm


@dataclass(frozen=True, kw_only=True)
class Template:
    """A part to print at full size. ``paper`` is what the printer can print on, in metres.

    ``caption`` stands on every page: print at 100 %, the bar measures 100 mm.
    """

    key: str
    title: str
    part: Part
    caption: str
    paper: tuple[float, float] = (0.190, 0.277)
    overlap: float = 0.010


@dataclass(frozen=True, kw_only=True)
class Tile:
    """One page: its name (row and column, from the upper left) and its drawing."""

    name: str
    drawing: SafeString


def tiles(template: Template) -> list[Tile]:
    """Cut a part into pages; together they show every line of it."""
    wide, tall, overlap = (v * 1000 for v in (*template.paper, template.overlap))
    if not (0 < overlap < min(wide, tall - _FOOT) / 2) or wide < 120:
        message = f"a page of {wide:g} x {tall:g} mm cannot hold tiles with {overlap:g} mm overlap"
        raise DrawingError(message)
    left, low, right, high = (v * 1000 for v in template.part.bounds())
    step = (wide - overlap, tall - _FOOT - overlap)
    columns = max(1, math.ceil((right - left - overlap) / step[0]))
    rows = max(1, math.ceil((high - low - overlap) / step[1]))
    # The lines a little inside the first page, so that none falls on the edge of the paper.
    spare = (columns * step[0] + overlap - (right - left), rows * step[1] + overlap - (high - low))
    origin = (left - spare[0] / 2, high + spare[1] / 2)
    rings = _millimetres(template.part.rings(_STEPS))
    marks = _millimetres([mark.ring(_STEPS) for mark in template.part.marks])
    result = []
    for row in range(rows):
        for column in range(columns):
            corner = (origin[0] + column * step[0], origin[1] - row * step[1])
            pieces = _visible(rings, corner, wide, tall - _FOOT)
            if pieces:
                name = f"{row + 1}-{column + 1}"
                inner = (column > 0, row > 0, column < columns - 1, row < rows - 1)
                marked = _visible(marks, corner, wide, tall - _FOOT)
                drawing = _page(template, name, (pieces, marked), inner, corner)
                result.append(Tile(name=name, drawing=drawing))
    return result


def _millimetres(rings: list[list[Point]]) -> list[list[Point]]:
    return [[(x * 1000, y * 1000) for x, y in ring] for ring in rings]


def _visible(
    rings: list[list[Point]], corner: Point, wide: float, tall: float
) -> list[list[Point]]:
    """What of the lines falls on a page, in millimetres from its upper left corner."""
    frame = Frame(0, 0, wide, tall)
    pieces: list[list[Point]] = []
    for ring in rings:
        moved = [(x - corner[0], corner[1] - y) for x, y in ring]
        pieces += clip(moved, frame, "outline")
    return pieces


def _page(
    template: Template,
    name: str,
    strokes: tuple[list[list[Point]], list[list[Point]]],
    inner: tuple[bool, bool, bool, bool],
    corner: Point,
) -> SafeString:
    """One page: cut lines, screw circles, where a neighbour's edge lies, name, bar and caption."""
    pieces, marked = strokes
    wide, tall, overlap = (v * 1000 for v in (*template.paper, template.overlap))
    ground = tall - _FOOT
    glue = {
        "left": ((overlap, 0.0), (overlap, ground)),
        "top": ((0.0, overlap), (wide, overlap)),
        "right": ((wide - overlap, 0.0), (wide - overlap, ground)),
        "bottom": ((0.0, ground - overlap), (wide, ground - overlap)),
    }
    lines = [
        line(*ends, stroke_width=0.25, stroke_dasharray="3 1.5")
        for ends, shown in zip(glue.values(), inner, strict=True)
        if shown
    ]
    centres = []
    for hole in template.part.holes:
        x, y = hole.centre[0] * 1000 - corner[0], corner[1] - hole.centre[1] * 1000
        if 5 < x < wide - 5 and 5 < y < ground - 5:
            centres += [line((x - 5, y), (x + 5, y)), line((x, y - 5), (x, y + 5))]
    label = f"{template.part.number} {template.part.name}"
    return svg.document(
        *lines,
        group(*centres, stroke="currentColor", stroke_width=0.25),
        group(
            *[el("polyline", points=_exact(piece)) for piece in pieces],
            stroke="currentColor",
            stroke_width=0.35,
        ),
        group(
            *[el("polyline", points=_exact(piece)) for piece in marked],
            stroke="currentColor",
            stroke_width=0.25,
            stroke_dasharray="6 1.5 1.5 1.5",
        ),
        el("rect", x=5, y=ground + 3, width=100, height=2.4, fill="currentColor"),
        text("100 mm", (108, ground + 4.2), size=_FONT),
        text(name, (wide - 5, ground + 6), size=8, anchor="end", font_weight="600"),
        text(svg.fit(label, 60, _FONT), (5, ground + 9), size=_FONT, font_weight="600"),
        *[
            text(row, (68, ground + 9 + 3.9 * k), size=3.4)
            for k, row in enumerate(svg.wrap(template.caption, wide - 90, 3.4))
        ],
        key=f"{template.key}-{name.lower()}",
        title=f"{template.title} {name}",
        description=template.caption,
        width=wide,
        height=tall,
        unit="mm",
    )


def _exact(piece: list[Point]) -> str:
    """Points to a hundredth of a millimetre: a template is measured, a picture is looked at."""
    return " ".join(f"{svg.number(x)},{svg.number(y)}" for x, y in piece)
