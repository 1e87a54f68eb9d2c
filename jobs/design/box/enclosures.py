"""The acoustic load of a box record: its port, its chambers, its wood."""

from __future__ import annotations

import math
from copy import copy

from acoustics.enclosure import boxes as kinds
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.openings import Radiator, Vent
from acoustics.enclosure.port import End, Port, RectangularOpening, RoundOpening, port_for_tuning
from acoustics.errors import MissingError
from jobs.design.box import drivers
from jobs.design.box.drivers import NOTHING_MEASURED, Measured
from jobs.design.carcass.braces import is_parted
from jobs.design.carcass.carcass import Wood, build, front_volume, slot_bore, wood
from jobs.design.carcass.contents import port_diameter
from jobs.design.carcass.moulded import shell
from jobs.design.carcass.slots import is_boarded, ports, walls_shared
from jobs.design.wording.names import Needed
from jobs.models import Box
from jobs.models.box.box_kinds import Behind, kind_of

# Of the net volume: a hundredth of what a saw leaves, and no more rounds than that takes.
SETTLED = 1e-6
# Any area will do: how a tuned box plays does not depend on it, only the speed of its air.
ANY_AREA = 0.01


def wood_and_port(box: Box) -> tuple[Port | None, Wood | None]:
    """Cut the wood and size the port together: a port takes litres from the box it tunes."""
    if kind_of(box).rear_tuning and box.port_length is None and box.wanted_tuning:
        carcass, port, before = build(box, port_length=None), None, 0.0
        # The displacement of the port changes the length that tunes the box; this settles fast.
        for _ in range(8):
            net = carcass.net_volume if carcass else _measured(box, port)
            if net is None:
                return None, None
            if abs(net - before) < SETTLED * net:
                break
            port, before = _tuned_port(box, net), net
            carcass = build(box, port_length=port.length) if carcass else None
        return port, wood(box, port_length=port.length if port else None)
    port = _given_port(box)
    if kind_of(box).front_chamber:
        return port, _parted_wood(box, port)
    return port, wood(box, port_length=port.length if port else None)


def _measured(box: Box, port: Port | None) -> float | None:
    """The litres of what has no panels: of a moulded shape as measured, else as wanted."""
    moulded = shell(box, port.length if port else None)
    return moulded.net if moulded else box.wanted_volume


def _parted_wood(box: Box, port: Port | None) -> Wood | None:
    """Cut the wood of two chambers, none without a divider; it stands where the litres want it."""
    if not is_parted(box):
        return None
    length = port.length if port else None
    divided = box
    if box.divider_at is None and box.front_volume is not None:
        placed = _divided(box, length)
        if placed is None:
            return None
        divided = placed
    return wood(_rear_tuned(divided, length), port_length=length)


def _divided(box: Box, length: float | None) -> Box | None:
    """Return the box with its divider where the front chamber has its litres."""
    moved = copy(box)
    upright = box.divider == Box.Divider.UPRIGHT
    size = (box.depth if upright else box.height if box.divider == "shelf" else box.width) or 0.0
    at, tried, before = size / 2, size / 2 * 0.95, None
    # The litres go with the place of the divider, in a slope nearly so: this settles fast.
    for _ in range(12):
        moved.divider_at = at
        carcass = build(moved, port_length=length)
        front = front_volume(carcass) if carcass else None
        if front is None or box.front_volume is None:
            return None
        off = front - box.front_volume
        if abs(off) < SETTLED * box.front_volume:
            break
        if before is not None and off != before:
            tried, at = at, at - off * (at - tried) / (off - before)
        else:
            tried, at = at, tried
        before = off
    return moved


def _rear_tuned(box: Box, length: float | None) -> Box:
    """Return the box with its rear port as long as its tuning wants, as the first port is cut."""
    known = box.rear_port_length is not None or not box.rear_port_diameter
    if kind_of(box).behind is not Behind.PORT or known or not box.rear_wanted_tuning:
        return box
    tuned, before = copy(box), 0.0
    for _ in range(8):
        carcass = build(tuned, port_length=length)
        if carcass is None or abs(carcass.net_volume - before) < SETTLED * before:
            break
        before = carcass.net_volume
        tuned.rear_port_length = rear_port(box, before).length
    return tuned


