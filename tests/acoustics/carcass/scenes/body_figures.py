"""Every figure and finding of a box of wood, as nested mappings of short lines."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.panels.cut_list import check_saw, check_whole, cut_list
from acoustics.carcass.panels.gluing import glue_order
from acoustics.carcass.panels.mass import box_mass, check_mass
from acoustics.carcass.panels.panel_modes import check_fields, wood_fields
from acoustics.carcass.panels.standing import standing_on
from acoustics.carcass.panels.supplies import supplies
from acoustics.carcass.room.clearance import Clearances, check_contents, depth_behind
from acoustics.carcass.room.parted import check_chambers
from acoustics.carcass.room.solids import solids_of
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.contents import PortBody
from acoustics.carcass.shape.inside.chambers import chambers
from acoustics.carcass.shape.panel import Frame, Panel
from acoustics.carcass.shape.plate import Board
from acoustics.carcass.shape.taper import Taper
from acoustics.carcass.sheets.blanks import blanks
from tests.told import findings, joined, row, rows

# What is told of them is in them; their walls are like others.
FOR_THEIR_INSIDE = {
    *("slot-straight", "slot-bent", "slot-narrow", "slot-narrow-left", "slot-narrow-right"),
    *("slot-cheek", "slot-cheek-bent", "slot-rear", "slot-rear-bent", "slot-top"),
    *("bowed", "well"),
}
PLYWOOD = Board(modulus=6.0e9, density=680.0)
WIDE = Clearances(
    cutout_to_edge=0.06, behind=0.2, beside=0.08, wood_at_screw=0.02, apart=0.2, port_mouths=3.0
)


def shape(body: Body) -> Mapping[str, object]:
    """Give its outlines, volumes, rooms and faces."""
    dividers = () if isinstance(body, Taper) else tuple(body.dividers)
    return {
        "litres": row(*vars(body.volumes).values(), body.gross_volume, body.net_volume),
        "outer": row(body.outer_volume, body.width, body.air_span, body.extents),
        "profile": row(body.profile.points),
        "air profile": row(body.air_profile.points),
        "seen": rows((seen.cut, seen.outline) for seen in body.seen_braces()),
        "rooms": row(room.volume for room in body.rooms),
        "chambers": rows((c.volume, c.inside, c.facing) for c in chambers(body)),
        "dihedral": row(body.dihedral(i) for i in range(3)) if isinstance(body, Taper) else "",
        "faces": {name: _face(body, name) for name in (*body.faces, *dividers)},
    }


def _face(body: Body, name: str) -> Mapping[str, object]:
    face = body.face(name)
    own = name in body.faces
    reach = (*body.reach(name), *body.reach(name, face.size[1] / 5))
    return {
        "size": row(face.size, face.wood, face.inner, face.outer, reach, _frame(face.frame)),
        "outlines": row(body.outline(name), body.air_outline(name)),
        "around": row(body.around(name), body.way_out(name)) if own else "",
    }


def _frame(frame: Frame) -> tuple[object, ...]:
    return frame.origin, frame.u, frame.v


def wood(body: Body) -> Mapping[str, object]:
    """Give its panels, how they are cut, joined, glued and fixed, and what they weigh."""
    parts = panels(body)
    lines = cut_list(parts)
    mass = box_mass(body)
    needed = supplies(body, parts)
    return {
        "panels": {panel.name: _panel(panel) for panel in parts},
        "lines": joined((line.number, line.quantity, line.name) for line in lines),
        "blanks": joined(
            (part.number, part.length, part.width, part.quantity, part.keep_grain)
            for part in blanks(lines, thickness=parts[0].thickness)
        ),
        "checks": findings(
            (*check_saw(parts), *check_saw(parts, tilt_limit=0.6)[:2], *check_whole(parts))
        ),
        "gluing": joined((step.panel, step.reason, step.onto) for step in glue_order(body)),
        "mass": row(mass.wood, mass.parts, mass.known, mass.unknown),
        "unknown": findings(check_mass(mass)),
        "supplies": row(
            needed.joints, needed.glued, needed.glue, needed.screws, needed.gasket,
            needed.part_screws, needed.unscrewed,
            [(fastener and fastener.name, number) for fastener, number in needed.fastened],
        ),
        "standing": {
            # From any of its corners: which is first, the last digit decides.
            host: rows(
                (strip.board, strip.face, sorted(np.round(strip.outline, 7).tolist()))
                for strip in strips
            )
            for host, strips in standing_on(parts, {b.name for b in body.braces}).items()
            if strips
        },
    }  # fmt: skip


def _panel(panel: Panel) -> Mapping[str, object]:
    cuts = [
        (cut.mate, cut.joint, cut.runs_through, cut.length, cut.bevel, cut.slant, cut.longer_face,
         cut.rebate and tuple(vars(cut.rebate).values()))
        for cut in panel.cuts
    ]  # fmt: skip
    return {
        "size": row(panel.size, panel.thickness, panel.area, panel.volume, panel.rebated,
                    panel.grain, _frame(panel.frame)),
        "outside": row(panel.outside),
        "inside": row(panel.inside) if panel.inside != panel.outside else "alike",
        "holes": rows(tuple(vars(hole).values()) for hole in panel.holes),
        "cuts": joined(cuts),
    }  # fmt: skip


def inside(body: Body) -> Mapping[str, object]:
    """Give the boards inside it only, and what they leave."""
    boards = {brace.name for brace in body.braces}
    return {
        "litres": row(body.volumes, body.gross_volume, body.net_volume),
        "air": row(body.air_profile.points),
        "panels": {panel.name: _panel(panel) for panel in panels(body) if panel.name in boards},
        "placed": rows((p.face, p.u, p.v, *vars(p.part).values()) for p in body.contents),
    }


def room(body: Body) -> Mapping[str, object]:
    """Give its modes and what its contents leave of its room."""
    modes = [(f.panel, f.span, f.height, f.thickness, f.mode(PLYWOOD)) for f in wood_fields(body)]
    usual = check_contents(body)
    wide, advice = check_fields(body, board=PLYWOOD, band_top=500.0)
    behind = [
        depth_behind(body, placed)
        for placed in body.contents
        if not isinstance(placed.part, PortBody)
    ]
    solids = [
        (s.start, s.end, s.half_start, s.half_end, s.is_round, *(s.span(axis) for axis in range(3)))
        for p in body.contents
        for s in solids_of(p.part, body.face(p.face), *body.centre(p))
    ]
    return {
        "fields": joined(modes),
        "modes": findings(wide),
        "advice": joined(tuple(vars(each).values()) for each in advice),
        "low": len(check_fields(body, board=PLYWOOD, band_top=150.0)[0]),
        "contents": findings(usual),
        "wide": findings(f for f in check_contents(body, WIDE) if f not in usual),
        "chambers": findings(check_chambers(body)),
        "behind": row(behind),
        "solids": joined(solids),
    }
