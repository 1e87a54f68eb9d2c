"""Boxes looked for in cavities, stood in them and held against them."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

import numpy as np
from shapely.geometry import Polygon, box

from acoustics.carcass.cavity.cavity import Cavity, Obstacle, Opening, check_cavity
from acoustics.carcass.cavity.fit import fit
from acoustics.carcass.cavity.fit_build import Stock, named, turned
from acoustics.carcass.cavity.fit_terms import Answer, Fit, Wanted
from acoustics.carcass.cavity.place_in_cavity import stand
from acoustics.carcass.cavity.windows import area_within, edges_of, ends_at, right_end
from acoustics.carcass.room.arrange import Load
from acoustics.carcass.room.clearance import Clearances
from acoustics.carcass.shape.contents import PortBody
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.shapes import rectangle_profile
from tests.acoustics.carcass.scenes.bodies import wedge
from tests.acoustics.carcass.scenes.parts import MID, PASSIVE, SUB, TUBE
from tests.acoustics.carcass.scenes.tapers import pyramid
from tests.told import findings, row, rows

BOOT = Cavity(
    profile=Profile(points=((0.0, 0.0), (0.55, 0.0), (0.62, 0.2), (0.45, 0.52), (0.0, 0.5))),
    width=0.95,
    gap=0.005,
    opening=Opening(width=0.8, height=0.48),
)
ARCH = Obstacle(
    name="arch",
    points=((0.3, 0.0), (0.6, 0.0), (0.6, 0.2), (0.3, 0.2)),
    start=0.7,
)
HINGE = Obstacle(
    name="hinge",
    points=((0.1, 0.42), (0.2, 0.42), (0.2, 0.55), (0.1, 0.55)),
    start=0.0,
    end=0.06,
)
ACROSS = Obstacle(name="beam", points=((0.25, 0.4), (0.4, 0.4), (0.4, 0.46), (0.25, 0.46)))
OBSTRUCTED = replace(BOOT, obstacles=(ARCH, HINGE))
BEAMED = replace(BOOT, obstacles=(ACROSS,), gap=0.01)
WELL = Cavity(
    profile=Profile(
        points=tuple((0.3 * math.cos(n * math.tau / 17), 0.3 * math.sin(n * math.tau / 17))
                     for n in range(17))
    ),
    width=0.25,
    gap=0.003,
)  # fmt: skip
# Corners that hardly turn and edges shorter than a board is thick: a section leaves them out.
BUMPY = Cavity(
    profile=Profile(
        points=((0.0, 0.0), (0.3, -0.0004), (0.6, 0.0), (0.608, 0.004), (0.53, 0.25), (0.43, 0.501),
                (0.42, 0.51), (0.2, 0.505), (0.0, 0.4))
    ),
    width=0.8,
)  # fmt: skip
# Between them a box that narrows upwards stands in the middle only.
BESIDE = tuple(
    Obstacle(
        name=name, points=((-0.1, 0.2), (0.7, 0.2), (0.7, 0.6), (-0.1, 0.6)), start=start, end=end
    )
    for name, start, end in (("left", -0.1, 0.195), ("right", 0.755, None))
)
STOCK = Stock(thickness=0.018, layers=2, density=690.0, grain="across")
BASS = Wanted(net_volume=0.055, stock=STOCK, load=Load(driver=SUB))


def _answer(answer: Answer) -> Mapping[str, object]:
    body = answer.carcass
    plan = getattr(body, "plan", body.profile)
    return {
        "is": row(answer.kind, answer.best_at, answer.face, answer.z, answer.space, answer.bevels),
        "size": row(answer.size, answer.net_volume, answer.wood),
        "outline": row(plan.names, plan.points),
        "contents": row((p.face, p.u, p.v) for p in body.contents),
    }


def _fit(cavity: Cavity, wanted: Wanted) -> Mapping[str, object]:
    fits: Fit = fit(cavity, wanted)
    return {
        "answers": {str(n): _answer(answer) for n, answer in enumerate(fits.answers)},
        "largest": "none" if fits.largest is None else _answer(fits.largest),
        "smallest": "none" if fits.smallest is None else _answer(fits.smallest),
        "limits": rows(
            (x.what, x.volume, x.finding and (x.finding.code, x.finding.value, x.finding.limit))
            for x in fits.limits
        ),
        "turned": {x.facing: _answer(x.answer) for x in fits.turned},
    }


def fits() -> Mapping[str, object]:
    """Show what is suggested for a boot, facing each way, with ports and round things."""
    ported = Load(driver=replace(MID, bolt_circle_diameter=0.1355), drivers=2, port=TUBE)
    sideways = Load(driver=SUB, port=replace(TUBE, width=0.05), port_face="right")
    return {
        "front": _fit(BOOT, BASS),
        "rear": _fit(OBSTRUCTED, replace(BASS, facing="rear", net_volume=0.04)),
        "top": _fit(OBSTRUCTED, replace(BASS, facing="top", net_volume=0.03)),
        "side": _fit(BEAMED, replace(BASS, facing="side", net_volume=0.03)),
        "ported": _fit(BOOT, Wanted(net_volume=0.03, stock=Stock(thickness=0.015), load=ported)),
        "well": _fit(WELL, Wanted(net_volume=0.02, stock=Stock(thickness=0.015), facing="top")),
        "bumpy": _fit(BUMPY, replace(BASS, net_volume=0.09)),
        "over an arch": _fit(
            replace(OBSTRUCTED, obstacles=(replace(ARCH, start=0.3, end=0.7),)),
            Wanted(net_volume=0.07, stock=STOCK, load=sideways),
        ),
        "sideways": _fit(BOOT, replace(BASS, load=sideways, net_volume=0.04)),
    }


def limits() -> Mapping[str, object]:
    """Show what is said where nothing goes in."""
    shallow = replace(BOOT, profile=rectangle_profile(0.18, 0.5), opening=None)
    deep = replace(SUB, motor_depth=0.09)
    long = Load(driver=replace(MID, motor_depth=0.09, bolt_circle_diameter=0.1355))
    return {
        "too large": _fit(OBSTRUCTED, replace(BASS, net_volume=0.19)),
        "too deep": _fit(shallow, replace(BASS, load=Load(driver=deep), net_volume=0.01)),
        "turned": _fit(
            replace(shallow, profile=rectangle_profile(0.185, 0.4)),
            Wanted(net_volume=0.01, stock=Stock(thickness=0.022, layers=2), load=long),
        ),
        "no wood": _fit(BOOT, replace(BASS, load=Load(driver=MID), clearances=Clearances(
            wood_at_screw=0.01))),
        "tiny": _fit(BOOT, replace(BASS, net_volume=0.004)),
        "small opening": _fit(
            replace(BOOT, opening=Opening(width=0.3, height=0.2)), replace(BASS, net_volume=0.03)
        ),
    }  # fmt: skip


def rooms() -> Mapping[str, object]:
    """Show the rooms between obstacles and what stands in them."""
    holed = replace(BOOT, obstacles=(
        Obstacle(name="pillar", points=((0.2, 0.15), (0.3, 0.15), (0.3, 0.3), (0.2, 0.3))),
    ))  # fmt: skip
    out: dict[str, object] = {}
    cavities = {"open": BOOT, "obstructed": OBSTRUCTED, "beamed": BEAMED, "holed": holed}
    for name, cavity in cavities.items():
        out[name] = rows(
            (room.start, room.end, room.width, room.region.area, room.region.bounds)
            for room in cavity.rooms()
        )
    bodies = {
        "wedge": wedge(),
        "pyramid": pyramid(),
        "small": Carcass(profile=rectangle_profile(0.25, 0.2), width=0.3, thickness=0.012),
        "long": Carcass(profile=rectangle_profile(0.3, 0.3), width=0.94, thickness=0.012),
        "large": Carcass(profile=rectangle_profile(0.6, 0.45), width=0.9, thickness=0.012),
    }
    for name, body in bodies.items():
        # A pyramid that fits nowhere comes as near in one corner as in another.
        there = ("open", "obstructed") if name == "pyramid" else cavities
        out[f"{name} stands"] = row(stand(body, cavities[of]) for of in there)
        for where in ((0.05, 0.02, 0.1), (0.2, 0.005, 0.3), (-0.01, 0.3, 0.0)):
            x, y, z = where
            out[f"{name} at {row(where)}"] = findings(check_cavity(body, OBSTRUCTED, x=x, y=y, z=z))
    between = replace(BOOT, profile=rectangle_profile(0.6, 0.5), obstacles=BESIDE)
    out["between"] = row(stand(pyramid(), between), stand(bodies["small"], between))
    opening = Opening(width=0.4, height=0.3)
    sizes = (
        (0.3, 0.29, 0.5),
        (0.45, 0.1, 0.6),
        (0.48, 0.1, 0.6),
        (0.4, 0.5, 0.45),
        (0.02, 0.49, 0.7),
    )
    out["passes"] = row((opening.passes(*s), opening.passes_turned(*s)) for s in sizes)
    return out


def windows() -> Mapping[str, object]:
    """Show areas within windows, ends and turns of outlines."""
    shape = Polygon(
        ((0.0, 0.0), (0.5, 0.1), (0.6, 0.5), (0.1, 0.6)), [((0.2, 0.2), (0.3, 0.2), (0.25, 0.3))]
    )
    edges = edges_of(shape.union(box(0.8, 0.0, 0.9, 0.4)))
    low, high = np.array([-0.1, 0.1, 0.25]), np.array([0.3, 0.55, 1.0])
    areas = area_within(edges, (low, high), (low, high))
    out: dict[str, object] = {
        "areas": row(areas.ravel().tolist()),
        "right": row(right_end(edges, np.array([-0.1, 0.05, 0.3, 0.55, 0.7])).tolist()),
        "ends": row(*(ends.tolist() for ends in ends_at(edges, np.array([0.05, 0.3, 0.7, 0.85])))),
    }
    for facing in ("front", "rear", "top", "side"):
        piece = turned(Polygon(shape.exterior), facing)
        profile, face = named(piece, facing)
        there = turned(piece, facing, back=True)
        out[facing] = row(profile.names, profile.points, face, there.bounds)
    return out


def loads() -> Mapping[str, object]:
    """Show parts put on the faces of two bodies."""
    oblong = PortBody.straight("slot", width=0.12, height=0.04, length=0.15, wall=0.009)
    bodies = {
        "prism": Carcass(profile=rectangle_profile(0.4, 0.36), width=0.9, thickness=0.018),
        "taper": replace(pyramid(), contents=(), braces=()),
    }
    several = {
        "bare": Load(),
        "one": Load(driver=SUB),
        "two": Load(driver=MID, drivers=2, driver_at=(0.12, 0.2)),
        "row": Load(driver=SUB, port=TUBE, ports=2, second=oblong),
        "faces": Load(driver=MID, port=TUBE, port_face="right" , second=oblong,
            second_face="right"),
        "own": Load(driver=MID, port=TUBE, port_face="front"),
        "placed": Load(driver=MID, driver_at=(0.2, None), port=TUBE, ports=2, port_at=(0.1, 0.1),
                       second=oblong, second_at=(0.3, 0.3)),
        "level": Load(driver=MID, port=TUBE, port_at=(None, 0.1), second=oblong,
                      second_at=(None, 0.3)),
        "high": Load(driver=MID, port=TUBE, port_at=(None, 0.34)),
        "edge": Load(driver=MID, port=oblong, port_at=(None, 0.4)),
        "cones": Load(driver=SUB, radiator=PASSIVE, radiators=2),
        "cone": Load(driver=SUB, radiator=PASSIVE, radiators=2, radiator_face="rear"),
        "second": Load(driver=SUB, second=TUBE),
    }  # fmt: skip
    out: dict[str, object] = {}
    for name, load in several.items():
        for which, body in bodies.items():
            placed = load.arrange(body, "front")
            out[f"{name} on {which}"] = row((p.part.name, p.face, p.u, p.v) for p in placed)
        out[f"{name} takes"] = row(
            load.taken(baffle=0.036, thickness=0.018), load.least_width(0.018), load.row_of_ports
        )
    return out


SCENES = {
    "fits": fits,
    "limits": limits,
    "rooms": rooms,
    "windows": windows,
    "loads": loads,
}
