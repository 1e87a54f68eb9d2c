"""One part on paper, square on, as it is marked out: counted from its own lower left corner."""

import math
from collections.abc import Sequence

from django.utils.safestring import SafeString

from jobs.drawings.pencil import svg
from jobs.drawings.pencil.pencil import (
    HAIR,
    centre_dimensions,
    centre_line,
    dimension,
    scale_bar,
)
from jobs.drawings.pencil.svg import Point, el, group, outline, text
from jobs.drawings.wood.box_drawing import View
from jobs.drawings.wood.box_strokes import OUTLINE, Paper
from jobs.drawings.wood.nest_drawing import grain_arrow
from jobs.drawings.wood.wood import Hole, Milled, Part


def part_drawing(part: Part, view: View) -> SafeString:
    """One part with its size, the centres and diameters of its holes, and a scale bar."""
    font, (width, most) = view.font, view.room
    say = view.length_text
    left, low, right, high = part.bounds()
    level = font + 12
    placed = [hole for hole in part.holes if not (_on_mark(part, hole) or _on_seat(part, hole))]
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
        if svg.text_width(label, font) < 1.7 * r:  # under the middle; a screw circle's stands above
            words.append(text(label, (x, y + font * 1.2), size=font, anchor="middle"))
        else:
            words.append(text(label, (x + r * 0.75 + 4, y - r * 0.75 - font * 0.6), size=font))
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
    strokes += [
        el("path", d=outline(paper.all(seat)), stroke_width=HAIR, stroke_dasharray="5 3")
        for _number, seat in part.seats
    ]
    numbers = [(number, _seat_spot(number, seat, paper, font)) for number, seat in part.seats]
    words += [text(number, at, size=0.85 * font, anchor="middle") for number, at in numbers]
    strokes += [_milled(strip, paper) for strip in part.milled]
    for start, end in part.kerfs:
        ends = {"d": outline(paper.all([start, end]))}
        strokes.append(el("path", stroke_width=HAIR, stroke_dasharray="1 2", **ends))
    words += _kerf_labels(part, paper, font)
    words += [_strip_label(part, strip, paper, font) for strip in part.milled]
    if not part.upright:
        words += _sides(part, paper, view, numbers)
    words += [_window_label(window, paper, view) for window in part.windows]
    words += [label for mark in part.marks for label in _mark_labels(part, mark, paper, view)]
    if part.grain:
        at = paper.at((left, low))
        clear = 0 if part.upright else 1.6 * font  # of the number of the corner
        spot = (at[0] + 26, at[1] - 14) if part.grain == "x" else (at[0] + 14, at[1] - 26)
        spot = (spot[0] + clear, spot[1] - clear)
        words.append(grain_arrow(spot, part.grain, 34))
    rule = foot + level + 16
    words.append(
        scale_bar(
            (x0, rule),
            scale=scale,
            room=max((right - left) * scale * 0.6, 9 * font),
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


# Where along a side its length stands: in the middle, or as near to that as there is room.
_ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
Numbers = Sequence[tuple[str, Point]]


def _sides(part: Part, paper: Paper, view: View, numbers: Numbers) -> list[SafeString]:
    """The length of each side along its inside, and the number of each corner beside it.

    A length keeps clear of the numbers of what stands on the part.
    """
    words = []
    corners = list(part.outline)
    spots = dict(part.spots) or {n: str(n + 1) for n in range(len(corners))}
    for n, number in spots.items():
        a, b, before = corners[n], corners[(n + 1) % len(corners)], corners[n - 1]
        straight = (n + 1) % len(corners) in spots
        length = math.dist(a, b)
        dx, dy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
        off = 0.9 * view.font / paper.scale
        label = view.length_text(length)
        if straight and svg.text_width(label, view.font) + 4 < length * paper.scale:
            turn = -math.degrees(math.atan2(dy, dx))
            turn += 180 if turn <= -90 else -180 if turn > 90 else 0
            places = [
                paper.at(
                    (a[0] + share * length * dx - dy * off, a[1] + share * length * dy + dx * off)
                )
                for share in _ALONG
            ]
            clear = (s for s in places if _is_clear(s, (dx, -dy), label, numbers, view.font))
            at = next(clear, places[0])
            words.append(text(label, at, size=view.font, anchor="middle", turn=round(turn, 4)))
        if not number:
            continue
        # Half way between the sides that meet, as far in as the lengths stand.
        back = math.dist(before, a)
        inx, iny = dx + (before[0] - a[0]) / back, dy + (before[1] - a[1]) / back
        way = math.hypot(inx, iny) or 1.0
        reflex = dx * (before[1] - a[1]) - dy * (before[0] - a[0]) < 0
        step = (-1 if reflex else 1) * 1.5 * off / way
        spot = paper.at((a[0] + inx * step, a[1] + iny * step))
        words.append(text(number, spot, size=0.85 * view.font, anchor="middle", font_weight="600"))
    return words


def _is_clear(at: Point, along: Point, label: str, numbers: Numbers, font: float) -> bool:
    """Whether a label written along a line covers none of the numbers; all on paper."""
    for number, (x, y) in numbers:
        far = abs((x - at[0]) * along[0] + (y - at[1]) * along[1])
        beside = abs((y - at[1]) * along[0] - (x - at[0]) * along[1])
        reach = (svg.text_width(label, font) + svg.text_width(number, font)) / 2
        if far < reach and beside < font:
            return False
    return True


def _on_mark(part: Part, hole: Hole) -> bool:
    """Whether a hole lies on a screw circle, which then says where it is."""
    return any(
        abs(math.dist(hole.centre, mark.centre) - mark.diameter / 2) < 1e-6 for mark in part.marks
    )


def _on_seat(part: Part, hole: Hole) -> bool:
    """Whether a hole is for a screw of what stands there; the list beside says where it is."""
    x, y = hole.centre
    return any(
        min(u for u, _v in seat) <= x <= max(u for u, _v in seat)
        and min(v for _u, v in seat) <= y <= max(v for _u, v in seat)
        for _number, seat in part.seats
    )


def _mark_labels(part: Part, mark: Hole, paper: Paper, view: View) -> list[SafeString]:
    """The diameter of a screw circle, how many holes of what size lie on it, and what for."""
    holes = [hole for hole in part.holes if _on_mark(part, hole)]
    words = f"Ø {view.length_text(mark.diameter)}"
    if holes:
        words = f"{len(holes)} × Ø {view.length_text(holes[0].diameter)}, {words}"
    x, y = paper.at(mark.centre)
    lines = filter(None, (words, mark.words))
    return [
        text(line, (x, y - (1.2 + 1.2 * n) * view.font), size=view.font, anchor="middle")
        for n, line in enumerate(lines)
    ]


def _seat_spot(number: str, seat: Sequence[Point], paper: Paper, font: float) -> Point:
    """Where the number of what stands there is written: in it, or beside it where it is narrow."""
    spots = paper.all(seat)
    (x, y), size = paper.at(_centre(seat)), 0.85 * font
    across = max(u for u, _v in spots) - min(u for u, _v in spots)
    wide = svg.text_width(number, size)
    if across >= wide + 4:
        up = max(v for _u, v in spots) - min(v for _u, v in spots)
        beside = 0.0 if up >= 1.4 * size else up / 2 + 0.8 * size
        return x, y - beside
    return x + across / 2 + 4 + wide / 2, y


def _kerf_labels(part: Part, paper: Paper, font: float) -> list[SafeString]:
    """What is written of the saw cuts, beside them where the part has more room."""
    if not part.kerfs:
        return []
    left, _low, right, _high = part.bounds()
    ends = [end for line in part.kerfs for end in line]
    first, last = min(u for u, _v in ends), max(u for u, _v in ends)
    y, size = paper.at(_centre(ends))[1], 0.85 * font
    after = right - last >= first - left
    x = paper.at((last if after else first, 0.0))[0] + (6 if after else -6)
    anchor = "start" if after else "end"
    return [
        text(line, (x, y + 1.3 * n * size), size=size, anchor=anchor)
        for n, line in enumerate(part.kerf_words)
    ]


def _milled(strip: Milled, paper: Paper) -> SafeString:
    """The rim of a rebate or groove; dashed where it lies in the face that is down."""
    dashes = {"stroke_dasharray": "2.5 2"} if strip.hidden else {}
    return el("path", d=outline(paper.all(strip.outline)), stroke_width=HAIR, **dashes)


def _strip_label(part: Part, strip: Milled, paper: Paper, font: float) -> SafeString:
    """Width and depth along the strip, on the side of it that looks to the middle of the part."""
    (x, y), size = paper.at(_centre(strip.outline)), 0.85 * font
    spots = paper.all(strip.outline)
    across = max(u for u, _v in spots) - min(u for u, _v in spots)
    up = max(v for _u, v in spots) - min(v for _u, v in spots)
    left, low, right, high = part.bounds()
    middle = paper.at(((left + right) / 2, (low + high) / 2))
    if across > (right - left) * paper.scale / 2 and up > (high - low) * paper.scale / 2:
        # Along the sides of a part that is no rectangle stand their lengths.
        down = 0.8 if part.upright else 2.4
        return text(strip.words, (x, y - up / 2 + down * size), size=size, anchor="middle")
    if across >= up:
        off = up / 2 + 0.7 * size
        at = (x, y + off if middle[1] > y else y - off)
        return text(strip.words, at, size=size, anchor="middle")
    off = across / 2 + 0.7 * size
    at = (x + off if middle[0] > x else x - off, y)
    return text(strip.words, at, size=size, anchor="middle", turn=-90)


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
