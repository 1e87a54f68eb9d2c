"""The pictures of wood: carcasses, pieces and sheets handed to the drawing modules."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Literal

from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from jobs import units
from jobs.design.box.box_in_car import cavity_points
from jobs.design.box.boxes import BoxResult
from jobs.design.carcass.carcass import (
    Drawn,
    Panel,
)
from jobs.design.carcass.rounding import rounded_panels
from jobs.design.options.side_by_side import Options
from jobs.design.wood.covers import RollOrder
from jobs.design.wood.cutting import BoxPieces, SheetPlan
from jobs.design.wood.marking import kerf_words
from jobs.design.wood.pieces import Circle, Figure, Piece, Pocket, pieces_of
from jobs.design.wording import term
from jobs.design.wording.joining import fastener_name
from jobs.drawings.wood.axonometric import axonometric, to_one_scale
from jobs.drawings.wood.box import Box
from jobs.drawings.wood.box_drawing import View, face_view, side_view
from jobs.drawings.wood.exploded import Board, exploded
from jobs.drawings.wood.nest_drawing import Sheet, nest_drawing
from jobs.drawings.wood.part_drawing import part_drawing
from jobs.drawings.wood.projection import Point3
from jobs.drawings.wood.wood import Hole, Milled, Part

Size = Literal["screen", "paper", "half"]
# What stands under it, and the drawing.
Picture = tuple[str, SafeString]
Views = list[Picture]
# How far panels are drawn apart, as a share of their distance from the middle.
APART = 0.7


def _length(value: float) -> str:
    return units.show(value, "length").rsplit("\N{NO-BREAK SPACE}", 1)[0]


def view(key: str, title: str, words: str, size: Size = "screen") -> View:
    """Say how a drawing is named, and that its lengths are the workshop's."""
    return View(
        key=key.replace("_", "-"),
        title=title,
        description=words,
        size=size,
        length_text=_length,
        unit=units.plain_unit("length"),
    )


def views(result: BoxResult, key: str) -> Views:
    """Draw a box cut through from the side, the face its driver sits in, and in the round."""
    if result.wood is None:
        return []
    return [section(result, key), face(result, key), whole(result, key)]


def section(result: BoxResult, key: str) -> Picture:
    """Draw a box of wood cut through from the side, where it stands in its cavity."""
    title = _("Side: %(name)s") % {"name": result.box.name}
    side = view(f"{key}-side", title, _("Section with the driver in it."))
    return _("Cut through from the side"), side_view(_shape(result), side)


def face(result: BoxResult, key: str) -> Picture:
    """Draw the face the driver of a box of wood sits in, square on."""
    assert result.wood is not None
    body, name = result.wood.carcass, result.wood.face
    title = _("Front: %(name)s") % {"name": result.box.name}
    front = view(f"{key}-front", title, _("Cut-outs and their places."))
    if name in body.between_cheeks:
        square = face_view(_shape(result), name, front)
    else:
        rounded = rounded_panels(result.box, result.wood)
        pieces = pieces_of(result.wood.parts, body, "", rounded)
        square = part_drawing(part(next(p for p in pieces if name in p.panels)), front)
    caption = (
        _("From the front, counted from the outside of the box")
        if name == "front"
        else _("Panel with the driver: %(face)s") % {"face": term(name)}
    )
    return caption, square


def whole(result: BoxResult, key: str, size: Size = "screen", share: float = 1.0) -> Picture:
    """Draw a box of wood closed, in the round."""
    assert result.wood is not None
    title = _("Whole: %(name)s") % {"name": result.box.name}
    closed = view(f"{key}-round", title, _("The closed box."), size)
    return _("In the round"), axonometric(result.wood.carcass, closed, share)


