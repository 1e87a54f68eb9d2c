"""A box as a workshop drawing: cut through from the side, and any panel seen from outside."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from django.utils.safestring import SafeString

from jobs.design.carcass.carcass import RoundPart
from jobs.drawings.pencil import svg
from jobs.drawings.pencil.pencil import (
    HAIR,
    ball,
    centre_dimensions,
    dimension,
    millimetres,
    scale_bar,
)
from jobs.drawings.pencil.svg import Point, el, group, line, outline, text
from jobs.drawings.wood.box import Box, Edge, Thing
from jobs.drawings.wood.box_strokes import (
    OUTLINE,
    PROUD,
    Paper,
    cavity_gap,
    cavity_lines,
    cut_wood,
    extent,
    half_opening,
    in_section,
    inner_wood,
    square_on,
)


@dataclass(frozen=True, kw_only=True)
class View:
    """How a drawing is named and written: key and words for a screen reader, size, lengths."""

    key: str
    title: str
    description: str
    size: Literal["screen", "paper", "half"] = "screen"
    length_text: Callable[[float], str] = millimetres
    unit: str = "mm"
    accent: str = "currentColor"

    @property
    def font(self) -> float:
        """Size of the words."""
        return 13.5 if self.size == "screen" else 11.0

    @property
    def room(self) -> tuple[float, float]:
        """Width of the drawing and the most the box itself may take upwards."""
        rooms = {"screen": (520.0, 330.0), "paper": (640.0, 380.0), "half": (330.0, 260.0)}
        return rooms[self.size]


def side_view(box: Box, view: View) -> SafeString:
    """The carcass cut through, to scale, with what is in it, its dimensions and a scale bar.

    Things on a face carry a numbered ball outside it; their names stand below the drawing.
    """
    font, (width, most) = view.font, view.room
    reach = [*box.body.profile.points, *box.cavity]
    for thing, face in _on_edges(box):
        reach += extent(thing, face)
    left, right = min(x for x, _ in reach), max(x for x, _ in reach)
    low, high = min(y for _, y in reach), max(y for _, y in reach)
    side = (3 * font + 44 if box.contents else 2 * font + 30) + _aside(box, font)
    scale = min((width - 2 * side) / (right - left), most / (high - low))
    drawn = (right - left) * scale
    paper = Paper(scale, (width - drawn) / 2 - left * scale, side + high * scale)
    foot = side + (high - low) * scale
    parts = [
        cavity_lines(box, paper),
        cut_wood(box, paper),
        *[inner_wood(brace, paper) for brace in box.body.seen_braces()],
        *[in_section(thing, face, paper, view.accent) for thing, face in _on_edges(box)],
        # The near side panel is cut away: what sits in it is only hinted at.
        *[
            group(
                square_on(thing.part, paper.at(thing.at), scale, view.accent),
                stroke_dasharray="5 3" if thing.near else None,
            )
            for thing in box.in_cheeks
        ],
    ]
    words = _section_dimensions(box, paper, view, (left, right, low, high))
    beside = _ball_places(box, 1.7 * font / scale)
    for k, (thing, face) in enumerate(_on_edges(box)):
        out = max(PROUD if isinstance(thing.part, RoundPart) else 0.0, cavity_gap(box, face))
        centre = paper.at(face.at(beside[k], -out - (font * 0.75 + 11) / scale))
        words.append(ball(centre, k + 1, font))
    words += [
        ball(_beside(thing, paper), len(box.contents) + k + 1, font)
        for k, thing in enumerate(box.in_cheeks)
    ]
    rule = foot + side + 2
    words.append(
        scale_bar(
            (width / 2 - drawn / 2, rule),
            scale=scale,
            room=drawn * 0.6,
            size=font,
            length_text=view.length_text,
            unit=view.unit,
        )
    )
    named = [*box.contents, *box.in_cheeks]
    for k, thing in enumerate(named):
        y = rule + 1.9 * font + 1.7 * font * (k + 0.6)
        words.append(ball((12 + font * 0.75, y), k + 1, font))
        name = svg.fit(_size_words(thing, view), width - 3 * font - 12, font)
        words.append(text(name, (18 + 1.5 * font, y), size=font))
    height = rule + 2.2 * font + 1.7 * font * len(named)
    return _sheet(parts, words, view, height)


def _on_edges(box: Box) -> list[tuple[Thing, Edge]]:
    return [(thing, box.seats[thing.edge]) for thing in box.contents if thing.edge is not None]


def _ball_places(box: Box, size: float) -> dict[int, float]:
    """Where along its face each number stands: a driver and a port side by side share a height."""
    places: dict[int, float] = {}
    for edge, face in enumerate(box.seats):
        here = [k for k, thing in enumerate(box.contents) if thing.edge == edge]
        wanted = [box.contents[k].along for k in here]
        spread = svg.spread(wanted, [size] * len(here), 0.0, face.length)
        places |= dict(zip(here, spread, strict=True))
    return places


def _beside(thing: Thing, paper: Paper) -> Point:
    """Where the number of a thing in a side panel stands: off its middle, where its axes cross."""
    x, y = paper.at(thing.at)
    off = half_opening(thing.part) * paper.scale * 0.5
    return (x + off, y - off)


def face_view(box: Box, name: str, view: View) -> SafeString:
    """A panel between the cheeks seen square on from outside: outline, cut-outs, their centres."""
    font, (width, most) = view.font, view.room
    across, tall = box.body.face(name).size
    level = font + 12
    # Up on the page is up in the car, or towards the rear on a lying panel.
    things = [thing for thing in box.things if thing.face == name]
    columns = 2 + len(things)
    scale = min((width - level * columns - 24) / across, most / tall)
    names = [svg.wrap(_size_words(thing, view), width - 24, font, 1) for thing in things]
    top = 1.4 * font * len(names) + 10 + level * max(len(things), 1)
    x0 = level + 12 + (width - level * columns - 24 - across * scale) / 2
    paper = Paper(scale, x0 + across * scale / 2, top + tall * scale)

    def place(thing: Thing) -> Point:
        return paper.at((thing.centre[0] - across / 2, thing.centre[1]))

    half = across / 2
    corners = paper.all([(-half, 0), (half, 0), (half, tall), (-half, tall)])
    edge_x = half - box.body.face("left").wood
    hidden = paper.all([(-edge_x, 0), (-edge_x, tall), (edge_x, 0), (edge_x, tall)])
    parts = [
        el("path", d=outline(corners), stroke_width=OUTLINE),
        line(hidden[0], hidden[1], stroke_width=HAIR, stroke_dasharray="4 3"),
        line(hidden[2], hidden[3], stroke_width=HAIR, stroke_dasharray="4 3"),
        *[square_on(thing.part, place(thing), scale, view.accent) for thing in things],
    ]
    bottom = corners[0][1]
    say = view.length_text
    words = [
        dimension(corners[0], corners[1], offset=-level, words=say(across), size=font),
        dimension(corners[0], corners[3], offset=level, words=say(tall), size=font),
    ]
    frame = (corners[3][0], top, corners[1][0], bottom)
    words += centre_dimensions(
        [place(thing) for thing in things], frame, scale=scale, size=font, length_text=say
    )
    words += [
        text(lines[0], (12, 1.4 * font * (k + 0.5)), size=font) for k, lines in enumerate(names)
    ]
    bar = scale_bar(
        (corners[0][0], bottom + level + 14),
        scale=scale,
        room=max(across * scale * 0.6, 60),
        size=font,
        length_text=say,
        unit=view.unit,
    )
    return _sheet(parts, [*words, bar], view, bottom + level + 26 + font)


def _sheet(
    strokes: Sequence[SafeString], words: Sequence[SafeString], view: View, height: float
) -> SafeString:
    """Strokes and words inked on one sheet."""
    return svg.document(
        group(*strokes, stroke="currentColor", stroke_linejoin="round"),
        *words,
        key=view.key,
        title=view.title,
        description=view.description,
        width=view.room[0],
        height=height,
    )


def _size_words(thing: Thing, view: View) -> str:
    """What a thing is called and the sizes to cut for it."""
    say, part = view.length_text, thing.part
    if isinstance(part, RoundPart):
        sizes = f"Ø {say(part.flange_diameter)}, Ø {say(part.cutout_diameter)}"
    elif part.height is None:
        sizes = f"Ø {say(part.width)}, Ø {say(part.width + 2 * part.wall)}"
    else:
        sizes = f"{say(part.width)} × {say(part.height)}"
    return f"{thing.name}: {sizes} {view.unit}"


def _aside(box: Box, font: float) -> float:
    """How much further out the whole height stands where the front leans: its length is there."""
    leans = any(edge.out[0] < -0.5 and abs(edge.out[1]) > 1e-6 for edge in box.edges)
    return 2 * font + 8 if leans else 0.0


def _section_dimensions(
    box: Box,
    paper: Paper,
    view: View,
    reach: tuple[float, float, float, float],
) -> list[SafeString]:
    """True lengths along the faces that are not the whole depth or height, then the whole."""
    font, say = view.font, view.length_text
    left, low, right, high = box.body.profile.polygon.bounds
    balls = {thing.edge for thing in box.contents}
    first = font + 8  # a dimension next to the wood
    second = 3 * font + 20 if balls else first
    words = [
        dimension(
            paper.at((left, low)),
            paper.at((right, low)),
            offset=-second - (low - reach[2]) * paper.scale,
            words=say(right - left),
            size=font,
        ),
        dimension(
            paper.at((left, high)),
            paper.at((left, low)),
            offset=-second - (left - reach[0]) * paper.scale - _aside(box, font),
            words=say(high - low),
            size=font,
        ),
    ]
    whole = ((right - left, 0), (high - low, 1))
    for i, face in enumerate(box.edges):
        if any(
            abs(face.along[axis]) > 1 - 1e-6 and abs(face.length - size) < 1e-6
            for size, axis in whole
        ):
            continue
        start, end = paper.at(face.at(0)), paper.at(face.at(face.length))
        clear = min(cavity_gap(box, face) * paper.scale, 40)
        out = clear + (second if i in balls else first)
        words.append(dimension(start, end, offset=-out, words=say(face.length), size=font))
    return words
