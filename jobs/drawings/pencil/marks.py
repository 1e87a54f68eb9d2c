"""The project's own finding marks and the symbols of its diagrams, drawn from the bench.

A mark differs in shape, in weight and in the word beside it, so it also speaks on a 1-bit print:

- *stop*: a clamp screwed tight on a piece, solid. Nothing moves until it is loosened.
- *released*: the same clamp, opened and only outlined.
- *look*: a try square with its rule, outlined. Measure again, then a person decides.
- *accepted*: the try square with a pencil tick in its corner.
- *note*: a pencil that has just drawn a line, light.
- *done*: a pencil tick. *missing*: an empty tick box, dashed. *idle*: a short line.

Everything is drawn in ``currentColor``; marks carry the classes ``mark stop`` and so on, which
the page's style sheet colours and a black-and-white sheet leaves black.
"""

from functools import cache

from django.utils.safestring import SafeString
from django.utils.translation import gettext, gettext_noop

from jobs.drawings.pencil.svg import DrawingError, Point, el, group, text, text_width

WORDS: dict[str, str] = {
    "stop": gettext_noop("stop"),
    "look": gettext_noop("look"),
    "note": gettext_noop("note"),
    "accepted": gettext_noop("accepted"),
    "released": gettext_noop("released"),
}

_CLAMP = "M2 1.5H20V5H6.5V15.5H20V19H2Z"
_SQUARE = "M3 2.5H9V15H22V21.5H3Z"

# Filled shapes, strokes and stroke width on a field of 24 x 24.
_SHAPES: dict[str, tuple[str, str, float]] = {
    "stop": (f"{_CLAMP}M10 6.4H23.5V9.4H10Z", "M11.5 11.6H20M15.8 12V22.3M11.5 22.3H20", 2.3),
    "released": ("", f"{_CLAMP}M15.8 19V22.3M11.5 22.3H20M15.8 15.5V13.5M12.5 13.5H19", 1.6),
    "look": ("", f"{_SQUARE}M12.5 15V18M16 15V18M19 15V18M9 6H6.5M9 9.5H6.5", 2.0),
    "accepted": ("", f"{_SQUARE}M12 7.5L15 11L22.5 2.5", 2.0),
    "note": ("", "M4.5 17.5L6 12.5L16 2.5L20 6.5L10 16.5ZM13.5 5L17.5 9M3 22H14", 1.6),
    "done": ("", "M3.5 13L9 18.5L20.5 5.5", 3.2),
    "missing": ("", "M4 4H20V20H4Z", 2.0),
    "idle": ("", "M6 12H18", 2.4),
    # Symbols of the diagrams.
    "battery": (
        "",
        "M2.5 8H21.5V20H2.5ZM5.5 8V5H9V8M15 8V5H18.5V8M5.5 13.5H9.5M14.5 13.5H18.5M16.5 11.5V15.5",
        1.6,
    ),
    "dc_dc": ("", "M3 3H21V21H3ZM3 21L21 3M6 8H11M6 10.5H11M14 16H19", 1.6),
    "capacitor": ("", "M2 12H10M14 12H22M10 4V20M14 4V20", 1.9),
    "block": (
        "",
        "M3 6H21V18H3ZM9 12A2 2 0 1 1 5 12A2 2 0 1 1 9 12M19 12A2 2 0 1 1 15 12"
        "A2 2 0 1 1 19 12M9 12H15",
        1.6,
    ),
    "amplifier": (
        "",
        "M2.5 6H21.5V17H2.5ZM7 6V17M12 6V17M17 6V17M5 17V20.5M19 17V20.5M2 20.5H22",
        1.6,
    ),
    "load": ("", "M3 7H21V17H3ZM7 17V21M17 17V21M3 7L21 17", 1.6),
    "source": ("", "M3 5H21V19H3ZM6 9H18M6 13H14M18.5 15A1 1 0 1 1 16.5 15A1 1 0 1 1 18.5 15", 1.6),
    "processor": (
        "",
        "M5 5H19V19H5ZM8.5 15C8.5 9 12 9 12 12S15.500 15 15.500 9M2 9H5M2 15H5M19 9H22M19 15H22",
        1.6,
    ),
    "speaker": ("", "M5 2.5V21.5M5 5L13 9.5V14.5L5 19M13 6.5H19V17.5H13ZM19 12H22", 1.6),
}


def word(severity: str) -> str:
    """The word of a mark in the reader's language."""
    return gettext(WORDS[severity])


@cache  # of a dozen, hundreds on a page
def mark(kind: str, *, size: float = 24) -> SafeString:
    """One mark by itself for a page or a sheet; decoration, the word beside it speaks."""
    return el(
        "svg",
        _strokes(kind),
        class_=f"mark {kind}",
        xmlns="http://www.w3.org/2000/svg",
        viewBox="0 0 24 24",
        width=size,
        height=size,
        aria_hidden="true",
        focusable="false",
    )


def mark_at(severity: str, corner: Point, *, size: float) -> SafeString:
    """A mark and its word inside a drawing, from its upper left corner, as high as the words."""
    x, y = corner
    return group(
        symbol_at(severity, (x, y - size * 0.125), size=size * 1.25),
        text(word(severity), (x + size * 1.55, y + size / 2), size=size, font_weight="600"),
    )


def mark_width(severity: str, size: float) -> float:
    """How wide ``mark_at`` draws."""
    return size * 1.55 + text_width(word(severity), size) * 1.08


def symbol_at(kind: str, corner: Point, *, size: float) -> SafeString:
    """A mark or a symbol inside a drawing, from its upper left corner."""
    return group(
        _strokes(kind),
        class_=f"mark {kind}" if kind in WORDS else None,
        transform=f"translate({corner[0]:.1f} {corner[1]:.1f}) scale({size / 24:.3f})",
    )


def has_symbol(kind: str) -> bool:
    """Whether there is a shape for this kind of thing."""
    return kind in _SHAPES


def _strokes(kind: str) -> SafeString:
    if kind not in _SHAPES:
        message = f"there is no mark or symbol called {kind!r}"
        raise DrawingError(message)
    solid, d, weight = _SHAPES[kind]
    stroke = el(
        "path",
        d=d,
        fill="none",
        stroke="currentColor",
        stroke_width=weight,
        stroke_linejoin="round",
        stroke_dasharray="4 4" if kind == "missing" else None,
    )
    return group(el("path", d=solid, fill="currentColor"), stroke) if solid else stroke
