"""The channel's filters between amplifier and driver, in a sweep and in its band."""

import numpy as np
import pytest
from scipy import signal

from acoustics.circuit.filters import Family, Filter, Passes, Way
from acoustics.circuit.solver import HALF_POWER, sweep
from acoustics.circuit.tolerance_bands import Tolerances, spread
from acoustics.enclosure.boxes import Sealed, Vented
from acoustics.values import Complexes, Floats
from tests.acoustics.drivers import REFERENCE

F = np.geomspace(10.0, 500.0, 60)
VENTED = Vented.tuned(volume=0.06, frequency=30.0, area=0.01, ql=7.0)
WAY = Way(
    filters=(
        Filter(family=Family.BUTTERWORTH, order=4, corner=25.0, passes=Passes.HIGH),
        Filter(family=Family.BUTTERWORTH, order=2, corner=80.0, passes=Passes.LOW),
    )
)


def library_gain(f: Floats) -> Complexes:
    """Gain of the same two filters; second method: scipy.signal."""
    s = 2j * np.pi * f
    gain = np.ones_like(s)
    for order, corner, kind in ((4, 25.0, "high"), (2, 80.0, "low")):
        b, a = signal.butter(order, 2 * np.pi * corner, kind, analog=True)
        gain = gain * np.polyval(b, s) / np.polyval(a, s)
    return gain


def test_filters_shape_what_moves_and_leave_the_impedance() -> None:
    """Level, travel and port air follow the library's filters; the impedance does not."""
    bare = sweep(driver=REFERENCE, box=VENTED, frequencies=F, voltage=20.0)
    fed = sweep(driver=REFERENCE, box=VENTED, frequencies=F, voltage=20.0, filters=WAY)
    gain = np.abs(library_gain(F))
    assert fed.spl - bare.spl == pytest.approx(20 * np.log10(gain), abs=1e-9)
    assert fed.excursion / bare.excursion == pytest.approx(gain)
    assert fed.port_speed is not None
    assert bare.port_speed is not None
    assert fed.port_speed / bare.port_speed == pytest.approx(gain)
    assert np.array_equal(fed.impedance, bare.impedance)
    assert fed.passband_level == bare.passband_level


def test_group_delays_of_filters_and_box_add() -> None:
    """The delay of the whole is the box's and the filters', by the library's phase."""
    box = Sealed(volume=0.03)
    bare = sweep(driver=REFERENCE, box=box, frequencies=F)
    fed = sweep(driver=REFERENCE, box=box, frequencies=F, filters=WAY)
    hair = 1e-5 * F
    turned = np.angle(library_gain(F + hair) / library_gain(F - hair))
    added = -turned / (4 * np.pi * hair)
    assert fed.group_delay - bare.group_delay == pytest.approx(added, abs=1e-6)


def test_a_band_without_tolerances_is_the_filtered_curve_and_the_bare_f3() -> None:
    """Travel in a band is that with the filters in place; f3 stays a figure of the box."""
    none = Tolerances(**dict.fromkeys(Tolerances.__dataclass_fields__, 0.0))
    bands = spread(
        driver=REFERENCE, box=VENTED, frequencies=F, filters=WAY, tolerances=none, draws=100
    )
    fed = sweep(driver=REFERENCE, box=VENTED, frequencies=F, filters=WAY)
    assert bands.excursion.high == pytest.approx(fed.excursion)
    bare = sweep(driver=REFERENCE, box=VENTED, frequencies=np.geomspace(5.0, 500.0, 200))
    assert bands.f3 is not None
    assert float(bands.f3.median) == pytest.approx(float(bare.f3), rel=1e-6)


@pytest.mark.parametrize("points", [12, 60, 400])
def test_a_cut_off_lies_on_its_level_however_coarse_the_sweep(points: int) -> None:
    """Solved again at the frequency found, the level is the wanted one to the last digits."""
    volumes = np.linspace(0.02, 0.2, 50)
    box = Vented.tuned(volume=volumes, frequency=30.0, area=0.01, ql=7.0)
    solved = sweep(driver=REFERENCE, box=box, frequencies=np.geomspace(8.0, 400.0, points))
    found = solved.at(frequencies=solved.f3[:, None]).spl[:, 0]
    assert found == pytest.approx(np.asarray(solved.reference) - HALF_POWER, abs=1e-9)
