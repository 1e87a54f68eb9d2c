"""What a hand marks on a piece: each hole and corner counted from the piece's own corner."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _
from shapely.geometry import box

from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.contents import PortBody
from acoustics.carcass.shape.outline import QUARTER
from jobs import units
from jobs.design.wood.pieces import (
    SAME,
    Circle,
    Figure,
    Kerf,
    Loop,
    Piece,
    Pocket,
    Point,
    ScrewCircle,
    from_lowest,
)
from jobs.design.wood.seats import Seat
from jobs.design.wording import terms
from jobs.design.wording.joining import fastener_words


@dataclass(frozen=True, kw_only=True)
class Mark:
    """A point on a piece, from the left and the lower end of the piece as it lies, outside up."""

    what: str
    at: Point
    # Of a round one, and of an opening across and up.
    diameter: float | None = None
    size: tuple[float, float] | None = None
    # Of an arc, and of the corners of an opening.
    radius: float | None = None


@dataclass(frozen=True, kw_only=True)
class Tube:
    """A port that is a part of its own: how long it is cut, and where it goes."""

    count: int
    inside: tuple[float, ...]
    outside: tuple[float, ...]
    # Length of the centre line of each straight piece, from the outer face of its panel.
    legs: tuple[float, ...]
    panel: str

    @property
    def length(self) -> float:
        """The centre line from mouth to mouth."""
        return sum(self.legs)


def marks_of(piece: Piece) -> list[Mark]:
    """Return everything a rule and a square need; nothing where the size of the piece says all."""
    corners = [] if piece.rectangular else _outline(piece)
    holes = [mark for hole in piece.holes for mark in _hole(hole)]
    circles = [
        Mark(what=_circle(mark), at=mark.centre, diameter=2 * mark.radius) for mark in piece.marks
    ]
    pilots = [
        Mark(what=_("screw hole"), at=pilot.centre, diameter=2 * pilot.radius)
        for pilot in piece.pilots
    ]
    recesses = [
        Mark(
            what=_("recess, %(face)s, %(depth)s deep") % _milled_into(pocket),
            at=pocket.figure.centre,
            diameter=2 * pocket.figure.radius,
        )
        for pocket in piece.pockets
        if isinstance(pocket.figure, Circle)
    ]
    if piece.round_over:
        recesses.insert(0, _flat(piece))
    strips = [mark for letter, pocket in piece.milled for mark in _strip(piece, letter, pocket)]
    stand = [mark for seat in piece.seats if seat.label for mark in _stands(seat)]
    return [
        *sorted(holes, key=lambda mark: mark.at),
        *recesses,
        *strips,
        *_kerfs(piece),
        *circles,
        *pilots,
        *stand,
        *corners,
    ]


def _flat(piece: Piece) -> Mark:
    """What a round-over leaves flat of a piece, which is cut to its full size before."""
    radius = {"radius": units.show(piece.round_over, "length")}
    what = _("flat inside the round-over of R %(radius)s, outside") % radius
    if piece.flat is None:
        what = _("round-over of R %(radius)s round this face, beyond this part") % radius
    if piece.rounded and piece.rounded != piece.panels:
        what = f"{what} ({terms(piece.rounded)})"
    left, low, right, high = (piece.flat or piece.outline).polygon.bounds
    # Of one that is no rectangle the drawing shows where the flat ends.
    upright = piece.flat is not None and _upright(piece.flat)
    size = (right - left, high - low) if upright else None
    return Mark(what=what, at=((left + right) / 2, (low + high) / 2), size=size)


def kerf_words(kerfs: Sequence[Kerf]) -> list[str]:
    """Say how many kerfs there are, where, how wide, how deep and how far apart; none without."""
    if not kerfs:
        return []
    (u, v), (s, t) = kerfs[0].start, kerfs[0].end
    across = kerfs[-1].start[0] - u, kerfs[-1].start[1] - v
    square = abs(across[0] * (t - v) - across[1] * (s - u)) / math.dist((u, v), (s, t))
    apart = square / max(len(kerfs) - 1, 1)
    return [
        _("%(n)d kerfs") % {"n": len(kerfs)},
        _("inside"),
        _("%(width)s wide") % {"width": units.show(kerfs[0].width, "length")},
        _("%(depth)s deep") % {"depth": units.show(kerfs[0].depth, "length")},
        _("every %(apart)s") % {"apart": units.show(apart, "length")},
    ]


def _kerfs(piece: Piece) -> Iterator[Mark]:
    """The first and the last saw cut, by the lower end of the middle of each."""
    if piece.kerfs:
        first, last = piece.kerfs[0], piece.kerfs[-1]
        yield Mark(
            what=_("first of %(kerfs)s") % {"kerfs": ", ".join(kerf_words(piece.kerfs))},
            at=first.start,
        )
        yield Mark(what=_("last of them"), at=last.start)


def _milled_into(pocket: Pocket) -> dict[str, str]:
    face = _("inside") if pocket.face == "inside" else _("outside")
    width = "" if pocket.width is None else units.show(pocket.width, "length")
    return {"face": face, "depth": units.show(pocket.depth, "length"), "width": width}


def _strip(piece: Piece, letter: str, pocket: Pocket) -> Iterator[Mark]:
    """A rebate runs along an edge, a groove beside none: middle and size, or its corners."""
    rim = piece.outline.polygon.exterior
    words = (
        _("%(letter)s: rebate, %(face)s, %(width)s wide, %(depth)s deep")
        if pocket.figure.polygon.exterior.intersection(rim.buffer(SAME)).length > SAME
        else _("%(letter)s: groove, %(face)s, %(width)s wide, %(depth)s deep")
    )
    what = words % ({"letter": letter} | _milled_into(pocket))
    middle, size = pocket.box
    upright = isinstance(pocket.figure, Loop) and _upright(pocket.figure)
    yield Mark(what=what, at=middle, size=size if upright else None)
    if not upright:
        yield from _corners(pocket.figure, _("its corner"))


def _circle(mark: ScrewCircle) -> str:
    """A screw circle, with how many screws lie on it and what they hold by, as far as known."""
    held = fastener_words(mark.fastener)
    if not held:
        return _("screw circle")
    number = mark.screws or _("number not known")
    return _("screw circle: %(number)s × %(fastener)s") % {"number": number, "fastener": held}


def _stands(seat: Seat) -> Iterator[Mark]:
    """The strip a board stands on: its middle and its size, or where it slants its corners."""
    face = _("outside") if seat.outer else _("inside")
    what = _("%(part)s stands here, %(face)s") % {"part": seat.label, "face": face}
    if seat.panels:
        what = f"{what} ({terms(seat.panels)})"
    left, low, right, high = seat.outline.polygon.bounds
    middle = (left + right) / 2, (low + high) / 2
    upright = _upright(seat.outline)
    yield Mark(what=what, at=middle, size=(right - left, high - low) if upright else None)
    if not upright:
        yield from _corners(seat.outline, _("its corner"))


def _outline(piece: Piece) -> list[Mark]:
    """What is set out of an outline: of one with curves its own points, else its corners."""
    if not piece.set_out:
        return _corners(piece.outline, _("corner"))
    words = {
        "corner": _("corner %(n)d"),
        "arc": _("top of the arc after corner %(n)d"),
        "round": _("corner %(n)d, rounded"),
        "station": _("batten after corner %(n)d"),
    }
    return [
        Mark(what=words[spot.kind] % {"n": spot.number}, at=spot.at, radius=spot.radius)
        for spot in piece.set_out
    ]


def _hole(figure: Figure) -> Iterator[Mark]:
    if isinstance(figure, Circle):
        yield Mark(what=_("hole"), at=figure.centre, diameter=2 * figure.radius)
        return
    left, low, right, high = figure.polygon.bounds
    middle = (left + right) / 2, (low + high) / 2
    radius = _rounding(figure)
    yield Mark(what=_("opening"), at=middle, size=(right - left, high - low), radius=radius)
    if radius is None and not _upright(figure):
        yield from _corners(figure, _("its corner"))


def _rounding(loop: Loop) -> float | None:
    """The radius of the corners of an upright opening whose four corners are rounded alike."""
    left, low, right, high = loop.polygon.bounds
    lacks = (right - left) * (high - low) - loop.area
    if lacks < 1e-7:
        return None
    radius = round(math.sqrt(lacks / (4 - math.pi)), 4)
    whole = box(left, low, right, high).buffer(-radius).buffer(radius, quad_segs=QUARTER)
    return radius if whole.symmetric_difference(loop.polygon).area < 1e-3 * lacks + 1e-6 else None


def _upright(loop: Loop) -> bool:
    """Whether it is a rectangle that stands square on the piece."""
    left, low, right, high = loop.polygon.bounds
    return abs(float(loop.area - (right - left) * (high - low))) < 1e-9


def _corners(figure: Figure, word: str) -> list[Mark]:
    """The corners of an outline, counter-clockwise from the lowest, the left of equals."""
    if isinstance(figure, Circle):
        return []
    return [
        Mark(what=f"{word} {number}", at=at)
        for number, at in enumerate(from_lowest(figure.points), start=1)
    ]


def tubes_of(body: Body, pieces: tuple[Piece, ...]) -> list[Tube]:
    """Return the ports of a box as parts to cut, equal ones on one line."""
    label = {name: piece.label for piece in pieces for name in piece.panels}
    tubes: dict[tuple[object, ...], Tube] = {}
    for placed in body.contents:
        port = placed.part
        if not isinstance(port, PortBody):
            continue
        halves = port.outer_half if port.height is not None else port.outer_half[:1]
        outside = tuple(2 * half for half in halves)
        wall = port.wall if port.boarded is None else 0.0
        tube = Tube(
            count=1,
            inside=tuple(size - 2 * wall for size in outside),
            # Of a slot made of panels the boards stand in the cut list.
            outside=outside if port.boarded is None else (),
            legs=tuple(leg.length for leg in port.legs),
            panel=label.get(placed.face, placed.face),
        )
        key = (tube.inside, tube.outside, port.legs, tube.panel)
        count = tubes[key].count + 1 if key in tubes else 1
        tubes[key] = Tube(**vars(tube) | {"count": count})
    return list(tubes.values())
