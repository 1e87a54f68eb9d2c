"""Paper templates at full size: a part, or what lies round one opening of it, cut into pages.

Every page is drawn in millimetres and must be printed at 100 %; the black bar at its foot
measures 100 mm when it was. Pages that meet carry one and the same line of the part: one of them
is cut along it and laid on the other's, cross on cross. Pages that would be empty are left out.
"""

import math
from dataclasses import dataclass

from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from jobs.drawings.pencil import svg
from jobs.drawings.pencil.curves import Frame, clip
from jobs.drawings.pencil.svg import DrawingError, Point, el, group, line, outline, text
from jobs.drawings.wood.wood import Part

_FOOT = 15.0  # millimetres kept free of cut lines under the drawing, for the bar and the words
_FONT = 4.2
_SMALL = 3.0
_STEPS = 240  # a hole of 300 mm is then true to 0.02 mm
_CROSS = 6.0  # millimetres from the middle of a register cross to its ends
# Where on a line that two pages share its crosses stand.
_CROSSES = (0.25, 0.75)

Strokes = list[list[Point]]
Spot = tuple[int, int]  # row and column


@dataclass(frozen=True, kw_only=True)
class Template:
    """A part to print at full size. ``paper`` is what the printer can print on, in metres.

    ``caption`` stands on every page: print at 100 %, the bar measures 100 mm. ``window`` is what
    of the part is printed (left, bottom, right, top), all of it for None; a template of a window
    is laid on by its crosses, which then reach through it.
    """

    key: str
    title: str
    part: Part
    caption: str
    paper: tuple[float, float] = (0.190, 0.277)
    overlap: float = 0.010
    window: tuple[float, float, float, float] | None = None


@dataclass(frozen=True, kw_only=True)
class Tile:
    """One page: its name (row and column, from the upper left) and its drawing."""

    name: str
    drawing: SafeString


@dataclass(frozen=True, kw_only=True)
class _Page:
    """What of a part falls on one page, in millimetres from the upper left of its drawing."""

    cut: Strokes
    marked: Strokes
    centres: Strokes

    @property
    def empty(self) -> bool:
        return not (self.cut or self.marked or self.centres)


def tiles(template: Template) -> list[Tile]:
    """Cut a part into pages; together they show every line of it."""
    wide, tall, overlap = (v * 1000 for v in (*template.paper, template.overlap))
    if not (0 < overlap < min(wide, tall - _FOOT) / 2) or wide < 120:
        message = f"a page of {wide:g} x {tall:g} mm cannot hold tiles with {overlap:g} mm overlap"
        raise DrawingError(message)
    left, low, right, high = (v * 1000 for v in template.window or template.part.bounds())
    step = (wide - overlap, tall - _FOOT - overlap)
    columns = max(1, math.ceil((right - left - overlap) / step[0]))
    rows = max(1, math.ceil((high - low - overlap) / step[1]))
    # The lines a little inside the first page, so that none falls on the edge of the paper; the
    # cross of an opening off the lines that pages share.
    before = 0.5 if template.window is None else 0.3
    spare = (columns * step[0] + overlap - (right - left), rows * step[1] + overlap - (high - low))
    origin = (left - spare[0] * before, high + spare[1] * before)
    pages: dict[Spot, _Page] = {}
    strokes = _strokes(template)
    for row in range(rows):
        for column in range(columns):
            corner = (origin[0] + column * step[0], origin[1] - row * step[1])
            cut, marked, centres = (_visible(some, corner, wide, tall - _FOOT) for some in strokes)
            pages[row, column] = _Page(cut=cut, marked=marked, centres=centres)
    wanted = _joined({spot for spot, page in pages.items() if not page.empty}, set(pages))
    return [
        Tile(name=_name(spot), drawing=_drawn(template, spot, pages[spot], wanted))
        for spot in sorted(wanted)
    ]


def _name(spot: Spot) -> str:
    return f"{spot[0] + 1}-{spot[1] + 1}"


def _joined(wanted: set[Spot], every: set[Spot]) -> set[Spot]:
    """The pages wanted, if each can be taped to the rest; all of them where one could not."""
    reached, waiting = set[Spot](), [min(wanted)] if wanted else []
    while waiting:
        spot = waiting.pop()
        reached.add(spot)
        waiting += [other for other in _beside(spot) if other in wanted - reached]
    return wanted if reached == wanted else every


def _beside(spot: Spot) -> tuple[Spot, Spot, Spot, Spot]:
    """The spots to the left, above, to the right and below."""
    row, column = spot
    return (row, column - 1), (row - 1, column), (row, column + 1), (row + 1, column)


