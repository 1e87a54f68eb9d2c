"""Boxes that closed plates part: twin boxes, dead air, and the two chambers of a band-pass box."""

from __future__ import annotations

import math

import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.wood.cutting import work_out_cutting
from jobs.models import Box

pytestmark = pytest.mark.django_db
# The saloon's sheet [m].
T = 0.0161


def result(saloon, **fields):
    """The saloon's box changed to a rectangle of 700 x 380 x 300, and what it comes to."""
    records = load(saloon.job)
    box = records.boxes[0]
    plain = {
        "kind": Box.Kind.SEALED, "shape": Box.Shape.RECTANGLE, "width": 0.7, "height": 0.38,
        "depth": 0.3, "top_depth": None, "port_face": "", "wanted_volume": None,
    }  # fmt: skip
    for name, value in (plain | fields).items():
        setattr(box, name, value)
    design = work_out(records)
    return design, design.boxes[0]


def codes(of) -> set[str]:
    """Codes of its findings."""
    return {finding.code for finding in of.findings}


def shut_off(box) -> float | None:
    """Litres the list of figures says are of no use."""
    return {figure.name: figure.value for figure in box.figures}.get("shut_off")


def inside(box, *names: str) -> tuple[float, float]:
    """Where the inner faces of two panels that face each other lie, read from the cut list."""
    panels = {p.name: p for part in box.wood.parts for p in part.panels}
    ends = []
    for name in names:
        out, inn = panels[name].corners()
        axis = int(abs(panels[name].frame.normal).argmax())
        ends.append((out[:, axis].mean(), inn[:, axis].mean()))
    return ends


def test_a_solid_plate_is_not_counted_through(saloon):
    """Behind a plate at 350 mm half of the box is dead: the driver's air ends at the plate."""
    plate = {"inner_braces": [{"kind": "plate", "at": [0.35], "open": 0}], "driver_u": 0.18}
    _design, box = result(saloon, **plate)
    driver = box.wood.carcass.contents[0].part
    # By hand: from the left side to the plate, between bottom and top, front and rear.
    air = (0.35 - T / 2 - T) * (0.38 - 2 * T) * (0.3 - 2 * T)
    taken = driver.volume - math.pi / 4 * driver.cutout_diameter**2 * T
    assert box.net_volume == pytest.approx(air - taken, rel=1e-9)
    assert "air-shut-off" in codes(box)
    dead = (0.7 - 0.35 - T / 2 - T) * (0.38 - 2 * T) * (0.3 - 2 * T)
    assert shut_off(box) == pytest.approx(dead, rel=1e-9)
    opened = plate["inner_braces"][0] | {"open": 0.3}
    _design, whole = result(saloon, **plate | {"inner_braces": [opened]})
    assert "air-shut-off" not in codes(whole)
    assert whole.net_volume > 1.9 * box.net_volume


@pytest.mark.parametrize("kind", ["shelf", "upright"])
def test_a_solid_shelf_parts_the_box_too(saloon, kind):
    """A terminal plate beyond it is a look, a port beyond it a stop."""
    at = {"shelf": 0.3, "upright": 0.2}[kind]
    fields = {
        "inner_braces": [{"kind": kind, "at": [at], "open": 0}], "driver_v": 0.15,
        "terminal_face": {"shelf": "top", "upright": "rear"}[kind], "terminal_diameter": 0.06,
    }  # fmt: skip
    _design, box = result(saloon, **fields)
    assert "terminal-shut-off" in codes(box)
    port = {
        "kind": Box.Kind.VENTED, "port_diameter": 0.05, "port_length": 0.05, "wanted_tuning": None,
        "port_face": fields["terminal_face"], "port_u": 0.1, "ql": None,
    }  # fmt: skip
    _design, box = result(saloon, **fields | port)
    assert "opening-shut-off" in codes(box)


def test_twin_boxes_have_each_driver_in_its_own_air(saloon):
    """A plate in the middle gives two drivers alike air, off the middle it is found."""
    twin = {"driver_count": 2, "inner_braces": [{"kind": "plate", "at": [0.35], "open": 0}]}
    _design, box = result(saloon, **twin)
    assert not {"air-shut-off", "chambers-unlike", "opening-shut-off"} & codes(box)
    assert box.wood.carcass.volumes.shut_off == pytest.approx(0.0, abs=1e-12)
    moved = twin | {"inner_braces": [{"kind": "plate", "at": [0.33], "open": 0}]}
    assert "chambers-unlike" in codes(result(saloon, **moved)[1])