def port_opening(box: Box) -> RoundOpening | RectangularOpening | None:
    """Return the opening of one port, or None while its size is not known.

    Where none is typed it is that of the area rule for the box's tuning.
    """
    if is_boarded(box):
        size = slot_bore(box)
        return size and RectangularOpening(width=size[0], height=size[1], room=size[2])
    if box.port_shape == Box.PortShape.SLOT:
        if box.port_width is None or box.port_height is None:
            return None
        room = box.height - 2 * box.material.thickness if box.height and box.material else None
        return RectangularOpening(width=box.port_width, height=box.port_height, room=room)
    diameter = port_diameter(box)
    return None if diameter is None else RoundOpening(diameter=diameter)


def port_area(box: Box) -> float | None:
    """Return the area of all equal ports together, or None while their opening is not known."""
    opening = port_opening(box)
    return opening.area * ports(box) if opening else None


_SLOT_ENDS = {
    Box.SlotWalls.ONE: End.ON_WALL,
    Box.SlotWalls.TWO: End.IN_CORNER,
    Box.SlotWalls.THREE: End.AS_WIDE,
}


def inner_end(box: Box) -> End:
    """Return what surrounds the inner end of the port: a slot lies along one wall or more."""
    if is_boarded(box):
        return (End.ON_WALL, End.IN_CORNER, End.AS_WIDE)[walls_shared(box) - 1]
    slot = box.port_shape == Box.PortShape.SLOT
    return _SLOT_ENDS[Box.SlotWalls(box.slot_walls)] if slot else End.FREE


def flare(box: Box) -> float:
    """Return the radius of the port's flares: a slot has none."""
    return 0.0 if box.port_shape == Box.PortShape.SLOT else box.port_flare or 0.0


def second_port(box: Box) -> Port | None:
    """Return the port unlike the first, where the kind has room for one."""
    if not kind_of(box).rear_tuning or box.second_port_diameter is None:
        return None
    return Port(
        opening=RoundOpening(diameter=box.second_port_diameter),
        length=_need(box.second_port_length, Needed.SECOND_PORT_LENGTH),
    )


def beside(box: Box) -> float:
    """Return area over effective length of the port unlike the first; 0 without one."""
    second = second_port(box)
    return second.area / second.effective_length if second else 0.0


def port_for(box: Box, net: float | None) -> Port | None:
    """Return the port that gives a box of these litres the tuning wanted, None without opening.

    The port of a band-pass tunes its front chamber, whatever the wood leaves behind.
    """
    opening = port_opening(box)
    if opening is None or box.wanted_tuning is None:
        return None
    front = kind_of(box).front_chamber
    litres, needed = (box.front_volume, Needed.FRONT_VOLUME) if front else (net, Needed.NET_VOLUME)
    return port_for_tuning(
        box.wanted_tuning,
        volume=_need(litres, needed),
        opening=opening,
        inner=inner_end(box),
        count=ports(box),
        flare=flare(box),
        beside=beside(box),
    )


def _tuned_port(box: Box, net: float) -> Port:
    port = port_for(box, net)
    if port is None:
        raise MissingError(Needed.PORT_OPENING)
    return port


def _given_port(box: Box) -> Port | None:
    opening = port_opening(box)
    if kind_of(box).front_chamber and box.port_length is None and box.wanted_tuning:
        return port_for(box, None)
    if opening is None or box.port_length is None:
        return None
    return Port(
        opening=opening,
        length=box.port_length,
        inner=inner_end(box),
        count=ports(box),
        flare=flare(box),
    )


def _need(value: float | None, what: Needed) -> float:
    if value is None:
        raise MissingError(what)
    return value


def loss_q(value: float | None) -> float:
    """Return the Q of absorption or of a port; one that was not entered is taken as none."""
    return math.inf if value is None else value


# Leakage nobody entered: a vented box by Small, JAES 21 (1973), Part III, where boxes of 25 to
# 100 litres had 5 to 10; a closed chamber: common practice, no source. None would flatter it.
USUAL_VENTED_QL, USUAL_CLOSED_QL = 7.0, 20.0


def leak_q(box: Box, behind: Behind | None = None) -> float:
    """Return the Q of a box's leakage; where none was entered, the usual one of its kind."""
    if box.ql is not None:
        return box.ql
    closed = (behind or kind_of(box).behind) is Behind.CLOSED
    return USUAL_CLOSED_QL if closed else USUAL_VENTED_QL


