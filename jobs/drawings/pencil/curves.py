"""The strokes of a chart: curves cut at the frame, shading, and words that keep apart."""

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from django.utils.safestring import SafeString
from shapely import LineString

from jobs.drawings.pencil import svg
from jobs.drawings.pencil.axis import Axis
from jobs.drawings.pencil.svg import DrawingError, Point, el, group, text

SAMPLE = 27.0  # long enough for every pattern to show once


class Frame(NamedTuple):
    """The rectangle the curves live in, in drawing units with y downwards."""

    left: float
    top: float
    right: float
    bottom: float

    def place(self, x: Axis, y: Axis, xs: Sequence[float], ys: Sequence[float]) -> list[Point]:
        """The page points of values; they may lie outside."""
        if len(xs) != len(ys):
            message = f"a curve needs as many x as y, got {len(xs)} and {len(ys)}"
            raise DrawingError(message)
        across = x.along(xs, self.left, self.right)
        return list(zip(across, y.along(ys, self.bottom, self.top), strict=True))


def clip(pairs: list[Point], frame: Frame, name: str) -> list[list[Point]]:
    """The pieces of a curve that lie inside the frame, cut exactly at its edges."""
    if len(pairs) < 2:
        message = f"a curve needs two points or more ({name})"
        raise DrawingError(message)
    left, top, right, bottom = frame
    # A curve along an edge may miss it by the last digit of the sum that placed it.
    across, up = (
        _near([x for x, _ in pairs], left, right),
        _near([y for _, y in pairs], top, bottom),
    )
    if not math.isfinite(sum(across) + sum(up)):
        message = f"a curve holds a value that is not a finite number ({name})"
        raise DrawingError(message)
    pairs = list(zip(across, up, strict=True))
    inside = [left <= x <= right and top <= y <= bottom for x, y in pairs]
    if all(inside):
        return [pairs]
    pieces: list[list[Point]] = []
    for (a, a_inside), (b, b_inside) in pairwise(zip(pairs, inside, strict=True)):
        part = (a, b) if a_inside and b_inside else _cut(a, b, frame)
        if part is None:
            continue
        if pieces and math.dist(pieces[-1][-1], part[0]) < 1e-6:
            pieces[-1].append(part[1])
        else:
            pieces.append(list(part))
    return pieces


def _near(values: list[float], low: float, high: float) -> list[float]:
    """Put a value that is off an end by less than anybody could draw onto that end."""
    return [
        low if abs(value - low) < 1e-9 else high if abs(value - high) < 1e-9 else value
        for value in values
    ]


def _cut(a: Point, b: Point, frame: Frame) -> tuple[Point, Point] | None:
    """The part of a segment inside the frame (Liang and Barsky's parametric cut)."""
    left, top, right, bottom = frame
    dx, dy = b[0] - a[0], b[1] - a[1]
    start, end = 0.0, 1.0
    rooms = ((-dx, a[0] - left), (dx, right - a[0]), (-dy, a[1] - top), (dy, bottom - a[1]))
    for step, room in rooms:
        if step < 0:
            start = max(start, room / step)
        elif step > 0:
            end = min(end, room / step)
        elif room < 0:
            return None
    if start >= end:
        return None
    return (
        (a[0] + start * dx, a[1] + start * dy) if start > 0 else a,
        (a[0] + end * dx, a[1] + end * dy) if end < 1 else b,
    )


def _thinned(piece: Sequence[Point]) -> list[Point]:
    """The points without those nobody would miss: half of what is written is the last digit's."""
    if len(piece) < 3:
        return list(piece)
    return list(LineString(piece).simplify(svg.LAST_DIGIT / 2, preserve_topology=False).coords)


def curve(
    pieces: Sequence[Sequence[Point]],
    name: str,
    pattern: int,
    ink: str,
    *,
    ghost: bool,
    width: float = 2.1,
) -> SafeString:
    """One curve in its line pattern; a ghost is a thin pale line."""
    width = 1.0 if ghost else width
    dashes = "" if ghost else svg.PATTERNS[pattern % len(svg.PATTERNS)]
    scaled = " ".join(svg.number(float(dash) * width) for dash in dashes.split())
    return group(
        *[
            el("polyline", points=svg.points(_thinned(piece)), data_series=name or None)
            for piece in pieces
        ],
        stroke=ink,
        stroke_width=width,
        stroke_dasharray=scaled or None,
        stroke_opacity=0.55 if ghost else None,
    )


def bound_curve(pieces: Sequence[Sequence[Point]], name: str, pattern: int, ink: str) -> SafeString:
    """A curve nothing rises above: thin, with strokes on the side not to be entered."""
    teeth = []
    for piece in pieces:
        here, ahead = _Walker(piece), _Walker(piece)
        x = piece[0][0] + 2
        while x < piece[-1][0]:
            y, dx = here.at(x), min(2.0, piece[-1][0] - x)
            lean = math.atan2(ahead.at(x + dx) - y, dx)
            # The strokes of a limit, turned with the curve so that they stay on its far side.
            along = 3.5 * math.cos(lean) + 5 * math.sin(lean)
            up = 3.5 * math.sin(lean) - 5 * math.cos(lean)
            teeth.append(f"M{x:.1f} {y:.1f}l{along:.1f} {up:.1f}")
            x += 9
    return group(
        curve(pieces, name, pattern, ink, ghost=False, width=1.2),
        el("path", d="".join(teeth) or None, stroke=ink, stroke_width=1.1),
    )


