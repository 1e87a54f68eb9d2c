"""A hot coil by its worked example, and what a programme makes of heat."""

import numpy as np
import pytest

from acoustics.circuit.solver import sweep
from acoustics.driver.heat import LIMITED, MUSIC, heated, programme_power
from acoustics.enclosure.boxes import Sealed
from acoustics.enclosure.closed_box import resonance_and_q
from acoustics.errors import OutOfRangeError
from tests.acoustics.drivers import REFERENCE
from tests.refused import refused


def test_a_coil_at_100_degrees_by_hand() -> None:
    """80 K above 20 °C: Re and Qes grow by 1.3144; Qtc in 40 L from 0.65276 to 0.83628.

    Level at 20/30/60/100 Hz: -1.673/-0.933/-0.460/-1.498 dB; by hand, from the circuit with Re and
    Qes replaced.
    """
    hot, box = heated(REFERENCE, 80.0), Sealed(volume=0.04)
    assert hot.re / REFERENCE.re == pytest.approx(1.3144)
    assert resonance_and_q(hot, box)[1] == pytest.approx(0.83628, abs=1e-5)
    f = [20.0, 30.0, 60.0, 100.0]
    change = (
        sweep(driver=hot, box=box, frequencies=f).spl
        - sweep(driver=REFERENCE, box=box, frequencies=f).spl
    )
    assert change == pytest.approx([-1.673, -0.933, -0.460, -1.498], abs=1e-3)


def test_force_and_suspension_stay_as_they_are() -> None:
    """Heat changes the coil alone."""
    hot = heated(REFERENCE)
    assert (hot.bl, hot.mms, hot.cms, hot.rms) == pytest.approx(
        (REFERENCE.bl, REFERENCE.mms, REFERENCE.cms, REFERENCE.rms)
    )
    with refused(OutOfRangeError, "between"):
        heated(REFERENCE, -1.0)


@pytest.mark.parametrize(("crest", "share"), [(3.0103, 1.0), (LIMITED, 0.5024), (MUSIC, 0.1262)])
def test_a_programme_heats_a_resistor_by_its_crest(crest: float, share: float) -> None:
    """Shares of the sine's power: 10^(-(CF - 3.01)/10), by hand; the filters do not change it."""
    z = np.full(50, 4.0 + 0j)
    for passed in (np.ones(50), np.linspace(0.01, 1, 50)):
        power = programme_power(
            impedance=z, passed=passed, resistance=4.0, voltage=20.0, crest=crest
        )
        assert power == pytest.approx(100.0 * share, rel=1e-3)


def test_what_flows_into_an_impedance_peak_heats_less() -> None:
    """Where the impedance is three times the coil's, a ninth of the heat is made."""
    power = programme_power(
        impedance=np.array([12.0, 4.0]), passed=np.array([1.0, 0.0]), resistance=4.0,
        voltage=20.0, crest=3.0103,
    )  # fmt: skip
    assert power == pytest.approx(100 / 9, rel=1e-3)
