"""Pieces of wood that are no box: floors, panels, rings, shells, bends, free outlines."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from shapely.geometry import Polygon

from acoustics.carcass.panels.board import Mounted, check_board
from acoustics.carcass.panels.floor import (
    Floor,
    Hatch,
    check_floor,
    check_hatches,
    cover_size,
    hole_in_lid,
    reached,
    support_height,
)
from acoustics.carcass.panels.kerf_bend import KerfBend
from acoustics.carcass.panels.moulded import (
    Litres,
    check_litres,
    filled,
    lined,
    stacked,
)
from acoustics.carcass.panels.round_over import check_round_over, saved_cover
from acoustics.carcass.panels.sag import bending, check_bending, free_edge, sag, stress, widest_span
from acoustics.carcass.panels.spacers import spacers
from acoustics.carcass.panels.supplies import Supplies, together
from acoustics.carcass.panels.trim import AdaptorRing, TrimPanel
from acoustics.carcass.room.clearance import check_contents
from acoustics.carcass.room.front import check_grille
from acoustics.carcass.shape.bows import straightened
from acoustics.carcass.shape.contents import Heading, Leg, Placed, PortBody
from acoustics.carcass.shape.edges import Corner, Edged, edged, inset, measured
from acoustics.carcass.shape.inside.fastener import Fastener, check_fastener
from acoustics.carcass.shape.joints import by_slope, usual_joints
from acoustics.carcass.shape.outline import Circle, Loop, rectangle
from acoustics.carcass.shape.plate import Board, bays_needed, first_mode
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.shapes import (
    rectangle_profile,
    step_profile,
    wedge_profile,
    wheel_arch_profile,
)
from tests.told import findings, row, rows

HATCH = Hatch(middle=(0.3, 0.25), width=0.24, height=0.18, gap=0.002, finish=0.0015, ledge=0.02)
NARROW = Hatch(middle=(0.62, 0.3), width=0.13, height=0.16, gap=0.004, finish=0.001, ledge=0.0155)
RIM = Loop(points=((0.0, 0.0), (0.9, 0.0), (0.95, 0.5), (0.4, 0.62), (-0.05, 0.45)))
FLOOR = Floor(
    outline=RIM,
    openings=(rectangle(0.18, 0.16, 0.42, 0.34), Circle(centre=(0.72, 0.14), radius=0.06)),
    supports=(
        ("front", rectangle(0.05, 0.02, 0.15, 0.06)),
        ("right", rectangle(0.85, 0.1, 0.89, 0.4)),
        ("hatch", rectangle(0.3, 0.12, 0.34, 0.2)),
        ("gone", rectangle(0.69, 0.11, 0.74, 0.17)),
        ("beyond", rectangle(-0.1, 0.3, 0.02, 0.34)),
    ),
    hatches=(("big", HATCH), ("small", NARROW)),
)


def floor() -> Mapping[str, object]:
    """Show a floor of free outline with hatches on supports, some of them wrong."""
    tipping = replace(FLOOR, supports=FLOOR.supports[:1])
    stiff = {"thickness": 0.012, "modulus": 4.5e9, "load": 60.0, "strength": 25e6}
    blocks = replace(FLOOR, openings=(), hatches=(), supports=FLOOR.supports[:2])
    bends = bending(FLOOR, **stiff)
    assert bends is not None
    hatches = {
        name: row(h.opening, h.frame, h.lid, h.clear, h.bearing, h.ledges)
        for name, h in FLOOR.hatches
    }
    return {
        "area": row(FLOOR.wood.area, FLOOR.carried.area, FLOOR.overhang),
        "findings": findings(check_floor(FLOOR)),
        "tips": findings(check_floor(tipping)),
        "blocks": findings(check_floor(blocks)),
        "hatches": hatches,
        "of hatches": findings(check_hatches(FLOOR.hatches)),
        "spans": row(widest_span(FLOOR), free_edge(FLOOR), widest_span(blocks), free_edge(blocks)),
        "bends": row(bends),
        "bent": rows(
            [bending(blocks, **(stiff | changes))]
            for changes in (
                {"thickness": 0.9},
                {"load": None},
                {"modulus": None},
                {"thickness": 0.4},
            )
        ),
        "of bending": {
            name: findings(check_bending(replace(bends, **changes)))
            for name, changes in {
                "as it is": {},
                "light": {"sag": 0.003, "edge_sag": 0.001},
                "good": {"sag": 0.0, "edge_sag": 0.0, "strength": 3.1 * (bends.stress or 0.0)},
                "no load": {"load": None},
                "no stiffness": {"sag": None},
                "no edge": {"edge_sag": None},
                "no strength": {"strength": None},
            }.items()
        },
        "sag": row(sag(span=0.7, thickness=0.015, modulus=6e9, load=80.0)),
        "stress": row(stress(thickness=0.015, load=80.0)),
        "reached": row(reached(HATCH, at) for at in ((0.39, 0.31), (0.41, 0.3), (0.3, 0.33))),
        "finger": row(hole_in_lid(HATCH, diameter=0.03), hole_in_lid(NARROW, diameter=0.09)),
        "height": row(support_height(level=0.2, thickness=0.012, finish=0.004)),
        "cover": row(
            cover_size(width=0.5, height=0.3, thickness=0.012, turned=0.04),
            cover_size(width=0.5, height=0.3, thickness=0.012, turned=0.04, rounded=0.006),
        ),
    }


def board() -> Mapping[str, object]:
    """Show things on a board, too near, too high, over an edge and unknown."""
    things = (
        Mounted(name="amp", middle=(0.2, 0.15), size=(0.3, 0.2), height=0.05, air=0.03,
                holes=(0.26, 0.22), hole=0.005),
        Mounted(name="dsp", middle=(0.44, 0.15), size=(0.16, 0.1), height=0.04, air=0.01,
                holes=(0.14, 0.08), hole=0.004),
        Mounted(name="fuse", middle=(0.46, 0.18), size=(0.06, 0.06), height=0.07, air=0.0),
        Mounted(name="block", middle=(0.62, 0.05), size=(0.1, 0.08)),
        Mounted(name="tall", middle=(0.1, 0.33), size=(0.1, 0.06), height=0.055, air=0.02,
                holes=(0.12, 0.04), hole=0.004),
    )  # fmt: skip
    rim, holes = rectangle(0.0, 0.0, 0.64, 0.36), (Circle(centre=(0.46, 0.12), radius=0.03),)
    return {
        "tight": findings(check_board(rim, holes, things, room=0.06)),
        "open": findings(check_board(rim, (), things[:2], room=0.2)),
        "unknown": findings(check_board(rim, (), things[:1], room=None)),
        "drilled": rows((thing.name, thing.drilled, thing.reach.area) for thing in things),
    }


def ring() -> Mapping[str, object]:
    """Show rings, trim panels, spacers, grilles and rounded edges."""
    tilted = AdaptorRing(
        outer_diameter=0.21, inner_diameter=0.145, bolt_circle_diameter=0.165, screws=5,
        screw_diameter=0.004, layers=(0.012, 0.009), tilt=math.radians(12),
    )  # fmt: skip
    wide = replace(tilted, bolt_circle_diameter=0.195, tilt=0.0)
    trim = TrimPanel(
        outline=rectangle(0.0, 0.0, 0.6, 0.4),
        shown=(
            Circle(centre=(0.15, 0.2), radius=0.08),
            Loop(points=((0.3, 0.1), (0.5, 0.12), (0.45, 0.3))),
        ),
        reveal=0.003,
        cut=(Circle(centre=(0.55, 0.35), radius=0.02),),
    )
    legs = spacers(count=5, raised=0.05, lean=math.radians(20), circle=0.17, width=0.016)
    grilles = (
        {"height": 0.01, "recess": 0.006, "surround": 0.009, "travel": 0.012},
        {"height": 0.012, "recess": 0.01, "surround": 0.009, "travel": 0.012},
        {"height": 0.02, "recess": 0.01, "surround": 0.009, "travel": 0.012},
        {"height": 0.02, "recess": 0.01, "surround": None, "travel": 0.012},
    )
    rounds = (
        {"board": 0.01, "flat": 0.02},
        {"board": 0.02, "flat": 0.01},
        {"board": 0.02, "flat": 0.02},
    )
    return {
        "tilted": row(tilted.thickness, tilted.wood_at_screw, tilted.volume, tilted.figures),
        "wide": row(wide.thickness, wide.wood_at_screw, wide.volume),
        "trim": row(trim.area, trim.openings),
        "spacers": rows(tuple(vars(leg).values()) for leg in legs),
        "grilles": {str(n): findings(check_grille(**g)) for n, g in enumerate(grilles)},
        "rounded": {str(n): findings(check_round_over(0.012, **r)) for n, r in enumerate(rounds)},
        "saved": row(saved_cover(0.012)),
        "fasteners": {
            str(n): findings(check_fastener(fastener, 0.015))
            for n, fastener in enumerate(
                (
                    Fastener(name="a", kind="screw", thread="4", hole=0.003),
                    Fastener(name="b", kind="t_nut", thread="M5", barrel=0.0151),
                    Fastener(name="c", kind="insert", hole=0.008),
                    Fastener(name="d", kind="t_nut", thread="M5", barrel=0.015, hole=0.0065),
                )
            )
        },
        "together": row(
            together(
                (
                    Supplies(joints=1.0, glued=2.0, screws=3, gasket=4.0, part_screws=5,
                             fastened=((None, 5),), unscrewed=("a",)),
                    Supplies(joints=0.5, glued=0.25, screws=7, gasket=0.5, part_screws=2,
                             fastened=((None, 2),), unscrewed=("b", "a")),
                )
            )
        ),
    }  # fmt: skip


def bend() -> Mapping[str, object]:
    """Show boards bent over kerfs, and their stiffness as plates."""
    bends = [
        KerfBend(thickness=0.012, skin=0.002, blade=0.0028, radius=0.11, angle=math.radians(90)),
        KerfBend(thickness=0.018, skin=0.003, blade=0.0032, radius=0.3, angle=math.radians(200)),
    ]
    plywood = Board(modulus=6e9, density=680.0, poisson=0.2)
    return {
        "bends": rows(
            (b.depth, b.turn, b.count, b.length, b.spacing, b.rib, b.open_mouth, b.places(0.05)[:3])
            for b in bends
        ),
        "modes": row(
            first_mode(0.4, 0.3, thickness=0.018, board=plywood),
            first_mode(0.4, 0.3, thickness=0.018, board=replace(plywood, poisson=0.3)),
        ),
        "bays": row(
            bays_needed(divided, held, thickness=0.015, board=plywood, band_top=top)
            for divided, held, top in (
                (0.7, 0.4, 200.0), (0.7, 0.4, 700.0), (0.7, 0.4, 2000.0), (0.2, 0.1, 100.0),
                (1.4, 0.5, 500.0),
            )
        ),
    }  # fmt: skip


def moulded() -> Mapping[str, object]:
    """Show litres by filling and by sections, and a skin taken off."""
    sections = ((0.0, 0.02), (0.05, 0.06), (0.11, 0.09), (0.2, 0.1), (0.26, 0.05), (0.3, 0.01))
    whole, few = stacked(sections), stacked(sections[:4])
    several = filled((0.0312, 0.0309, 0.0318))
    return {
        "filled": rows((f.value, f.error, f.share) for f in (
            filled((0.031,)), several, filled((0.0312, 0.0309), packing=0.02),
        )),
        "stacked": rows((s.value, s.error, s.share) for s in (
            whole, few, stacked(sections[::-1]), stacked(sections[:5]), stacked(sections[:2]),
        )),
        "lined": rows((x.value, x.error) for x in (
            lined(several, surface=0.7, thickness=0.006, stray=0.001),
            lined(several, surface=0.7, thickness=0.006, stray=None),
            lined(few, surface=0.7, thickness=0.004, stray=0.001),
        )),
        "checks": {
            str(n): findings(check_litres(litres, 0.02))
            for n, litres in enumerate(
                (Litres(value=0.02, error=None), Litres(value=0.02, error=0.0009),
                 Litres(value=0.02, error=0.00101))
            )
        },
    }  # fmt: skip


def outlines() -> Mapping[str, object]:
    """Show free outlines: bows within and without, rounds, stations and gaps round them."""
    corners = (
        Corner(at=(0.0, 0.0), radius=0.05),
        Corner(at=(0.6, 0.0)),
        Corner(at=(0.6, 0.4), bow=0.06),
        Corner(at=(0.3, 0.42)),
        Corner(at=(0.25, 0.2), radius=0.03),
        Corner(at=(0.0, 0.2)),
    )
    stations = ((2, 0.0, 0.01), (2, 0.15, 0.03), (2, 0.31, 0.02), (6, 0.1, -0.01))
    plain = tuple(Corner(at=corner.at, bow=corner.bow) for corner in corners)
    line = edged(measured((*plain[:5], Corner(at=(-0.02, 0.25))), stations))
    closing = edged(
        (
            Corner(at=(0.0, 0.0), radius=0.1),
            Corner(at=(0.2, 0.0), radius=0.1),
            Corner(at=(0.2, 0.2), radius=0.1),
            Corner(at=(0.0, 0.2), radius=0.1),
        )
    )
    clockwise = edged(
        (
            Corner(at=(0.0, 0.0)),
            Corner(at=(0.0, 0.3), bow=-0.04),
            Corner(at=(0.3, 0.3)),
            Corner(at=(0.4, 0.1), radius=0.05),
        )
    )
    square = ((0.0, 0.0), (0.5, 0.0, 0.05), (0.5, 0.3, -0.04), (0.0, 0.3, 0.0))
    return {
        "whole": _edged(edged(corners)),
        "stations": _edged(line),
        "closing": _edged(closing),
        "clockwise": _edged(clockwise),
        "smaller": _edged(inset(edged(corners), 0.004)),
        "larger": _edged(inset(clockwise, -0.003)),
        "bows": rows(
            (straightened(square, within=within, deviation=deviation),)
            for within, deviation in ((True, 0.001), (False, 0.001), (True, 0.01))
        ),
        "turned": row(straightened(square[::-1], within=True)),
        "many": row(len(straightened(square, within=False, deviation=1e-5, most=40))),
    }


def _edged(line: Edged) -> Mapping[str, object]:
    shape = Polygon(line.points)
    middle = shape.centroid
    return {
        "points": len(line.points),
        "figures": row(shape.area, shape.length, middle.x, middle.y, shape.bounds),
        "some": row(line.points[:: max(len(line.points) // 12, 1)]),
        "spots": rows(tuple(vars(spot).values()) for spot in line.spots),
    }


def joints() -> Mapping[str, object]:
    """Show which of two panels runs through, as usual and in an order that is asked for."""
    profiles = {
        "rectangle": rectangle_profile(0.4, 0.3),
        "wedge": wedge_profile(0.4, 0.3),
        "arch": wheel_arch_profile(depth=0.5, height=0.4, radius=0.2),
        "step": step_profile(depth=0.4, height=0.4, step_depth=0.15, step_height=0.12),
    }
    orders = {"usual": None, "as they stand": 1, "turned": -1}
    out: dict[str, object] = {}
    for name, profile in profiles.items():
        for order, way in orders.items():
            through = None if way is None else profile.names[::way]
            out[f"{name} {order}"] = row(
                (j.kind, j.through) for j in usual_joints(profile, through=through)
            )
        out[f"{name} by slope"] = row(*(by_slope(profile, standing=up) for up in (True, False)))
    return out


def elbows() -> Mapping[str, object]:
    """Show what is said of ports that turn soon, late, and back towards the panel they start in."""
    box = Carcass(profile=rectangle_profile(0.4, 0.38), width=0.6, thickness=0.018)
    ways: tuple[tuple[Heading, float, Heading, float], ...] = (
        ("in", 0.045, "+u", 0.2), ("in", 0.06, "+v", 0.13), ("in", 0.2, "-v", 0.11),
        ("in", 0.31, "-u", 0.2),
    )  # fmt: skip
    out: dict[str, object] = {}
    for first, ahead, then, aside in ways:
        legs = (Leg(heading=first, length=ahead), Leg(heading=then, length=aside))
        for height in (None, 0.05):
            port = PortBody(name="port", width=0.07, height=height, wall=0.003, legs=legs)
            full = replace(box, contents=(Placed(part=port, face="front", u=0.3, v=0.19),))
            out[f"{ahead} {then} {height}"] = findings(check_contents(full))
    return out


SCENES = {
    "elbows": elbows,
    "joints": joints,
    "floor": floor,
    "board": board,
    "ring": ring,
    "bend": bend,
    "moulded": moulded,
    "outlines": outlines,
}
