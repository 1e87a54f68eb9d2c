"""The fields of wood between walls and braces: which rings first, and the brace that cures it."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon

from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.braces import CrossBrace, Shelf
from acoustics.carcass.shape.faces import CHEEKS
from acoustics.carcass.shape.leaning import ENDS
from acoustics.carcass.shape.planes import flat
from acoustics.carcass.shape.plate import Board, bays_needed, first_mode
from acoustics.carcass.shape.taper import Taper
from acoustics.findings import Finding

# Two lines closer than this are one line [m].
SAME = 1e-6


@dataclass(frozen=True, kw_only=True)
class WoodField:
    """A rectangle of a panel between what holds it.

    Attributes:
        panel: name of the panel.
        span: free length across the width of the box; of a cheek, its front to rear; of a wall
            that leans, its level side [m].
        height: free length the other way [m].
        thickness: thickness of the wood with its layers [m].
    """

    panel: str
    span: float
    height: float
    thickness: float

    def mode(self, board: Board) -> float:
        """Return the first mode, edges held but free to turn.

        Args:
            board: what it is made of.

        Returns: frequency [Hz]

        Source: as `first_mode`.
        """
        return first_mode(self.span, self.height, thickness=self.thickness, board=board)


@dataclass(frozen=True, kw_only=True)
class BraceAdvice:
    """The braces that lift a panel's first mode out of the band.

    Attributes:
        panel: name of the panel.
        mode: its first mode as it is [Hz].
        way: how they stand: across a prism or level in a taper, as `CrossBrace` does; along a
            wall of a prism; or between walls, behind a cheek, a bottom or a top.
        braces: how many across or level in all, those already there counted; otherwise how many
            side by side along the longer side of its largest field [-].
        bay: the longest bay they may leave [m].

    Source: common practice, no source.
    """

    panel: str
    mode: float
    way: Literal["across", "level", "along", "between walls"]
    braces: int
    bay: float


def wood_fields(carcass: Body) -> tuple[WoodField, ...]:
    """Return the fields of every wall and cheek, braces taken into account.

    A plate across the box divides every wall; a shelf divides the cheeks, and a wall where it
    meets it. Windows in a brace do not matter: its rim holds. Struts are left out, which is the
    safe side.

    Args:
        carcass: the box.

    Returns: fields, walls first in the order of the profile

    Valid: a cheek, and every panel of a taper, by the smallest rectangle around each of its
        pieces, which is the safe side.

    Source: common practice, no source.
    """
    if isinstance(carcass, Taper):
        return tuple(_leaning_fields(carcass))
    air, (start, end) = carcass.air_profile, carcass.air_span
    plates = [b for b in carcass.braces if isinstance(b, CrossBrace)]
    shelves = [
        b.section(air.polygon) for b in carcass.braces if isinstance(b, Shelf) and b.span is None
    ]
    spans = _gaps(start, end, [(b.at, b.at + b.thickness) for b in plates])
    fields = []
    for edge, name in enumerate(air.names):
        wood = carcass.wall_thickness[edge] + _layers(carcass, name)
        origin, way = np.asarray(air.points[edge]), np.asarray(air.direction(edge))
        line = air.lines[name]
        taken = []
        for shelf in shelves:
            if shelf.distance(line) < SAME:
                along = [float((np.asarray(p) - origin) @ way) for p in _met(shelf, line)]
                taken.append((min(along), max(along)))
        fields += [
            WoodField(panel=name, span=span, height=height, thickness=wood)
            for span in spans
            for height in _gaps(0.0, air.length(edge), taken)
        ]
    pieces = air.polygon
    for shelf in shelves:
        pieces = pieces.difference(shelf.buffer(SAME, join_style="mitre"))
    for name, own in zip(CHEEKS, carcass.cheeks, strict=True):
        for piece in getattr(pieces, "geoms", [pieces]):
            short, long = sorted(_sides(piece))
            wood = own + _layers(carcass, name)
            fields.append(WoodField(panel=name, span=long, height=short, thickness=wood))
    return tuple(fields)


def _met(shelf: Polygon, line: LineString) -> list[tuple[float, float]]:
    """Where a shelf stands on a wall; where a corner of the box points into it, that corner."""
    ends = [(float(x), float(y)) for x, y in (*shelf.exterior.coords, *line.coords)]
    return [
        end for end in ends if max(o.distance(shapely.Point(end)) for o in (shelf, line)) < SAME
    ]


def _leaning_fields(box: Taper) -> Iterator[WoodField]:
    """What level plates leave of every wall, and the whole of bottom and top."""
    low, high = box.air_span
    stretches = [low, *itertools.chain(*sorted((b.at, b.at + b.thickness) for b in box.braces))]
    for name, lean in zip(box.plan.names, box.angles, strict=True):
        frame, depth = box.face(name).frame, box.lining[name]
        whole = Polygon(flat(frame, box.side(name, box.air)))
        left, _, right, _ = whole.bounds
        # A level on the inside of a wall, as a height on its face.
        marks = [(y + depth * math.sin(lean)) / math.cos(lean) for y in (*stretches, high)]
        for a, b in zip(marks[::2], marks[1::2], strict=True):
            if b - a > SAME:
                span, height = _sides(whole.intersection(shapely.box(left, a, right, b)))
                wood = box.wood[name] + _layers(box, name)
                yield WoodField(panel=name, span=span, height=height, thickness=wood)
    for name in ENDS:
        piece = Polygon(flat(box.face(name).frame, box.side(name, box.air)))
        short, long = sorted(_sides(piece))
        wood = box.wood[name] + _layers(box, name)
        yield WoodField(panel=name, span=long, height=short, thickness=wood)


def _sides(piece: Polygon) -> tuple[float, float]:
    """Sides of the smallest rectangle around a piece: the more level one, and the other.

    Round a triangle three are equally small; rounding must not choose: the squarest rings lowest.
    """
    ring = np.asarray(piece.convex_hull.exterior.coords)
    ways = np.diff(ring, axis=0)
    ways /= np.hypot(*ways.T)[:, None]
    along = np.ptp(ring @ ways.T, axis=0)
    beside = np.ptp(ring @ (ways[:, ::-1] * (-1.0, 1.0)).T, axis=0)
    area = along * beside
    best = int(np.where(area <= area.min() * (1 + SAME), along + beside, np.inf).argmin())
    first, second = float(along[best]), float(beside[best])
    level = abs(ways[best, 0]) >= abs(ways[best, 1])
    return (first, second) if level else (second, first)


def _layers(carcass: Body, face: str) -> float:
    return sum(carcass.layer_thickness(face, outside=o) for o in (False, True))


def _gaps(start: float, end: float, taken: list[tuple[float, float]]) -> list[float]:
    """What is left of a length between the pieces taken."""
    edges = [start, *itertools.chain.from_iterable(sorted(taken)), end]
    return [b - a for a, b in zip(edges[::2], edges[1::2], strict=True) if b - a > SAME]


def check_fields(
    carcass: Body, *, board: Board, band_top: float
) -> tuple[tuple[Finding, ...], tuple[BraceAdvice, ...]]:
    """Hold the largest field of every panel against the band; name the brace that cures it.

    Args:
        carcass: the box.
        board: what it is made of.
        band_top: highest frequency used [Hz].

    Returns: one finding per panel that rings in the band, and the brace for each [Hz, m]

    Source: common practice, no source.
    """
    worst: dict[str, WoodField] = {}
    for field in wood_fields(carcass):
        if field.panel not in worst or field.mode(board) < worst[field.panel].mode(board):
            worst[field.panel] = field
    findings, advice = [], []
    for name, field in worst.items():
        mode = field.mode(board)
        if mode > band_top:
            continue
        findings.append(
            Finding(
                code="panel-mode-in-band", detail=(name,), value=mode, limit=band_top, unit="Hz"
            )
        )
        advice.append(_advice(carcass, field, board, band_top))
    return tuple(findings), tuple(advice)


def _advice(carcass: Body, field: WoodField, board: Board, band_top: float) -> BraceAdvice:
    """The plates that cure a field; a wall that leans is divided by level ones."""
    short, long = sorted((field.span, field.height))
    run = 0.0  # what plates of the usual kind divide, braces or none
    way: Literal["across", "level", "along", "between walls"] = "between walls"
    if isinstance(carcass, Taper):
        if field.panel not in ENDS:
            way, long, short = "level", field.height, field.span
            low, high = carcass.air_span
            run = (high - low) / math.cos(carcass.angles[carcass.plan.index(field.panel)])
    elif field.panel not in CHEEKS:
        way = "along"
        if field.span >= field.height:
            way, (start, end) = "across", carcass.air_span
            run = end - start
    bays = bays_needed(long, short, thickness=field.thickness, board=board, band_top=band_top)
    bay = long / max(bays, 2)
    return BraceAdvice(
        panel=field.panel,
        mode=field.mode(board),
        way=way,
        braces=max(math.ceil((run or long) / bay - 1e-9) - 1, 1),
        bay=bay,
    )
