"""What a box whose walls all lean shows: its level plates in the section, and the whole of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from django.utils.safestring import SafeString

from jobs.design.carcass.carcass import Taper
from jobs.drawings.wood import box as drawn
from jobs.drawings.wood.axonometric import Ring3, Side, Span, in_the_round, rings
from jobs.drawings.wood.box_drawing import View
from jobs.drawings.wood.projection import Point3


def level_plates(box: Taper) -> Iterator[drawn.Brace]:
    """The plates cut through in the middle, open where they have a window."""
    for brace in box.braces:
        ends = [(y, box.air_plan(y).bounds) for y in brace.reach(*box.air_span)]
        (low, (_, front, _, rear)), (high, (_, far_front, _, far_rear)) = ends
        windows = sorted(window.polygon.bounds for window in brace.windows)
        cuts = [x for _, first, _, last in windows for x in (first, last)]
        starts = [(front, far_front), *((x, x) for x in cuts[1::2])]
        stops = [*((x, x) for x in cuts[::2]), (rear, far_rear)]
        for (a, b), (c, d) in zip(starts, stops, strict=True):
            corners = [(a, low), (c, low), (d, high), (b, high)]
            yield drawn.Brace(name=brace.name, outline=corners, wood=True)


def whole(
    box: Taper, thing_of: Callable[[str], list[tuple[drawn.OnFace, float, float]]], view: View
) -> SafeString:
    """Draw the closed box; `thing_of` gives what sits in a face, and where along u and v."""
    sides = []
    for name in box.outer:
        frame = box.face(name).frame
        shown: list[Ring3] = [
            _points(frame.place(tuple((u + b, v + a) for a, b in ring)).tolist())
            for thing, u, v in thing_of(name)
            for ring in rings(thing)
        ]
        sides.append(Side(corners=_points(box.side(name, box.outer).tolist()), rings=shown))
    return in_the_round(sides, _spans(box), view)


def _points(rows: list[list[float]]) -> list[Point3]:
    return [(x, y, z) for x, y, z in rows]


def _spans(box: Taper) -> list[Span]:
    """Depth and width of the bottom and of the top, and the height."""
    corner = {}
    for name, rows in (
        ("low", box.side("bottom", box.outer)),
        ("high", box.side("top", box.outer)),
    ):
        (x0, y, z0), (x1, _, z1) = rows.min(axis=0).tolist(), rows.max(axis=0).tolist()
        corner[name] = (x0, x1, y, z0, z1)
    x0, x1, y0, z0, z1 = corner["low"]
    u0, u1, y1, w0, w1 = corner["high"]
    front, left = min(x0, u0), min(z0, w0)
    return [
        Span(start=(x0, y0, z1), end=(x1, y0, z1), length=x1 - x0),
        Span(start=(x0, y0, z0), end=(x0, y0, z1), length=z1 - z0),
        Span(start=(front, y1, left), end=(front, y0, left), length=y1 - y0),
        Span(start=(u0, y1, w0), end=(u1, y1, w0), length=u1 - u0, above=True),
        Span(start=(u1, y1, w0), end=(u1, y1, w1), length=w1 - w0, above=True),
    ]
