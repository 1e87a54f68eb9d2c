"""Slot ports made of the box's own panels: boards on the cut list, litres from the real solids."""

from __future__ import annotations

import math

import numpy as np
import pytest

from acoustics.carcass.panels.gluing import glue_order
from acoustics.enclosure.slot_ends import BARE_EDGE, as_wide_correction
from acoustics.errors import AcousticsError
from jobs.design.box.enclosures import wood_and_port
from jobs.design.carcass.carcass import build, taken_by_port, wood
from jobs.design.wood.pieces import pieces_of
from jobs.models import Box
from jobs.pages.forms.shape_fields import BracesField
from tests.acoustics.carcass.second_method import solid_of
from tests.jobs.design.wood.test_wood import a_box
from tests.refused import refused

T, H = 0.018, 0.04  # sheet and height of the slot [m]
INNER = (0.35 - 2 * T, 0.4 - 2 * T, 0.6 - 2 * T)  # depth, height, width of the inside [m]


def slotted(**more) -> Box:
    """An unsaved vented box of plain 18 mm sheet with a slot along its bottom; invented."""
    plain = {"kind": Box.Kind.VENTED, "port_shape": "slot", "port_height": H, "port_lies": "bottom"}
    return a_box(**plain | more)


def taken(box: Box, length: float) -> float:
    """What the slot takes from the bare inside, its boards counted."""
    volumes = build(box, port_length=length).volumes
    return volumes.ports + volumes.braces


def boards(box: Box, length: float) -> dict[str, tuple[float, float]]:
    """Size of each board on the cut list, sorted."""
    return {
        panel.name: tuple(sorted(panel.size))
        for part in wood(box, port_length=length).parts
        for panel in part.panels
        if panel.name.startswith("port board")
    }


def test_a_straight_slot_as_wide_as_the_box_is_one_board():
    """By hand: (height + sheet) x inner width x length behind the front."""
    box, length = slotted(), 0.25
    deep = length - T
    assert taken(box, length) == pytest.approx((H + T) * INNER[2] * deep, rel=1e-9)
    assert boards(box, length) == {"port board 1": pytest.approx((deep, INNER[2]))}


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_slot_in_a_corner_has_two_boards(side):
    """The second closes its side from the bottom to the top of the first."""
    box, length, width = slotted(port_lies=f"bottom {side}", port_width=0.2), 0.25, 0.2
    deep = length - T
    wood_and_air = (H + T) * deep * (width + T)
    assert taken(box, length) == pytest.approx(wood_and_air, rel=1e-9)
    found = boards(box, length)
    assert found["port board 1"] == pytest.approx((width, deep))
    assert found["port board 2"] == pytest.approx((H + T, deep))


def test_a_slot_in_the_middle_of_a_wall_has_three_boards():
    """It shares one wall: a board over it and one on either side."""
    box, length, width = slotted(port_width=0.2, port_lies="top"), 0.25, 0.2
    assert taken(box, length) == pytest.approx((H + T) * (length - T) * (width + 2 * T), rel=1e-8)
    assert len(boards(box, length)) == 3


def test_a_slot_bent_round_the_rear_keeps_its_length_along_the_centre_line():
    """To the middle of the bend and on: by hand, boards of 274 mm and of what the length leaves."""
    box, length = slotted(port_bend="+v"), 0.45
    depth, _height, width = INNER
    first = T + depth - H / 2  # outer face to the middle of the bend
    end = H / 2 + (length - first)  # above the bottom
    (port,) = build(box, port_length=length).contents
    assert [leg.heading for leg in port.part.legs] == ["in", "+v"]
    assert [leg.length for leg in port.part.legs] == pytest.approx([first, length - first])
    assert taken(box, length) == pytest.approx((H + T) * width * (depth + end - H - T), rel=1e-9)
    sizes = boards(box, length)
    assert sizes["port board 1"] == pytest.approx(tuple(sorted((depth - H, width))))
    assert sizes["port board 2"] == pytest.approx(tuple(sorted((end - H - T, width))))


