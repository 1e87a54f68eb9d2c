"""DXF files for a router: one per part, one per nested sheet; the only place that knows ezdxf."""

from __future__ import annotations

import io
import re
import zipfile
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from django.db.models import Model
from django.utils.translation import gettext as _

from jobs import units
from jobs.design.job.whole import JobDesign
from jobs.design.records.about import about
from jobs.design.wood.cutting import Cutting, SheetPlan, work_out_cutting
from jobs.design.wood.marking import kerf_words
from jobs.design.wood.pieces import Circle, Figure, Line, Loop, Piece
from jobs.design.wording.joining import fastener_words
from jobs.sheets.router import Router, reliefs, tabs

# What is done along a line; a colour number only helps the eye, the layer says it.
CUT, BEVEL, ENGRAVE, DRILL, NOTES = "CUT", "BEVEL", "ENGRAVE", "DRILL", "NOTES"
RELIEF, TABS = "RELIEF", "TABS"
LAYERS = {CUT: 7, BEVEL: 5, ENGRAVE: 3, DRILL: 1, NOTES: 8, RELIEF: 6, TABS: 2}
# A pocket's layer is named by its face and its depth in millimetres, such as POCKET_INSIDE_6.0.
POCKET = 4
MILLIMETRES = 1000.0
TEXT = 6.0  # height of notes [mm]
NO_ROUTER = Router()


def archive(design: JobDesign) -> bytes:
    """Pack a DXF of every part and of every nested sheet of a job."""
    cutting = work_out_cutting(design.records, design.boxes, design.trims)
    packed = io.BytesIO()
    router = Router.of(design.records.workshop)
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as files:
        for name, text in drawings(cutting, _stops(design, cutting), router).items():
            # No clock in the archive; the drawings carry their own.
            entry = zipfile.ZipInfo(name, (2000, 1, 1, 0, 0, 0))
            files.writestr(entry, text, zipfile.ZIP_DEFLATED)
    return packed.getvalue()


def _stops(design: JobDesign, cutting: Cutting) -> dict[str, list[str]]:
    """What stands open against each box, ring and trim panel, by the number of each piece."""
    cut: list[tuple[Model, Sequence[Piece]]] = [
        *((box.result.box, box.pieces) for box in cutting.boxes),
        *((trim.record, trim.pieces) for trim in cutting.trims),
    ]
    stops: dict[str, list[str]] = {}
    for record, pieces in cut:
        whole = about(record)
        against = [finding.says for finding in design.open_stops if finding.about.is_of(whole)]
        if against:
            stops |= {piece.label: against for piece in pieces}
    return stops


def drawings(
    cutting: Cutting, stops: Mapping[str, list[str]], router: Router = NO_ROUTER
) -> dict[str, str]:
    """Return the text of every file by its name, with what stands open against its pieces."""
    files = {
        f"parts/{piece.label}-{_slug(piece.name)}.dxf": _text(_part(piece, stops, router))
        for piece in cutting.pieces
    }
    for material, plan in enumerate(cutting.plans, start=1):
        for number in range(1, len(plan.nest.sheets) + 1 if plan.nest else 1):
            name = f"sheets/{material}-{_slug(str(plan.material))}-{number}.dxf"
            files[name] = _text(_sheet(plan, number, stops, router))
    return files


