"""A box as it stands on the bench, seen from front, above and one side, all edges to one scale.

Parallel projection; what is behind is dotted. Edges are cut where a face in front covers them,
so also stepped and L-shaped profiles come out right.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.safestring import SafeString

from jobs.drawings.pencil import svg
from jobs.drawings.pencil.pencil import HAIR, dimension
from jobs.drawings.pencil.svg import Point, el, group, outline
from jobs.drawings.wood.box import Box, Face, OnCheek, OnFace, Round, Slot
from jobs.drawings.wood.box_drawing import View
from jobs.drawings.wood.projection import (
    TO_EYE,
    Facet,
    Point3,
    dot,
    facing,
    on_page,
    pieces,
    seen,
)

Ring3 = Sequence[Point3]


@dataclass(frozen=True, kw_only=True)
class Side:
    """A flat side, its corners counter-clockwise seen from outside, and what shows on it."""

    corners: Ring3
    rings: Sequence[Ring3] = ()

    @property
    def normal(self) -> Point3:
        """The direction it looks in."""
        return facing(self.corners)


@dataclass(frozen=True, kw_only=True)
class Span:
    """A length written between two points; `above` puts it on the upper side of its line."""

    start: Point3
    end: Point3
    length: float
    above: bool = False


def axonometric(box: Box, view: View) -> SafeString:
    """Draw the closed box with what shows on its faces, and its width, depth and height."""
    half, faces = box.width / 2, box.faces()
    near: list[Point3] = [(x, y, half) for x, y in box.profile]
    far: list[Point3] = [(x, y, -half) for x, y in box.profile[::-1]]
    sides = [
        Side(corners=near, rings=[r for one in box.in_cheeks for r in _on_cheek(one, half)]),
        Side(corners=far),
    ]
    for number, face in enumerate(faces):
        (ax, ay), (bx, by) = face.at(0), face.at(face.length)
        corners: list[Point3] = [(ax, ay, -half), (bx, by, -half), (bx, by, half), (ax, ay, half)]
        if dot(facing(corners), (*face.out, 0.0)) < 0:
            corners.reverse()
        drawn = [r for one in box.contents if one.edge == number for r in _on_face(one, face)]
        sides.append(Side(corners=corners, rings=drawn))
    xs, ys = [x for x, _ in box.profile], [y for _, y in box.profile]
    x1, x2, y1, y2 = min(xs), max(xs), min(ys), max(ys)
    spans = [
        Span(start=(x1, y1, half), end=(x2, y1, half), length=x2 - x1),
        Span(start=(x1, y1, -half), end=(x1, y1, half), length=box.width),
        Span(start=(x1, y2, -half), end=(x1, y1, -half), length=y2 - y1),
    ]
    return in_the_round(sides, spans, view)


def in_the_round(sides: Sequence[Side], spans: Sequence[Span], view: View) -> SafeString:
    """Draw a closed solid of flat sides, what shows on them, and its lengths."""
    facets = [Facet(one.corners, one.normal) for one in sides if dot(one.normal, TO_EYE) > 1e-6]
    font, (width, most) = view.font, view.room
    margin = 2.2 * font + 34
    head = 2 * font if any(one.above for one in spans) else 0.0
    page, foot = on_page(
        [corner for side in sides for corner in side.corners],
        width=width,
        most=(width - 2 * margin, most),
        top=14 + head,
    )
    shown, behind = "", ""
    for start, end in _edges(sides):
        for a, b, is_seen in pieces(start, end, facets):
            stroke = outline([page(a), page(b)], closed=False)
            shown, behind = (shown + stroke, behind) if is_seen else (shown, behind + stroke)
    things = [seen(side.rings, facets, page) for side in sides if dot(side.normal, TO_EYE) > 1e-6]
    strokes = group(
        el("path", d=behind or None, stroke_width=HAIR, stroke_dasharray="1 3"),
        el("path", d=shown, stroke_width=1.7, stroke_linecap="round"),
        el("path", d="".join(things) or None, stroke_width=1.1, stroke=view.accent),
        stroke="currentColor",
        stroke_linejoin="round",
    )
    words = [
        dimension(
            page(one.start),
            page(one.end),
            offset=(font + 8) * (1 if one.above else -1),
            words=view.length_text(one.length),
            size=font,
        )
        for one in spans
    ]
    return svg.document(
        strokes,
        *words,
        key=view.key,
        title=view.title,
        description=view.description,
        width=width,
        height=foot + 2 * font + 26,
    )


def _edges(sides: Sequence[Side]) -> list[tuple[Point3, Point3]]:
    """Every edge once: two sides share it."""
    edges: dict[tuple[Point3, Point3], tuple[Point3, Point3]] = {}
    for side in sides:
        for a, b in zip(side.corners, [*side.corners[1:], side.corners[0]], strict=True):
            one, two = sorted(tuple(round(v, 9) for v in p) for p in (a, b))
            edges.setdefault((one, two), (a, b))  # type: ignore[arg-type]
    return list(edges.values())


def _on_face(thing: OnFace, face: Face) -> list[Ring3]:
    """The outlines of a thing on a face round the profile."""

    def spot(along: float, across: float) -> Point3:
        x, y = face.at(thing.along + along)
        return (x, y, thing.across + across)

    return [[spot(x, y) for x, y in ring] for ring in rings(thing)]


def _on_cheek(one: OnCheek, half: float) -> list[Ring3]:
    """The outlines of a thing in the near side panel."""
    x, y = one.at
    return [[(x + b, y + a, half) for a, b in ring] for ring in rings(one.thing) if one.near]


def rings(thing: OnFace) -> list[list[Point]]:
    """The outlines of a thing seen square on, along its edge and across, from its middle."""
    if isinstance(thing, Slot):
        a, b = thing.height / 2, thing.breadth / 2
        return [[(-a, -b), (a, -b), (a, b), (-a, b), (-a, -b)]]
    if isinstance(thing, Round):
        radii = [thing.rim / 2, thing.cutout / 2, thing.cutout * 0.16]
    else:
        radii = [thing.diameter / 2]
    turns = [math.tau * k / 48 for k in range(49)]
    return [[(r * math.cos(t), r * math.sin(t)) for t in turns] for r in radii]