def shading(
    low: Sequence[Point], high: Sequence[Point], frame: Frame, name: str
) -> tuple[SafeString, Point | None]:
    """Upright pencil strokes between two curves, their edges, and where the band ends."""
    edges = [piece for pairs in (low, high) for piece in clip(list(pairs), frame, name)]
    first, last = max(low[0][0], frame.left), min(low[-1][0], frame.right)
    strokes, end = [], None
    bottoms, tops = _Walker(low), _Walker(high)
    x = first
    while x <= last:
        a, b = bottoms.at(x), tops.at(x)
        a, b = min(max(a, b), frame.bottom), max(min(a, b), frame.top)
        if a > b:
            strokes.append(f"M{x:.1f} {a:.1f}V{b:.1f}")
            end = (x, (a + b) / 2)
        x += 3.2
    return (
        group(
            el("path", d="".join(strokes) or None, stroke_width=0.55, stroke_opacity=0.75),
            *[
                el("polyline", points=svg.points(_thinned(edge)), stroke_width=0.55)
                for edge in edges
            ],
            stroke="currentColor",
        ),
        end,
    )


class _Walker:
    """Reads a curve at rising x without searching from the start each time."""

    def __init__(self, pairs: Sequence[Point]) -> None:
        self.pairs = pairs
        self.i = 1

    def at(self, x: float) -> float:
        while self.i < len(self.pairs) - 1 and self.pairs[self.i][0] < x:
            self.i += 1
        (x0, y0), (x1, y1) = self.pairs[self.i - 1], self.pairs[self.i]
        return y0 + (y1 - y0) * (x - x0) / (x1 - x0) if x1 > x0 else y1


def marker_rows(
    xs: Sequence[float], words: Sequence[str], font: float, left: float, right: float
) -> list[tuple[float, int]]:
    """For each marker the middle of its words and the row above the frame where they fit."""
    taken: list[list[tuple[float, float]]] = []
    result = []
    for x, word in zip(xs, words, strict=True):
        half = svg.text_width(word, font) / 2 + 4
        middle = min(max(x, left + half), max(right - half, left + half))
        start, end = middle - half, middle + half
        row = 0
        while row < len(taken) and any(start < b and a < end for a, b in taken[row]):
            row += 1
        if row == len(taken):
            taken.append([])
        taken[row].append((start, end))
        result.append((middle, row))
    return result


def limit_words(
    words: str, y: float, frame: Frame, busy: Sequence[Point], font: float
) -> tuple[str, Point]:
    """The words of a limit and the place along its line where the fewest points are covered."""
    words = svg.fit(words, frame.right - frame.left - 12, font)
    room = svg.text_width(words, font)
    spare = max(frame.right - frame.left - room - 12, 0)
    best: tuple[float, Point] = (math.inf, (frame.left + 6, y))
    for side in (-1, 1):
        middle = y + side * font * 0.85
        if not frame.top + font * 0.4 < middle < frame.bottom - font * 0.4:
            continue
        near = [x for x, v in busy if abs(v - middle) < font * 0.8]
        for k in range(13):
            x = frame.left + 6 + spare * k / 12
            covered = sum([x - 4 < p < x + room + 4 for p in near])
            if covered < best[0]:
                best = (covered, (x, middle))
    return words, best[1]


class Ending(NamedTuple):
    """A curve's last visible point, the lines of its name, its ink and its pattern's number.

    The pattern is ``None`` for a ghost and -1 for a band.
    """

    end: Point
    lines: Sequence[str]
    ink: str
    pattern: int | None
    bound: bool = False


def end_labels(endings: Sequence[Ending], frame: Frame, font: float) -> SafeString:
    """The names of the curves right of the frame, each joined to its curve, none on another."""
    pitch = font * 1.1
    middles = svg.spread(
        [ending.end[1] for ending in endings],
        [len(ending.lines) * pitch + 0.25 * font for ending in endings],
        frame.top - font,
        frame.bottom + font,
    )
    parts = []
    for (end, lines, ink, pattern, bound), middle in zip(endings, middles, strict=True):
        start = (frame.right + 15, middle)
        join = [end, (max(end[0], frame.right) + 4, end[1]), start]
        parts.append(el("polyline", points=svg.points(join), stroke=ink, stroke_width=0.6))
        stroke = [[start, (start[0] + SAMPLE, middle)]]
        if bound:
            parts.append(bound_curve(stroke, "", pattern or 0, ink))
        elif pattern == -1:
            teeth = "".join(f"M{start[0] + k * 3.2:.1f} {middle - 5:.1f}v10" for k in range(9))
            parts.append(el("path", d=teeth, stroke=ink, stroke_width=0.55))
        else:
            parts.append(curve(stroke, "", pattern or 0, ink, ghost=pattern is None))
        top = middle - (len(lines) - 1) * pitch / 2
        parts += [
            text(words, (start[0] + SAMPLE + 4, top + k * pitch), size=font)
            for k, words in enumerate(lines)
        ]
    return group(*parts)