def of_options(options: Options) -> list[SafeString | None]:
    """Draw the bass box of each option in the round, all to one scale; None where none is drawn."""
    boxes = [side.bass if side.bass and side.bass.wood else None for side in options.sides]
    bodies = [box.wood.carcass for box in boxes if box and box.wood]
    shares = iter(to_one_scale(bodies, view("options", "", "", "half")) if bodies else ())
    return [
        whole(box, f"option-{letter}", "half", next(shares))[1] if box else None
        for letter, box in zip("abc", boxes, strict=False)
    ]


def _shape(result: BoxResult) -> Box:
    """The box as it is drawn, with the cavity round it."""
    assert result.wood is not None
    return Box(
        body=result.wood.carcass,
        cavity=_in_car(result, cavity_points(result.box.cavity_profile)),
        obstacles=[
            _in_car(result, obstacle["points"]) for obstacle in result.box.cavity_obstacles or ()
        ],
    )


def _in_car(result: BoxResult, corners: Sequence[Sequence[float]]) -> list[tuple[float, float]]:
    """Corners in the car as they lie around the box where it stands."""
    x, y, _z = result.place or (0.0, 0.0, 0.0)
    return [(px - x, py - y) for px, py in corners]


def part(piece: Piece) -> Part:
    """Translate a piece for the drawing: round holes stay round."""
    round_ones = [hole for hole in piece.holes if isinstance(hole, Circle)]
    return Part(
        number=piece.label,
        name=piece.title,
        outline=_ring(piece.outline),
        round=isinstance(piece.outline, Circle),
        holes=[
            Hole(centre=hole.centre, diameter=2 * hole.radius)
            for hole in (*round_ones, *piece.pilots)
        ],
        windows=[_ring(hole) for hole in piece.holes if not isinstance(hole, Circle)],
        marks=[
            *(
                Hole(
                    centre=mark.centre,
                    diameter=2 * mark.radius,
                    words=fastener_name(mark.fastener),
                )
                for mark in piece.marks
            ),
            *(
                Hole(centre=pocket.figure.centre, diameter=2 * pocket.figure.radius)
                for pocket in piece.pockets
                if isinstance(pocket.figure, Circle)
            ),
        ],
        milled=[
            Milled(
                outline=_ring(pocket.figure),
                words=_strip_words(letter, pocket),
                hidden=pocket.face == "inside",
            )
            for letter, pocket in piece.milled
        ]
        + _round_over(piece),
        kerfs=[(kerf.start, kerf.end) for kerf in piece.kerfs],
        kerf_words=kerf_words(piece.kerfs),
        spots=_spots(piece),
        seats=[
            (seat.label or str(number), _ring(seat.outline))
            for number, seat in enumerate(piece.seats, start=1)
        ],
        grain=piece.grain,  # type: ignore[arg-type]
    )


def _round_over(piece: Piece) -> list[Milled]:
    """Where the flat of a rounded face ends."""
    words = f"R {_length(piece.round_over)}"
    return [Milled(outline=_ring(piece.flat), words=words, hidden=False)] if piece.flat else []


def _strip_words(letter: str, pocket: Pocket) -> str:
    """The letter of a rebate or groove as in the list, its width and its depth."""
    width = _length(min(pocket.box[1]) if pocket.width is None else pocket.width)
    return _("%(letter)s: %(width)s wide, %(depth)s deep") % {
        "letter": letter,
        "width": width,
        "depth": _length(pocket.depth),
    }


def _spots(piece: Piece) -> list[tuple[int, str]]:
    """Which points of an outline with curves bear the number of a corner."""
    ring = {(round(u, 7), round(v, 7)): n for n, (u, v) in enumerate(_ring(piece.outline))}
    places = [
        (ring[round(spot.at[0], 7), round(spot.at[1], 7)], spot)
        for spot in piece.set_out
        if spot.kind in {"corner", "round"}
    ]
    numbers = [spot.number for _n, spot in places]
    return [
        # A rounded corner bears its number where the rounding begins.
        (n, str(spot.number) if spot.number not in numbers[:k] else "")
        for k, (n, spot) in enumerate(places)
    ]


