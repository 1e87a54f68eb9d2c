"""One way to bring about each of many refusals, and what is said of it in English."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from functools import partial

import numpy as np

from acoustics.air.cabin import TransferCurve
from acoustics.carcass.cavity.cavity import Cavity, Obstacle, Opening
from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.shape import shapes
from acoustics.carcass.shape.braces import CrossBrace, Shelf, Strut
from acoustics.carcass.shape.contents import Leg, Placed, PortBody, RoundPart
from acoustics.carcass.shape.four_sided import four_sided_taper
from acoustics.carcass.shape.joints import Joint
from acoustics.carcass.shape.outline import rectangle
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.sheets.blanks import Blank, Sheet
from acoustics.carcass.sheets.nesting import nest
from acoustics.circuit.filters import Family, Filter, Passes, Way
from acoustics.columns import parse_columns
from acoustics.driver.combination import combine, wire_coils
from acoustics.driver.completion import complete_driver
from acoustics.driver.driver import Driver
from acoustics.enclosure.boxes import Sealed
from acoustics.enclosure.openings import Vent
from acoustics.enclosure.port import RoundOpening, port_for_tuning
from tests.jobs.design.wording.provoked_floors import FLOORS
from tests.jobs.design.wording.provoked_recordings import RECORDINGS
from tests.jobs.design.wording.provoked_sweeps import SWEEPS
from tests.jobs.no_sweeps import in_other_units, measured
from wiring.cable.conductor import Conductor, awg_area, sae
from wiring.cable.fuse import FittedFuse, Fuse
from wiring.cable.markings import colour_names, split_label
from wiring.network.parts import Load, Source
from wiring.network.tree import Node, Run, Tree
from wiring.supply.amplifier import Amplifier, AmplifierClass
from wiring.supply.reserve import Battery
from wiring.supply.supply import Alternator

SQUARE = shapes.rectangle_profile(0.4, 0.3)
T = 0.018
PART = {
    "name": "driver",
    "cutout_diameter": 0.2,
    "flange_diameter": 0.22,
    "basket_depth": 0.06,
    "motor_diameter": 0.1,
    "motor_depth": 0.05,
}
SET = {"fs": 30.0, "qms": 5.0, "qes": 0.45, "re": 3.5, "vas": 0.06, "sd": 0.049}


def carcass(**changes) -> Carcass:
    """An invented plain box."""
    return Carcass(**{"profile": SQUARE, "width": 0.5, "thickness": T, **changes})


def braced(brace) -> Carcass:
    """The plain box with one brace."""
    return carcass(braces=(brace,))


def run(**changes) -> Run:
    """A run of an invented tree."""
    return Run(**{"id": "P07", "start": "a", "end": "b", "length": 2.0, "conductor": None,
                  "return_path": None, "zone": "cabin", **changes})  # fmt: skip


def tree(**changes) -> Tree:
    """An invented tree of two nodes."""
    nodes = (Node(id="a", kind="battery"), Node(id="b"))
    source = Source(id="battery", node="a", kind="starter battery", emf=12.7)
    return Tree(**{"nodes": nodes, "sources": (source,), "runs": (run(),), **changes})


def fuse(**changes) -> Fuse:
    """An invented fuse."""
    return Fuse(**{"kind": "blade type E", "rating": 60.0, **changes})


def amplifier(**changes) -> Amplifier:
    """An invented amplifier."""
    return Amplifier(
        **{"id": "Amp", "stage": AmplifierClass.D, "rated_output": 500.0, "efficiency": 0.8}
        | changes
    )


def lay(parts=(), **changes):
    """Lay parts on an invented sheet."""
    sheet = Sheet(name="board", length=2.4, width=1.2)
    return nest(parts, sheet, **{"kerf": 0.003, "trim": 0.01, **changes})


Case = tuple[Callable[[], object], str]
WOOD: dict[str, Case] = {
    "crosses": (lambda: Profile(points=((0, 0), (0.3, 0.4), (0.3, 0), (0, 0.4))), "crosses"),
    "clockwise": (lambda: Profile(points=SQUARE.points[::-1]), "clockwise"),
    "two corners": (lambda: Profile(points=((0, 0), (1, 0))), "3 corners"),
    "no number": (lambda: Profile(points=((0, 0), (math.nan, 0), (1, 1))), "not a number"),
    "straight": (
        lambda: Profile(points=((0, 0), (0.2, 0), (0.4, 0), (0.4, 0.3), (0, 0.3))),
        "straight",
    ),
    "no height": (lambda: shapes.rectangle_profile(0.4, 0.0), "height is 0 mm"),
    "no width": (lambda: carcass(width=0.0), "width is 0 mm"),
    "no wood": (lambda: carcass(thickness=(0.0, T, T, T)), "bottom, thickness: 0 mm"),
    "too few walls": (lambda: carcass(thickness=(T, T)), "thickness: 2 values for 4 edges"),
    "too thick": (lambda: carcass(thickness=0.2), "200 mm"),
    "sides too thick": (lambda: carcass(width=0.03), "wide"),
    "slope": (lambda: shapes.leaning_rear_profile(0.4, 0.3, math.radians(95)), "95°"),
    "slope to the front": (
        lambda: shapes.leaning_rear_profile(0.4, 0.3, math.radians(60)),
        "below the top",
    ),
    "step": (
        lambda: shapes.step_profile(depth=0.4, height=0.3, step_depth=0.5, step_height=0.1),
        "500 mm; it must be less than depth, 400 mm",
    ),
    "rebate": (lambda: carcass(cheek_joint="rebate", cheek_rebate=0.02), "20 mm deep"),
    "rebate in a wall": (
        lambda: panels(carcass(joints=(Joint(kind="rebate", through="before", depth=0.02),) * 4)),
        "20 mm deep",
    ),
    "mitre": (lambda: carcass(cheek_joint="mitre"), "every corner"),
    "joints": (lambda: carcass(joints=(Joint(),)), "1 joints are given for 4 corners"),
    "no such side": (
        lambda: carcass(contents=(Placed(part=RoundPart(**PART), face="riser"),)),
        "no side riser; it has bottom, rear, top, front, left, right",
    ),
    "strut outside": (
        lambda: braced(Strut(name="strut 1", at=(0.0, 0.1), breadth=0.04, thickness=T)),
        "strut 1 does not lie inside",
    ),
    "strut beyond": (
        lambda: braced(
            Shelf(name="strut 1", start=(0.1, 0.1), end=(0.2, 0.1), thickness=T, span=(0.4, 0.6))
        ),
        "400 mm to 600 mm",
    ),
    "window": (
        lambda: braced(
            CrossBrace(
                name="plate 1", at=0.2, thickness=T, windows=(rectangle(0.0, 0.1, 0.1, 0.2),)
            )
        ),
        "plate 1",
    ),
    "motor": (lambda: RoundPart(**{**PART, "motor_diameter": 0.21}), "210 mm across"),
    "flange": (lambda: RoundPart(**{**PART, "flange_diameter": 0.19}), "190 mm across"),
    "no depth": (lambda: RoundPart(**{**PART, "basket_depth": 0.0}), "basket depth: 0 mm"),
    "first leg": (
        lambda: PortBody(name="port", width=0.1, wall=0.003, legs=(Leg(heading="+u", length=0.1),)),
        "first piece of port",
    ),
    "no leg": (lambda: Leg(heading="in", length=0.0), "length of the port is 0 mm"),
    "nothing left": (
        lambda: carcass(contents=(Placed(part=RoundPart(**PART, displacement=0.1), face="front"),)),
        "99.4",
    ),
    "gap": (lambda: Cavity(profile=SQUARE, width=0.5, gap=0.2), "200 mm"),
    "negative gap": (lambda: Cavity(profile=SQUARE, width=0.5, gap=-0.01), "zero or more"),
    "opening": (lambda: Opening(width=0.0, height=0.3), "width of the opening"),
    "obstacle": (
        lambda: Obstacle(name="Rad", points=((0, 0), (1, 1), (1, 0), (0, 1))),
        "“Rad” encloses nothing",
    ),
    "obstacle inside out": (
        lambda: Obstacle(name="Rad", points=((0, 0), (1, 0), (1, 1)), start=0.5, end=0.2),
        "“Rad” ends at 200 mm, before it begins at 500 mm",
    ),
    "walls meet": (
        lambda: four_sided_taper(bottom=(0.4, 0.4), top=(0.001, 0.001), height=0.3, thickness=T),
        "less",
    ),
    "level plate beyond": (
        lambda: replace(
            four_sided_taper(bottom=(0.4, 0.4), top=(0.3, 0.3), height=0.3, thickness=T),
            braces=(CrossBrace(name="brace 1", at=0.29, thickness=T),),
        ),
        "290 mm to 308 mm up",
    ),
    "trim": (
        lambda: lay([Blank(number=1, name="front", length=0.3, width=0.2)], trim=0.7),
        "with 700 mm trimmed off each edge",
    ),
    "kerf": (lambda: lay(kerf=-0.001), "the kerf is -1 mm"),
    "no parts": (lay, "there is no part to lay on the sheet board"),
    "beyond the sheet": (
        lambda: lay([Blank(number=1, name="front", length=3.0, width=0.1)]),
        "the part front, 3000 mm by 100 mm, is larger than the sheet board",
    ),
    "beyond the grain": (
        lambda: lay([Blank(number=1, name="front", length=0.1, width=1.3, keep_grain=True)]),
        "is larger along the grain",
    ),
    "no size": (lambda: Sheet(name="board", length=0.0, width=1.2), "measures 0 mm"),
}
SOUND: dict[str, Case] = {
    **SWEEPS,
    **RECORDINGS,
    "too much filling": (
        lambda: Sealed(volume=0.03, fill=1.6),
        "filling gain: 1.6; asked for: 1 to 1.4",
    ),
    "no volume": (
        lambda: Sealed(volume=-0.03),
        "net volume: -30 L; asked for: more than zero",
    ),
    "too little": (lambda: complete_driver(fs=30.0), "not known: Qms, Qes, Re, Vas, Sd"),
    "Qts": (
        lambda: complete_driver(fs=30, qts=0.6, qes=0.5, qms=4, re=3, vas=0.03, sd=0.03),
        "Qts is given as 0.6, but the other figures ask for less than 0.5",
    ),
    "strikes": (
        lambda: Driver(**SET, xmax=0.014, xmech=0.01),
        "Xmech is given as 10 mm, but the other figures ask for at least 14 mm",
    ),
    "port": (
        lambda: port_for_tuning(120.0, volume=0.06, opening=RoundOpening(diameter=0.05)),
        "this opening cannot be tuned to 120 Hz",
    ),
    "second port": (
        lambda: port_for_tuning(36.0, volume=0.06, opening=RoundOpening(diameter=0.1), beside=0.03),
        "this box cannot be tuned to 36 Hz: its second port alone tunes it to 38.6 Hz",
    ),
    "half a driver": (
        lambda: combine(Driver(**SET), series=1.5),  # type: ignore[arg-type]
        "drivers in series: 1.5; asked for: a whole number",
    ),
    "pairs": (
        lambda: combine(Driver(**SET), parallel=3, isobaric=True),
        "drivers in isobaric pairs: 3; asked for: an even number",
    ),
    "coils": (
        lambda: wire_coils(Driver(**SET), stated="series", wired="crossed"),
        "asked for: single, in series or in parallel",
    ),
    "order": (
        lambda: Filter(family=Family.BUTTERWORTH, passes=Passes.LOW, order=9, corner=80.0),
        "order of the filter: 9; asked for: 1 to 8",
    ),
    "even order": (
        lambda: Filter(family=Family.LINKWITZ_RILEY, passes=Passes.LOW, order=3, corner=80.0),
        "order of a Linkwitz–Riley filter: 3; asked for: 2, 4, 6 or 8",
    ),
    "delay": (lambda: Way(delay=-0.001), "delay: -1 ms; asked for: zero or more"),
    "level": (lambda: Way(level=math.nan), "level: not a number; asked for: a number"),
    "no port": (
        lambda: port_for_tuning(30.0, volume=0.06, opening=RoundOpening(diameter=0.1), count=0),
        "number of ports: 0; asked for: at least 1",
    ),
    "vent": (lambda: Vent(area=0.0, effective_length=0.3), "area of the port: "),
    "one point": (
        lambda: TransferCurve(frequency=np.array([20.0]), level=np.array([1.0])),
        "transfer curve: 1; asked for: at least two lines, columns of equal length",
    ),
    "falling": (
        lambda: TransferCurve(frequency=np.array([20.0, 10.0]), level=np.array([1.0, 1.0])),
        "transfer curve: unknown; asked for: numbers that rise from line to line",
    ),
    "coarse": (partial(measured, [5.0, 6.0, 5.0]), "not enough points across the resonance near"),
    "two peaks": (
        partial(
            measured, [4.0] * 6 + [6, 12, 30, 12, 6] + [4.0] * 6 + [6, 12, 30, 12, 6] + [4.0] * 6
        ),
        "the sweep has two peaks",
    ),
    "no driver": (partial(in_other_units, decibels=True), "no single driver has such an impedance"),
    "radians": (partial(in_other_units, radians=True), "it looks like radians"),
    "kilohertz": (partial(in_other_units, hertz=0.001), "are the columns hertz and ohms"),
    "no peak": (partial(measured, [5.0] * 40), "no resonance peak inside the sweep"),
    "a word": (
        lambda: parse_columns("20\t8\n" * 6 + "hundred\t8\n"),
        "line 7 of the text cannot be read",
    ),
}
WIRES: dict[str, Case] = {
    "no length": (
        lambda: run(length=0.0),
        "length: 0 mm; asked for: 1 mm to 1000000 mm",
    ),
    "back to its start": (
        lambda: run(end="a"),
        "end of run, P07: a; asked for: another end than its start",
    ),
    "bundle": (
        lambda: run(bundled=0),
        "current-carrying cables in the bundle: 0; asked for: 1 to 1000",
    ),
    "air": (lambda: run(ambient=300.0), "asked for: -60 °C to 150 °C"),
    "joints": (lambda: run(joints=-0.01), "resistance of the joints: "),
    "no such node": (
        lambda: tree(runs=(run(end="c"),)),
        "node, P07: c; asked for: one of the nodes",
    ),
    "twice": (
        lambda: tree(runs=(run(), run())),
        "label of a run: P07; asked for: a label used once",
    ),
    "voltage": (
        lambda: Source(id="battery", node="a", kind="starter battery", emf=0.0),
        "open-circuit voltage: 0 V; asked for: 1 V to 60 V",
    ),
    "cold cranking": (
        lambda: Source(
            id="battery", node="a", kind="starter battery", emf=12.7, cold_cranking=-1.0
        ),
        "cold cranking current: -1 A; asked for: more than zero",
    ),
    "kind of load": (
        lambda: Load(id="Amp", node="b", kind="lamp", value=1.0),
        "kind of load: lamp; asked for: amplifier, power, current or resistance",
    ),
    "current": (
        lambda: Load(id="Amp", node="b", kind="current", value=-3.0),
        "current it takes: -3 A; asked for: zero or more",
    ),
    "efficiency": (
        lambda: Load(id="Amp", node="b", kind="amplifier", value=500.0, efficiency=1.2),
        "efficiency at rated power: 1.2; asked for: 0.01 to 1",
    ),
    "draw": (
        lambda: Load(id="Amp", node="b", kind="power", value=None).draw("worst"),
        "power it takes, Amp: unknown; asked for: an entry",
    ),
    "zone": (
        lambda: run(zone="attic"),
        "zone: attic; asked for: engine bay, cabin, under the carpet, boot or outside",
    ),
    "rating": (lambda: fuse(rating=0.0), "fuse rating: 0 A; asked for: more than zero"),
    "multiple": (
        lambda: fuse(opening=((0.9, 1.0),)),
        "multiple of the fuse rating: 0.9; asked for: more than 1",
    ),
    "opens later": (
        lambda: fuse(opening=((2.0, 1.0), (4.0, 2.0))),
        "points of the opening curve: 4; asked for: more current never opens later",
    ),
    "distance": (
        lambda: FittedFuse(fuse=fuse(), distance=-1.0),
        "distance to the fuse: -1000 mm; asked for: zero or more",
    ),
    "AWG": (lambda: awg_area("5/0"), "size in AWG: 5/0; asked for: 4/0 to 30"),
    "SAE": (lambda: sae("5"), "size in SAE: 5; asked for: "),
    "metal": (
        lambda: Conductor(
            system="awg", size="4", area=21e-6, resistance_20=8e-4, metal="tin", insulation=105
        ),
        "metal: tin; asked for: copper, copper-clad aluminium or aluminium",
    ),
    "class": (
        lambda: Conductor(
            system="awg", size="4", area=21e-6, resistance_20=8e-4, metal="copper", insulation=900
        ),
        "insulation temperature class: 900 °C; asked for: 0 °C to ",
    ),
    "label": (lambda: split_label("X01"), "label of a run: X01; asked for: P, S, L or C and two"),
    "colour": (lambda: colour_names("XX"), "colour (IEC 60757): XX; asked for: pairs out of BK,"),
    "class AB": (
        lambda: amplifier(stage=AmplifierClass.AB, efficiency=0.9),
        "class AB: 0.9; asked for: at most 0.785, the ideal class B stage",
    ),
    "efficiency of an amplifier": (
        lambda: amplifier(efficiency=0.0),
        "efficiency at rated power: 0; asked for: more than 0 and at most 1",
    ),
    "idle": (
        lambda: amplifier(idle_power=900.0),
        "power without music (idle current × 14.4 V): 900 W; asked for: 0 W to 125 W",
    ),
    "Peukert": (
        lambda: Battery(capacity=2e5, rated_time=72e3, peukert=0.8, usable_share=0.5),
        "Peukert exponent: 0.8; asked for: 1 to 1.6",
    ),
    "hot": (
        lambda: Alternator(rated_current=90.0, idle_current=40.0, hot_factor=1.4),
        "share left when hot: 1.4; asked for: 0 to 1",
    ),
}
CASES: dict[str, Case] = {
    f"{room}: {name}": case
    for room, cases in (("wood", WOOD | FLOORS), ("sound", SOUND), ("wires", WIRES))
    for name, case in cases.items()
}
