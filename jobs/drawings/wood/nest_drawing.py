"""Wood on paper: parts nested on a sheet."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from django.utils.safestring import SafeString

from jobs.drawings.pencil import svg
from jobs.drawings.pencil.pencil import (
    HAIR,
    ball,
    dimension,
    scale_bar,
)
from jobs.drawings.pencil.svg import Point, el, group, outline, text
from jobs.drawings.wood.box_drawing import View
from jobs.drawings.wood.box_strokes import OUTLINE, Paper
from jobs.drawings.wood.wood import Part

Rectangle = tuple[float, float, float, float]  # left, bottom, width, height


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """A sheet of wood with parts laid on it; ``trim`` is cut off all round first."""

    width: float
    height: float
    parts: Sequence[Part]
    offcuts: Sequence[Rectangle] = ()
    trim: float = 0.0
    grain: Literal["x", "y", ""] = "x"


def nest_drawing(sheet: Sheet, view: View) -> SafeString:
    """The sheet to scale with every part numbered, grain arrows, offcuts and a parts list."""
    font, (width, _) = view.font, view.room
    say = view.length_text
    left, top = font * 2 + 14, 10.0
    scale = (width - left - 12) / sheet.width
    paper = Paper(scale, left, top + sheet.height * scale)
    foot = top + sheet.height * scale
    strokes = [_rectangle(paper, (0, 0, sheet.width, sheet.height), OUTLINE)]
    if sheet.trim > 0:
        t = sheet.trim
        inner = (t, t, sheet.width - 2 * t, sheet.height - 2 * t)
        strokes.append(_rectangle(paper, inner, HAIR, "4 3"))
    strokes += [_rectangle(paper, offcut, HAIR, "1 3") for offcut in sheet.offcuts]
    words = [
        dimension(
            paper.at((0, 0)),
            paper.at((0, sheet.height)),
            offset=font + 6,
            words=say(sheet.height),
            size=font,
        ),
        dimension(
            paper.at((0, 0)),
            paper.at((sheet.width, 0)),
            offset=-(font + 6),
            words=say(sheet.width),
            size=font,
        ),
    ]
    for part in sheet.parts:
        strokes.append(_laid(part, paper))
        words.append(_named(part, paper, view))
    for x, y, w, h in sheet.offcuts:
        size = f"{say(w)} × {say(h)}"
        if svg.text_width(size, font) < w * scale - 4 and h * scale > font * 1.3:
            words.append(
                text(size, paper.at((x + w / 2, y + h / 2)), size=font * 0.9, anchor="middle")
            )
    if sheet.grain:
        words.append(grain_arrow((left - font - 10, foot + font + 6), sheet.grain, font * 2.2))
    rule = foot + 2 * font + 18
    words.append(
        scale_bar(
            (left, rule), scale=scale, room=width * 0.4, size=font, length_text=say, unit=view.unit
        )
    )
    rows = _parts_list(sheet.parts, view, rule + 2.2 * font + 8)
    return svg.document(
        group(*strokes, stroke="currentColor", stroke_linejoin="round"),
        *words,
        *rows,
        key=view.key,
        title=view.title,
        description=view.description,
        width=width,
        height=rule + 2.4 * font + 8 + 1.5 * font * ((len(_lines(sheet.parts)) + 1) // 2),
    )


def _rectangle(
    paper: Paper, box: Rectangle, weight: float, dashes: str | None = None
) -> SafeString:
    x, y = paper.at((box[0], box[1] + box[3]))
    return el(
        "rect",
        x=x,
        y=y,
        width=box[2] * paper.scale,
        height=box[3] * paper.scale,
        stroke_width=weight,
        stroke_dasharray=dashes,
    )


def _laid(part: Part, paper: Paper) -> SafeString:
    """A part's cut lines; its waste is not drawn."""
    d = "".join(outline(paper.all(ring[:-1])) for ring in part.rings())
    return el("path", d=d, stroke_width=1.3)


def _named(part: Part, paper: Paper, view: View) -> SafeString:
    """Number in a ring, and an arrow along the grain when it matters to this part."""
    spot, clear = part.clear_spot()
    room = clear * paper.scale
    font = min(view.font, max(room * 0.95, 6.0))
    x, y = paper.at(spot)
    words = [ball((x, y), part.number, font)]
    if part.grain and room > 1.7 * font:
        beside = (x, y + font * 1.35) if part.grain == "x" else (x + font * 1.35, y)
        words.append(grain_arrow(beside, part.grain, font * 2))
    return group(*words)


def grain_arrow(middle: Point, way: str, length: float) -> SafeString:
    """A double arrow along the grain with a short stroke on either side, like the grain itself."""
    x, y = middle
    half = length / 2
    d = f"M{-half:.1f} 0H{half:.1f}M{3.5 - half:.1f} -3L{-half:.1f} 0L{3.5 - half:.1f} 3"
    d += f"M{half - 3.5:.1f} -3L{half:.1f} 0L{half - 3.5:.1f} 3"
    turn = " rotate(90)" if way == "y" else ""
    return el(
        "path",
        d=d,
        transform=f"translate({x:.1f} {y:.1f}){turn}",
        stroke="currentColor",
        stroke_width=1.0,
    )


def _parts_list(parts: Sequence[Part], view: View, top: float) -> list[SafeString]:
    """Number, name and size of every part in two columns under the sheet."""
    font, (width, _) = view.font, view.room
    words = []
    lines = _lines(parts)
    half = (len(lines) + 1) // 2
    lead = max([28.0, *(svg.text_width(part.number, font) + 10 for part, _count in lines)])
    for k, (part, count) in enumerate(lines):
        x = 12 + (k // half) * width / 2
        y = top + 1.5 * font * (k % half)
        left, low, right, high = part.bounds()
        size = f"{view.length_text(right - left)} × {view.length_text(high - low)}"
        words.append(text(part.number, (x, y), size=font, font_weight="600"))
        name = f"{count} × {part.name}" if count > 1 else part.name
        row = f"{name}, {size} {view.unit}"
        words.append(text(svg.fit(row, width / 2 - lead - 16, font), (x + lead, y), size=font))
    return words


def _lines(parts: Sequence[Part]) -> list[tuple[Part, int]]:
    """Each number once, in order, with how often it lies on the sheet."""
    count: dict[str, int] = {}
    first: dict[str, Part] = {}
    for part in parts:
        first.setdefault(part.number, part)
        count[part.number] = count.get(part.number, 0) + 1
    return [(first[number], count[number]) for number in sorted(first, key=_natural)]


def _natural(number: str) -> tuple[str, int]:
    """A2 before A10."""
    letters = number.rstrip("0123456789")
    return letters, int(number[len(letters) :] or 0)
