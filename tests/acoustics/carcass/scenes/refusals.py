"""What is refused of wood: the code of each refusal and the figures given with it."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace

from acoustics.carcass.cavity.cavity import Cavity, Obstacle, Opening
from acoustics.carcass.cavity.fit_build import Stock
from acoustics.carcass.cavity.fit_terms import Wanted
from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.panels.board import Mounted
from acoustics.carcass.panels.floor import Floor, Hatch, hole_in_lid, support_height
from acoustics.carcass.panels.kerf_bend import KerfBend
from acoustics.carcass.panels.moulded import Litres, filled, lined, stacked
from acoustics.carcass.panels.round_over import check_round_over
from acoustics.carcass.panels.sag import sag, stress
from acoustics.carcass.panels.spacers import spacers
from acoustics.carcass.panels.trim import AdaptorRing, TrimPanel
from acoustics.carcass.room.arrange import Load
from acoustics.carcass.room.clearance import Clearances, depth_behind
from acoustics.carcass.shape import shapes
from acoustics.carcass.shape.braces import CrossBrace, Layer, Shelf, Strut
from acoustics.carcass.shape.bracing import plate, shelf, spaced_plates
from acoustics.carcass.shape.contents import Leg, Placed, PortBody
from acoustics.carcass.shape.edges import Corner, edged, inset, measured
from acoustics.carcass.shape.inside.slab import Slab
from acoustics.carcass.shape.inside.wall_slot import WallSlot, board_slot
from acoustics.carcass.shape.joints import Joint, same_joints
from acoustics.carcass.shape.leaning import Leaning
from acoustics.carcass.shape.outline import Circle, Loop, rectangle
from acoustics.carcass.shape.planes import Plane, meeting
from acoustics.carcass.shape.plate import Board, bays_needed, first_mode
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.taper import Taper
from acoustics.carcass.sheets.blanks import Blank, Sheet
from acoustics.carcass.sheets.nesting import nest
from acoustics.carcass.sheets.roll import Cut, lay_on_roll
from tests.acoustics.carcass.scenes.bodies import slotted, step
from tests.acoustics.carcass.scenes.cutting import PARTS, SHEET
from tests.acoustics.carcass.scenes.parts import MID, SUB, TUBE
from tests.acoustics.carcass.scenes.tapers import pyramid
from tests.told import refusals

SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
BOX = Carcass(profile=shapes.rectangle_profile(0.4, 0.3), width=0.5, thickness=0.02)
# Above its floor the rear wall leans, up to the height of a slot's board.
CHAMFERED = Carcass(
    profile=Profile(
        points=((0.0, 0.0), (0.4, 0.0), (0.46, 0.06), (0.46, 0.4), (0.0, 0.4)),
        names=("bottom", "chamfer", "rear", "top", "front"),
    ),
    width=0.5,
    thickness=0.018,
)
PLAN = Profile(points=SQUARE, names=("a", "b", "c", "d"))
HATCH = {"middle": (0.0, 0.0), "width": 0.2, "height": 0.1, "gap": 0.002, "finish": 0.001}
RING = {
    "outer_diameter": 0.2, "inner_diameter": 0.15, "bolt_circle_diameter": 0.17, "screws": 4,
    "screw_diameter": 0.005, "layers": (0.01,),
}  # fmt: skip
BEND = {"thickness": 0.012, "skin": 0.002, "blade": 0.003, "radius": 0.1, "angle": 1.0}
OAK = Board(modulus=6e9, density=680.0)
SHELL = Litres(value=0.02, error=0.001)


def _box(**changes: object) -> Callable[[], object]:
    return lambda: replace(BOX, **changes)


def _with(*braces: object) -> Callable[[], object]:
    return lambda: replace(BOX, braces=braces)


def _shelf(**changes: object) -> Shelf:
    given = {"name": "s", "start": (0.1, 0.1), "end": (0.2, 0.1), "thickness": 0.01}
    return Shelf(**(given | changes))


def _taper(**changes: object) -> Callable[[], object]:
    given = {"plan": PLAN, "height": 0.5, "leans": 0.1, "thickness": 0.02}
    return lambda: Taper(**(given | changes))


def outlines() -> Mapping[str, object]:
    """Refuse outlines, shapes and joints."""
    out = {
        "two corners": lambda: Profile(points=SQUARE[:2]),
        "infinite": lambda: Profile(points=(*SQUARE[:3], (0.0, math.inf))),
        "names": lambda: Profile(points=SQUARE, names=("a", "b", "c")),
        "same names": lambda: Profile(points=SQUARE, names=("a", "b", "c", "a")),
        "crossing": lambda: Profile(points=((0, 0), (1, 1), (1, 0), (0, 1))),
        "clockwise": lambda: Profile(points=SQUARE[::-1]),
        "straight": lambda: Profile(points=((0, 0), (0.5, 0.0003), (1, 0), (1, 1))),
        "nearly straight": lambda: len(Profile(points=((0, 0), (0.5, -0.0006), (1, 0), (1, 1)))),
        "edge": lambda: PLAN.index("e"),
        "inset": lambda: PLAN.inset(0.51),
        "inset of four": lambda: PLAN.inset((0.1, 0.2, 0.3)),
        "inset crosses": lambda: shapes.l_profile(
            depth=1.0, height=1.0, toe_depth=0.5, toe_height=0.5).inset((0.3, 0.1, 0.1, 0.1, 0.3,
                0.1)),
        "flat": lambda: shapes.wedge_profile(0.0, 1.0),
        "slope": lambda: shapes.leaning_rear_profile(0.4, 0.3, 1.6),
        "slope meets": lambda: shapes.leaning_rear_profile(0.2, 0.5, 0.4),
        "knee": lambda: shapes.double_slope_profile(
            bottom_depth=0.4, knee_depth=0.3, knee_height=0.5, top_depth=0.2, height=0.4),
        "step": lambda: shapes.step_profile(depth=0.4, height=0.3, step_depth=0.4, step_height=0.1),
        "toe": lambda: shapes.l_profile(depth=0.4, height=0.3, toe_depth=0.2, toe_height=0.4),
        "cut": lambda: shapes.cut_corner_profile(
            depth=0.4, height=0.3, cut_depth=0.1, cut_height=-0.1),
        "flats": lambda: shapes.wheel_arch_profile(depth=0.5, height=0.5, radius=0.2, flats=1),
        "arch": lambda: shapes.wheel_arch_profile(depth=0.3, height=0.5, radius=0.29),
        "sides": lambda: shapes.round_well_profile(diameter=0.5, sides=4),
        "loop": lambda: Loop(points=SQUARE[:2]),
        "rectangle": lambda: rectangle(0.1, 0.1, 0.1, 0.3),
        "circle": lambda: Circle(centre=(0.0, 0.0), radius=-0.1),
        "joint": lambda: Joint(kind="dowel"),
        "rebate without depth": lambda: Joint(kind="rebate"),
        "butt with depth": lambda: Joint(depth=0.01),
        "joints": _box(joints=(Joint(),) * 3),
        "cheek joint": _box(cheek_joint="dowel"),
        "mitred cheeks": _box(cheek_joint="mitre"),
        "cheek rebate": _box(cheek_joint="rebate"),
        "cheek rebate through": _box(cheek_joint="rebate", cheek_rebate=0.02),
        "rebate through": lambda: panels(replace(BOX, joints=same_joints(
            BOX.profile, "rebate", through=BOX.profile.names, depth=0.02))),
        "round beside curve": lambda: edged(
            (Corner(at=(0, 0), radius=0.1), Corner(at=(1, 0), bow=0.1), Corner(at=(1, 1)))[::-1]),
        "round too large": lambda: edged(
            (Corner(at=(0, 0), radius=0.7), Corner(at=(1, 0), radius=0.4), Corner(at=(1, 1)))),
        "round too large before": lambda: edged(
            (Corner(at=(0, 0), radius=0.3), Corner(at=(1, 0), radius=0.9), Corner(at=(2, 2)))),
        "round too large after": lambda: edged(
            (Corner(at=(0, 0)), Corner(at=(2, 0), radius=0.1), Corner(at=(2, 1), radius=0.95),
             Corner(at=(0, 1)))),
        "rounds that meet": lambda: len(edged(
            (Corner(at=(0, 0)), Corner(at=(2, 0), radius=0.3), Corner(at=(2, 1), radius=0.7),
             Corner(at=(0, 1)))).points),
        "no corner": lambda: measured((Corner(at=(0, 0)),), ((2, 0.1, 0.1),)),
        "off batten": lambda: edged(measured([Corner(at=p) for p in SQUARE], ((1, 1.1, 0.1),))),
        "coincide": lambda: edged(
            measured([Corner(at=p) for p in SQUARE], ((1, 0.1, 0.1), (1, 0.1, 0.2)))),
        "gap closes": lambda: inset(edged([Corner(at=p) for p in SQUARE]), 0.5),
        "planes": lambda: meeting(
            *[Plane(normal=n, distance=0.1) for n in ((1.0, 0, 0), (0, 1.0, 0), (1.0, 1.0, 0))]),
    }  # fmt: skip
    return refusals(out)


def insides() -> Mapping[str, object]:
    """Refuse what does not go into a box."""
    bare = replace(pyramid(), contents=(), braces=())
    port = {"name": "p", "width": 0.1, "wall": 0.003}
    way_in = Leg(heading="in", length=0.1)
    out = {
        "thickness": _box(thickness=0.0),
        "thickness of four": _box(thickness=(0.01, 0.02)),
        "cheeks": _box(cheek_thickness=0.25),
        "cheek": _box(cheek_thickness=(0.01, -0.01)),
        "width": _box(width=-0.5),
        "density": _box(density=0.0),
        "layer": lambda: Layer(face="top", thickness=0.0),
        "layer elsewhere": _box(layers=(Layer(face="lid", thickness=0.01),)),
        "contents elsewhere": _box(contents=(Placed(part=MID, face="lid"),)),
        "no air": _box(contents=(Placed(part=replace(SUB, displacement=0.05), face="top"),)),
        "no such face": lambda: BOX.face("lid"),
        "brace beyond": _with(CrossBrace(name="x", at=0.475, thickness=0.02)),
        "brace before": _with(CrossBrace(name="x", at=0.01, thickness=0.02)),
        "window": _with(CrossBrace(name="x", at=0.2, thickness=0.02, windows=(Circle(centre=(0.1,
            0.1), radius=0.09),))),
        "shelf without length": lambda: _shelf(end=(0.1, 0.1)),
        "shelf span": lambda: _shelf(span=(0.3, 0.2)),
        "shelf outside": _with(_shelf(start=(0.7, 0.1), end=(0.9, 0.1))),
        "shelf all window": _with(_shelf(windows=(Circle(centre=(0.1, 0.1), radius=3.0),))),
        "strut": _with(Strut(name="x", at=(0.02, 0.02), breadth=0.05, thickness=0.01)),
        "strut thin": lambda: Strut(name="x", at=(0.1, 0.1), breadth=0.05, thickness=0.0),
        "slab": _with(Slab(name="x", outline=((0, 0), (0.2, 0), (0.2, 0.1)), span=(0.1, 0.2),
            thickness=0.01)),
        "slab span": lambda: Slab(name="x", outline=SQUARE, span=(0.2, 0.2), thickness=0.01),
        "plates": lambda: spaced_plates(BOX, 21, opening=0.4, thickness=0.02),
        "plate beyond": lambda: replace(BOX, braces=(plate("x", BOX, 0.51, opening=0.1,
            thickness=0.01),)),
        "rim": lambda: shelf("x", BOX, 0.15, level=True, opening=0.9, thickness=0.018),
        "shelf above": lambda: shelf("x", BOX, 0.3, level=True, opening=0.9, thickness=0.018),
        "depth of port": lambda: depth_behind(BOX, Placed(part=TUBE, face="top")),
        "clearance": lambda: Clearances(beside=-0.001),
        "nothing": lambda: Load(drivers=0),
        "hole": lambda: replace(MID, cutout_diameter=0.0),
        "motor": lambda: replace(MID, motor_diameter=0.122),
        "motor depth": lambda: replace(MID, motor_depth=-0.01),
        "flange": lambda: replace(MID, flange_diameter=0.121),
        "heading": lambda: Leg(heading="out", length=0.1),
        "leg": lambda: Leg(heading="in", length=0.0),
        "first leg": lambda: PortBody(legs=(Leg(heading="+u", length=0.1),), **port),
        "turns back": lambda: PortBody(legs=(way_in, way_in), **port),
        "short for a bend": lambda: TUBE.bent("+u", after=0.19),
        "bent": lambda: TUBE.bent("+u", after=0.1),
        "leans": _taper(leans=1.6),
        "turns inward": lambda: Leaning(plan=step().profile, height=0.3, leans=0.0),
        "walls meet": _taper(leans=0.8),
        "ends": _taper(end_thickness=(0.3, 0.2)),
        "leaning thickness": _taper(thickness=(0.02, 0.02, 0.02, 0.0)),
        "leaning layer": _taper(layers=(Layer(face="e", thickness=0.01),)),
        "leaning brace": lambda: replace(bare, braces=(CrossBrace(name="x", at=0.39,
            thickness=0.01),)),
        "slot in cheek": lambda: slotted(face="left"),
        "slot high": lambda: slotted(height=0.35),
        "slot wide": lambda: slotted(width=0.6),
        "slot short": lambda: slotted(length=0.43, bent=True),
        "slot along itself": lambda: slotted(wall="rear"),
        "slot thin": lambda: slotted(thickness=0.0),
        "slot on nothing": lambda: slotted(wall="lid"),
        "slot past a corner": lambda: board_slot(CHAMFERED, WallSlot(face="front", wall="bottom",
            height=0.04, length=0.44, thickness=0.016)),
    }  # fmt: skip
    return refusals(out)


def pieces() -> Mapping[str, object]:
    """Refuse floors, rings, bends, shells, sheets and cavities."""
    support = ("s", rectangle(0.0, 0.0, 0.1, 0.1))
    out = {
        "lid": lambda: Hatch(ledge=0.02, **(HATCH | {"height": 0.008})),
        "ledge": lambda: Hatch(ledge=0.05, **HATCH),
        "lid falls": lambda: Hatch(ledge=0.003, **HATCH),
        "gap": lambda: Hatch(ledge=0.02, **(HATCH | {"gap": 0.0})),
        "finger": lambda: hole_in_lid(Hatch(ledge=0.02, **HATCH), diameter=0.08),
        "fine finger": lambda: hole_in_lid(Hatch(ledge=0.02, **HATCH), diameter=0.002),
        "level": lambda: support_height(level=0.02, thickness=0.015, finish=0.005),
        "no support": lambda: Floor(outline=support[1], openings=(), supports=()),
        "span": lambda: sag(span=0.0, thickness=0.01, modulus=1e9, load=1.0),
        "load": lambda: stress(thickness=0.01, load=-1.0),
        "mounted": lambda: Mounted(name="x", middle=(0, 0), size=(0.1, 0.0)),
        "radius": lambda: list(check_round_over(0.0, board=0.01, flat=None)),
        "ring": lambda: AdaptorRing(**(RING | {"screws": 2})),
        "ring tilt": lambda: AdaptorRing(tilt=0.8, **RING),
        "ring layers": lambda: AdaptorRing(**(RING | {"layers": ()})),
        "ring circle": lambda: AdaptorRing(**(RING | {"bolt_circle_diameter": 0.155})),
        "ring circle out": lambda: AdaptorRing(**(RING | {"bolt_circle_diameter": 0.195})),
        "ring screws": lambda: AdaptorRing(**(RING | {"screws": 65})),
        "ring many layers": lambda: AdaptorRing(**(RING | {"layers": (0.01,) * 21})),
        "rim": lambda: TrimPanel(
            outline=rectangle(0, 0, 1, 1), shown=(Circle(centre=(0.2, 0.2), radius=0.19),),
                reveal=0.01),
        "overlap": lambda: TrimPanel(
            outline=rectangle(0, 0, 1, 1), reveal=0.01, cut=(Circle(centre=(0.5, 0.4),
                radius=0.1),),
            shown=(Circle(centre=(0.4, 0.4), radius=0.1),)),
        "spacers": lambda: spacers(count=2, raised=0.1, lean=0.1, circle=0.2, width=0.01),
        "spacer vanishes": lambda: spacers(count=4, raised=0.02, lean=0.5, circle=0.2, width=0.01),
        "skin": lambda: KerfBend(**(BEND | {"skin": 0.012})),
        "tight": lambda: KerfBend(**(BEND | {"radius": 0.012})),
        "turn": lambda: KerfBend(**(BEND | {"angle": 6.3})),
        "kerfs": lambda: KerfBend(**(BEND | {"blade": 0.0001, "radius": 2.0, "angle": 6.0})),
        "overlap of kerfs": lambda: KerfBend(**(BEND | {"radius": 0.014, "angle": 3.0})),
        "no fill": lambda: filled(()),
        "fills": lambda: filled((0.01,) * 31),
        "packing": lambda: filled((0.01, 0.02), packing=1.1),
        "fill": lambda: filled((0.01, 0.0)),
        "section": lambda: stacked(((0.0, 0.1),)),
        "sections": lambda: stacked(((0.0, 0.1),) * 61),
        "sections coincide": lambda: stacked(((0.0, 0.1), (0.1, 0.1), (0.1, 0.2))),
        "sections empty": lambda: stacked(((0.0, 0.0), (0.1, 0.0))),
        "skin small": lambda: lined(SHELL, surface=0.3, thickness=0.004, stray=None),
        "skin fills": lambda: lined(SHELL, surface=0.9, thickness=0.04, stray=None),
        "stray": lambda: lined(SHELL, surface=0.9, thickness=0.004, stray=0.005),
        "board": lambda: Board(modulus=6e9, density=600.0, poisson=0.5),
        "panel": lambda: first_mode(0.3, 0.0, thickness=0.018, board=OAK),
        "band": lambda: bays_needed(0.5, 0.4, thickness=0.018, board=OAK, band_top=0.0),
        "mass": lambda: panels(BOX)[0].mass,
        "sheet": lambda: Sheet(name="x", length=1.0, width=0.0),
        "blank": lambda: Blank(number=1, name="x", length=-1.0, width=1.0),
        "blanks": lambda: Blank(number=1, name="x", length=1.0, width=1.0, quantity=0),
        "kerf": lambda: nest(PARTS, SHEET, kerf=-0.001, trim=0.0),
        "mode": lambda: nest(PARTS, SHEET, kerf=0.0, trim=0.0, mode="laser"),
        "no parts": lambda: nest((), SHEET, kerf=0.0, trim=0.0),
        "parts": lambda: nest((replace(PARTS[0], quantity=1001),), SHEET, kerf=0.0, trim=0.0),
        "trim": lambda: nest(PARTS, SHEET, kerf=0.0, trim=0.625),
        "beyond sheet": lambda: nest((replace(PARTS[0], length=1.49, width=1.24),), SHEET,
            kerf=0.003, trim=0.01),
        "beyond grain": lambda: nest((replace(PARTS[1], width=1.3),), SHEET, kerf=0.003, trim=0.01),
        "roll": lambda: lay_on_roll([Cut(name="x", across=1.5, along=1.2, turns=False)], width=1.4),
        "turned on roll": lambda: lay_on_roll([Cut(name="x", across=1.5, along=1.45,
            turns=True)], width=1.4),
        "obstacle": lambda: Obstacle(name="x", points=SQUARE[:2]),
        "obstacle ends": lambda: Obstacle(name="x", points=SQUARE, start=0.2, end=0.2),
        "opening": lambda: Opening(width=0.0, height=1.0),
        "cavity gap": lambda: Cavity(profile=PLAN, width=1.0, gap=-0.01),
        "cavity filled": lambda: Cavity(profile=PLAN, width=1.0, gap=0.5),
        "cavity narrow": lambda: Cavity(profile=PLAN, width=0.1, gap=0.05),
        "facing": lambda: Wanted(net_volume=0.01, stock=Stock(thickness=0.018), facing="up"),
        "several": lambda: Wanted(
            net_volume=0.01, stock=Stock(thickness=0.018), facing="side", load=Load(drivers=2)),
        "layers": lambda: Wanted(net_volume=0.01, stock=Stock(thickness=0.018, layers=0)),
        "litres": lambda: Wanted(net_volume=0.0, stock=Stock(thickness=0.018)),
    }  # fmt: skip
    return refusals(out)


SCENES = {"refused outlines": outlines, "refused insides": insides, "refused pieces": pieces}