def _strokes(template: Template) -> tuple[Strokes, Strokes, Strokes]:
    """Lines to cut, screw circles and centres of a part, in millimetres."""
    part = template.part
    left, low, right, high = template.window or part.bounds()

    def cross(at: Point) -> Strokes:
        (x, y), arm = at, 0.005
        if template.window is None:
            return [[(x - arm, y), (x + arm, y)], [(x, y - arm), (x, y + arm)]]
        return [[(left, y), (right, y)], [(x, low), (x, high)]]

    middle = ((left + right) / 2, (low + high) / 2)
    centres = part.middles if template.window is None else [middle]
    return (
        _millimetres(part.rings(_STEPS)),
        _millimetres([mark.ring(_STEPS) for mark in part.marks]),
        _millimetres([stroke for at in centres for stroke in cross(at)]),
    )


def _millimetres(rings: Strokes) -> Strokes:
    return [[(x * 1000, y * 1000) for x, y in ring] for ring in rings]


def _visible(rings: Strokes, corner: Point, wide: float, tall: float) -> Strokes:
    """What of the lines falls on a page, in millimetres from its upper left corner."""
    frame = Frame(0, 0, wide, tall)
    pieces: Strokes = []
    for ring in rings:
        moved = [(x - corner[0], corner[1] - y) for x, y in ring]
        pieces += clip(moved, frame, "outline")
    return pieces


def _joints(template: Template, spot: Spot, wanted: set[Spot]) -> list[SafeString]:
    """The lines this page shares with its neighbours: cut off to the left and above, else full."""
    wide, tall, overlap = (v * 1000 for v in (*template.paper, template.overlap))
    ground, half = tall - _FOOT, overlap / 2
    ends = (
        ((half, 0.0), (half, ground)),
        ((0.0, half), (wide, half)),
        ((wide - half, 0.0), (wide - half, ground)),
        ((0.0, ground - half), (wide, ground - half)),
    )
    drawn = []
    for number, (neighbour, (start, end)) in enumerate(zip(_beside(spot), ends, strict=True)):
        if neighbour not in wanted:
            continue
        cut = number < 2
        drawn.append(line(start, end, stroke_width=0.25, stroke_dasharray=None if cut else "3 1.5"))
        for share in _CROSSES:
            at = tuple(a + share * (b - a) for a, b in zip(start, end, strict=True))
            drawn.append(_register((at[0], at[1])))
        name = _name(neighbour)
        words = _("cut off to this line, lay on %(page)s") if cut else _("%(page)s lies up to here")
        upright = start[0] == end[0]
        # In the margin that is cut off or covered.
        off = -half / 2 if cut else half / 2
        at = (start[0] + off, ground / 2) if upright else (wide / 2, start[1] + off)
        turn = -90.0 if upright else 0.0
        drawn.append(text(words % {"page": name}, at, size=_SMALL, anchor="middle", turn=turn))
    return drawn


def _register(at: Point) -> SafeString:
    """A cross in a diamond, on a line that two pages share; what is drilled has rings."""
    x, y = at
    off = _CROSS * 2 / 3
    return group(
        el("path", d=outline([(x - off, y), (x, y - off), (x + off, y), (x, y + off)])),
        line((x - _CROSS, y), (x + _CROSS, y)),
        line((x, y - _CROSS), (x, y + _CROSS)),
        stroke="currentColor",
        stroke_width=0.25,
    )


def _drawn(template: Template, spot: Spot, page: _Page, wanted: set[Spot]) -> SafeString:
    """One page: cut lines, screw circles, centres, what it is joined by, name, bar and caption."""
    wide, tall = (v * 1000 for v in template.paper)
    ground, name = tall - _FOOT, _name(spot)
    label = f"{template.part.number} {template.part.name}"
    return svg.document(
        *_joints(template, spot, wanted),
        _inked(page.centres, 0.25, "9 2 2 2" if template.window else None),
        _inked(page.cut, 0.35),
        _inked(page.marked, 0.25, "6 1.5 1.5 1.5"),
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


def _inked(strokes: Strokes, width: float, dashes: str | None = None) -> SafeString:
    return group(
        *[el("polyline", points=_exact(piece)) for piece in strokes],
        stroke="currentColor",
        stroke_width=width,
        stroke_dasharray=dashes,
    )


def _exact(piece: list[Point]) -> str:
    """Points to a hundredth of a millimetre: a template is measured, a picture is looked at."""
    return " ".join(f"{svg.number(x)},{svg.number(y)}" for x, y in piece)