def _slug(words: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-") or "part"


def _document() -> Any:
    # Slow to import, and only needed when somebody asks for a file.
    from ezdxf.document import Drawing
    from ezdxf.units import MM

    document = Drawing.new("AC1024")
    document.units = MM
    document.header["$MEASUREMENT"] = 1
    for name, colour in LAYERS.items():
        document.layers.add(name, color=colour)
    return document


def _text(document: Any) -> str:
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue()


def _part(piece: Piece, stops: Mapping[str, list[str]], router: Router) -> Any:
    document = _document()
    _draw(document, [piece.turned_over() if piece.turned_to_mill else piece], router)
    _warn(document.modelspace(), stops.get(piece.label, []), (0.0, piece.size[1]))
    return document


def _warn(space: Any, stops: list[str], at: tuple[float, float]) -> None:
    """The open stops, above what is drawn: whoever opens the file reads them first."""
    lines = [_("OPEN STOP: do not cut it so."), *stops] if stops else []
    step = 1.6 * TEXT / MILLIMETRES
    for number, words in enumerate(reversed(lines), start=1):
        _note(space, words, (at[0], at[1] + step * number))


def _sheet(plan: SheetPlan, number: int, stops: Mapping[str, list[str]], router: Router) -> Any:
    """A whole sheet: its rim as a note, the parts where they were nested."""
    assert plan.nest is not None
    document = _document()
    space = document.modelspace()
    nested = plan.nest.sheets[number - 1]
    length, width = nested.sheet.length, nested.sheet.width
    rim = Loop(points=((0.0, 0.0), (length, 0.0), (length, width), (0.0, width)))
    _figure(space, rim, NOTES)
    words = f"{plan.material}, {_shown(plan.thickness)}"
    _note(space, words, (0.0, width + 2 * TEXT / MILLIMETRES))
    laid = plan.laid(nested, turn_over=lambda piece: piece.turned_to_mill)
    _draw(document, laid, router)
    open_stops = {words for piece in laid for words in stops.get(piece.label, [])}
    _warn(space, sorted(open_stops), (0.0, width + 4 * TEXT / MILLIMETRES))
    return document


def _draw(document: Any, pieces: Sequence[Piece], router: Router) -> None:
    """Everything of some pieces on its layers, in the order it is cut: outlines come last.

    A part that is free moves: what is milled, drilled and cut out of it is done before.
    """
    for piece in pieces:
        _mill(document, piece, router)
    space = document.modelspace()
    for piece in pieces:
        for hole in piece.holes:
            _figure(space, hole, CUT)
    for piece in pieces:
        for corner in reliefs(piece.outline, router, cut_inside=False, piece=piece):
            _figure(space, corner, RELIEF)
        _figure(space, piece.outline, CUT)
        for tab in tabs(piece, router):
            _line(space, tab, TABS)
        left, low, _right, _high = piece.outline.polygon.bounds
        step = 1.6 * TEXT / MILLIMETRES
        words_of_it = _words(piece, router)
        spot = (left + step, low + step * (len(words_of_it) + 0.2))
        for number, words in enumerate(words_of_it):
            _note(space, words, (spot[0], spot[1] - step * number))


def _mill(document: Any, piece: Piece, router: Router) -> None:
    """What does not free the piece: marks, bevels, pockets, drilled holes, corners of openings."""
    space = document.modelspace()
    for mark in piece.marks:  # drilled from the outer face; nothing is scratched into the inner
        _figure(space, mark, NOTES if piece.turned_to_mill else ENGRAVE)
    for seat in piece.seats:
        _figure(space, seat.outline, NOTES)
    for line in piece.bevels:
        _line(space, line, BEVEL)
    for pocket in piece.pockets:
        layer = f"POCKET_{pocket.face.upper()}_{pocket.depth * MILLIMETRES:.1f}"
        if layer not in document.layers:
            document.layers.add(layer, color=POCKET)
        for corner in reliefs(pocket.figure, router, cut_inside=True, piece=piece):
            _figure(space, corner, layer)
        _figure(space, pocket.figure, layer)
    for kerf in piece.kerfs:
        layer = f"KERF_INSIDE_{kerf.depth * MILLIMETRES:.1f}"
        if layer not in document.layers:
            document.layers.add(layer, color=POCKET)
        _line(space, kerf, layer)
    for pilot in piece.pilots:
        _figure(space, pilot, DRILL)
    for hole in piece.holes:
        for corner in reliefs(hole, router, cut_inside=True, piece=piece):
            _figure(space, corner, RELIEF)


def _words(piece: Piece, router: Router) -> list[str]:
    """What a person at the machine must know of a piece."""
    lines = [
        f"{piece.label} {piece.title}",
        (
            _("%(thickness)s, inner face up, mirrored")
            if piece.turned_to_mill
            else _("%(thickness)s, outer face up")
        )
        % {"thickness": _shown(piece.thickness)},
    ]
    for depth, side in sorted({(pocket.depth, pocket.face) for pocket in piece.pockets}):
        words = (
            _("pocket %(depth)s deep in the inner face")
            if side == "inside"
            else _("pocket %(depth)s deep in the outer face")
        )
        lines.append(words % {"depth": _shown(depth)})
    held = Counter((mark.fastener, mark.screws) for mark in piece.marks if mark.fastener)
    for (fastener, screws), number in held.items():
        lines.append(f"{screws * number} × {fastener_words(fastener)}")
    if piece.kerfs:
        lines.append(", ".join(kerf_words(piece.kerfs)))
    if piece.round_over:
        radius = {"radius": _shown(piece.round_over)}
        lines.append(_("round-over R %(radius)s, outer face, once it is glued") % radius)
    if router.tool:
        lines.append(_("tool %(diameter)s") % {"diameter": _shown(router.tool)})
    if piece.grain:
        lines.append(_("grain along %(axis)s") % {"axis": piece.grain.upper()})
    tilts = {(line.tilt, line.longer_face) for line in piece.bevels}
    for tilt, face in sorted(tilts):
        longer = _("outer face longer") if face == "outside" else _("inner face longer")
        lines.append(f"{units.show(tilt, 'angle')}, {longer}")
    return lines


def _shown(length: float) -> str:
    return units.show(length, "length")


def _scaled(points: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    return [(x * MILLIMETRES, y * MILLIMETRES) for x, y in points]


def _figure(space: Any, figure: Figure, layer: str) -> None:
    if isinstance(figure, Circle):
        (centre,) = _scaled([figure.centre])
        space.add_circle(centre, figure.radius * MILLIMETRES, dxfattribs={"layer": layer})
        return
    space.add_lwpolyline(_scaled(figure.points), close=True, dxfattribs={"layer": layer})


def _line(space: Any, line: Line, layer: str) -> None:
    start, end = _scaled([line.start, line.end])
    space.add_line(start, end, dxfattribs={"layer": layer})


def _note(space: Any, words: str, at: tuple[float, float]) -> None:
    (place,) = _scaled([at])
    text = space.add_text(words, height=TEXT, dxfattribs={"layer": NOTES})
    text.set_placement(place)
