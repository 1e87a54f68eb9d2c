"""A slot port whose walls are the box's panels and boards: along one, round the far one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely.geometry import Polygon
from shapely.geometry.polygon import orient
from shapely.ops import unary_union

from acoustics.carcass.shape.contents import Heading, Leg, Placed, PortBody
from acoustics.carcass.shape.errors import PlacementError, metres
from acoustics.carcass.shape.faces import CHEEKS, check_face
from acoustics.carcass.shape.inside.slab import Slab
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Point, positive
from acoustics.errors import Id
from acoustics.names import Name

# Further than any box reaches [m].
FAR = 100.0
# Walls that are off square by less than this are square to a saw [-].
SQUARE = 1e-6
# Two corners closer than this are one [m].
SAME = 1e-7


@dataclass(frozen=True, kw_only=True)
class WallSlot:
    """A slot port as it is described.

    Attributes:
        face: the face its mouth is in.
        wall: the wall it lies along, square to that face: a wall of the profile, left or right.
        height: its inner extent away from that wall [m].
        width: its inner extent along that wall, None from wall to wall [m].
        side: the cheek it touches too, left or right; None for the middle, or from wall to wall.
        length: its centre line from the outer face of the box [m].
        bent: whether it turns round the far wall.
        thickness: of its boards [m].

    Raises:
        ProfileError: when a length is not greater than 0 m.

    Source: common practice, no source.
    """

    face: str
    wall: str
    height: float
    width: float | None = None
    side: str | None = None
    length: float
    bent: bool = False
    thickness: float

    def __post_init__(self) -> None:
        positive(Name.PORT_HEIGHT, self.height)
        positive(Name.PORT_LENGTH, self.length)
        positive(Name.THICKNESS, self.thickness)
        if self.width is not None:
            positive(Name.PORT_WIDTH, self.width)

    @property
    def shared(self) -> int:
        """How many walls of the box are walls of the slot.

        Returns: number of walls, 1 to 3 [-]
        """
        if self.width is None or self.wall in CHEEKS:
            return 3
        return 1 if self.side is None else 2


@dataclass(frozen=True, kw_only=True)
class BoardedSlot:
    """A slot port as it is built.

    Attributes:
        boards: the boards to cut.
        placed: the port in its face; it takes the air between its boards.
    """

    boards: tuple[Slab, ...]
    placed: Placed


@dataclass(frozen=True, kw_only=True)
class _Side:
    """A line of the air's side view: a point on it, along it, and into the air."""

    point: Point
    along: Point
    inward: Point

    def off(self, point: Point) -> float:
        """How far a point lies in from the line."""
        return _dot(_minus(point, self.point), self.inward)

    def band(self, low: float, high: float) -> Polygon:
        """Everything between two distances in from the line."""
        ends = ((-FAR, low), (FAR, low), (FAR, high), (-FAR, high))
        return Polygon([_plus(self.point, self.along, s, self.inward, off) for s, off in ends])


def _dot(a: Point, b: Point) -> float:
    return a[0] * b[0] + a[1] * b[1]


def _minus(a: Point, b: Point) -> Point:
    return a[0] - b[0], a[1] - b[1]


def _plus(point: Point, a: Point, s: float, b: Point, t: float) -> Point:
    return point[0] + s * a[0] + t * b[0], point[1] + s * a[1] + t * b[1]


def _side(carcass: Carcass, name: str) -> _Side:
    air = carcass.air_profile
    edge = air.index(name)
    ex, ey = air.direction(edge)
    return _Side(point=air.points[edge], along=(ex, ey), inward=(-ey, ex))


def slot_opening(carcass: Carcass, slot: WallSlot) -> tuple[float, float, float]:
    """Return how wide and high the bore of a slot is, and the room from its wall to the opposite.

    Args:
        carcass: the box without it.
        slot: the slot.

    Returns: width along its wall, height and room [m]

    Raises:
        PlacementError: when it opens in a cheek, or is higher or wider than the box.

    Source: definition.
    """
    start, end = carcass.air_span
    air = carcass.air_profile
    if slot.face in CHEEKS:
        sides = tuple(map(Id, air.names))
        raise PlacementError(code="slot-mouth-in-cheek", face=Id(slot.face), sides=sides)
    check_face(slot.face, air.names)
    check_face(slot.wall, (*air.names, *CHEEKS))
    if slot.wall in CHEEKS:
        width, room, across = air.length(air.index(slot.face)), end - start, 0.0
    else:
        room = max(_side(carcass, slot.wall).off(point) for point in air.points)
        width = end - start if slot.width is None else slot.width
        across = 0.0 if slot.width is None else width + (3 - slot.shared) * slot.thickness
    if slot.height + slot.thickness >= room:
        raise PlacementError(
            code="slot-higher-than-box",
            height=metres(slot.height + slot.thickness),
            room=metres(room),
        )
    if across > end - start:
        raise PlacementError(
            code="slot-wider-than-box", width=metres(across), room=metres(end - start)
        )
    return width, slot.height, room