def _ring(figure: Figure) -> list[tuple[float, float]]:
    if isinstance(figure, Circle):
        return Hole(centre=figure.centre, diameter=2 * figure.radius).ring(240)[:-1]
    return list(figure.points)


def nested(plan: SheetPlan, key: str, trim: float) -> list[SafeString]:
    """Draw every sheet of a plan with what is cut from it."""
    drawings = []
    for number, sheet in enumerate(plan.nest.sheets if plan.nest else (), start=1):
        title = f"{plan.material} {number}"
        drawings.append(
            nest_drawing(
                Sheet(
                    width=sheet.sheet.length,
                    height=sheet.sheet.width,
                    parts=[part(piece) for piece in plan.laid(sheet)],
                    offcuts=[(o.x, o.y, o.length, o.width) for o in sheet.offcuts],
                    trim=trim,
                    grain="x" if plan.material and plan.material.grained else "",
                ),
                view(f"{key}-{number}", title, _("Where each part lies on the sheet."), "paper"),
            )
        )
    return drawings


def on_roll(order: RollOrder, key: str) -> SafeString:
    """Draw what is cut off a roll of cover, its end at the foot; nothing where none is laid."""
    if order.roll is None or not order.roll.laid:
        return SafeString("")
    roll = order.roll
    titles = {cut.label: cut.title for cut in order.cuts}
    parts = [
        Part(
            number=laid.name,
            name=titles[laid.name],
            outline=[
                (laid.x, laid.y),
                (laid.x + laid.across, laid.y),
                (laid.x + laid.across, laid.y + laid.along),
                (laid.x, laid.y + laid.along),
            ],
        )
        for laid in roll.laid
    ]
    sheet = Sheet(
        width=roll.width,
        height=roll.order,
        parts=parts,
        grain="y" if order.cover.directed else "",
    )
    words = _("Where each piece of cover lies on the roll.")
    return nest_drawing(sheet, view(key, str(order.cover), words, "paper"))


def apart(box: BoxPieces, key: str) -> SafeString:
    """Draw the panels of a box pulled apart, numbered as in its cut list."""
    assert box.result.wood is not None
    carcass = box.result.wood.carcass
    boards = [
        _board(panel, piece.label, carcass)
        for piece, line in zip(box.pieces, box.result.wood.parts, strict=True)
        for panel in line.panels
    ]
    title = _("Drawn apart: %(name)s") % {"name": box.result.box.name}
    return exploded(boards, view(key, title, _("Each panel where it goes in."), "paper"))


def _board(panel: Panel, label: str, carcass: Drawn) -> Board:
    out, inn = panel.corners()
    rings = [tuple((float(u), float(v)) for u, v in _ring(hole)) for hole in panel.holes]
    return Board(
        label=label,
        outside=_points(out),
        inside=_points(inn),
        holes=[
            (_points(panel.frame.place(ring)), _points(panel.frame.place(ring, panel.thickness)))
            for ring in rings
        ],
        moved=_pulled(panel.name, carcass),
    )


def _points(rows: Iterable[Iterable[float]]) -> list[Point3]:
    return [(float(x), float(y), float(z)) for x, y, z in rows]


def _pulled(name: str, body: Drawn) -> Point3:
    """How far a panel is pulled out: walls from the middle of the box, layers less."""
    face, _space, layer = name.partition(" layer ")
    if face not in body.faces:
        return (0.0, 0.0, 0.0)
    # Stacked layers stand between their panel and the box, one behind the other.
    count = sum(layer.face == face for layer in body.layers) + 1
    share = APART * (1 - int(layer) / count if layer else 1.0)
    x, y, z = body.way_out(face)
    return (x * share, y * share, z * share)


def alone(piece: Piece, key: str, size: Size = "screen") -> SafeString:
    """Draw one piece with its size and its holes, counted from its own lower left corner."""
    return part_drawing(part(piece), view(key, piece.title, piece.label, size))