def enclosure(
    box: Box,
    net: float | None,
    port: Port | None,
    measured: Measured = NOTHING_MEASURED,
    front: float | None = None,
) -> kinds.Box:
    """Return the acoustic load of a box record; the wood's front chamber goes before the wanted."""
    kind = kind_of(box)
    if kind.behind is Behind.OPEN:
        return kinds.InfiniteBaffle()
    volume = _need(net, Needed.NET_VOLUME)
    if not kind.front_chamber:
        return _behind(box, volume, port, measured)
    if port is None:
        raise MissingError(Needed.PORT_AND_TUNING)
    before = _vented(box, _need(front or box.front_volume, Needed.FRONT_VOLUME), port)
    behind = rear_port(box, volume) if kind.behind is Behind.PORT else None
    rear = _behind(box, volume, behind, measured)
    assert isinstance(rear, kinds.Sealed | kinds.Vented)
    return BandPass(rear=rear, front=before)


def _behind(
    box: Box, volume: float, port: Port | None, measured: Measured
) -> kinds.Sealed | kinds.Vented | kinds.PassiveRadiatorBox | kinds.Door:
    """What the rear of the driver plays into."""
    behind = kind_of(box).behind
    q = _losses(box, behind)
    if behind is Behind.CLOSED:
        return kinds.Sealed(volume=volume, fill=box.fill, **q)
    if behind is Behind.PORT:
        return _vented(box, volume, port)
    if behind is Behind.CONE:
        part = getattr(box.radiator.part, "driver", None) if box.radiator else None
        if part is None:
            raise MissingError(Needed.RADIATOR)
        return kinds.PassiveRadiatorBox(volume=volume, radiator=drivers.radiator(part, box), **q)
    return kinds.Door(
        volume=volume,
        ql=_need(box.ql, Needed.DOOR_LEAKAGE),
        opening=_hole(box, measured),
        qp=hole_q(box),
    )


def _losses(box: Box, behind: Behind) -> dict[str, float]:
    return {"ql": leak_q(box, behind), "qa": loss_q(box.qa)}


def _vented(box: Box, volume: float, port: Port | None) -> kinds.Vented:
    if port is None:
        raise MissingError(Needed.PORT_AND_TUNING)
    second = second_port(box)
    return kinds.Vented(
        volume=volume,
        vent=Vent.of(port),
        second=Vent.of(second) if second else None,
        qp=loss_q(box.qp),
        **_losses(box, Behind.PORT),
    )


def rear_port(box: Box, volume: float) -> Port:
    """Return the port between a rear chamber of these litres and the open."""
    opening = RoundOpening(diameter=_need(box.rear_port_diameter, Needed.REAR_PORT_DIAMETER))
    if box.rear_port_length is None and box.rear_wanted_tuning:
        return port_for_tuning(box.rear_wanted_tuning, volume=volume, opening=opening)
    return Port(opening=opening, length=_need(box.rear_port_length, Needed.REAR_PORT_LENGTH))


# A hole in sheet metal is a very short port: the metal's own thickness.
SHEET_METAL = 0.001
# Trim, edges and the swirl behind them take energy from the air in a hole: common practice, no
# source. Without any loss its peak would promise what no door gives.
USUAL_HOLE_Q = 10.0


def hole_q(box: Box) -> float:
    """Q of an open factory hole: the port loss that was entered, or a usual one."""
    return USUAL_HOLE_Q if box.qp is None else box.qp


def _hole(box: Box, measured: Measured) -> Vent | Radiator | None:
    """Return what the factory hole beside the driver is, acoustically."""
    if box.hole not in (Box.Hole.FACTORY_DRIVER, Box.Hole.OPEN):
        return None
    if box.hole == Box.Hole.OPEN and box.hole_area is not None:
        return _open(box.hole_area)
    factory = drivers.of_item(box.radiator, measured)
    if factory is None:
        driver = box.hole == Box.Hole.FACTORY_DRIVER
        raise MissingError(Needed.FACTORY_DRIVER if driver else Needed.FACTORY_HOLE)
    if box.hole == Box.Hole.FACTORY_DRIVER:
        return Radiator.unplugged(factory.driver)
    return _open(float(factory.driver.sd))


def _open(area: float) -> Vent:
    opening = RoundOpening(diameter=2 * math.sqrt(area / math.pi))
    return Vent.of(Port(opening=opening, length=SHEET_METAL, inner=End.FLANGED))
