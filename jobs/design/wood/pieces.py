"""Pieces of wood laid flat: what is cut, what is bevelled, what is marked, seen from outside."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TypeVar

from shapely.geometry import MultiPoint, Polygon
from shapely.geometry import Point as Spot
from shapely.geometry.polygon import orient
from shapely.ops import unary_union

from acoustics.carcass.panels.cut_list import CutPart
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.contents import RoundPart
from acoustics.carcass.shape.outline import Circle, Figure, Loop
from acoustics.carcass.shape.panel import EdgeCut, Panel
from acoustics.carcass.shape.profile import Point
from acoustics.carcass.sheets.blanks import Blank
from jobs.design.carcass.rounding import ROUND_FLANGE
from jobs.design.wood.on_piece import Kerf, Line, Opening, Pocket, ScrewCircle, SetOut
from jobs.design.wood.seats import Seat, seats_of
from jobs.design.wording import terms

L = TypeVar("L", bound=Line)
# Two middles closer than this are one [m].
SAME = 1e-6
NOT_ROUNDED: Mapping[str, float] = MappingProxyType({})
# A hole that ends on the edge of its panel may miss it by less than this [m].
TOUCH = 1e-9
# Names that drawings and files of a piece use too.
__all__ = [
    "Circle",
    "Figure",
    "Kerf",
    "Line",
    "Loop",
    "Opening",
    "Piece",
    "Pocket",
    "Point",
    "ScrewCircle",
    "Seat",
    "SetOut",
    "from_lowest",
    "pieces_of",
]


@dataclass(frozen=True, kw_only=True)
class Piece:
    """One piece as it lies on the sheet, outer face up, its lower left corner at (0, 0); metres."""

    label: str
    name: str
    quantity: int
    thickness: float
    outline: Figure
    holes: tuple[Figure, ...] = ()
    marks: tuple[ScrewCircle, ...] = ()
    bevels: tuple[Line, ...] = ()
    pockets: tuple[Pocket, ...] = ()
    # Holes for screws, drilled from the outer face.
    pilots: tuple[Circle, ...] = ()
    # Of a board that is bent: its saw cuts, in the inner face.
    kerfs: tuple[Kerf, ...] = ()
    # Of its outer edges, all round; of a box, of the faces that are named. What of it stays flat:
    # nothing is taken off a part that ends before the round-over begins.
    round_over: float = 0.0
    rounded: tuple[str, ...] = ()
    flat: Loop | None = None
    # Of an outline with curves: what is set out of it, in its order.
    set_out: tuple[SetOut, ...] = ()
    seats: tuple[Seat, ...] = ()
    # Of a box: the panels it stands for.
    panels: tuple[str, ...] = ()
    grain: str = ""  # along "x", along "y", or "" when it does not matter

    @property
    def title(self) -> str:
        """What people call it: its panels in their language, or the name somebody gave it."""
        return terms(self.panels) if self.panels else self.name

    @property
    def size(self) -> tuple[float, float]:
        """Across and up."""
        left, low, right, high = self.outline.polygon.bounds
        return float(right - left), float(high - low)

    @property
    def rectangular(self) -> bool:
        """Whether its outline is a plain rectangle."""
        width, height = self.size
        return isinstance(self.outline, Loop) and abs(self.outline.area - width * height) < 1e-7

    @property
    def turned_to_mill(self) -> bool:
        """Whether its inner face has to lie up: something is cut into it."""
        return bool(self.kerfs) or any(pocket.face == "inside" for pocket in self.pockets)

    @property
    def milled(self) -> list[tuple[str, Pocket]]:
        """Its rebates and grooves, each under a letter; the recess of a flange has its own words.

        They are counted from below and from the left, as they lie.
        """
        strips = [pocket for pocket in self.pockets if isinstance(pocket.figure, Loop)]
        strips.sort(key=lambda pocket: tuple(round(at, 4) for at in pocket.box[0][::-1]))
        return list(zip("abcdefghijklmnopqrstuvwxyz", strips, strict=False))

    @property
    def openings(self) -> list[Opening]:
        """What is cut or drilled round one middle each, equal ones together."""
        rims = [*self.marks, *self.holes]
        middles: list[Point] = []
        openings: dict[tuple[object, ...], Opening] = {}
        for rim in rims:
            left, low, right, high = rim.polygon.bounds
            middle = ((left + right) / 2, (low + high) / 2)
            if any(math.dist(middle, other) < SAME for other in middles) or self._on_circle(middle):
                continue
            middles.append(middle)
            size = (round(right - left, 6), round(high - low, 6))
            inside = sorted(round(hole.area, 8) for hole in self._within(middle, size))
            kept = openings.get((size, *inside))
            openings[size, *inside] = Opening(
                size=size, middles=(*(kept.middles if kept else ()), middle)
            )
        return list(openings.values())

    def _on_circle(self, middle: Point) -> bool:
        """Whether a hole is one of the screws on a screw circle."""
        return any(abs(math.dist(middle, m.centre) - m.radius) < SAME for m in self.marks)

    def _within(self, middle: Point, size: tuple[float, float]) -> list[Figure]:
        reach = max(size) / 2 + SAME
        return [h for h in self.holes if h.polygon.centroid.distance(Spot(middle)) <= reach]

    @property
    def needs_template(self) -> bool:
        """Whether a pencil, a rule and a square are not enough to mark it out."""
        return bool(self.holes or self.marks) or not self.rectangular

    @property
    def round_holes(self) -> list[float]:
        """Diameters of its round holes, each once."""
        return sorted(
            {round(2 * hole.radius, 6) for hole in self.holes if isinstance(hole, Circle)}
        )

    def blank(self, number: int) -> Blank:
        """The rectangle to cut it from; its length runs along the grain."""
        width, height = self.size
        along = (height, width) if self._stands(width, height) else (width, height)
        return Blank(
            number=number,
            name=f"{self.label} {self.name}",
            length=along[0],
            width=along[1],
            quantity=self.quantity,
            keep_grain=bool(self.grain),
        )

    def laid(self, x: float, y: float, *, turned: bool) -> Piece:
        """The piece where it was nested; `turned` is said of its blank."""
        width, height = self.size
        quarter = self._stands(width, height) != turned

        def move(at: Point) -> Point:
            return (x + height - at[1], y + at[0]) if quarter else (x + at[0], y + at[1])

        grain = {"x": "y", "y": "x"}.get(self.grain, "") if quarter else self.grain
        return replace(_moved(self, move), grain=grain)

    def turned_over(self) -> Piece:
        """The piece with its inner face up, mirrored in its own width."""
        width = self.size[0]
        return _moved(self, lambda at: (width - at[0], at[1]), mirrored=True)

    def _stands(self, width: float, height: float) -> bool:
        return self.grain == "y" or (not self.grain and height > width)


def _moved(piece: Piece, move: Callable[[Point], Point], *, mirrored: bool = False) -> Piece:
    def loop(shape: Loop) -> Loop:
        points = tuple(move(point) for point in shape.points)
        return replace(shape, points=points[::-1] if mirrored else points)

    def figure(shape: Figure) -> Figure:
        if isinstance(shape, Circle):
            return replace(shape, centre=move(shape.centre))
        return loop(shape)

    def lines(some: Sequence[L]) -> tuple[L, ...]:
        return tuple(replace(line, start=move(line.start), end=move(line.end)) for line in some)

    return replace(
        piece,
        outline=figure(piece.outline),
        holes=tuple(figure(hole) for hole in piece.holes),
        marks=tuple(replace(mark, centre=move(mark.centre)) for mark in piece.marks),
        bevels=lines(piece.bevels),
        kerfs=lines(piece.kerfs),
        flat=loop(piece.flat) if piece.flat else None,
        pockets=tuple(replace(p, figure=figure(p.figure)) for p in piece.pockets),
        pilots=tuple(replace(pilot, centre=move(pilot.centre)) for pilot in piece.pilots),
        set_out=tuple(replace(spot, at=move(spot.at)) for spot in piece.set_out),
        seats=tuple(replace(seat, outline=loop(seat.outline)) for seat in piece.seats),
    )


def pieces_of(
    parts: Sequence[CutPart],
    carcass: Body,
    letter: str,
    rounded: Mapping[str, float] = NOT_ROUNDED,
) -> tuple[Piece, ...]:
    """Lay every line of a cut list flat, numbered as there; `rounded` is the radius by panel."""
    seats = seats_of(parts, {brace.name for brace in carcass.braces}, letter)
    pieces = []
    for part in parts:
        names = tuple(name for name in part.names if name in rounded)
        radius = max((rounded[name] for name in names), default=0.0)
        piece = replace(_piece(part, carcass, letter, radius), rounded=names, round_over=radius)
        pieces.append(replace(piece, seats=seats[part.number]))
    return tuple(pieces)


def flat_of(wood: Polygon, outer: Polygon, radius: float) -> Loop | None:
    """Return what a round-over of an outline leaves flat of a board in it; None where it is all."""
    left = outer.buffer(-radius, join_style="mitre").intersection(wood)
    if not isinstance(left, Polygon) or left.is_empty or wood.area - left.area < SAME:
        return None
    corners = orient(left).exterior.coords[:-1]
    return Loop(points=tuple((float(u), float(v)) for u, v in corners))


def _piece(part: CutPart, carcass: Body, letter: str, radius: float) -> Piece:
    panel = part.panel
    outer = Polygon(carcass.outline(panel.name)) if radius else None
    u0, v0, _u1, _v1 = panel.bounds
    rim, holes = _notched(_silhouette(panel), panel.holes)
    piece = Piece(
        label=f"{letter}{part.number}",
        name=part.name,
        panels=part.names,
        quantity=part.quantity,
        thickness=panel.thickness,
        outline=Loop(points=rim),
        holes=holes,
        marks=tuple(_marks(panel, carcass)),
        bevels=tuple(_bevels(panel)),
        pockets=(*_pockets(panel), *_recesses(panel, carcass)),
        pilots=tuple(_pilots(panel, carcass)),
        flat=flat_of(Polygon(panel.outside), outer, radius) if outer else None,
        grain={"across": "x", "up": "y"}.get(panel.grain, ""),
    )
    return _moved(piece, lambda at: (at[0] - u0, at[1] - v0))


def _silhouette(panel: Panel) -> tuple[Point, ...]:
    """Everything of a panel seen square on: both faces, and the edges between them."""
    sides = [
        MultiPoint([out_a, out_b, inn_a, inn_b]).convex_hull
        for _cut, out_a, out_b, inn_a, inn_b in _edges(panel)
    ]
    # An edge cut square is seen as a line.
    slanting = [side for side in sides if isinstance(side, Polygon)]
    whole = unary_union([Polygon(panel.outside), Polygon(panel.inside), *slanting])
    rim = orient(whole.simplify(1e-7)).exterior.coords[:-1]
    return from_lowest(tuple((float(u), float(v)) for u, v in rim))


def _notched(
    rim: tuple[Point, ...], holes: Sequence[Figure]
) -> tuple[tuple[Point, ...], tuple[Figure, ...]]:
    """A slot that reaches the edge of its panel shapes the edge; every other hole stays one."""
    whole, kept = Polygon(rim), []
    for hole in holes:
        left = whole.difference(hole.polygon.buffer(TOUCH, join_style="mitre"))
        inside = whole.contains(hole.polygon.buffer(2 * SAME, join_style="mitre"))
        if isinstance(hole, Circle) or inside or not isinstance(left, Polygon):
            kept.append(hole)
        else:
            whole = left
    if len(kept) == len(holes):
        return rim, tuple(holes)
    corners = orient(whole.simplify(SAME / 10)).exterior.coords[:-1]
    return from_lowest(tuple((float(u), float(v)) for u, v in corners)), tuple(kept)


def from_lowest(corners: tuple[Point, ...]) -> tuple[Point, ...]:
    """Return the corners of an outline beginning with the lowest, the left of equals."""
    first = min(range(len(corners)), key=lambda i: (round(corners[i][1], 6), corners[i][0]))
    return (*corners[first:], *corners[:first])


def _parts_in(panel: Panel, carcass: Body) -> list[tuple[Point, RoundPart]]:
    """The round parts of a panel with their middles."""
    return [
        (carcass.centre(placed), placed.part)
        for placed in carcass.contents
        if placed.face == panel.name and isinstance(placed.part, RoundPart)
    ]


def _marks(panel: Panel, carcass: Body) -> list[ScrewCircle]:
    """Circles to drill the screws of a part on, where they are known."""
    return [
        ScrewCircle(
            centre=centre,
            radius=part.bolt_circle_diameter / 2,
            screws=part.screws,
            fastener=part.fastener,
        )
        for centre, part in _parts_in(panel, carcass)
        if part.bolt_circle_diameter
    ]


def _pilots(panel: Panel, carcass: Body) -> list[Circle]:
    """The holes of the screws, half a step off straight down, as the drawings show them."""
    return [
        Circle(
            centre=(
                u + part.bolt_circle_diameter / 2 * math.sin(math.tau * (k + 0.5) / part.screws),
                v - part.bolt_circle_diameter / 2 * math.cos(math.tau * (k + 0.5) / part.screws),
            ),
            radius=part.pilot / 2,
        )
        for (u, v), part in _parts_in(panel, carcass)
        if part.bolt_circle_diameter and part.pilot
        for k in range(part.screws)
    ]


def _recesses(panel: Panel, carcass: Body) -> list[Pocket]:
    """The recess a flange lies in, a little wider than it."""
    return [
        Pocket(
            figure=Circle(centre=centre, radius=part.flange_diameter / 2 + ROUND_FLANGE),
            depth=part.recess,
            face="outside",
        )
        for centre, part in _parts_in(panel, carcass)
        if part.recess
    ]


def _edges(panel: Panel) -> list[tuple[EdgeCut, Point, Point, Point, Point]]:
    """Each cut with both ends of its edge on the outer and on the inner face."""
    out, inn = panel.outside, panel.inside
    return [
        (cut, out[i], out[(i + 1) % len(out)], inn[i], inn[(i + 1) % len(inn)])
        for i, cut in enumerate(panel.cuts)
    ]


def _bevels(panel: Panel) -> list[Line]:
    """The edge of the shorter face: there the saw comes out."""
    return [
        Line(
            start=inn_a if cut.longer_face == "outside" else out_a,
            end=inn_b if cut.longer_face == "outside" else out_b,
            tilt=cut.bevel,
            longer_face=cut.longer_face,
        )
        for cut, out_a, out_b, inn_a, inn_b in _edges(panel)
        if cut.bevel
    ]


def _pockets(panel: Panel) -> list[Pocket]:
    """Each rebate as it is milled: from the edge of the face it is cut in, as wide as it is."""
    pockets = []
    for cut, out_a, out_b, inn_a, inn_b in _edges(panel):
        if cut.rebate is None:
            continue
        inside = cut.rebate.face == "inside"
        (ax, ay), (bx, by) = (inn_a, inn_b) if inside else (out_a, out_b)
        length = math.dist((ax, ay), (bx, by))
        dx, dy = -(by - ay) / length * cut.rebate.width, (bx - ax) / length * cut.rebate.width
        strip = Polygon([(ax, ay), (bx, by), (bx + dx, by + dy), (ax + dx, ay + dy)])
        milled = orient(strip.intersection(Polygon(panel.inside if inside else panel.outside)))
        corners = tuple((float(u), float(v)) for u, v in milled.exterior.coords[:-1])
        pockets.append(
            Pocket(
                figure=Loop(points=corners),
                depth=cut.rebate.depth,
                face=cut.rebate.face,
                width=cut.rebate.width,
            )
        )
    return pockets
