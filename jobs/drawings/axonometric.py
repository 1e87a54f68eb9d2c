"""A box as it stands on the bench, seen from front, above and one side, all edges to one scale.

Parallel projection; what is behind is dotted. Edges are cut where a face in front covers them,
so also stepped and L-shaped profiles come out right.
"""

import math
from collections.abc import Callable, Sequence

from django.utils.safestring import SafeString

from jobs.drawings import svg
from jobs.drawings.box import Box, Face, OnFace, Round, Slot
from jobs.drawings.box_drawing import View
from jobs.drawings.pencil import HAIR, dimension
from jobs.drawings.svg import Point, el, group, outline

Point3 = tuple[float, float, float]

# Towards the eye: from the front (-x), above (+y) and the near side (+z).
_EYE: Point3 = (-0.56, 0.44, 0.702)
_SAMPLES = 24


def _dot(a: Point3, b: Point3) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _cross(a: Point3, b: Point3) -> Point3:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _unit(a: Point3) -> Point3:
    size = math.sqrt(_dot(a, a))
    return (a[0] / size, a[1] / size, a[2] / size)


_TO_EYE = _unit(_EYE)
_RIGHT = _unit(_cross((0.0, 1.0, 0.0), _TO_EYE))
_UP = _cross(_TO_EYE, _RIGHT)


def _flat(point: Point3) -> Point:
    """Where a point falls on the picture plane, in metres, y upwards."""
    return (_dot(point, _RIGHT), _dot(point, _UP))


class _Facet:
    """A flat side turned towards the eye, which may cover what lies behind it."""

    def __init__(self, corners: Sequence[Point3], normal: Point3) -> None:
        self.origin, self.normal = corners[0], normal
        self.towards = _dot(normal, _TO_EYE)
        self.corners = [_flat(c) for c in corners]

    def covers(self, point: Point3, spot: Point) -> bool:
        """Whether the way from a point to the eye goes through this side."""
        gap = (self.origin[0] - point[0], self.origin[1] - point[1], self.origin[2] - point[2])
        if _dot(gap, self.normal) / self.towards < 1e-5:
            return False
        inside = False
        x, y = spot
        before = self.corners[-1]
        for here in self.corners:
            if (before[1] > y) != (here[1] > y):
                share = (y - before[1]) / (here[1] - before[1])
                if x < before[0] + share * (here[0] - before[0]):
                    inside = not inside
            before = here
        return inside


def axonometric(box: Box, view: View) -> SafeString:
    """Draw the closed box with what shows on its faces, and its width, depth and height."""
    half = box.width / 2
    faces = box.faces()
    facets = _facets(box, faces)
    edges = _edges(box.profile, half)
    font, (width, most) = view.font, view.room
    flat = [_flat((x, y, z)) for x, y in box.profile for z in (-half, half)]
    left, right = min(x for x, _ in flat), max(x for x, _ in flat)
    low, high = min(y for _, y in flat), max(y for _, y in flat)
    margin = 2.2 * font + 34
    scale = min((width - 2 * margin) / (right - left), most / (high - low))
    x0 = (width - (right - left) * scale) / 2 - left * scale
    y0 = 14 + high * scale

    def page(point: Point3) -> Point:
        x, y = _flat(point)
        return (x0 + x * scale, y0 - y * scale)

    seen, behind = "", ""
    for start, end in edges:
        for a, b, shown in _pieces(start, end, facets):
            stroke = outline([page(a), page(b)], closed=False)
            seen, behind = (seen + stroke, behind) if shown else (seen, behind + stroke)
    things = [
        _on_face(thing, faces[thing.edge], facets, page)
        for thing in box.contents
        if _dot((*faces[thing.edge].out, 0.0), _TO_EYE) > 1e-6
    ]
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


def _facets(box: Box, faces: Sequence[Face]) -> list[_Facet]:
    half = box.width / 2
    cap: list[Point3] = [(x, y, half) for x, y in box.profile]
    facets = [_Facet(cap, (0.0, 0.0, 1.0))]
    for face in faces:
        normal: Point3 = (*face.out, 0.0)
        if _dot(normal, _TO_EYE) > 1e-6:
            (ax, ay), (bx, by) = face.at(0), face.at(face.length)
            corners = [(ax, ay, -half), (bx, by, -half), (bx, by, half), (ax, ay, half)]
            facets.append(_Facet(corners, normal))
    return facets


def _edges(profile: Sequence[Point], half: float) -> list[tuple[Point3, Point3]]:
    edges: list[tuple[Point3, Point3]] = []
    for i, (ax, ay) in enumerate(profile):
        bx, by = profile[(i + 1) % len(profile)]
        edges += [((ax, ay, z), (bx, by, z)) for z in (half, -half)]
        edges.append(((ax, ay, -half), (ax, ay, half)))
    return edges


def _hidden(point: Point3, facets: Sequence[_Facet]) -> bool:
    spot = _flat(point)
    return any(facet.covers(point, spot) for facet in facets)


def _pieces(
    start: Point3, end: Point3, facets: Sequence[_Facet]
) -> list[tuple[Point3, Point3, bool]]:
    """An edge in pieces, each wholly seen or wholly hidden, their ends found by halving."""

    def at(t: float) -> Point3:
        a, b = start, end
        return (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2]))

    # Samples avoid both ends: a corner belongs to several faces at once.
    ts = [(k + 0.5) / _SAMPLES for k in range(_SAMPLES)]
    states = [_hidden(at(t), facets) for t in ts]
    cuts = [0.0]
    shown = [not states[0]]
    for k in range(1, _SAMPLES):
        if states[k] == states[k - 1]:
            continue
        low, high = ts[k - 1], ts[k]
        for _ in range(10):
            middle = (low + high) / 2
            low, high = (
                (middle, high) if _hidden(at(middle), facets) == states[k - 1] else (low, middle)
            )
        cuts.append(high)
        shown.append(not states[k])
    ends = [*cuts[1:], 1.0]
    return [(at(a), at(b), s) for a, b, s in zip(cuts, ends, shown, strict=True)]


def _on_face(
    thing: OnFace, face: Face, facets: Sequence[_Facet], page: Callable[[Point3], Point]
) -> str:
    """The outline of a thing on a face that looks at the eye, where nothing stands before it."""

    def spot(along: float, across: float) -> Point3:
        x, y = face.at(thing.along + along)
        return (x, y, thing.across + across)

    rings: list[list[Point3]] = []
    if isinstance(thing, Slot):
        a, b = thing.height / 2, thing.breadth / 2
        rings.append([spot(-a, -b), spot(a, -b), spot(a, b), spot(-a, b), spot(-a, -b)])
    else:
        if isinstance(thing, Round):
            radii = [thing.rim / 2, thing.cutout / 2, thing.cutout * 0.16]
        else:
            radii = [thing.diameter / 2]
        turns = [math.tau * k / 48 for k in range(49)]
        rings += [[spot(r * math.cos(t), r * math.sin(t)) for t in turns] for r in radii]
    d = ""
    for ring in rings:
        pen = False
        for point in ring:
            if _hidden(point, facets):
                pen = False
                continue
            x, y = page(point)
            d += f"{'L' if pen else 'M'}{x:.1f} {y:.1f}"
            pen = True
    return d
