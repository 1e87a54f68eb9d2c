"""The strokes of a box drawing: cut wood, drivers, tubes, in section and square on."""

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

from django.utils.safestring import SafeString

from jobs.design.carcass.carcass import PortBody, RoundPart, SeenBrace
from jobs.drawings.pencil.pencil import HAIR, centre_line, hatch
from jobs.drawings.pencil.svg import Point, el, group, outline
from jobs.drawings.wood.box import Box, Edge, Thing

OUTLINE = 1.7
INNER = 1.0
# How far the rim of a driver stands out of its face [m]: drawn so, no figure is counted from it.
PROUD = 0.005


class Paper(NamedTuple):
    """Where metres come to lie on the page: scale, and the page point of the origin."""

    scale: float
    x: float
    y: float

    def at(self, point: Point) -> Point:
        """The page point of a point in metres, y turned downwards."""
        return (self.x + point[0] * self.scale, self.y - point[1] * self.scale)

    def all(self, points: Sequence[Point]) -> list[Point]:
        """The page points of many."""
        return [self.at(p) for p in points]


def cavity_lines(box: Box, paper: Paper) -> SafeString:
    """The space in the car and what is in it, in the line of what is not part of the box."""
    outlines = [corners for corners in (box.cavity, *box.obstacles) if corners]
    if not outlines:
        return SafeString("")
    return el(
        "path",
        d=" ".join(outline(paper.all(corners)) for corners in outlines),
        stroke_width=INNER,
        stroke_dasharray="10 3 2 3 2 3",
    )


def cavity_gap(box: Box, face: Edge) -> float:
    """How far the space in the car reaches out beyond a face, straight out from its middle."""
    (mx, my), (ux, uy) = face.at(face.length / 2), face.out
    gaps = [0.0]
    for a, b in zip(box.cavity, [*box.cavity[1:], *box.cavity[:1]], strict=True):
        ex, ey = b[0] - a[0], b[1] - a[1]
        cross = ux * ey - uy * ex
        if abs(cross) < 1e-12:
            continue
        out = ((a[0] - mx) * ey - (a[1] - my) * ex) / cross
        share = ((a[0] - mx) * uy - (a[1] - my) * ux) / cross
        if out > 0 and 0 <= share <= 1:
            gaps.append(out)
    return max(gaps)


def half_opening(part: RoundPart | PortBody) -> float:
    """Half the hole a part needs along its edge."""
    return part.cutout_diameter / 2 if isinstance(part, RoundPart) else part.outer_half[1]


def _bore(port: PortBody) -> float:
    """Half the inside of a port along its edge."""
    return (port.width if port.height is None else port.height) / 2


def _run(port: PortBody, rising: int) -> tuple[float, float]:
    """How deep a port goes in, and the piece after a bend, along the edge or against it."""
    first, *after = port.legs
    turn = sum(
        leg.length * rising * (1 if leg.heading == "+v" else -1)
        for leg in after
        if leg.heading in ("+v", "-v")
    )
    return first.length + (_bore(port) if after else 0.0), turn


def cut_wood(box: Box, paper: Paper) -> SafeString:
    """The cut panels hatched, open where something passes through."""
    holes = []
    inside = box.body.air_profile.points
    strokes = ""
    for i, face in enumerate(box.edges):
        gaps = sorted(
            (thing.along - half_opening(thing.part), thing.along + half_opening(thing.part))
            for thing in box.contents
            if thing.edge == i
        )
        ux, uy = face.along
        ends = [inside[i], inside[(i + 1) % len(inside)]]
        marks = [(x - face.start[0]) * ux + (y - face.start[1]) * uy for x, y in ends]
        for depth, start, end in ((0.0, 0.0, face.length), (face.thickness, *marks)):
            for a, b in _between(start, end, gaps):
                pair = paper.all([face.at(a, depth), face.at(b, depth)])
                strokes += outline(pair, closed=False)
        for a, b in gaps:
            deep = face.thickness
            corners = [face.at(a), face.at(a, deep), face.at(b, deep), face.at(b)]
            holes.append(paper.all(corners))
            strokes += outline(paper.all(corners[:2]), closed=False)
            strokes += outline(paper.all(corners[2:]), closed=False)
    cut = hatch(
        paper.all(box.body.profile.points), holes=[paper.all(inside), *holes], gap=4.6, angle=-45
    )
    return group(
        el("path", d=cut, stroke_width=HAIR),
        el("path", d=strokes, stroke_width=OUTLINE, stroke_linecap="round"),
    )


