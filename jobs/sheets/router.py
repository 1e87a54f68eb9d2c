"""What a router of a given tool needs beside the lines: relieved corners, tabs that hold a part."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from shapely.geometry import Point as Spot
from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from jobs.design.wood.pieces import Circle, Figure, Line, Piece, Point
from jobs.models import Workshop

# A corner that turns less is a piece of an arc, which the tool follows [rad].
SHARP = math.radians(30)


@dataclass(frozen=True, kw_only=True)
class Router:
    """The tool, and what its files are to show; without a tool nothing is added."""

    tool: float | None = None
    relief: bool = False
    tab: float | None = None
    tabs: int = 0

    @classmethod
    def of(cls, shop: Workshop) -> Router:
        """As the workshop has set it."""
        return cls(
            tool=shop.router_tool,
            relief=shop.router_relief,
            tab=shop.router_tab,
            tabs=shop.router_tabs,
        )


def reliefs(figure: Figure, router: Router, *, cut_inside: bool, piece: Piece) -> Iterator[Circle]:
    """Where the tool drills a corner out: a hole of its size that just reaches the corner.

    Inside an opening or a pocket those are its corners, round an outline the ones that lead in.
    A corner on the rim of the piece is open and needs none.
    """
    if not router.relief or not router.tool or isinstance(figure, Circle):
        return
    radius = router.tool / 2
    ring = list(orient(Polygon(figure.points)).exterior.coords)[:-1]
    rim = piece.outline.polygon.exterior
    for before, corner, after in zip(
        [ring[-1], *ring[:-1]], ring, [*ring[1:], ring[0]], strict=True
    ):
        way_in, way_out = _unit(before, corner), _unit(corner, after)
        turn = math.atan2(
            way_in[0] * way_out[1] - way_in[1] * way_out[0],
            way_in[0] * way_out[0] + way_in[1] * way_out[1],
        )
        leads_in = turn > SHARP if cut_inside else turn < -SHARP
        if not leads_in or (cut_inside and rim.distance(Spot(corner)) < 1e-6):
            continue
        along = (way_out[0] - way_in[0], way_out[1] - way_in[1])
        size = math.hypot(*along)
        yield Circle(
            centre=(corner[0] + radius * along[0] / size, corner[1] + radius * along[1] / size),
            radius=radius,
        )


def tabs(piece: Piece, router: Router) -> list[Line]:
    """Where the outline is left standing: in the middle of its longest straight edges."""
    if not router.tab or not router.tabs:
        return []
    if isinstance(piece.outline, Circle):
        return _round_tabs(piece.outline, router.tab, router.tabs)
    points = piece.outline.points
    edges = sorted(
        zip(points, (*points[1:], points[0]), strict=True), key=lambda edge: -math.dist(*edge)
    )
    lines = []
    for start, end in edges[: router.tabs]:
        if math.dist(start, end) > 2 * router.tab:
            way = _unit(start, end)
            middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
            half = (way[0] * router.tab / 2, way[1] * router.tab / 2)
            lines.append(
                Line(
                    start=(middle[0] - half[0], middle[1] - half[1]),
                    end=(middle[0] + half[0], middle[1] + half[1]),
                )
            )
    return lines


def _round_tabs(rim: Circle, width: float, count: int) -> list[Line]:
    half = math.asin(min(width / 2 / rim.radius, 1.0))

    def at(angle: float) -> Point:
        return (
            rim.centre[0] + rim.radius * math.cos(angle),
            rim.centre[1] + rim.radius * math.sin(angle),
        )

    middles = [2 * math.pi * number / count for number in range(count)]
    return [Line(start=at(middle - half), end=at(middle + half)) for middle in middles]


def _unit(start: tuple[float, ...], end: tuple[float, ...]) -> Point:
    length = math.dist(start, end)
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length
