"""What is taken at the very limit of what may be: the last that is not refused."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace

from acoustics.carcass.cavity.cavity import Cavity, Obstacle
from acoustics.carcass.cavity.fit_build import Stock
from acoustics.carcass.cavity.fit_terms import Wanted
from acoustics.carcass.panels.floor import Hatch, hole_in_lid
from acoustics.carcass.panels.kerf_bend import KerfBend
from acoustics.carcass.panels.moulded import filled, lined, stacked
from acoustics.carcass.panels.panel_modes import wood_fields
from acoustics.carcass.panels.spacers import spacers
from acoustics.carcass.panels.trim import AdaptorRing
from acoustics.carcass.room.arrange import Load
from acoustics.carcass.room.clearance import Clearances
from acoustics.carcass.shape import shapes
from acoustics.carcass.shape.braces import CrossBrace
from acoustics.carcass.shape.bracing import spaced_plates
from acoustics.carcass.shape.joints import Joint
from acoustics.carcass.shape.leaning import Leaning
from acoustics.carcass.shape.plate import Board
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.sheets.blanks import Blank, Sheet
from acoustics.carcass.sheets.nesting import nest
from acoustics.carcass.sheets.roll import Cut, lay_on_roll
from tests.acoustics.carcass.scenes.parts import MID
from tests.acoustics.carcass.scenes.refusals import BEND, BOX, PLAN, RING, SHELL, SQUARE
from tests.told import limits

WHOLE = Sheet(name="whole", length=1.0, width=0.5)
ROWS = tuple((n / 10, 0.1) for n in range(60))


def taken() -> Mapping[str, object]:
    """Take each of them."""
    calls: dict[str, Callable[[], object]] = {
        "three corners": lambda: shapes.Profile(points=SQUARE[:3]),
        "two flats": lambda: shapes.wheel_arch_profile(depth=1.0, height=1.0, radius=0.3, flats=2),
        "five sides": lambda: shapes.round_well_profile(diameter=0.5, sides=5),
        "upright": lambda: shapes.leaning_rear_profile(0.4, 0.3, 0.0),
        "lean": lambda: Leaning(plan=PLAN, height=1e-4, leans=1.57),
        "rebate": lambda: Joint(kind="rebate", depth=1e-9),
        "cheek rebate": lambda: replace(BOX, cheek_joint="rebate", cheek_rebate=0.0199),
        "brace at the start": lambda: replace(
            BOX, braces=(CrossBrace(name="x", at=0.02, thickness=0.02),)),
        "brace at the end": lambda: replace(
            BOX, braces=(CrossBrace(name="x", at=0.46, thickness=0.02),)),
        "modes beside it": lambda: wood_fields(
            replace(BOX, braces=(CrossBrace(name="x", at=0.02, thickness=0.02),))),
        "twenty plates": lambda: spaced_plates(BOX, 20, opening=0.4, thickness=0.002),
        "no clearance": lambda: Clearances(beside=0.0, port_mouths=0.0),
        "one driver": lambda: Load(drivers=1, ports=1),
        "no motor": lambda: replace(MID, motor_depth=0.0, motor_diameter=0.121),
        "three screws": lambda: AdaptorRing(**(RING | {"screws": 3})),
        "many screws": lambda: AdaptorRing(**(RING | {"screws": 64})),
        "many layers": lambda: AdaptorRing(**(RING | {"layers": (0.001,) * 20})),
        "half a right angle": lambda: AdaptorRing(tilt=math.pi / 4, **RING),
        "three spacers": lambda: spacers(count=3, raised=0.3, lean=0.0, circle=0.2, width=0.01),
        "twelve spacers": lambda: spacers(
            count=12, raised=0.3, lean=math.radians(60), circle=0.2, width=0.01),
        "whole turn": lambda: KerfBend(**(BEND | {"angle": 2 * math.pi})),
        "thirty fills": lambda: filled((0.01,) * 30, packing=1.0),
        "one fill": lambda: filled((0.01,), packing=0.0),
        "two sections": lambda: stacked(ROWS[:2]),
        "sixty sections": lambda: stacked(ROWS),
        "no stray": lambda: lined(SHELL, surface=0.9, thickness=0.004, stray=0.0),
        "all stray": lambda: lined(SHELL, surface=0.9, thickness=0.004, stray=0.004),
        "ball": lambda: lined(SHELL, surface=(36 * math.pi * 4e-4) ** (1 / 3), thickness=0.004,
                              stray=None),
        "no poisson": lambda: Board(modulus=1.0, density=1.0, poisson=0.0),
        "one blank": lambda: nest((Blank(number=1, name="x", length=1.0, width=0.5),), WHOLE,
                                  kerf=0.0, trim=0.0),
        "with kerf": lambda: nest((Blank(number=1, name="x", length=0.98, width=0.48),), WHOLE,
                                  kerf=0.004, trim=0.01),
        "roll": lambda: lay_on_roll([Cut(name="x", across=1.4, along=3.0, turns=False)], width=1.4),
        "turned on a roll": lambda: lay_on_roll(
            [Cut(name="x", across=3.0, along=1.4, turns=True)], width=1.4),
        "no gap": lambda: Cavity(profile=PLAN, width=1.0),
        "obstacle": lambda: Obstacle(name="x", points=SQUARE[:3], start=0.1, end=0.1001),
        "one layer": lambda: Wanted(net_volume=1e-6, stock=Stock(thickness=0.01), facing="side"),
        "two drivers": lambda: Wanted(
            net_volume=1e-6, stock=Stock(thickness=0.01), facing="front", load=Load(drivers=2)),
        "finger": lambda: hole_in_lid(
            Hatch(middle=(0.0, 0.0), width=0.2, height=0.1, gap=0.002, finish=0.001, ledge=0.02),
            diameter=0.0599),
        "width of its cheeks": lambda: replace(BOX, cheek_thickness=0.2499),
        "thin": lambda: Carcass(profile=PLAN, width=1.0, thickness=0.4999),
    }  # fmt: skip
    return limits(calls)


SCENES = {"at their limits": taken}
