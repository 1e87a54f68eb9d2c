"""A small escaping SVG writer: elements, numbers, text that is known to fit, line patterns.

Every drawing is one self-contained ``<svg>`` that looks the same in the page and in the PDF:
presentation attributes only, ink is ``currentColor``, the ground stays transparent. All words come
from the caller, already translated; this package adds none but units.
"""

import math
import re
from collections.abc import Iterable, Sequence
from html import escape

from django.utils.safestring import SafeString

Attribute = str | float | None
Point = tuple[float, float]

# The faces are asked for in this order: the one the app ships, then what a Debian machine has.
FONT = "Undertrim, 'DejaVu Sans', 'Liberation Sans', sans-serif"

# Line patterns (dash lengths in units of the stroke width), told apart without colour.
PATTERNS: tuple[str, ...] = ("", "5 2.2", "0.9 2", "7 2 1 2", "2.6 1.8", "9 2 1 2 1 2")

# How finely the points of a curve are written [drawing units].
LAST_DIGIT = 0.1

# What XML 1.0 cannot carry, whatever a person pasted into a name.
_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_PIECE = re.compile(r"\s*(?:\w+-(?=\w)|\S+)")
_KEY = re.compile(r"[a-z][a-z0-9-]*\Z")


class DrawingError(ValueError):
    """Raised when the data cannot be drawn: not finite, empty, or of no size."""


def number(value: float) -> str:
    """The shortest text of a coordinate to a hundredth; refuses what is not finite."""
    if not math.isfinite(value):
        message = f"a drawing needs finite numbers, got {value}"
        raise DrawingError(message)
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def points(pairs: Iterable[Point]) -> str:
    """Coordinate pairs as a ``points`` attribute, to a tenth of a unit."""
    text = " ".join([f"{x:.1f},{y:.1f}" for x, y in pairs])
    if "n" in text:  # nan and inf are the only numbers spelled with an n
        message = "a drawing needs finite numbers, got nan or inf among the points"
        raise DrawingError(message)
    return text


def outline(pairs: Iterable[Point], *, closed: bool = True) -> str:
    """Coordinate pairs as a path ``d`` attribute."""
    d = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in pairs)
    return d + "Z" if closed else d


def clean(value: object) -> str:
    """Text as it may stand inside an element: escaped once, without control characters."""
    if isinstance(value, SafeString):
        return value
    return escape(_NOT_XML.sub("", str(value)))


def el(name: str, /, *children: object, **attributes: Attribute) -> SafeString:
    """One element; ``stroke_width`` becomes ``stroke-width``, ``None`` is left out."""
    parts = [name]
    for key, value in attributes.items():
        if value is None:
            continue
        word = clean(value) if isinstance(value, str) else number(value)
        parts.append(f'{key.rstrip("_").replace("_", "-")}="{word}"')
    inner = "".join([clean(child) for child in children])
    head = " ".join(parts)
    return SafeString(f"<{head}>{inner}</{name}>" if inner else f"<{head}/>")


def group(*children: object, **attributes: Attribute) -> SafeString:
    """A ``<g>`` whose attributes its children inherit."""
    return el("g", *children, **attributes)


def line(start: Point, end: Point, **attributes: Attribute) -> SafeString:
    """A straight stroke in ink."""
    attributes.setdefault("stroke", "currentColor")
    return el("line", x1=start[0], y1=start[1], x2=end[0], y2=end[1], **attributes)


def text(
    words: object,
    at: Point,
    *,
    size: float,
    anchor: str = "start",
    turn: float = 0.0,
    **attributes: Attribute,
) -> SafeString:
    """Words in ink; ``at`` is the middle of their height, so no renderer guesses a baseline."""
    x, y = at
    transform = f"rotate({number(turn)} {number(x)} {number(y)})" if turn else None
    attributes.setdefault("fill", "currentColor")
    return el(
        "text",
        words,
        x=x,
        y=y + 0.35 * size,
        font_size=size,
        text_anchor=None if anchor == "start" else anchor,
        transform=transform,
        **attributes,
    )


