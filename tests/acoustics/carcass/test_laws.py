"""What holds of every box: twice as large, mirrored, and however it lies."""

from __future__ import annotations

from collections import Counter
from dataclasses import fields, is_dataclass, replace
from typing import Any

import pytest

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.panels.gluing import glue_order
from acoustics.carcass.panels.panel_modes import wood_fields
from acoustics.carcass.panels.standing import standing_on
from acoustics.carcass.panels.supplies import supplies
from acoustics.carcass.room.clearance import Clearances, check_contents, depth_behind
from acoustics.carcass.room.parted import check_chambers
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.braces import CrossBrace, Shelf, Strut
from acoustics.carcass.shape.bracing import strut_across, strut_between_walls
from acoustics.carcass.shape.contents import Leg, Placed, PortBody
from acoustics.carcass.shape.inside.chambers import chambers
from acoustics.carcass.shape.inside.slab import Slab
from acoustics.carcass.shape.outline import Circle
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from tests.acoustics.carcass.scenes.bodies import BODIES

# What does not grow with a box, and what grows with its volume.
NO_LENGTHS = {"leans", "density", "mass", "way", "screws"}
VOLUMES = {"displacement", "boarded"}
TWICE = 2.0
USUAL = vars(Clearances())
# How far from a port's mouth is told in its own widths.
LARGE = Clearances(**{name: TWICE * value for name, value in USUAL.items()} | {"port_mouths": 1.0})


def scaled(value: Any, by: float, name: str = "") -> Any:
    """The same thing with every length multiplied."""
    if name in NO_LENGTHS or value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, float):
        return value * by ** (3 if name in VOLUMES else 1)
    if isinstance(value, tuple):
        return tuple(scaled(member, by, name) for member in value)
    if is_dataclass(value):
        kept = {f.name: getattr(value, f.name) for f in fields(value) if f.init}
        return type(value)(**{key: scaled(part, by, key) for key, part in kept.items()})
    raise AssertionError(value)


def close(value: object) -> object:
    """Within what rounding and touching leave."""
    return pytest.approx(value, rel=1e-6, abs=1e-9)


@pytest.mark.parametrize("name", BODIES)
def test_twice_as_large_is_twice_as_long_four_times_as_wide_and_eight_times_as_heavy(name):
    """Lengths, areas and litres grow as they must; angles, names and orders stay."""
    body = BODIES[name]()
    large = scaled(body, TWICE)
    for key, value in vars(body.volumes).items():
        assert vars(large.volumes)[key] == close(8 * value)
    assert [c.volume for c in chambers(large)] == close([8 * c.volume for c in chambers(body)])
    assert [c.inside for c in chambers(large)] == [c.inside for c in chambers(body)]
    assert glue_order(large) == glue_order(body)
    for small, big in zip(panels(body), panels(large), strict=True):
        assert (big.name, big.area, big.volume) == (
            small.name, close(4 * small.area), close(8 * small.volume),
        )  # fmt: skip
        assert [(c.mate, c.longer_face, c.bevel, c.slant) for c in big.cuts] == [
            (c.mate, c.longer_face, close(c.bevel), close(c.slant)) for c in small.cuts
        ]
        assert [c.length for c in big.cuts] == close([2 * c.length for c in small.cuts])
    needed, more = supplies(body, panels(body)), supplies(large, panels(large))
    assert (more.joints, more.gasket, more.glued) == close(
        (2 * needed.joints, 2 * needed.gasket, 4 * needed.glued)
    )
    walls = [(f.panel, f.span, f.height, f.thickness) for f in wood_fields(body)]
    assert [(f.panel, f.span, f.height, f.thickness) for f in wood_fields(large)] == [
        (panel, *(pytest.approx(2 * side, abs=1e-4) for side in sides)) for panel, *sides in walls
    ]
    for small, big in zip(check_contents(body), check_contents(large, LARGE), strict=True):
        assert (big.code, big.detail) == (small.code, small.detail)
        power = 3 if small.unit == "m³" else 1
        if small.value is not None:
            assert big.value == pytest.approx(TWICE**power * small.value, abs=1e-5)


def mirrored(box: Carcass) -> Carcass:
    """The same box seen in a mirror: left is right."""
    other = {"left": "right", "right": "left"}

    def span(ends: tuple[float, float]) -> tuple[float, float]:
        return box.width - ends[1], box.width - ends[0]

    def brace(inner: Any) -> Any:
        if isinstance(inner, CrossBrace):
            return replace(inner, at=box.width - inner.at - inner.thickness)
        if isinstance(inner, Shelf | Slab) and inner.span is not None:
            return replace(inner, span=span(inner.span))
        return inner

    def placed(thing: Placed) -> Placed:
        # Across a wall mirrored; a cheek is seen from its other side, and its frame with it.
        width = box.face(thing.face).size[0]
        u = None if thing.u is None else width - thing.u
        part = thing.part
        if isinstance(part, PortBody):
            turned = {"+u": "-u", "-u": "+u"}
            legs = tuple(
                Leg(heading=turned.get(leg.heading, leg.heading), length=leg.length)
                for leg in part.legs
            )
            part = replace(part, legs=legs)
        return replace(thing, part=part, face=other.get(thing.face, thing.face), u=u)

    left, right = box.cheeks
    return replace(
        box,
        cheek_thickness=(right, left),
        layers=tuple(replace(y, face=other.get(y.face, y.face)) for y in box.layers),
        braces=tuple(brace(inner) for inner in box.braces),
        contents=tuple(placed(thing) for thing in box.contents),
    )


PRISMS = [
    name
    for name, make in BODIES.items()
    if isinstance(make(), Carcass) and name not in ("chambered", "shelved")
]