@pytest.mark.parametrize("bend", ["", "+u"])
@pytest.mark.parametrize("side", ["left", "right"])
def test_a_slot_along_a_side_runs_from_bottom_to_top(side, bend):
    """Its board is as high as the inside; bent it turns along the rear."""
    length = 0.45 if bend else 0.25
    box = slotted(port_lies=side, port_bend=bend)
    depth, height, _width = INNER
    if bend:
        end = H / 2 + length - (T + depth - H / 2)
        wanted = (H + T) * height * (depth + end - H - T)
    else:
        wanted = (H + T) * height * (length - T)
    assert taken(box, length) == pytest.approx(wanted, rel=1e-9)
    sizes = boards(box, length).values()
    assert len(sizes) == (2 if bend else 1)
    assert all(any(side == pytest.approx(height, abs=1e-9) for side in size) for size in sizes)


@pytest.mark.second_method
@pytest.mark.parametrize(
    "more",
    [
        {},
        {"port_bend": "+v"},
        {"port_lies": "bottom left", "port_width": 0.2, "port_bend": "+v"},
        {"port_lies": "right", "port_bend": "+u"},
        {"shape": "sloped", "top_depth": 0.25, "port_bend": "+v"},
        {"shape": "sloped", "top_depth": 0.25, "port_lies": "left"},
    ],
)
def test_the_cut_list_put_together_encloses_the_printed_litres(more):
    """Outline less every panel as a mesh (trimesh) less the bore is the printed air, to 0.01 %.

    The bore: its section along its centre line by hand, at a bend the corner square or, where the
    rear leans, what the shoelace formula gives of it.
    """
    box, length = slotted(**more), 0.45 if more.get("port_bend") else 0.25
    made = wood(box, port_length=length)
    panels = [panel for part in made.parts for panel in part.panels]
    solid = sum(solid_of(panel).volume for panel in panels)
    outline = made.carcass.outer_volume - solid
    bore = made.carcass.volumes.ports
    assert made.carcass.net_volume == pytest.approx(outline - bore, rel=1e-4)
    if "shape" not in more:
        along = (
            0.4 - 2 * T if more.get("port_lies") == "right" else more.get("port_width", INNER[2])
        )
        # The centre line counts the corner as h, the solid holds h²: the same; the front is wood.
        assert bore == pytest.approx(along * H * (length - T), rel=1e-9)


@pytest.mark.parametrize(
    ("more", "joints"),
    [
        # By hand: the boards on either side are the slot's width apart and meet the one between.
        ({}, {1: set(), 2: {1}, 3: {1}}),
        ({"port_bend": "+v"}, {1: set(), 2: {1}, 3: {1, 2}, 4: {1, 2}}),
    ],
    ids=["straight", "bent"],
)
def test_a_board_is_glued_only_to_boards_it_touches(more, joints):
    """A slot in the middle of the bottom: no joint is named between boards that lie apart."""
    body = build(slotted(port_width=0.2, **more), port_length=0.45 if more else 0.25)
    steps = {step.panel: step.onto for step in glue_order(body) if "port board" in step.panel}
    assert steps.keys() == {f"port board {number}" for number in joints}
    for number, others in joints.items():
        onto = steps[f"port board {number}"]
        assert {name for name in onto if "board" in name} == {f"port board {n}" for n in others}
        assert onto


def test_boards_do_not_stand_in_each_other():
    """The boards of a bent slot in a corner cross no other and collide with no part."""
    made = wood(slotted(port_bend="+v", port_width=0.2, port_lies="bottom left"), port_length=0.45)
    assert not {f.code for f in made.findings} & {"braces-cross", "parts-collide"}


# What describes a port with walls of its own, at figures it might have kept from such a one.
OF_OTHERS = {
    "port_count": 2, "port_wall": 0.01, "port_u": 0.2, "port_v": 0.2, "port_straight": 0.05,
    "slot_walls": "three",
}  # fmt: skip


@pytest.mark.parametrize("name", OF_OTHERS)
def test_what_describes_other_ports_changes_nothing_of_it(name):
    """One slot is cut and one counted in the air, whatever was typed for another kind of port."""
    for known in ({"wanted_tuning": 35.0}, {"port_length": 0.25}):
        plain, wood_of_plain = wood_and_port(slotted(**known))
        other, wood_of_other = wood_and_port(slotted(**known, **{name: OF_OTHERS[name]}))
        assert other == plain
        assert other.count == 1
        assert wood_of_other.carcass.contents == wood_of_plain.carcass.contents
        assert wood_of_other.carcass.net_volume == wood_of_plain.carcass.net_volume