def inner_wood(brace: SeenBrace, paper: Paper) -> SafeString:
    """A brace seen end on, hatched as cut wood is; the window of a plate as an edge behind."""
    corners = paper.all(brace.outline)
    if not brace.cut:
        return el("path", d=outline(corners), stroke_width=INNER, stroke_dasharray="5 2")
    return group(
        el("path", d=hatch(corners, gap=4.6, angle=45), stroke_width=HAIR),
        el("path", d=outline(corners), stroke_width=OUTLINE),
    )


def _between(start: float, end: float, gaps: Sequence[Point]) -> list[Point]:
    """What is left of a stretch when the gaps are taken out."""
    left = []
    for a, b in gaps:
        if a > start:
            left.append((start, min(a, end)))
        start = max(start, b)
    return [*left, (start, end)] if start < end else left


def extent(thing: Thing, face: Edge) -> list[Point]:
    """The outermost points of a thing in the side view."""
    part = thing.part
    if isinstance(part, RoundPart):
        half, out, deep = part.flange_diameter / 2, -PROUD, part.mounting_depth
    else:
        half, out, deep = half_opening(part), 0.0, _run(part, thing.rising)[0]
    return [face.at(thing.along + side * half, d) for side in (-1, 1) for d in (out, deep)]


def in_section(thing: Thing, face: Edge, paper: Paper, accent: str) -> SafeString:
    """A thing cut along its axis, seen from the side."""
    part = thing.part
    if isinstance(part, PortBody):
        return _port_in_section(part, thing, face, paper)

    def p(off: float, deep: float) -> Point:
        return paper.at(face.at(thing.along + off, deep))

    rim, cut, depth = part.flange_diameter / 2, part.cutout_diameter / 2, part.mounting_depth
    magnet = part.motor_diameter / 2 if part.motor_depth else 0.0
    back = depth - part.motor_depth
    neck = magnet * 0.75 if magnet else cut * 0.35
    coil = min(cut * 0.28, neck)
    rims = [
        [
            p(s * rim, -PROUD),
            p(s * cut * 0.93, -PROUD),
            p(s * cut * 0.93, 0),
            p(s * rim, 0),
        ]
        for s in (-1, 1)
    ]
    basket = [p(cut, 0), p(cut * 0.97, back * 0.25), p(neck, back), p(-neck, back)]
    basket += [p(-cut * 0.97, back * 0.25), p(-cut, 0)]
    cone = [p(cut * 0.84, 0), p(coil, back * 0.72), p(-coil, back * 0.72), p(-cut * 0.84, 0)]
    parts = [
        el("path", d="".join(outline(r) for r in rims), stroke_width=INNER, fill="currentColor"),
        el("path", d=outline(basket, closed=False), stroke_width=OUTLINE),
        el("path", d=outline(cone, closed=False), stroke_width=INNER),
        _roll(p, cut),
        centre_line(p(0, -PROUD - 8 / paper.scale), p(0, depth + 8 / paper.scale)),
    ]
    if magnet:
        block = [p(magnet, back), p(magnet, depth), p(-magnet, depth), p(-magnet, back)]
        parts.append(el("path", d=outline(block), stroke_width=OUTLINE))
    return group(*parts, stroke=accent)


