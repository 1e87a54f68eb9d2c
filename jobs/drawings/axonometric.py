"""A box as it stands on the bench, seen from front, above and one side, all edges to one scale.

Parallel projection; what is behind is dotted. Edges are cut where a face in front covers them,
so also stepped and L-shaped profiles come out right.
"""

import math
from collections.abc import Callable, Sequence

from django.utils.safestring import SafeString

from jobs.drawings import svg
from jobs.drawings.box import Box, Face, OnCheek, OnFace, Round, Slot
from jobs.drawings.box_drawing import View
from jobs.drawings.pencil import HAIR, dimension
from jobs.drawings.projection import TO_EYE, Facet, Point3, dot, flat, pieces, seen
from jobs.drawings.svg import Point, el, group, outline


def axonometric(box: Box, view: View) -> SafeString:
    """Draw the closed box with what shows on its faces, and its width, depth and height."""
    half = box.width / 2
    faces = box.faces()
    facets = _facets(box, faces)
    edges = _edges(box.profile, half)
    font, (width, most) = view.font, view.room
    spots = [flat((x, y, z)) for x, y in box.profile for z in (-half, half)]
    left, right = min(x for x, _ in spots), max(x for x, _ in spots)
    low, high = min(y for _, y in spots), max(y for _, y in spots)
    margin = 2.2 * font + 34
    scale = min((width - 2 * margin) / (right - left), most / (high - low))
    x0 = (width - (right - left) * scale) / 2 - left * scale
    y0 = 14 + high * scale

    def page(point: Point3) -> Point:
        x, y = flat(point)
        return (x0 + x * scale, y0 - y * scale)

    seen, behind = "", ""
    for start, end in edges:
        for a, b, shown in pieces(start, end, facets):
            stroke = outline([page(a), page(b)], closed=False)
            seen, behind = (seen + stroke, behind) if shown else (seen, behind + stroke)
    things = [
        _on_face(thing, faces[thing.edge], facets, page)
        for thing in box.contents
        if dot((*faces[thing.edge].out, 0.0), TO_EYE) > 1e-6
    ]
    things += [_on_cheek(one, half, facets, page) for one in box.in_cheeks if one.near]
    strokes = group(
        el("path", d=behind or None, stroke_width=HAIR, stroke_dasharray="1 3"),
        el("path", d=seen, stroke_width=1.7, stroke_linecap="round"),
        el("path", d="".join(things) or None, stroke_width=1.1, stroke=view.accent),
        stroke="currentColor",
        stroke_linejoin="round",
    )
    xs, ys = [x for x, _ in box.profile], [y for _, y in box.profile]
    x1, x2, y1, y2 = min(xs), max(xs), min(ys), max(ys)
    spans: list[tuple[Point3, Point3, float]] = [
        ((x1, y1, half), (x2, y1, half), x2 - x1),
        ((x1, y1, -half), (x1, y1, half), box.width),
        ((x1, y2, -half), (x1, y1, -half), y2 - y1),
    ]
    words = [
        dimension(page(a), page(b), offset=-(font + 8), words=view.length_text(length), size=font)
        for a, b, length in spans
    ]
    foot = y0 - low * scale
    return svg.document(
        strokes,
        *words,
        key=view.key,
        title=view.title,
        description=view.description,
        width=width,
        height=foot + 2 * font + 26,
    )


def _facets(box: Box, faces: Sequence[Face]) -> list[Facet]:
    half = box.width / 2
    cap: list[Point3] = [(x, y, half) for x, y in box.profile]
    facets = [Facet(cap, (0.0, 0.0, 1.0))]
    for face in faces:
        normal: Point3 = (*face.out, 0.0)
        if dot(normal, TO_EYE) > 1e-6:
            (ax, ay), (bx, by) = face.at(0), face.at(face.length)
            corners = [(ax, ay, -half), (bx, by, -half), (bx, by, half), (ax, ay, half)]
            facets.append(Facet(corners, normal))
    return facets


def _edges(profile: Sequence[Point], half: float) -> list[tuple[Point3, Point3]]:
    edges: list[tuple[Point3, Point3]] = []
    for i, (ax, ay) in enumerate(profile):
        bx, by = profile[(i + 1) % len(profile)]
        edges += [((ax, ay, z), (bx, by, z)) for z in (half, -half)]
        edges.append(((ax, ay, -half), (ax, ay, half)))
    return edges


def _on_face(
    thing: OnFace, face: Face, facets: Sequence[Facet], page: Callable[[Point3], Point]
) -> str:
    """The outline of a thing on a face that looks at the eye, where nothing stands before it."""

    def spot(along: float, across: float) -> Point3:
        x, y = face.at(thing.along + along)
        return (x, y, thing.across + across)

    return seen([[spot(x, y) for x, y in ring] for ring in _rings(thing)], facets, page)


def _on_cheek(
    one: OnCheek, half: float, facets: Sequence[Facet], page: Callable[[Point3], Point]
) -> str:
    """The outline of a thing in the near side panel."""
    x, y = one.at
    rings = [[(x + b, y + a, half) for a, b in ring] for ring in _rings(one.thing)]
    return seen(rings, facets, page)


def _rings(thing: OnFace) -> list[list[Point]]:
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
