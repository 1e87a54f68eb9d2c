"""An open hole in a door with losses of its own, and of its own size."""

import math

import numpy as np
import pytest

from acoustics.air.air import STANDARD
from acoustics.circuit.solver import sweep
from acoustics.enclosure.boxes import Door, Vented
from acoustics.enclosure.doors import door_fates
from acoustics.enclosure.openings import Vent
from acoustics.errors import OutOfRangeError
from tests.acoustics.drivers import REFERENCE
from tests.refused import refused

F = np.geomspace(15.0, 400.0, 80)
HOLE = Vent(area=0.012, effective_length=0.11)


@pytest.mark.parametrize("qp", [math.inf, 50.0, 4.0])
def test_a_door_with_an_open_hole_is_a_leaky_vented_box(qp: float) -> None:
    """The same leak, written at the other resonance, makes the same box: R = QL / (w0 C)."""
    door = Door(volume=0.045, ql=2.5, opening=HOLE, qp=qp)
    closed = door.resonance(REFERENCE)
    bare = Vented(volume=0.045, vent=HOLE)
    box = Vented(volume=0.045, vent=HOLE, ql=2.5 * bare.resonance() / closed, qp=qp)
    mine = sweep(driver=REFERENCE, box=door, frequencies=F)
    other = sweep(driver=REFERENCE, box=box, frequencies=F)
    assert mine.spl == pytest.approx(other.spl, abs=1e-9)
    assert mine.impedance == pytest.approx(other.impedance)


def test_a_lossy_hole_peaks_less() -> None:
    """The lower its Q, the slower the air in the hole at its resonance."""
    f = np.array([STANDARD.speed_of_sound / (2 * np.pi) * math.sqrt(0.012 / (0.045 * 0.11))])
    speeds = [
        sweep(
            driver=REFERENCE, box=Door(volume=0.045, ql=20.0, opening=HOLE, qp=qp), frequencies=f
        ).port_speed
        for qp in (100.0, 10.0, 3.0)
    ]
    fast, middle, slow = (float(one[0]) for one in speeds if one is not None)
    assert fast > middle > slow


def test_a_measured_hole_takes_the_place_of_the_cone() -> None:
    """The area that was entered is that of the open hole; without one it is the cone's."""
    given = door_fates(volume=0.045, ql=2.5, factory=REFERENCE, thickness=0.001, area=0.02)
    usual = door_fates(volume=0.045, ql=2.5, factory=REFERENCE, thickness=0.001)
    assert isinstance(given.left_open.opening, Vent)
    assert isinstance(usual.left_open.opening, Vent)
    assert (given.left_open.opening.area, usual.left_open.opening.area) == (0.02, REFERENCE.sd)
    with refused(OutOfRangeError, "above", "hole-area"):
        door_fates(volume=0.045, ql=2.5, factory=REFERENCE, thickness=0.001, area=0.0)
    with refused(OutOfRangeError, "above", "qp"):
        Door(volume=0.045, ql=2.5, qp=0.0)