def board_slot(carcass: Carcass, slot: WallSlot) -> BoardedSlot:
    """Return the boards of a slot port and the port in its face.

    Its length is that of the centre line: from the outer face to the middle of the bend, and on.

    Args:
        carcass: the box without it.
        slot: the slot.

    Returns: boards and port

    Raises:
        PlacementError: when its corner is not square, it is larger than the box, or it ends before
            its bend.

    Valid: mitred bends; of a bent slot along a cheek the far wall is parallel to the face.

    Source: common practice, no source.
    """
    slot_opening(carcass, slot)
    if slot.wall in CHEEKS:
        return _along_cheek(carcass, slot)
    return _along_wall(carcass, slot)


def _square(face: _Side, wall: _Side, slot: WallSlot) -> None:
    if abs(_dot(face.along, wall.along)) > SQUARE:
        raise PlacementError(
            code="slot-needs-square-corner", face=Id(slot.face), wall=Id(slot.wall)
        )


def _piece(name: str, figure: Polygon, corners: int | None) -> tuple[Point, ...]:
    """The corners of a board, refused where another wall cuts into it."""
    parts = [p for p in getattr(figure, "geoms", [figure]) if p.area > SAME**2]
    whole = parts[0].simplify(SAME) if len(parts) == 1 else None
    if whole is None or (corners and len(whole.exterior.coords) != corners + 1):
        raise PlacementError(code="slot-board-cut", name=Id(name))
    return tuple((float(x), float(y)) for x, y in orient(whole).exterior.coords[:-1])


def _boards(
    slot: WallSlot, figures: Sequence[tuple[Polygon, tuple[float, float], Point | None]]
) -> list[Slab]:
    """The boards of these figures over their stretches; one with a way is a plain rectangle."""
    return [
        Slab(
            name=f"port board {number}",
            outline=_piece(f"port board {number}", figure, 4 if way else None),
            span=span,
            thickness=slot.thickness,
            way=way,
        )
        for number, (figure, span, way) in enumerate(figures, start=1)
    ]


def _legs(slot: WallSlot, deep: float, run: float) -> tuple[float, float]:
    """How long it is to the middle of its bend, so far in from a face so deep, and from there."""
    legs = (deep + run, slot.length - deep - run)
    bend = slot.height / 2 + slot.thickness
    if legs[1] <= bend:
        raise PlacementError(
            code="port-shorter-than-bend",
            name=Id("port"),
            length=metres(slot.length),
            straight=metres(legs[0] + bend),
        )
    return legs


def _along_wall(carcass: Carcass, slot: WallSlot) -> BoardedSlot:
    air, (start, end) = carcass.air_profile.polygon, carcass.air_span
    face, wall = _side(carcass, slot.face), _side(carcass, slot.wall)
    _square(face, wall, slot)
    h, t, deep = slot.height, slot.thickness, carcass.face(slot.face).thickness
    low, high = start, end
    if slot.width is not None:
        low = {"left": start, "right": end - slot.width}.get(
            slot.side or "", (start + end - slot.width) / 2
        )
        high = low + slot.width
    strip, over = air & wall.band(0.0, h), wall.band(h, h + t)
    if slot.bent:
        bore, figures, legs, up = _round_far_wall(carcass, slot, face, wall)
    else:
        reach = face.band(-FAR, slot.length - deep)
        bore, figures = strip & reach, [(air & over & reach, wall.along)]
        legs, up = (slot.length,), (0.0, 0.0)
    boards = _boards(slot, [(figure, (low, high), way) for figure, way in figures])
    cheek = unary_union([bore, *(figure for figure, _way in figures)])
    for beside in (
        (low - t, low) if slot.shared == 1 or slot.side == "right" else None,
        (high, high + t) if slot.shared == 1 or slot.side == "left" else None,
    ):
        if slot.width is not None and beside:
            name = f"port board {len(boards) + 1}"
            outline = _piece(name, cheek.buffer(SAME).buffer(-SAME), None)
            boards.append(Slab(name=name, outline=outline, span=beside, thickness=t))
    frame = carcass.face(slot.face).frame
    mouth = _plus(_corner(face, wall), wall.inward, h / 2, face.inward, 0.0)
    heading: Heading = "+v" if up[0] * frame.v[0] + up[1] * frame.v[1] > 0 else "-v"
    spot = (mouth[0], mouth[1], (low + high) / 2)
    size = (high - low, h)
    return _built(carcass, slot, boards, spot, size, legs, heading, bore.area * (high - low))


def _corner(face: _Side, wall: _Side) -> Point:
    """Where two lines that are square to each other meet."""
    return _plus(wall.point, face.inward, -face.off(wall.point), wall.inward, 0.0)