BAND_PASS = {
    "kind": Box.Kind.BAND_PASS_4, "divider": "upright", "front_volume": 0.018, "depth": 0.42,
    "port_diameter": 0.07, "port_length": 0.09, "wanted_tuning": None, "port_u": 0.12,
}  # fmt: skip


def test_a_band_pass_box_gets_its_divider_with_the_driver_in_it(saloon):
    """The driver's hole is in the divider, the port's in the front; the litres are the wood's."""
    design, box = result(saloon, **BAND_PASS)
    holes = {
        name: [2 * hole.radius for hole in piece.holes]
        for piece in work_out_cutting(design.records, design.boxes, design.trims).boxes[0].pieces
        for name in piece.panels
    }
    driver, port = (placed.part for placed in box.wood.carcass.contents)
    assert holes["divider"] == pytest.approx([driver.cutout_diameter])
    assert holes["front"] == pytest.approx([0.07 + 2 * port.wall])
    assert shut_off(box) is None  # the front chamber is no dead air
    # Both chambers put together again from the panels of the cut list (0.01 %).
    (_, front), (_, rear) = inside(box, "front", "rear")
    ((before, behind),) = inside(box, "divider")
    (_, bottom), (_, top) = inside(box, "bottom", "top")
    (_, left), (_, right) = inside(box, "left", "right")
    section = (top - bottom) * abs(right - left)
    assert front < before < behind < rear
    tube = math.pi / 4 * (0.07 + 2 * port.wall) ** 2 * (0.09 - T)
    assert box.wood.front_volume == pytest.approx(section * (before - front) - tube, rel=1e-4)
    taken = driver.volume - math.pi / 4 * driver.cutout_diameter**2 * T
    assert box.net_volume == pytest.approx(section * (rear - behind) - taken, rel=1e-4)
    # With no place given it stands where the front chamber has the litres wanted.
    assert box.wood.front_volume == pytest.approx(0.018, rel=1e-5)
    assert box.load.front.volume == pytest.approx(0.018, rel=1e-5)
    assert box.load.rear.volume == pytest.approx(box.net_volume)
    assert not {f.code for f in box.findings if f.severity == "stop"}


@pytest.mark.parametrize(
    ("divider", "more"),
    [("shelf", {"height": 0.5, "depth": 0.36}), ("plate", {"width": 0.8, "depth": 0.36})],
)
def test_the_divider_of_a_band_pass_box_may_lie_or_stand_across(saloon, divider, more):
    """The front chamber is above a shelf and right of a plate; the port is in its outer wood."""
    _design, box = result(saloon, **BAND_PASS | {"divider": divider, "port_u": None} | more)
    _driver, port = box.wood.carcass.contents
    assert port.face == {"shelf": "top", "plate": "right"}[divider]
    assert box.wood.front_volume == pytest.approx(0.018, rel=1e-5)
    assert "opening-shut-off" not in codes(box)
    frame = box.wood.carcass.face("divider").frame
    assert frame.normal == pytest.approx({"shelf": (0, 1, 0), "plate": (0, 0, 1)}[divider])


def test_a_sixth_order_box_has_a_port_in_each_chamber(saloon):
    """The rear port goes into the wood of the rear chamber and takes its litres there."""
    sixth = {
        "kind": Box.Kind.BAND_PASS_6, "rear_port_diameter": 0.08, "rear_port_length": 0.1,
    }  # fmt: skip
    _design, box = result(saloon, **BAND_PASS | sixth)
    faces = [(placed.part.name, placed.face) for placed in box.wood.carcass.contents]
    assert ("rear port", "rear") in faces
    assert ("port", "front") in faces
    _design, fourth = result(saloon, **BAND_PASS)
    tube = math.pi / 4 * (0.08 + 2 * box.box.port_wall) ** 2 * (0.1 - T)
    assert fourth.net_volume - box.net_volume == pytest.approx(tube, rel=1e-6)


