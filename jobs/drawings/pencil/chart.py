"""A chart of curves over frequency or anything else, drawn like rules laid on paper.

The two axes are rules with long and short ticks, guides are dotted, every curve has its own
line pattern and its name at its end. Limits carry short strokes on the side not to be entered.

For a read-out under the finger the root carries the frame and both axes::

    data-frame="left top right bottom"      in viewBox units
    data-x="log|lin low high unit"          what left and right stand for
    data-y="log|lin low high unit"          what bottom and top stand for

and every ``polyline`` of a curve carries ``data-series="name"``: a script turns its points back
into values with those numbers and needs no second copy of the data.
"""

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

from django.utils.safestring import SafeString

from jobs.drawings.pencil import svg
from jobs.drawings.pencil.axis import Axis
from jobs.drawings.pencil.curves import (
    SAMPLE,
    Ending,
    Frame,
    bound_curve,
    clip,
    curve,
    end_labels,
    limit_words,
    marker_rows,
    shading,
)
from jobs.drawings.pencil.svg import el, group, line, text


@dataclass(frozen=True, kw_only=True)
class Series:
    """One curve. A ghost is an earlier state (the last saved one), drawn pale and thin.

    A bound is a curve that nothing rises above; like a limit it carries strokes on its far side.
    """

    name: str
    x: Sequence[float]
    y: Sequence[float]
    ghost: bool = False
    bound: bool = False


@dataclass(frozen=True, kw_only=True)
class Band:
    """A range between two curves (5-95 %), drawn as pencil shading."""

    name: str
    x: Sequence[float]
    low: Sequence[float]
    high: Sequence[float]


@dataclass(frozen=True, kw_only=True)
class Limit:
    """A value of y not to be passed, with its words; ``keep`` says on which side to stay.

    Lay the axis over the limits too; one beyond its ends is named at the edge with an arrow.
    """

    value: float
    words: str
    keep: Literal["below", "above"] = "below"


@dataclass(frozen=True, kw_only=True)
class Marker:
    """A value of x worth naming (f3, fb), shown as a mark across the frame with its words."""

    x: float
    words: str


class Size(NamedTuple):
    """The proportions of a drawing; text stays above 9 px at a phone's width on ``screen``.

    ``half`` is low: four of them and a table stand on one printed page.
    """

    width: float
    height: float
    font: float


SIZES = {
    "screen": Size(520, 350, 13.5),
    "paper": Size(680, 330, 11.5),
    "half": Size(520, 226, 13.5),
}


@dataclass(frozen=True, kw_only=True)
class Chart:
    """Everything on one set of axes. ``accent`` is the ink of the first curve."""

    key: str
    title: str
    description: str
    x: Axis
    y: Axis
    series: Sequence[Series]
    bands: Sequence[Band] = ()
    limits: Sequence[Limit] = ()
    markers: Sequence[Marker] = ()
    accent: str = "currentColor"
    size: Literal["screen", "paper", "half"] = "screen"


def chart(spec: Chart) -> SafeString:
    """Draw the chart as one ``<svg>``."""
    width, height, font = SIZES[spec.size]
    room = width * 0.2
    names = [*[s.name for s in spec.series], *[band.name for band in spec.bands]]
    labels = [svg.wrap(name, room, font, 3) for name in names]
    margin = max([svg.text_width(row, font) for rows in labels for row in rows], default=0)
    numbers = [spec.y.number_text(v) for v in spec.y.ticks(7)[0]]
    left = 12 + max([svg.text_width(word, font) for word in numbers], default=0)
    right = width - margin - SAMPLE - 21
    shown = [m for m in spec.markers if spec.x.low <= m.x <= spec.x.high]
    marks = spec.x.along([m.x for m in shown], left, right)
    rows = marker_rows(marks, [m.words for m in shown], font, left, width)
    top = font * (2.3 + 1.25 * (1 + max([row for _, row in rows], default=-1)))
    frame = Frame(left, top, right, height - 3.2 * font)

    curves = [clip(frame.place(spec.x, spec.y, s.x, s.y), frame, s.name) for s in spec.series]
    parts = [_rules(spec, frame, font)]
    endings = []
    for band, lines in zip(spec.bands, labels[len(curves) :], strict=True):
        low = frame.place(spec.x, spec.y, band.x, band.low)
        high = frame.place(spec.x, spec.y, band.x, band.high)
        strokes, end = shading(low, high, frame, band.name)
        parts.append(strokes)
        endings += [Ending(end, lines, "currentColor", -1)] if end else []
    parts += _limits(spec, frame, curves, marks, font)
    parts += [
        _marker(x, marker.words, place, frame, font)
        for x, marker, place in zip(marks, shown, rows, strict=True)
    ]
    pattern = bounds = 0
    for series, pieces, lines in zip(spec.series, curves, labels, strict=False):
        plain = not (series.ghost or series.bound)
        ink = spec.accent if pattern == 0 and plain else "currentColor"
        if series.bound:
            parts.append(bound_curve(pieces, series.name, bounds, ink))
        else:
            parts.append(curve(pieces, series.name, pattern, ink, ghost=series.ghost))
        if pieces:
            number = bounds if series.bound else None if series.ghost else pattern
            endings.append(Ending(pieces[-1][-1], lines, ink, number, series.bound))
        pattern += plain
        bounds += series.bound
    parts.append(end_labels(endings, frame, font))
    return svg.document(
        *parts,
        key=spec.key,
        title=spec.title,
        description=spec.description,
        width=width,
        height=height,
        stroke_linejoin="round",
        data_frame=" ".join(svg.number(v) for v in frame),
        data_x=spec.x.data(),
        data_y=spec.y.data(),
    )