def text_width(words: object, size: float) -> float:
    """An estimate of the width of a line of text that errs on the wide side."""
    return size * sum([_CHARACTER.get(c, 0.66 if c < "\u2e80" else 1.05) for c in str(words)])


def fit(words: object, width: float, size: float) -> str:
    """The words, cut with an ellipsis when they are wider than there is room for."""
    whole = str(words)
    if text_width(whole, size) <= width:
        return whole
    room = width - text_width("…", size)
    used, kept = 0.0, ""
    for character in whole:
        used += text_width(character, size)
        if used > room:
            break
        kept += character
    return kept.rstrip() + "…"


def wrap(words: object, width: float, size: float, lines: int = 2) -> list[str]:
    """The words broken at spaces and hyphens into at most so many lines, the last cut to fit."""
    rows: list[str] = []
    for piece in _PIECE.findall(str(words)):
        joined = f"{rows[-1]}{' ' if piece[0].isspace() else ''}{piece.strip()}" if rows else ""
        if rows and (text_width(joined, size) <= width or len(rows) == lines):
            rows[-1] = joined
        else:
            rows.append(piece.strip())
    return [fit(row, width, size) for row in rows] or [""]


def spread(wanted: Sequence[float], sizes: Sequence[float], low: float, high: float) -> list[float]:
    """Middles nearest to the wanted ones for blocks of these sizes, none on another.

    The order is kept and all blocks stay between the bounds; when they cannot, all shrink alike.
    """
    total = sum(sizes)
    shrink = min(1.0, (high - low) / total) if total else 1.0
    halves = [size * shrink / 2 for size in sizes]
    order = sorted(range(len(wanted)), key=lambda i: (wanted[i], i))
    placed = [0.0] * len(wanted)
    edge = low
    for i in order:
        placed[i] = max(wanted[i], edge + halves[i])
        edge = placed[i] + halves[i]
    edge = high
    for i in reversed(order):
        placed[i] = min(placed[i], edge - halves[i])
        edge = placed[i] - halves[i]
    return placed


def document(
    *children: object,
    key: str,
    title: object,
    description: object,
    width: float,
    height: float,
    unit: str = "",
    **attributes: Attribute,
) -> SafeString:
    """The whole drawing with its name and description for a screen reader.

    ``key`` prefixes every id inside; give each drawing of one page a different key. ``unit`` says
    what a drawing unit is on paper (``mm`` for templates), nothing for a picture that scales.
    """
    if not _KEY.match(key):
        message = f"a drawing's key is small letters, digits and hyphens, got {key!r}"
        raise DrawingError(message)
    if not (width > 0 and height > 0):
        message = f"a drawing needs a size above 0, got {width} x {height}"
        raise DrawingError(message)
    return el(
        "svg",
        el("title", title, id=f"{key}-title"),
        el("desc", description, id=f"{key}-desc"),
        *children,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {number(width)} {number(height)}",
        width=f"{number(width)}{unit}",
        height=f"{number(height)}{unit}",
        role="img",
        aria_labelledby=f"{key}-title",
        aria_describedby=f"{key}-desc",
        font_family=FONT,
        fill="none",
        **attributes,
    )


def _character_widths() -> dict[str, float]:
    """Widths in em of a wide open sans face, rounded up, by class of character."""
    classes = {
        0.36: "iljI|'!.,:; ‚\u2009\u202f\u00a0",
        0.42: "ft()[]/\\-r°·",
        0.50: '"s²³½¼"*_',
        0.60: "acekvxyzJL?FT",
        0.64: "0123456789bdghnopquµ$€£#",
        0.70: "ABCEKPRSVXYZΩ–…ßäöüáéñ",
        0.80: "DGHNOQU&+=<>~×±→≤≥√",
        1.00: "mwMW@%—",
    }
    return {c: width for width, characters in classes.items() for c in characters}


_CHARACTER = _character_widths()