def test_a_port_that_runs_into_the_driver_is_one_stop_and_not_two(saloon):
    """Left in the middle of its face it meets the driver, and serves no chamber for sure."""
    _design, box = result(saloon, **BAND_PASS | {"port_u": None, "port_length": 0.2})
    stops = {finding.code for finding in box.findings if finding.severity == "stop"}
    assert "parts-collide" in stops
    assert "chamber-without-opening" not in stops
    _design, apart = result(saloon, **BAND_PASS)
    assert "parts-collide" not in codes(apart)


def test_a_divider_is_one_board_and_more_layers_are_a_look(saloon):
    """Two layers typed for a front without a divider: its wood is cut all the same, and said."""
    _design, plain = result(saloon, **BAND_PASS)
    _design, layered = result(saloon, **BAND_PASS | {"baffle_layers": 2})
    assert layered.trouble == ""
    assert layered.net_volume == plain.net_volume
    assert codes(layered) - codes(plain) == {"divider-one-layer"}


def test_all_that_two_chambers_lack_is_said_at_once(saloon):
    """A baffle of two layers does not hide a front chamber that is too small."""
    lacking = {"kind": Box.Kind.BAND_PASS_6, "divider_at": 0.09, "rear_port_diameter": 0.08}
    more = {"rear_wanted_tuning": 40.0, "baffle_layers": 2}
    _design, box = result(saloon, **BAND_PASS | lacking | more)
    assert box.wood.front_volume < 0.95 * 0.018
    assert {"divider-one-layer", "front-volume-off-target"} <= codes(box)


def test_without_a_divider_two_chambers_have_no_wood(saloon):
    """Nothing of it is cut, and the page says so."""
    wanted = BAND_PASS | {"divider": "", "wanted_volume": 0.03}
    design, box = result(saloon, **wanted)
    assert box.wood is None
    assert "box-without-divider" in codes(box)
    assert not work_out_cutting(design.records, design.boxes, design.trims).boxes


def test_an_isobaric_pair_has_one_hole(saloon):
    """Face to face one driver is in the box; one behind the other, both and what lies between."""
    _design, two = result(saloon, driver_count=2)
    _design, pair = result(saloon, driver_count=2, isobaric=True)
    _design, row = result(saloon, driver_count=2, isobaric=True, isobaric_gap=0.06)
    assert [len(b.wood.carcass.contents) for b in (two, pair, row)] == [2, 1, 1]
    single, tandem = (b.wood.carcass.contents[0].part for b in (pair, row))
    # The second of a pair face to face stays outside: one driver less behind the front.
    assert pair.net_volume - two.net_volume == pytest.approx(single.volume_behind(T))
    between = math.pi / 4 * single.flange_diameter**2 * 0.06
    assert pair.net_volume - row.net_volume == pytest.approx(between)
    assert tandem.mounting_depth == pytest.approx(single.mounting_depth + 0.06)


def test_a_rear_port_that_is_tuned_is_cut_as_long_as_that_takes(saloon):
    """Its litres come off the chamber it tunes, and the wood holds the tube that is played."""
    fields = {
        "kind": Box.Kind.BAND_PASS_6, "depth": 0.5, "port_diameter": 0.08, "front_volume": 0.03,
        "wanted_tuning": 60.0, "port_length": None, "divider": "upright",
        "rear_port_diameter": 0.07, "rear_port_length": None, "rear_wanted_tuning": 32.0,
    }  # fmt: skip
    _design, box = result(saloon, **fields)
    (tube,) = (p.part for p in box.wood.carcass.contents if p.part.name == "rear port")
    figures = {figure.name: figure.value for figure in box.figures}
    assert figures["rear_tuning"] == pytest.approx(32.0, rel=1e-6)
    # The same tube, typed: the same litres and the same tuning.
    _design, typed = result(saloon, **fields | {"rear_port_length": tube.length})
    assert typed.net_volume == pytest.approx(box.net_volume, rel=1e-6)
    again = {figure.name: figure.value for figure in typed.figures}
    assert again["rear_tuning"] == pytest.approx(32.0, rel=1e-5)
