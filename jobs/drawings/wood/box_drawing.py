"""A box as a workshop drawing: cut through from the side, and any panel seen from outside."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from django.utils.safestring import SafeString

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
from jobs.drawings.wood.box import Box, Face, OnCheek, OnFace, Round, Tube
from jobs.drawings.wood.box_strokes import (
    OUTLINE,
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
    size: Literal["screen", "paper"] = "screen"
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
        return (520.0, 330.0) if self.size == "screen" else (640.0, 380.0)


def side_view(box: Box, view: View) -> SafeString:
    """The carcass cut through, to scale, with what is in it, its dimensions and a scale bar.

    Things on a face carry a numbered ball outside it; their names stand below the drawing.
    """
    font, (width, most) = view.font, view.room
    faces, inside = box.faces(), box.inside()
    reach = [*box.profile, *box.cavity]
    for thing in box.contents:
        reach += extent(thing, faces[thing.edge])
    left, right = min(x for x, _ in reach), max(x for x, _ in reach)
    low, high = min(y for _, y in reach), max(y for _, y in reach)
    side = (3 * font + 44 if box.contents else 2 * font + 30) + _aside(faces, font)
    scale = min((width - 2 * side) / (right - left), most / (high - low))
    drawn = (right - left) * scale
    paper = Paper(scale, (width - drawn) / 2 - left * scale, side + high * scale)
    foot = side + (high - low) * scale
    parts = [
        cavity_lines(box, paper),
        cut_wood(box, faces, inside, paper),
        *[inner_wood(brace, paper) for brace in box.braces],
        *[in_section(thing, faces[thing.edge], paper, view.accent) for thing in box.contents],
        # The near side panel is cut away: what sits in it is only hinted at.
        *[
            group(
                square_on(one.thing, paper.at(one.at), scale, view.accent),
                stroke_dasharray="5 3" if one.near else None,
            )
            for one in box.in_cheeks
        ],
    ]
    words = _section_dimensions(box, faces, paper, view, (left, right, low, high))
    beside = _ball_places(box, faces, 1.7 * font / scale)
    for k, thing in enumerate(box.contents):
        face = faces[thing.edge]
        out = max(thing.proud if isinstance(thing, Round) else 0.0, cavity_gap(box, face))
        centre = paper.at(face.at(beside[k], -out - (font * 0.75 + 11) / scale))
        words.append(ball(centre, k + 1, font))
    words += [
        ball(_beside(one, paper), len(box.contents) + k + 1, font)
        for k, one in enumerate(box.in_cheeks)
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
    named = [*box.contents, *(one.thing for one in box.in_cheeks)]
    for k, thing in enumerate(named):
        y = rule + 1.9 * font + 1.7 * font * (k + 0.6)
        words.append(ball((12 + font * 0.75, y), k + 1, font))
        name = svg.fit(_size_words(thing, view), width - 3 * font - 12, font)
        words.append(text(name, (18 + 1.5 * font, y), size=font))
    height = rule + 2.2 * font + 1.7 * font * len(named)
    return _sheet(parts, words, view, height)


def _ball_places(box: Box, faces: Sequence[Face], size: float) -> dict[int, float]:
    """Where along its face each number stands: a driver and a port side by side share a height."""
    places: dict[int, float] = {}
    for edge, face in enumerate(faces):
        here = [k for k, thing in enumerate(box.contents) if thing.edge == edge]
        wanted = [box.contents[k].along for k in here]
        spread = svg.spread(wanted, [size] * len(here), 0.0, face.length)
        places |= dict(zip(here, spread, strict=True))
    return places


def _beside(one: OnCheek, paper: Paper) -> Point:
    """Where the number of a thing in a side panel stands: off its middle, where its axes cross."""
    x, y = paper.at(one.at)
    off = half_opening(one.thing) * paper.scale * 0.5
    return (x + off, y - off)


def face_view(box: Box, edge: int, view: View) -> SafeString:
    """One panel seen square on from outside: outline, cut-outs, centres and their dimensions."""
    font, (width, most) = view.font, view.room
    face = box.faces()[edge]
    level = font + 12
    things = [thing for thing in box.contents if thing.edge == edge]
    # Up on the page is up in the car, or towards the rear on a lying panel.
    ux, uy = face.along
    up = 1 if uy > 1e-6 or (abs(uy) <= 1e-6 and ux > 0) else -1
    right = -up * (face.out[0] * uy - face.out[1] * ux)  # z share of "look x up"
    tall = face.length
    columns = 2 + len(things)
    scale = min((width - level * columns - 24) / box.width, most / tall)
    names = [(thing, svg.wrap(_size_words(thing, view), width - 24, font, 1)) for thing in things]
    top = 1.4 * font * len(names) + 10 + level * max(len(things), 1)
    x0 = level + 12 + (width - level * columns - 24 - box.width * scale) / 2
    paper = Paper(scale, x0 + box.width * scale / 2, top + tall * scale)

    def place(thing: OnFace) -> Point:
        height = thing.along if up > 0 else tall - thing.along
        return paper.at((right * thing.across, height))

    half = box.width / 2
    corners = paper.all([(-half, 0), (half, 0), (half, tall), (-half, tall)])
    edge_x = half - box.side_thickness
    hidden = paper.all([(-edge_x, 0), (-edge_x, tall), (edge_x, 0), (edge_x, tall)])
    parts = [
        el("path", d=outline(corners), stroke_width=OUTLINE),
        line(hidden[0], hidden[1], stroke_width=HAIR, stroke_dasharray="4 3"),
        line(hidden[2], hidden[3], stroke_width=HAIR, stroke_dasharray="4 3"),
        *[square_on(thing, place(thing), scale, view.accent) for thing in things],
    ]
    bottom = corners[0][1]
    say = view.length_text
    words = [
        dimension(corners[0], corners[1], offset=-level, words=say(box.width), size=font),
        dimension(corners[0], corners[3], offset=level, words=say(tall), size=font),
    ]
    frame = (corners[3][0], top, corners[1][0], bottom)
    words += centre_dimensions(
        [place(thing) for thing in things], frame, scale=scale, size=font, length_text=say
    )
    words += [
        text(lines[0], (12, 1.4 * font * (k + 0.5)), size=font)
        for k, (_, lines) in enumerate(names)
    ]
    bar = scale_bar(
        (corners[0][0], bottom + level + 14),
        scale=scale,
        room=max(box.width * scale * 0.6, 60),
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


def _size_words(thing: OnFace, view: View) -> str:
    """What a thing is called and the sizes to cut for it."""
    say = view.length_text
    if isinstance(thing, Round):
        sizes = f"Ø {say(thing.rim)}, Ø {say(thing.cutout)}"
    elif isinstance(thing, Tube):
        sizes = f"Ø {say(thing.diameter)}, Ø {say(thing.diameter + 2 * thing.wall)}"
    else:
        sizes = f"{say(thing.breadth)} × {say(thing.height)}"
    return f"{thing.name}: {sizes} {view.unit}"


def _aside(faces: Sequence[Face], font: float) -> float:
    """How much further out the whole height stands where the front leans: its length is there."""
    leans = any(face.out[0] < -0.5 and abs(face.out[1]) > 1e-6 for face in faces)
    return 2 * font + 8 if leans else 0.0


def _section_dimensions(
    box: Box,
    faces: Sequence[Face],
    paper: Paper,
    view: View,
    reach: tuple[float, float, float, float],
) -> list[SafeString]:
    """True lengths along the faces that are not the whole depth or height, then the whole."""
    font, say = view.font, view.length_text
    xs, ys = [x for x, _ in box.profile], [y for _, y in box.profile]
    left, right, low, high = min(xs), max(xs), min(ys), max(ys)
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
            offset=-second - (left - reach[0]) * paper.scale - _aside(faces, font),
            words=say(high - low),
            size=font,
        ),
    ]
    whole = ((right - left, 0), (high - low, 1))
    for i, face in enumerate(faces):
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
