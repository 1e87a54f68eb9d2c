"""A port unlike the first in the wood: its hole, its place, its tube and the litres it takes."""

from __future__ import annotations

import math

import pytest

from acoustics.carcass.shape.outline import Circle
from jobs.design.box.enclosures import enclosure, wood_and_port
from jobs.design.carcass.carcass import build
from jobs.design.records.findings import Term
from jobs.design.wood.fitting import fit_boxes
from jobs.design.wood.marking import marks_of, tubes_of
from jobs.design.wood.pieces import pieces_of
from jobs.models import Box
from tests.jobs.design.wood.test_wood import a_box

T, WALL = 0.018, 0.003  # sheet and wall of a tube [m]
BORE, LONG = 0.05, 0.2  # the second port [m]


def two_ports(**more) -> Box:
    """An unsaved vented box of plain 18 mm sheet, 600 x 400 x 350 mm, with two tubes; invented."""
    plain = {
        "kind": Box.Kind.VENTED, "port_diameter": 0.07, "port_wall": WALL, "port_length": 0.15,
        "second_port_diameter": BORE, "second_port_length": LONG,
    }  # fmt: skip
    return a_box(**plain | more)


def places(box: Box) -> dict[str, tuple[str, float, float]]:
    """Face and middle of every port of the box."""
    body = build(box, port_length=box.port_length)
    return {
        placed.part.name: (placed.face, *body.centre(placed))
        for placed in body.contents
        if placed.part.name.endswith("port")
    }


def test_it_takes_its_own_litres():
    """By hand: the area of its outside times its length behind the front."""
    both, alone = (
        build(two_ports(second_port_diameter=bore), port_length=0.15) for bore in (BORE, None)
    )
    tube = math.pi / 4 * (BORE + 2 * WALL) ** 2 * (LONG - T)
    assert both.volumes.ports - alone.volumes.ports == pytest.approx(tube, rel=1e-9)
    assert alone.net_volume - both.net_volume == pytest.approx(tube, rel=1e-9)


def test_a_wanted_tuning_counts_what_it_takes():
    """The first port is as long as tunes the litres both leave, the second open beside it."""
    box = two_ports(port_length=None, wanted_tuning=38.0)
    port, wood = wood_and_port(box)
    net = wood.carcass.net_volume
    assert net == pytest.approx(build(box, port_length=port.length).net_volume, rel=1e-6)
    assert enclosure(box, net, port).resonance() == pytest.approx(38.0, rel=1e-5)


def test_it_stands_beside_the_first():
    """Both in the driver's face at its right end, 12 mm of wood between them."""
    at = places(two_ports())
    (face, u, _), (other_face, second_u, _) = at["port"], at["second port"]
    assert face == other_face == "front"
    assert u - second_u == pytest.approx((0.07 + BORE) / 2 + 2 * WALL + 0.012)
    _, wood = wood_and_port(two_ports())
    assert not wood.findings
    _, equal = wood_and_port(two_ports(second_port_diameter=None, port_count=2))
    assert not equal.findings


@pytest.mark.parametrize(
    ("fields", "at"),
    [
        # Two up the middle of the side, 350 x 400 mm seen from outside with the cheek over all.
        ({"port_face": "right"}, ("right", 0.175, 0.3)),
        ({"port_face": "right", "second_port_v": 0.08}, ("right", 0.175, 0.08)),
        (
            {"second_port_face": "top", "second_port_u": 0.1, "second_port_v": 0.2},
            ("top", 0.1, 0.2),
        ),
    ],
)
def test_it_goes_where_it_was_said(fields, at):
    """A face, a place, or both; else beside the first."""
    assert places(two_ports(**fields))["second port"] == pytest.approx(at)


def test_it_is_on_the_cut_sheet_as_the_first_is():
    """A hole of its outside in the piece of its face, marked by its diameter, and a tube to cut."""
    _, wood = wood_and_port(two_ports())
    pieces = pieces_of(wood.parts, wood.carcass, "A")
    outside = BORE + 2 * WALL
    (front,) = (piece for piece in pieces if "front" in piece.panels)
    holes = [hole for hole in front.holes if isinstance(hole, Circle)]
    assert any(2 * hole.radius == pytest.approx(outside) for hole in holes)
    assert any(mark.diameter == pytest.approx(outside) for mark in marks_of(front))
    tubes = {tube.inside: tube for tube in tubes_of(wood.carcass, pieces)}
    (tube,) = (tube for inside, tube in tubes.items() if inside == pytest.approx((BORE,)))
    assert (tube.count, tube.length, tube.panel) == (1, pytest.approx(LONG), front.label)


def test_a_tube_that_meets_the_rear_wall_is_named():
    """The second port is held to the walls as the first is, under its own name."""
    _, wood = wood_and_port(two_ports(second_port_length=0.5))
    (finding,) = (f for f in wood.findings if f.code == "port-does-not-fit")
    assert wood.places[finding.detail[0]] == Term(("second port",))


def test_a_box_for_a_cavity_has_room_for_both(saloon):
    """What is found for the cavity holds both tubes, and the litres wanted beside them."""
    box = saloon.box
    box.second_port_diameter, box.second_port_length = 0.03, 0.2
    box.shape, box.cavity_gap, box.cavity_width = Box.Shape.RECTANGLE, 0.01, 1.1
    box.cavity_profile = [[0, 0], [0.6, 0], [0.6, 0.5], [0, 0.5]]
    box.driver_u = box.driver_v = None
    fitting = fit_boxes(box, "front")
    assert fitting.candidates, fitting.trouble
    for candidate in fitting.candidates:
        wood = candidate.result.wood
        tubes = [placed.part.name for placed in wood.carcass.contents if placed.face == "right"]
        assert tubes == ["port", "second port"]
        assert wood.carcass.net_volume == pytest.approx(box.wanted_volume, rel=0.002)
        assert "stop" not in {finding.severity for finding in wood.findings}
