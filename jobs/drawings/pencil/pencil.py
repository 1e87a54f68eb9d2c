"""What a hand does on a workshop drawing: hatch cut wood, put a dimension, lay a scale bar."""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence

from django.utils.safestring import SafeString

from jobs.drawings.pencil.svg import (
    DrawingError,
    Point,
    el,
    group,
    line,
    outline,
    text,
    text_width,
)

HAIR = 0.6  # stroke widths, in drawing units
THIN = 0.9


def millimetres(length: float) -> str:
    """A length in metres as millimetres, the way a cut list writes it."""
    return f"{length * 1000:.1f}".removesuffix(".0")


def hatch(
    polygon: Sequence[Point], *, holes: Iterable[Sequence[Point]] = (), gap: float, angle: float
) -> str:
    """Parallel strokes across a polygon (less its holes) as path data; angle in degrees.

    The strokes are cut here, by even-odd crossings, so no clip path or pattern id is needed
    and a 1-bit print shows them as they are.
    """
    cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    rings = [[(x * cos + y * sin, y * cos - x * sin) for x, y in r] for r in (polygon, *holes)]
    heights = [v for ring in rings for _, v in ring]
    strokes = []
    # An odd fraction keeps strokes off the corners, where crossings are counted twice.
    for k in range(math.floor(min(heights) / gap), math.ceil(max(heights) / gap) + 1):
        v = (k + 0.4871) * gap
        cuts = sorted(_crossings(rings, v))
        for a, b in zip(cuts[::2], cuts[1::2], strict=False):
            if b - a < 0.2:  # where an opening's side lies on the wood's own
                continue
            (x, y), (along, up) = ((c * cos - v * sin, c * sin + v * cos) for c in (a, b))
            # To a tenth, as curves are: less than a stroke is wide.
            strokes.append(f"M{x:.1f} {y:.1f}L{along:.1f} {up:.1f}")
    return "".join(strokes)


def _crossings(rings: Iterable[Sequence[Point]], v: float) -> Iterator[float]:
    for ring in rings:
        previous = ring[-1]
        for here in ring:
            if (previous[1] > v) != (here[1] > v):
                share = (v - previous[1]) / (here[1] - previous[1])
                yield previous[0] + share * (here[0] - previous[0])
            previous = here


def dimension(
    start: Point, end: Point, *, offset: float, words: str, size: float, reach: float = 0
) -> SafeString:
    """A dimension: two extension lines, a line with pencil arrows, words in a gap of the line.

    Drawn to the left of the way from start to end (as seen on the page, y down) for a positive
    offset. Words wider than the span stand beyond its end and the arrows point inwards.
    ``reach`` starts the extension lines further off the points.
    """
    length = math.dist(start, end)
    if length < 0.5:  # less than a stroke is wide: nothing to measure
        return SafeString("")
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    nx, ny = uy, -ux
    a = (start[0] + nx * offset, start[1] + ny * offset)
    b = (end[0] + nx * offset, end[1] + ny * offset)
    sign = math.copysign(1, offset)
    gap, over = sign * (3 + reach), sign * 4
    parts = [
        line(
            (p[0] + nx * gap, p[1] + ny * gap),
            (p[0] + nx * (offset + over), p[1] + ny * (offset + over)),
            stroke_width=HAIR,
        )
        for p in (start, end)
    ]
    room = text_width(words, size) + 6
    turn = round(math.degrees(math.atan2(uy, ux)), 4)
    turn += -180 if turn >= 90 else 180 if turn < -90 else 0  # readable from below or the right
    inside = room + 14 <= length
    if inside:
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        half = room / 2
        parts += [
            line(a, (middle[0] - ux * half, middle[1] - uy * half), stroke_width=THIN),
            line((middle[0] + ux * half, middle[1] + uy * half), b, stroke_width=THIN),
        ]
    else:
        tail = 9.0
        far = tail + room / 2
        middle = (b[0] + ux * far, b[1] + uy * far)
        parts += [
            line((a[0] - ux * tail, a[1] - uy * tail), a, stroke_width=THIN),
            line(b, (b[0] + ux * tail, b[1] + uy * tail), stroke_width=THIN),
        ]
    way = 1 if inside else -1
    parts += [_arrow(a, (-ux * way, -uy * way)), _arrow(b, (ux * way, uy * way))]
    parts.append(text(words, middle, size=size, anchor="middle", turn=turn))
    return group(*parts)


