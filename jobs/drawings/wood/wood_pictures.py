"""The pictures of wood: carcasses, pieces and sheets handed to the drawing modules."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Literal

from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from jobs import units
from jobs.design.box.boxes import BoxResult
from jobs.design.carcass.carcass import (
    CHEEKS,
    Body,
    Carcass,
    CrossBrace,
    Loop,
    Panel,
    PortBody,
    RoundPart,
    Taper,
)
from jobs.design.wood.cutting import BoxPieces, SheetPlan
from jobs.design.wood.pieces import Circle, Figure, Piece, pieces_of
from jobs.design.wording import term
from jobs.drawings.wood import box as drawn
from jobs.drawings.wood.axonometric import axonometric
from jobs.drawings.wood.box_drawing import View, face_view, side_view
from jobs.drawings.wood.exploded import Board, exploded
from jobs.drawings.wood.nest_drawing import Sheet, nest_drawing, part_drawing
from jobs.drawings.wood.projection import Point3
from jobs.drawings.wood.taper_pictures import level_plates, whole
from jobs.drawings.wood.wood import Hole, Part

Size = Literal["screen", "paper"]
Views = list[tuple[str, SafeString]]
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
    shape, face, name = _shape(result), result.wood.face, result.box.name
    front = view(
        f"{key}-front", _("Front: %(name)s") % {"name": name}, _("Cut-outs and their places.")
    )
    carcass = result.wood.carcass
    if isinstance(carcass, Carcass) and face in carcass.profile.names:
        square = face_view(shape, carcass.profile.names.index(face), front)
    else:
        pieces = pieces_of(result.wood.parts, carcass, "")
        piece = next(one for one in pieces if face in one.panels)
        square = part_drawing(part(piece), front)
    side = view(
        f"{key}-side",
        _("Side: %(name)s") % {"name": name},
        _("Section with the driver in it."),
    )
    closed = view(f"{key}-round", _("Whole: %(name)s") % {"name": name}, _("The closed box."))
    if isinstance(carcass, Taper):
        in_the_round = whole(carcass, lambda one: _in(carcass, one), closed)
    else:
        in_the_round = axonometric(shape, closed)
    return [
        (_("Cut through from the side"), side_view(shape, side)),
        (
            _("From the front")
            if face == "front"
            else _("Panel with the driver: %(face)s") % {"face": term(face)},
            square,
        ),
        (_("In the round"), in_the_round),
    ]


def _shape(result: BoxResult) -> drawn.Box:
    """Translate a carcass for the drawing: same corners, contents counted from the middle."""
    assert result.wood is not None
    carcass = result.wood.carcass
    profile = carcass.profile
    contents: list[drawn.OnFace] = []
    in_cheeks: list[drawn.OnCheek] = []
    for placed in carcass.contents:
        face = carcass.face(placed.face)
        x, y, z = (float(v) for v in face.frame.place((carcass.centre(placed),))[0])
        if placed.face in CHEEKS:
            thing = _on_face(placed.part, 0, 0.0, 0.0, +1)
            near = placed.face == "right"
            in_cheeks.append(drawn.OnCheek(thing=thing, at=(x, y), near=near))
            continue
        edge = profile.index(placed.face)
        (x0, y0), (ux, uy) = profile.points[edge], profile.direction(edge)
        along = (x - x0) * ux + (y - y0) * uy
        rising = 1 if face.frame.v[0] * ux + face.frame.v[1] * uy > 0 else -1
        contents.append(_on_face(placed.part, edge, along, z - carcass.width / 2, rising))
    return drawn.Box(
        profile=profile.points,
        thicknesses=[
            face.wood + face.inner for face in (carcass.face(name) for name in profile.names)
        ],
        width=carcass.width,
        side_thickness=carcass.face("left").wood,
        contents=contents,
        in_cheeks=in_cheeks,
        braces=list(_braces(carcass)),
        cavity=_in_car(result, result.box.cavity_profile or ()),
        obstacles=[_in_car(result, one["points"]) for one in result.box.cavity_obstacles or ()],
    )


def _braces(carcass: Body) -> Iterator[drawn.Brace]:
    """The windows of plates, and every other brace seen end on."""
    if isinstance(carcass, Taper):
        yield from level_plates(carcass)
        return
    air = carcass.air_profile.polygon
    for one in carcass.braces:
        if isinstance(one, CrossBrace):
            for window in one.windows:
                if isinstance(window, Loop):
                    yield drawn.Brace(name=one.name, outline=window.points)
        else:
            corners = list(one.section(air).exterior.coords)[:-1]
            yield drawn.Brace(name=one.name, outline=corners, wood=True)


def _in(carcass: Taper, face: str) -> list[tuple[drawn.OnFace, float, float]]:
    """What sits in a face, and where along u and v."""
    return [
        (_on_face(placed.part, 0, 0.0, 0.0, +1), *carcass.centre(placed))
        for placed in carcass.contents
        if placed.face == face
    ]


def _in_car(result: BoxResult, corners: Sequence[Sequence[float]]) -> list[tuple[float, float]]:
    """Corners in the car as they lie around the box where it stands."""
    x, y, _z = result.place or (0.0, 0.0, 0.0)
    return [(px - x, py - y) for px, py in corners]


def _on_face(
    part: RoundPart | PortBody, edge: int, along: float, across: float, rising: int
) -> drawn.OnFace:
    if isinstance(part, RoundPart):
        return drawn.Round(
            name=term(part.name),
            edge=edge,
            along=along,
            across=across,
            rim=part.flange_diameter,
            cutout=part.cutout_diameter,
            depth=part.mounting_depth,
            magnet=part.motor_diameter if part.motor_depth else 0.0,
            magnet_depth=part.motor_depth,
            bolts=part.screws,
            bolt_circle=part.bolt_circle_diameter or 0.0,
        )
    first, *after = part.legs
    half = (part.width if part.height is None else part.height) / 2
    turn = sum(
        leg.length * rising * (1 if leg.heading == "+v" else -1)
        for leg in after
        if leg.heading in ("+v", "-v")
    )
    length = first.length + (half if after else 0.0)
    if part.height is None:
        return drawn.Tube(
            name=_("port"),
            edge=edge,
            along=along,
            across=across,
            diameter=part.width,
            wall=part.wall,
            length=length,
            turn=turn,
        )
    return drawn.Slot(
        name=_("port"),
        edge=edge,
        along=along,
        across=across,
        height=part.height,
        breadth=part.width,
        wall=part.wall,
        length=length,
        turn=turn,
    )


def part(piece: Piece) -> Part:
    """Translate a piece for the drawing: round holes stay round."""
    round_ones = [hole for hole in piece.holes if isinstance(hole, Circle)]
    return Part(
        number=piece.label,
        name=piece.title,
        outline=_ring(piece.outline),
        holes=[Hole(centre=hole.centre, diameter=2 * hole.radius) for hole in round_ones],
        windows=[_ring(hole) for hole in piece.holes if not isinstance(hole, Circle)],
        marks=[Hole(centre=mark.centre, diameter=2 * mark.radius) for mark in piece.marks],
        grain=piece.grain,  # type: ignore[arg-type]
    )


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


def apart(made: BoxPieces, key: str) -> SafeString:
    """Draw the panels of a box pulled apart, numbered as in its cut list."""
    assert made.result.wood is not None
    carcass = made.result.wood.carcass
    boards = [
        _board(panel, piece.label, carcass)
        for piece, line in zip(made.pieces, made.result.wood.parts, strict=True)
        for panel in line.panels
    ]
    title = _("Drawn apart: %(name)s") % {"name": made.result.box.name}
    return exploded(boards, view(key, title, _("Each panel where it goes in."), "paper"))


def _board(panel: Panel, label: str, carcass: Body) -> Board:
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


def _pulled(name: str, carcass: Body) -> Point3:
    """How far a panel is pulled out: walls from the middle of the profile, layers half as far."""
    face, _space, layer = name.partition(" layer ")
    profile = carcass.profile
    if isinstance(carcass, Taper):
        if face not in carcass.outer:
            return (0.0, 0.0, 0.0)
        side = carcass.side(face, carcass.outer).mean(axis=0)
        x, y, z = (APART * (side - carcass.corners.mean(axis=0))).tolist()
        move: Point3 = (x, y, z)
    elif face in CHEEKS:
        away = APART * carcass.width / 2 * (1 if face == "right" else -1)
        move = (0.0, 0.0, away)
    elif face in profile.names:
        edge = profile.index(face)
        (ax, ay), (bx, by) = profile.points[edge], profile.points[(edge + 1) % len(profile)]
        middle = profile.polygon.centroid
        move = (APART * ((ax + bx) / 2 - middle.x), APART * ((ay + by) / 2 - middle.y), 0.0)
    else:
        return (0.0, 0.0, 0.0)
    if not layer:
        return move
    # Stacked layers stand between their panel and the box, one behind the other.
    share = 1 - int(layer) / (sum(one.face == face for one in carcass.layers) + 1)
    return (move[0] * share, move[1] * share, move[2] * share)


def alone(piece: Piece, key: str) -> SafeString:
    """Draw one piece with its size and its holes."""
    return part_drawing(part(piece), view(key, piece.title, piece.label))
