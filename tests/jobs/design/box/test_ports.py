"""Each port of a box has its own name, its own air and its own pipe; a hole is none."""

from __future__ import annotations

import math

import numpy as np
import pytest

from acoustics.circuit.solver import sweep
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import Door, Sealed, Vented
from acoustics.enclosure.openings import Vent
from jobs.design.box.checks import check_box
from jobs.design.box.figures import pipe_resonances, port_names, port_speeds
from jobs.models import Driver
from tests.acoustics.drivers import REFERENCE
from tests.jobs.design.wood.test_wood import a_box

pytestmark = pytest.mark.django_db
C = 343.2  # of the standard air [m/s]


def vented(volume: float, area: float, length: float, second: Vent | None = None) -> Vented:
    """A box by its port's area and moving length; invented."""
    vent = Vent(area=area, effective_length=length)
    return Vented(volume=volume, vent=vent, second=second, ql=7.0)


BOXES = {
    "vented": (vented(0.04, 0.005, 0.3), {"port": 0.3}),
    "vented, two unlike": (
        vented(0.04, 0.005, 0.3, Vent(area=0.003, effective_length=0.2)),
        {"port": 0.3, "second port": 0.2},
    ),
    "band-pass, fourth order": (
        BandPass(rear=Sealed(volume=0.03), front=vented(0.02, 0.006, 0.15)),
        {"port": 0.15},
    ),
    "band-pass, sixth order": (
        BandPass(rear=vented(0.04, 0.005, 0.4), front=vented(0.02, 0.006, 0.15)),
        {"rear port": 0.4, "front port": 0.15},
    ),
    "door, hole open": (
        Door(volume=0.03, ql=10.0, opening=Vent(area=0.012, effective_length=0.09), qp=10.0),
        {"open hole": 0.09},
    ),
    "sealed": (Sealed(volume=0.03), {}),
}


@pytest.mark.parametrize(("box", "lengths"), BOXES.values(), ids=BOXES.keys())
def test_every_port_is_called_what_it_is_in_this_box(box, lengths) -> None:
    """A band-pass says rear and front, a door says hole; pipes ring at c/2L, a hole never."""
    solved = sweep(driver=REFERENCE, box=box, frequencies=np.geomspace(15, 200, 60), voltage=10.0)
    assert [name for name, _ in port_speeds(solved)] == list(lengths)
    assert dict(pipe_resonances(solved)) == {
        name: pytest.approx(C / (2 * length), rel=1e-3)
        for name, length in lengths.items()
        if name != "open hole"
    }
    assert set(lengths) <= set(port_names(box))


def test_the_air_of_each_port_is_that_of_its_own_chamber() -> None:
    """Sixth order, at one frequency, by hand: p of each chamber over its own port's s M S."""
    box = BOXES["band-pass, sixth order"][0]
    f, volts, d = 40.0, 10.0, REFERENCE
    s, rho = 2j * math.pi * f, 1.204
    chambers = []
    for volume, area, length in ((0.04, 0.005, 0.4), (0.02, 0.006, 0.15)):
        compliance, mass = volume / (rho * C**2), rho * length / area
        leak = 7.0 / (compliance / math.sqrt(mass * compliance))
        chambers.append((1 / (s * compliance + 1 / (s * mass) + 1 / leak), s * mass, area))
    load = sum(z for z, _, _ in chambers) * float(d.sd) ** 2
    moving = float(d.rms) + s * float(d.mms) + 1 / (s * float(d.cms)) + load
    u = float(d.bl) * volts / (float(d.re) * moving + float(d.bl) ** 2)
    by_hand = [math.sqrt(2) * abs(u * float(d.sd) * z / sm) / area for z, sm, area in chambers]
    solved = sweep(driver=d, box=box, frequencies=[f], voltage=volts)
    assert [speed for _, speed in port_speeds(solved)] == pytest.approx(by_hand, rel=1e-3)


@pytest.mark.parametrize(
    ("name", "code", "details"),
    [
        ("vented", "port-noisy", [""]),
        ("vented, two unlike", "port-noisy", ["", "second port"]),
        ("band-pass, sixth order", "port-noisy", ["rear port", "front port"]),
        ("door, hole open", "hole-noisy", [""]),
    ],
)
def test_fast_air_is_a_finding_of_its_own_port(name, code, details) -> None:
    """A hundred volts make every port noisy: one finding each, none under another's name."""
    box = BOXES[name][0]
    solved = sweep(driver=REFERENCE, box=box, frequencies=np.geomspace(15, 200, 60), voltage=100.0)
    told = check_box(a_box(), Driver(name="driver", xmax=0.01), solved, 0.04, None)
    noisy = [one for one in told if one.code.endswith("-noisy")]
    assert [one.code for one in noisy] == [code] * len(details)
    assert [one.about.detail for one in noisy] == details
    assert len({one.key for one in noisy}) == len(noisy)


@pytest.mark.parametrize(
    ("hole", "qp", "codes"),
    [
        ("", None, {"factory-hole-unsaid"}),
        ("open", None, {"hole-loss-assumed"}),
        ("open", 6.0, set()),
        ("blanked", None, set()),
    ],
)
def test_what_nobody_said_of_a_door_s_hole_is_said(hole, qp, codes) -> None:
    """No word on the hole is a look, an open one without its loss a note with the usual value."""
    solved = sweep(driver=REFERENCE, box=Sealed(volume=0.03), frequencies=[50.0, 100.0])
    box = a_box(kind="door", hole=hole, ql=10.0, qp=qp)
    told = {one.code: one for one in check_box(box, Driver(name="d"), solved, 0.03, None)}
    assert {code for code in told if "hole" in code} == codes
    if "hole-loss-assumed" in codes:
        assert told["hole-loss-assumed"].value == 10.0
