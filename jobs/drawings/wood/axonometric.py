"""A box as it stands on the bench, seen from front, above and one side, all edges to one scale.

Parallel projection; what is behind is dotted. Edges are cut where a face in front covers them,
so also stepped and L-shaped profiles come out right.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.safestring import SafeString

from jobs.design.carcass.carcass import Drawn, Frame, PortBody, RoundPart
from jobs.drawings.pencil import svg
from jobs.drawings.pencil.pencil import HAIR, dimension
from jobs.drawings.pencil.svg import Point, el, group, outline
from jobs.drawings.wood.box_drawing import View
from jobs.drawings.wood.projection import (
    TO_EYE,
    Facet,
    Point3,
    dot,
    facing,
    flat,
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


def axonometric(body: Drawn, view: View, share: float = 1.0) -> SafeString:
    """Draw the closed box with what shows on its faces, and its width, depth and height.

    It takes this share of the room there is: see `to_one_scale`.
    """
    sides = []
    for name in body.faces:
        frame = body.face(name).frame
        shown = [
            _placed(frame, [(u + b, v + a) for a, b in ring])
            for placed in body.contents
            if placed.face == name
            for u, v in [body.centre(placed)]
            for ring in rings(placed.part)
        ]
        sides.append(Side(corners=_placed(frame, body.outline(name)), rings=shown))
    return in_the_round(sides, _spans(body), view, share)


def _placed(frame: Frame, points: Sequence[Point]) -> list[Point3]:
    return [(x, y, z) for x, y, z in frame.place(tuple(points)).tolist()]


def _spans(body: Drawn) -> list[Span]:
    """Depth and width at the bottom, the height, and both again at a top of another size."""
    _, y0, _, y1 = body.profile.polygon.bounds
    x0, x1, z0, z1 = body.extents[0]
    u0, u1, w0, w1 = body.extents[-1]
    front, left = min(x0, u0), min(z0, w0)
    spans = [
        Span(start=(x0, y0, z1), end=(x1, y0, z1), length=x1 - x0),
        Span(start=(x0, y0, z0), end=(x0, y0, z1), length=z1 - z0),
        Span(start=(front, y1, left), end=(front, y0, left), length=y1 - y0),
    ]
    if len(body.extents) > 1:
        spans += [
            Span(start=(u0, y1, w0), end=(u1, y1, w0), length=u1 - u0, above=True),
            Span(start=(u1, y1, w0), end=(u1, y1, w1), length=w1 - w0, above=True),
        ]
    return spans


def to_one_scale(bodies: Sequence[Drawn], view: View) -> list[float]:
    """Return what share of its room each takes when all are drawn as the largest has to be."""
    width, most = view.room
    width -= 2 * _margin(view)
    scales = []
    for body in bodies:
        corners = [
            corner
            for name in body.faces
            for corner in _placed(body.face(name).frame, body.outline(name))
        ]
        across, up = zip(*map(flat, corners), strict=True)
        scales.append(min(width / (max(across) - min(across)), most / (max(up) - min(up))))
    return [min(scales) / scale for scale in scales]


def in_the_round(
    sides: Sequence[Side], spans: Sequence[Span], view: View, share: float = 1.0
) -> SafeString:
    """Draw a closed solid of flat sides, what shows on them, and its lengths."""
    facets = [Facet(side.corners, side.normal) for side in sides if dot(side.normal, TO_EYE) > 1e-6]
    font, (width, most) = view.font, view.room
    head = 2 * font if any(span.above for span in spans) else 0.0
    page, foot = on_page(
        [corner for side in sides for corner in side.corners],
        width=width,
        most=((width - 2 * _margin(view)) * share, most * share),
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
            page(span.start),
            page(span.end),
            offset=(font + 8) * (1 if span.above else -1),
            words=view.length_text(span.length),
            size=font,
        )
        for span in spans
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


def _margin(view: View) -> float:
    """What stays free on either side for the lengths."""
    return 2.2 * view.font + 34


def _edges(sides: Sequence[Side]) -> list[tuple[Point3, Point3]]:
    """Every edge once: two sides share it."""
    edges: dict[tuple[Point3, Point3], tuple[Point3, Point3]] = {}
    for side in sides:
        for a, b in zip(side.corners, [*side.corners[1:], side.corners[0]], strict=True):
            first, second = sorted(tuple(round(v, 9) for v in p) for p in (a, b))
            edges.setdefault((first, second), (a, b))  # type: ignore[arg-type]
    return list(edges.values())


def rings(part: RoundPart | PortBody) -> list[list[Point]]:
    """The outlines of a part seen square on, upwards and across, from its middle."""
    if isinstance(part, PortBody) and part.height is not None:
        a, b = part.height / 2, part.width / 2
        return [[(-a, -b), (a, -b), (a, b), (-a, b), (-a, -b)]]
    if isinstance(part, RoundPart):
        radii = [part.flange_diameter / 2, part.cutout_diameter / 2, part.cutout_diameter * 0.16]
    else:
        radii = [part.width / 2]
    turns = [math.tau * k / 48 for k in range(49)]
    return [[(r * math.cos(t), r * math.sin(t)) for t in turns] for r in radii]