def test_the_front_is_cut_where_the_slot_opens():
    """A slot from wall to wall leaves the front as a plain rectangle above it."""
    made = wood(slotted(), port_length=0.25)
    pieces = pieces_of(made.parts, made.carcass, "A")
    (front,) = [piece for piece in pieces if "front" in piece.panels]
    assert front.holes == ()
    assert front.rectangular
    assert front.size == pytest.approx((INNER[2], INNER[1] - H))


@pytest.mark.parametrize(
    ("more", "length", "code"),
    [
        ({"port_bend": "+v"}, 0.3, "port-shorter-than-bend"),
        ({"port_height": 0.37}, 0.25, "slot-higher-than-box"),
        ({"port_lies": "bottom left", "port_width": 0.56}, 0.25, "slot-wider-than-box"),
        (
            {"shape": "sloped", "top_depth": 0.25, "port_face": "rear"},
            0.2,
            "slot-needs-square-corner",
        ),
        ({"shape": "taper", "top_depth": 0.3, "top_width": 0.5}, 0.2, "slot-in-prism-only"),
        ({"port_face": "right"}, 0.2, "slot-mouth-in-cheek"),
    ],
)
def test_an_impossible_slot_has_its_own_sentence(more, length, code):
    """Shorter than its bend, higher or wider than the box, in a corner that is not square."""
    with refused(AcousticsError, code):
        build(slotted(**more), port_length=length)


def test_a_bent_tube_shorter_than_its_straight_piece_is_named():
    """The port is 200 mm long and its straight piece 400: the sentence gives both."""
    box = a_box(kind=Box.Kind.VENTED, port_diameter=0.06, port_bend="+v", port_straight=0.4)
    with refused(AcousticsError, "port-shorter-than-bend"):
        build(box, port_length=0.2)


@pytest.mark.second_method
@pytest.mark.parametrize("share", [0.05, 0.1, 0.2, 0.5])
def test_the_end_between_walls_by_mode_matching(share):
    """Potential flow from a slot into a higher duct: modes of both matched at the step (numpy)."""
    small, many = np.arange(1, 40), np.arange(1, 6000)
    k = many * math.pi * share  # of the duct of height 1, along the slot of height `share`

    def overlap(n: np.ndarray) -> np.ndarray:
        """Integral of cos(n π y / h) cos(m π y) over the slot, rows n, columns m."""
        a, b = (n[:, None] * math.pi + k) / share, (n[:, None] * math.pi - k) / share
        with np.errstate(divide="ignore", invalid="ignore"):
            low = np.where(abs(b) < 1e-9, share, np.sin(b * share) / b)
        return (np.sin(a * share) / a + low) / 2

    shapes = np.vstack([overlap(np.array([0])), overlap(small)])
    pressure = (2 / (many * math.pi)) * shapes  # of the duct, by mode, for unit speed in each shape
    coupled = pressure @ shapes.T
    matrix = coupled[1:, 1:] + np.diag(share / (small * math.pi) * share / 2)
    shares = np.linalg.solve(matrix, -coupled[1:, 0])
    length = (coupled[0, 0] + coupled[0, 1:] @ shares) / share
    assert as_wide_correction(share, 1.0) == pytest.approx(BARE_EDGE * length, rel=2e-3)


def test_what_a_slot_takes_leaves_a_brace_out():
    """A strut in the box is no part of what the port takes, its boards are."""
    length = 0.25
    by_hand = (H + T) * INNER[2] * (length - T)
    for braces in ("", "strut across,250,250,30"):
        box = slotted(inner_braces=BracesField().clean(_rows(braces)))
        assert taken_by_port(box, length) == pytest.approx(by_hand, rel=1e-9)


def test_what_a_tube_takes_needs_no_wood():
    """Its outer cylinder, as often as there are tubes; without wood and tube nothing is known."""
    box = Box(kind="vented", port_shape="round", port_diameter=0.1, port_wall=0.003, port_count=2)
    by_hand = 2 * math.pi / 4 * 0.106**2 * 0.25
    assert taken_by_port(box, 0.25) == pytest.approx(by_hand, rel=1e-9)
    box.port_diameter = None
    assert taken_by_port(box, 0.25) is None


def _rows(text: str) -> list[list[str]]:
    cells = text.split(",") if text else []
    return [[*cells, *[""] * (5 - len(cells))]] if cells else []