def _round_far_wall(
    carcass: Carcass, slot: WallSlot, face: _Side, wall: _Side
) -> tuple[Polygon, list[tuple[Polygon, Point]], tuple[float, ...], Point]:
    """The bore of a bent slot, its two boards with their ways, its legs and where it turns."""
    profile = carcass.air_profile
    air, names = profile.polygon, profile.names
    edge = profile.index(slot.wall)
    beside = (names[edge - 1], names[(edge + 1) % len(names)])
    far = _side(carcass, beside[0] if beside[1] == slot.face else beside[1])
    h, t, deep = slot.height, slot.thickness, carcass.face(slot.face).thickness
    up = far.along if _dot(far.along, wall.inward) > 0 else (-far.along[0], -far.along[1])
    # The centre lines meet h / 2 off both walls.
    lean = _dot(face.inward, far.inward)
    middle = _plus(_corner(face, wall), wall.inward, h / 2, face.inward, 0.0)
    run = (h / 2 - far.off(middle)) / lean
    bend = _plus(middle, face.inward, run, wall.inward, 0.0)
    legs = _legs(slot, deep, run)
    ends = _Side(point=bend, along=far.inward, inward=up).band(-FAR, legs[1])
    bore = unary_union([air & wall.band(0.0, h), air & far.band(0.0, h) & ends])
    first = air & wall.band(h, h + t) & far.band(h, FAR)
    second = air & far.band(h, h + t) & wall.band(h + t, FAR) & ends
    return bore, [(first, wall.along), (second, far.along)], legs, up


def _along_cheek(carcass: Carcass, slot: WallSlot) -> BoardedSlot:
    profile, (start, end) = carcass.air_profile, carcass.air_span
    air, face = profile.polygon, _side(carcass, slot.face)
    h, t, deep = slot.height, slot.thickness, carcass.face(slot.face).thickness
    left = slot.wall == "left"

    def across(near: float, far: float) -> tuple[float, float]:
        """A stretch of the width, counted from the cheek it lies along."""
        return (start + near, start + far) if left else (end - far, end - near)

    legs: tuple[float, ...] = (slot.length,)
    if slot.bent:
        far = _opposite(carcass, slot, face)
        run = face.off(far.point) - h / 2
        legs = _legs(slot, deep, run)
        last = h / 2 + legs[1]
        turned = air & far.band(0.0, h)
        figures = [
            (air & far.band(h, FAR), across(h, h + t), None),
            (air & far.band(h, h + t), across(h + t, last), far.along),
        ]
        taken = air.area * h + turned.area * (last - h)
    else:
        bore = air & face.band(-FAR, slot.length - deep)
        figures = [(bore, across(h, h + t), None)]
        taken = bore.area * h
    boards = _boards(slot, figures)
    edge = profile.index(slot.face)
    x, y = profile.points[edge]
    high = profile.length(edge)
    middle = _plus((x, y), face.along, high / 2, face.inward, 0.0)
    sideways = carcass.face(slot.face).frame.u[2] * (1.0 if left else -1.0)
    heading: Heading = "+u" if sideways > 0 else "-u"
    spot = (*middle, sum(across(0.0, h)) / 2)
    return _built(carcass, slot, boards, spot, (h, high), legs, heading, taken)


def _opposite(carcass: Carcass, slot: WallSlot, face: _Side) -> _Side:
    """The far wall that faces the face of the slot square on."""
    sides = [_side(carcass, name) for name in carcass.air_profile.names if name != slot.face]
    square = [side for side in sides if _dot(side.inward, face.inward) < -1 + SQUARE]
    if not square:
        raise PlacementError(
            code="slot-needs-square-corner", face=Id(slot.face), wall=Id(slot.wall)
        )
    return max(square, key=lambda side: face.off(side.point))


def _built(
    carcass: Carcass,
    slot: WallSlot,
    boards: list[Slab],
    spot: tuple[float, float, float],
    size: tuple[float, float],
    legs: tuple[float, ...],
    heading: Heading,
    taken: float,
) -> BoardedSlot:
    frame = carcass.face(slot.face).frame
    from_origin = [a - b for a, b in zip(spot, frame.origin, strict=True)]
    u, v = (
        sum(a * b for a, b in zip(from_origin, axis, strict=True)) for axis in (frame.u, frame.v)
    )
    headings: tuple[Heading, ...] = ("in", heading)
    port = PortBody(
        name="port",
        width=size[0],
        height=size[1],
        wall=slot.thickness,
        legs=tuple(
            Leg(heading=way, length=length) for way, length in zip(headings, legs, strict=False)
        ),
        boarded=float(taken),
        mass=0.0,
    )
    return BoardedSlot(boards=tuple(boards), placed=Placed(part=port, face=slot.face, u=u, v=v))