def _roll(p: Callable[[float, float], Point], cut: float) -> SafeString:
    """The surround: a small bulge from the rim to the cone on either side."""
    d = ""
    for side in (-1, 1):
        a, m, b = (
            p(side * cut * 0.93, 0),
            p(side * cut * 0.885, -cut * 0.09),
            p(side * cut * 0.84, 0),
        )
        d += f"M{a[0]:.1f} {a[1]:.1f}Q{m[0]:.1f} {m[1]:.1f} {b[0]:.1f} {b[1]:.1f}"
    return el("path", d=d, stroke_width=INNER)


def _port_in_section(port: PortBody, thing: Thing, face: Edge, paper: Paper) -> SafeString:
    half, (length, turn) = _bore(port), _run(port, thing.rising)
    pipe = _pipe(thing.along, half, port.wall, (length, turn), face)
    own = port.boarded is None  # boards of the box are drawn as such
    walls = "".join(outline(paper.all(corners)) for corners in pipe) if own else ""
    axis = [face.at(thing.along, -8 / paper.scale), face.at(thing.along, length)]
    if turn:
        axis[1:] = [face.at(thing.along, length - half)] * 2
        axis[2] = face.at(thing.along + turn, length - half)
    return group(
        el("path", d=walls, stroke_width=INNER, fill="currentColor", fill_opacity=0.35),
        *[centre_line(*paper.all(axis[i : i + 2])) for i in range(len(axis) - 1)],
    )


def _pipe(
    along: float, half: float, wall: float, run: tuple[float, float], face: Edge
) -> list[list[Point]]:
    """The cut walls of a port on both sides, round its bend when it has one."""
    walls, (length, turn) = [], run
    for side in (-1, 1):
        a, b = along + side * half, along + side * (half + wall)
        if not turn:
            walls.append([face.at(a), face.at(a, length), face.at(b, length), face.at(b)])
            continue
        # The wall on the side it turns to ends at the near wall of the second piece.
        inner = side * turn > 0
        deep = length - 2 * half if inner else length
        out = deep - wall if inner else deep + wall
        end = along + turn
        walls.append(
            [
                face.at(a),
                face.at(a, deep),
                face.at(end, deep),
                face.at(end, out),
                face.at(b, out),
                face.at(b),
            ]
        )
    return walls


def square_on(part: RoundPart | PortBody, centre: Point, scale: float, accent: str) -> SafeString:
    """A part seen square on, with its centre lines."""
    x, y = centre
    if isinstance(part, RoundPart):
        half = high = part.flange_diameter * scale / 2
        shape = group(
            el("circle", cx=x, cy=y, r=half, stroke_width=INNER),
            el("circle", cx=x, cy=y, r=part.cutout_diameter * scale / 2, stroke_width=OUTLINE),
            *_bolts(part, centre, scale),
            stroke=accent,
        )
    elif part.height is None:
        half = high = part.width * scale / 2
        wall = half + part.wall * scale
        shape = group(
            el("circle", cx=x, cy=y, r=half, stroke_width=OUTLINE),
            el("circle", cx=x, cy=y, r=wall, stroke_width=HAIR, stroke_dasharray="4 3"),
        )
    else:
        half, high = part.width * scale / 2, part.height * scale / 2
        shape = el(
            "rect", x=x - half, y=y - high, width=2 * half, height=2 * high, stroke_width=INNER
        )
    return group(
        shape,
        centre_line((x - half - 7, y), (x + half + 7, y)),
        centre_line((x, y - high - 7), (x, y + high + 7)),
    )


def _bolts(part: RoundPart, centre: Point, scale: float) -> list[SafeString]:
    radius = (part.bolt_circle_diameter or 0.0) * scale / 2
    return [
        el(
            "circle",
            cx=centre[0] + radius * math.sin(math.tau * (k + 0.5) / part.screws),
            cy=centre[1] + radius * math.cos(math.tau * (k + 0.5) / part.screws),
            r=2,
            stroke_width=INNER,
        )
        for k in range(part.screws)
    ]
