"""Wood on paper: parts nested on a sheet, and one part with its holes and dimensions."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from django.utils.safestring import SafeString

from jobs.drawings.pencil import svg
from jobs.drawings.pencil.pencil import (
    HAIR,
    ball,
    centre_dimensions,
    centre_line,
    dimension,
    scale_bar,
)
from jobs.drawings.pencil.svg import Point, el, group, outline, text
from jobs.drawings.wood.box_drawing import View
from jobs.drawings.wood.box_strokes import OUTLINE, Paper
from jobs.drawings.wood.wood import Hole, Part

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
        words.append(_grain((left - font - 10, foot + font + 6), sheet.grain, font * 2.2))
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
        words.append(_grain(beside, part.grain, font * 2))
    return group(*words)


def _grain(middle: Point, way: str, length: float) -> SafeString:
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
    for k, (part, count) in enumerate(lines):
        x = 12 + (k // half) * width / 2
        y = top + 1.5 * font * (k % half)
        left, low, right, high = part.bounds()
        size = f"{view.length_text(right - left)} × {view.length_text(high - low)}"
        words.append(text(part.number, (x, y), size=font, font_weight="600"))
        name = f"{count} × {part.name}" if count > 1 else part.name
        row = f"{name}, {size} {view.unit}"
        words.append(text(svg.fit(row, width / 2 - 44, font), (x + 28, y), size=font))
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


def part_drawing(part: Part, view: View) -> SafeString:
    """One part with its size, the centres and diameters of its holes, and a scale bar."""
    font, (width, most) = view.font, view.room
    say = view.length_text
    left, low, right, high = part.bounds()
    level = font + 12
    placed = [hole for hole in part.holes if not _on_mark(part, hole)]
    centres = [hole.centre for hole in placed] + [_centre(window) for window in part.windows]
    count = len(centres)
    side = level * (count + 1) + 12
    scale = min((width - level - 24 - side) / (right - left), most / (high - low))
    top = level * max(count, 1) + 10
    x0 = level + 12 + (width - level - 24 - side - (right - left) * scale) / 2
    paper = Paper(scale, x0 - left * scale, top + high * scale)
    foot = top + (high - low) * scale
    strokes = [el("path", d=outline(paper.all(part.outline)), stroke_width=OUTLINE)]
    strokes += [
        el("path", d=outline(paper.all(window)), stroke_width=OUTLINE) for window in part.windows
    ]
    words = [
        dimension(
            paper.at((left, low)),
            paper.at((right, low)),
            offset=-level,
            words=say(right - left),
            size=font,
        ),
        dimension(
            paper.at((left, low)),
            paper.at((left, high)),
            offset=level,
            words=say(high - low),
            size=font,
        ),
    ]
    edges = (*paper.at((left, high)), *paper.at((right, low)))
    words += centre_dimensions(
        [paper.at(centre) for centre in centres],
        edges,
        scale=scale,
        size=font,
        length_text=say,
    )
    for hole in part.holes:
        x, y = paper.at(hole.centre)
        r = hole.diameter * scale / 2
        strokes += [
            el("circle", cx=x, cy=y, r=r, stroke_width=OUTLINE),
            centre_line((x - r - 6, y), (x + r + 6, y)),
            centre_line((x, y - r - 6), (x, y + r + 6)),
        ]
        if hole not in placed:
            continue
        label = f"Ø {say(hole.diameter)}"
        inside = svg.text_width(label, font) + 14 < r
        spot = (x + 5, y + font * 0.8) if inside else (x + r * 0.75 + 4, y - r * 0.75 - font * 0.6)
        words.append(text(label, spot, size=font))
    strokes += [
        el(
            "circle",
            cx=paper.at(mark.centre)[0],
            cy=paper.at(mark.centre)[1],
            r=mark.diameter * scale / 2,
            stroke_width=HAIR,
            stroke_dasharray="9 2.5 2 2.5",
        )
        for mark in part.marks
    ]
    words += [_window_label(window, paper, view) for window in part.windows]
    words += [_mark_label(part, mark, paper, view) for mark in part.marks]
    if part.grain:
        at = paper.at((left, low))
        spot = (at[0] + 26, at[1] - 14) if part.grain == "x" else (at[0] + 14, at[1] - 26)
        words.append(_grain(spot, part.grain, 34))
    rule = foot + level + 16
    words.append(
        scale_bar(
            (x0, rule),
            scale=scale,
            room=max((right - left) * scale * 0.6, 60),
            size=font,
            length_text=say,
            unit=view.unit,
        )
    )
    return svg.document(
        group(*strokes, stroke="currentColor", stroke_linejoin="round"),
        *words,
        key=view.key,
        title=view.title,
        description=view.description,
        width=width,
        height=rule + 2.2 * font,
    )


def _on_mark(part: Part, hole: Hole) -> bool:
    """Whether a hole lies on a screw circle, which then says where it is."""
    return any(
        abs(math.dist(hole.centre, mark.centre) - mark.diameter / 2) < 1e-6 for mark in part.marks
    )


def _mark_label(part: Part, mark: Hole, paper: Paper, view: View) -> SafeString:
    """The diameter of a screw circle, with how many holes of what size lie on it."""
    holes = [hole for hole in part.holes if _on_mark(part, hole)]
    words = f"Ø {view.length_text(mark.diameter)}"
    if holes:
        words = f"{len(holes)} × Ø {view.length_text(holes[0].diameter)}, {words}"
    x, y = paper.at(mark.centre)
    return text(words, (x, y - 1.2 * view.font), size=view.font, anchor="middle")


def _centre(ring: Sequence[Point]) -> Point:
    """The middle of the rectangle round an opening."""
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)


def _window_label(window: Sequence[Point], paper: Paper, view: View) -> SafeString:
    """How wide and how high an opening is, written in it."""
    xs, ys = [x for x, _ in window], [y for _, y in window]
    size = f"{view.length_text(max(xs) - min(xs))} × {view.length_text(max(ys) - min(ys))}"
    x, y = paper.at(_centre(window))
    if svg.text_width(size, view.font) > (max(xs) - min(xs)) * paper.scale - 6:
        y -= (max(ys) - min(ys)) * paper.scale / 2 + 0.8 * view.font  # above it, when too narrow
    return text(size, (x, y), size=view.font, anchor="middle")