def _marker(
    x: float, words: str, place: tuple[float, int], frame: Frame, font: float
) -> SafeString:
    middle, row = place
    return group(
        line((x, frame.bottom), (x, frame.top), stroke_width=0.8, stroke_dasharray="6 2 1 2"),
        line((x, frame.top), (x, frame.top - 4), stroke_width=1.6),
        text(words, (middle, frame.top - font * (0.95 + 1.25 * row)), size=font, anchor="middle"),
    )


def data_table(spec: Chart, at: Sequence[float]) -> tuple[list[str], list[list[float | None]]]:
    """The chart in numbers: a head and, for each x asked for, one value per curve.

    Between two points of a curve the value lies on the line as drawn; beyond its ends is none.
    """
    head = [spec.x.title(), *[f"{s.name}, {spec.y.unit}" for s in spec.series]]
    return head, [[x, *[_value_at(spec.x, s, x) for s in spec.series]] for x in at]


def _value_at(axis: Axis, series: Series, x: float) -> float | None:
    i = max(1, bisect_left(series.x, x))
    if i >= len(series.x) or x < series.x[0]:
        return None
    start, here, end = axis.along([series.x[i - 1], x, series.x[i]], 0, 1)
    part = (here - start) / (end - start) if end > start else 0.0
    return float(series.y[i - 1] + part * (series.y[i] - series.y[i - 1]))


def _rules(spec: Chart, frame: Frame, font: float) -> SafeString:
    """Both rules, their numbers and titles, and dotted guides at the numbered values."""
    left, top, right, bottom = frame
    x_named, x_fine = spec.x.ticks(round((right - left) / 60))
    y_named, y_fine = spec.y.ticks(7)
    xs, ys = spec.x.along(x_named, left, right), spec.y.along(y_named, bottom, top)
    dotted = "".join(f"M{x:.1f} {top:.1f}V{bottom:.1f}" for x in xs)
    dotted += "".join(f"M{left:.1f} {y:.1f}H{right:.1f}" for y in ys)
    rules = f"M{left:.1f} {top:.1f}V{bottom:.1f}H{right:.1f}"
    rules += "".join(f"M{x:.1f} {bottom:.1f}v7" for x in xs)
    rules += "".join(f"M{left:.1f} {y:.1f}h-7" for y in ys)
    fine = "".join(f"M{x:.1f} {bottom:.1f}v3.5" for x in spec.x.along(x_fine, left, right))
    fine += "".join(f"M{left:.1f} {y:.1f}h-3.5" for y in spec.y.along(y_fine, bottom, top))
    strokes = group(
        el("path", d=dotted, stroke_width=0.6, stroke_dasharray="0.8 3.2"),
        el("path", d=rules, stroke_width=1.1),
        el("path", d=fine, stroke_width=0.6),
        stroke="currentColor",
    )
    words: list[SafeString] = []
    edge = -math.inf
    for x, value in zip(xs, x_named, strict=True):
        word = spec.x.number_text(value)
        half = svg.text_width(word, font) / 2
        if x - half > edge:  # a number that would touch its neighbour is left to the tick
            edge = x + half + 3
            words.append(text(word, (x, bottom + 7 + font * 0.7), size=font, anchor="middle"))
    words += [
        text(spec.y.number_text(value), (left - 9, y), size=font, anchor="end")
        for y, value in zip(ys, y_named, strict=True)
    ]
    words.append(text(spec.x.title(), (right, bottom + 7 + font * 1.9), size=font, anchor="end"))
    words.append(text(spec.y.title(), (2, font * 0.7), size=font))
    return group(strokes, *words)


def _limits(
    spec: Chart,
    frame: Frame,
    curves: Sequence[Sequence[Sequence[svg.Point]]],
    marks: Sequence[float],
    font: float,
) -> list[SafeString]:
    """Each limit as a firm line with strokes on the far side and words where least is drawn."""
    busy = [p for pieces in curves for piece in pieces for p in piece[::4]]
    steps = [frame.top + k * 6 for k in range(int((frame.bottom - frame.top) / 6) + 1)]
    busy += [(x, y) for x in marks for y in steps]
    parts: list[SafeString] = []
    for limit in spec.limits:
        beyond = "↑ " if limit.value > spec.y.high else "↓ " if limit.value < spec.y.low else ""
        inside = min(max(limit.value, spec.y.low), spec.y.high)
        y = spec.y.along([inside], frame.bottom, frame.top)[0]
        far = -1 if limit.keep == "below" else 1
        words, corner = limit_words(beyond + limit.words, y, frame, busy, font)
        room = svg.text_width(words, font)
        busy += [(corner[0] + k * 6, corner[1]) for k in range(int(room / 6) + 2)]
        parts.append(text(words, corner, size=font))
        if beyond:
            continue
        taken = (corner[0] - 5, corner[0] + room + 2) if (corner[1] - y) * far > 0 else (0, 0)
        xs = [frame.left + 4 + k * 9 for k in range(int((frame.right - frame.left - 8) / 9) + 1)]
        teeth = "".join(
            f"M{x:.1f} {y:.1f}l3.5 {far * 5}" for x in xs if not taken[0] < x + 2 < taken[1]
        )
        parts.append(
            el(
                "path",
                d=f"M{frame.left:.1f} {y:.1f}H{frame.right:.1f}{teeth}",
                stroke="currentColor",
                stroke_width=1.1,
            )
        )
    return parts