@pytest.mark.parametrize("name", PRISMS)
def test_a_box_in_a_mirror_is_the_same_box(name):
    """Litres, wood, room and findings do not know left from right."""
    box = BODIES[name]()
    seen = mirrored(box)
    assert vars(seen.volumes) == close(vars(box.volumes))
    swap = {"left": "right", "right": "left"}
    wood = {panel.name: panel for panel in panels(seen)}
    for panel in panels(box):
        stem, layer, number = panel.name.partition(" layer ")
        twin = wood[swap.get(stem, stem) + layer + number]
        assert (twin.area, twin.volume, twin.rebated) == close(
            (panel.area, panel.volume, panel.rebated)
        )
        assert Counter(_cuts(twin)) == Counter(_cuts(panel, swap))
    assert _sorted(seen) == _sorted(box)
    for ours, theirs in zip(box.contents, seen.contents, strict=True):
        if not isinstance(ours.part, PortBody):
            assert depth_behind(seen, theirs) == close(depth_behind(box, ours))
    told = [(f.code, *(swap.get(d, d) for d in f.detail)) for f in check_contents(box)]
    found = check_contents(seen)
    assert [(f.code, *f.detail) for f in found] == told
    for f, g in zip(found, check_contents(box), strict=True):
        assert f.value == (None if g.value is None else pytest.approx(g.value, abs=2e-6))
    # Rooms are counted from left to right.
    assert Counter(f.code for f in check_chambers(seen)) == Counter(
        f.code for f in check_chambers(box)
    )


def _cuts(panel: Any, names: dict[str, str] | None = None) -> list[tuple[object, ...]]:
    return [
        ((names or {}).get(c.mate, c.mate), c.joint, c.runs_through, round(c.length, 6),
         round(c.bevel, 6), c.longer_face)
        for c in panel.cuts
    ]  # fmt: skip


def _sorted(box: Body) -> list[tuple[float, ...]]:
    return sorted(
        tuple(round(x, 5) for x in (f.span, f.height, f.thickness)) for f in wood_fields(box)
    )


def turned(box: Carcass) -> Carcass:
    """The same box laid on its next side, with nothing on its faces."""

    def point(at: tuple[float, float]) -> tuple[float, float]:
        return -at[1], at[0]

    def brace(inner: Any) -> Any:
        if isinstance(inner, Shelf):
            return replace(inner, start=point(inner.start), end=point(inner.end))
        if isinstance(inner, Strut):
            return replace(
                inner, at=point(inner.at), breadth=inner.thickness, thickness=inner.breadth
            )
        if isinstance(inner, Slab):
            way = None if inner.way is None else point(inner.way)
            return replace(inner, outline=tuple(map(point, inner.outline)), way=way)
        windows = tuple(
            replace(w, centre=point(w.centre))
            if isinstance(w, Circle)
            else replace(w, points=tuple(map(point, w.points)))
            for w in inner.windows
        )
        return replace(inner, windows=windows)

    profile = Profile(points=tuple(map(point, box.profile.points)), names=box.profile.names)
    return replace(
        box, profile=profile, contents=(), braces=tuple(brace(inner) for inner in box.braces)
    )


@pytest.mark.parametrize("name", [n for n, make in BODIES.items() if isinstance(make(), Carcass)])
def test_a_box_is_the_same_on_whichever_side_it_lies(name):
    """Its wood, its cuts, what stands on what and what rings first know no up and down."""
    box = replace(BODIES[name](), contents=())
    lying, sticks = box, {brace.name for brace in box.braces if isinstance(brace, Strut)}
    for _ in range(3):
        lying = turned(lying)
        assert vars(lying.volumes) == close(vars(box.volumes))
        assert [room.volume for room in lying.rooms] == close([room.volume for room in box.rooms])
        for ours, theirs in zip(panels(box), panels(lying), strict=True):
            assert (theirs.name, theirs.volume) == (ours.name, close(ours.volume))
            if ours.name not in sticks:  # a stick lies on another of its sides
                assert theirs.area == close(ours.area)
                assert Counter(_cuts(theirs)) == Counter(_cuts(ours))
        sides = [(f.panel, *sorted((f.span, f.height))) for f in wood_fields(box)]
        found = [(f.panel, *sorted((f.span, f.height))) for f in wood_fields(lying)]
        rounded = [[(p, round(a, 5), round(b, 5)) for p, a, b in each] for each in (sides, found)]
        assert sorted(rounded[0]) == sorted(rounded[1])
        assert _strips(lying) == _strips(box)


def _strips(box: Carcass) -> Counter[tuple[str, str]]:
    boards = {brace.name for brace in box.braces}
    standing = standing_on(panels(box), boards)
    return Counter((host, strip.board) for host, strips in standing.items() for strip in strips)


def test_a_strut_is_placed_from_the_corner_of_the_outline_wherever_that_lies():
    """The same box drawn 0.1 m further back and 0.2 m higher has its struts as much further."""
    points = ((0.0, 0.0), (0.4, 0.0), (0.3, 0.35), (0.0, 0.35))
    sticks = []
    for back, up in ((0.0, 0.0), (0.1, 0.2)):
        profile = Profile(points=tuple((x + back, y + up) for x, y in points))
        bare = Carcass(profile=profile, width=0.5, thickness=0.018)
        across = strut_across("a", bare, (0.15, 0.12), breadth=0.04, thickness=0.02)
        level, upright = (
            strut_between_walls("b", bare, (0.12, 0.2), level=way, breadth=0.04, thickness=0.02)
            for way in (True, False)
        )
        ends = (across.at, level.start, level.end, upright.start, upright.end)
        sticks.append([(x - back, y - up) for x, y in ends])
    assert sticks[0][0] == (0.15, 0.12)
    assert sticks[0] == [close(at) for at in sticks[1]]