def centre_dimensions(
    centres: Sequence[Point],
    frame: tuple[float, float, float, float],
    *,
    scale: float,
    size: float,
    length_text: Callable[[float], str] = millimetres,
) -> list[SafeString]:
    """Where centres lie in a frame (left, top, right, bottom): across above it, upwards beside it.

    The shortest dimension lies nearest, so no extension line runs through another's words; a
    distance that several centres share is written once.
    """
    left, top, right, bottom = frame
    level = size + 12
    across = sorted({round(x, 1): x for x, _ in centres}.values())
    upwards = sorted({round(y, 1): y for _, y in centres}.values(), reverse=True)
    return [
        dimension(
            (left, top),
            (x, top),
            offset=level * (k + 1),
            words=length_text((x - left) / scale),
            size=size,
        )
        for k, x in enumerate(across)
    ] + [
        dimension(
            (right, bottom),
            (right, y),
            offset=-level * (k + 1),
            words=length_text((bottom - y) / scale),
            size=size,
        )
        for k, y in enumerate(upwards)
    ]


def _arrow(tip: Point, way: Point) -> SafeString:
    """A slim filled arrow whose tip points along ``way``."""
    x, y = tip
    ux, uy = way
    left = (x - ux * 7 - uy * 1.7, y - uy * 7 + ux * 1.7)
    right = (x - ux * 7 + uy * 1.7, y - uy * 7 - ux * 1.7)
    return el("path", d=outline([tip, left, right]), fill="currentColor")


def ball(centre: Point, number: object, size: float) -> SafeString:
    """A part's number in a ring."""
    return group(
        el("circle", cx=centre[0], cy=centre[1], r=size * 0.75, stroke="currentColor"),
        text(number, centre, size=size * 0.95, anchor="middle"),
    )


def centre_line(start: Point, end: Point) -> SafeString:
    """The long-short line of an axis."""
    return line(start, end, stroke_width=HAIR, stroke_dasharray="9 2.5 2 2.5")


def scale_bar(
    at: Point,
    *,
    scale: float,
    room: float,
    size: float,
    length_text: Callable[[float], str] = millimetres,
    unit: str = "mm",
) -> SafeString:
    """A rule of five blocks under a drawing; ``scale`` is drawing units per metre."""
    length = round_down(room / scale)
    x, y = at
    step = length * scale / 5
    blocks = [
        el("rect", x=x + i * step, y=y, width=step, height=5, fill="currentColor")
        for i in (0, 2, 4)
    ]
    frame = el("rect", x=x, y=y, width=5 * step, height=5, stroke="currentColor", stroke_width=THIN)
    end, level, width = f"{length_text(length)} {unit}", y + 6 + size * 0.7, 5 * step
    # Wider than the rule it begins where that does, or it would stand out of the drawing.
    narrow = text_width(end, size) > width
    at_end = (x, level) if narrow else (x + width, level)
    words = [text(end, at_end, size=size, anchor="start" if narrow else "end")]
    if text_width(f"0 {end}", size) + 4 < width:
        words.append(text("0", (x, level), size=size))
    return group(frame, *blocks, *words)


def round_down(value: float) -> float:
    """The largest 1, 2 or 5 times a power of ten that is not above the value."""
    if not (math.isfinite(value) and value > 0):
        message = f"a scale needs a length above 0, got {value}"
        raise DrawingError(message)
    power = 10.0 ** math.floor(math.log10(value))
    return max(m * power for m in (0.5, 1, 2, 5) if m * power <= value * (1 + 1e-9))
