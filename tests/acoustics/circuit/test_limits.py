"""Largest clean level, what binds, and the protective high-pass."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy import signal

from acoustics.circuit.limits import clean_level, protective_high_pass
from acoustics.circuit.solver import sweep
from acoustics.driver.driver import Driver
from acoustics.enclosure.boxes import InfiniteBaffle, PassiveRadiatorBox, Sealed, Vented
from acoustics.errors import MissingError, OutOfRangeError
from tests.acoustics.drivers import REFERENCE, passive_cone
from tests.refused import refused

F = np.geomspace(10, 500, 200)
VENTED = Vented.tuned(volume=0.060, frequency=30.0, area=0.008, ql=7.0)


@pytest.mark.parametrize("frequency", [20, 30, 40, 60, 80, 100])
def test_excursion_limited_level(frequency: float) -> None:
    """With nothing else known, the diaphragm's volume alone sets the level, whatever drives it.

    Closed form: a source of 490 cm³ peak in a half space, p = rho (2 pi f)² V / (2 pi r) at 1 m.
    """
    peak = 1.204 * (2 * np.pi * frequency) ** 2 * 490e-6 / (2 * np.pi)
    spl = 20 * np.log10(peak / np.sqrt(2) / 20e-6)
    driver = replace(REFERENCE, power_rating=None)
    solved = sweep(driver=driver, box=Sealed(volume=0.040), frequencies=[frequency], voltage=3.0)
    clean = clean_level(solved)
    assert clean.spl[0] == pytest.approx(spl, abs=1e-6)
    assert clean.binding[0] == "excursion"


def test_heat_limited_level() -> None:
    """Far above resonance 300 W in the coil give the reference level and 10 log10(300)."""
    driver = replace(REFERENCE, xmax=None)
    solved = sweep(driver=driver, box=InfiniteBaffle(), frequencies=[5000.0])
    clean = clean_level(solved)
    assert clean.spl[0] == pytest.approx(112.391, abs=1e-3)
    assert clean.unknown == ("excursion", "amplifier-voltage", "amplifier-current")


def test_every_limit_holds_and_one_is_reached() -> None:
    """Played at the clean voltage no limit is passed and the binding one is met exactly."""
    caps = {"amplifier_voltage": 25.0, "amplifier_current": 6.0}
    clean = clean_level(sweep(driver=REFERENCE, box=VENTED, frequencies=F), **caps)
    assert set(clean.binding) >= {"excursion", "port", "amplifier-voltage"}
    for k in range(0, F.size, 9):
        played = sweep(
            driver=REFERENCE, box=VENTED, frequencies=[F[k]], voltage=float(clean.voltage[k])
        )
        assert played.port_speed is not None
        current = clean.voltage[k] / abs(played.impedance[0])
        used = {
            "heat": current / math.sqrt(300 / 3.5),
            "excursion": played.excursion[0] / 0.010,
            "port": played.port_speed[0] / 17.0,
            "amplifier-voltage": clean.voltage[k] / 25.0,
            "amplifier-current": current / 6.0,
        }
        assert max(used.values()) == pytest.approx(1.0, rel=1e-9)
        assert used[clean.binding[k]] == pytest.approx(1.0, rel=1e-9)
        assert played.spl[0] == pytest.approx(clean.spl[k], abs=1e-9)


def test_the_clean_level_does_not_depend_on_the_sweep_voltage() -> None:
    """The system is linear: any voltage leads to the same limits, also for candidates at once."""
    box = Sealed(volume=np.array([0.02, 0.04]))
    low = clean_level(sweep(driver=REFERENCE, box=box, frequencies=F, voltage=1.0))
    high = clean_level(sweep(driver=REFERENCE, box=box, frequencies=F, voltage=40.0))
    assert low.spl == pytest.approx(high.spl, abs=1e-9)
    assert low.spl.shape == (2, F.size)


def test_a_radiator_binds_when_it_would_bottom() -> None:
    """A small passive cone reaches its end before the driver does."""
    cone = passive_cone(fp=18, qmp=8, vap=0.05, sd=0.02, xmax=0.004)
    box = PassiveRadiatorBox(volume=0.04, radiator=cone, ql=7.0)
    clean = clean_level(sweep(driver=REFERENCE, box=box, frequencies=F))
    assert "radiator" in set(clean.binding)


def test_unknown_limits_are_named_never_harmless() -> None:
    """With no limit known at all there is no clean level."""
    bare = Driver(fs=30, qms=5, qes=0.45, re=3.5, vas=0.06, sd=0.049)
    solved = sweep(driver=bare, box=InfiniteBaffle(), frequencies=F)
    with refused(
        MissingError,
        "missing",
        names=("heat", "excursion", "amplifier-voltage", "amplifier-current"),
    ):
        clean_level(solved)
    with refused(MissingError, "missing", names=("xmax",)):
        protective_high_pass(solved)
    with refused(OutOfRangeError, "above", "amplifier-voltage"):
        clean_level(solved, amplifier_voltage=-1.0)


@pytest.mark.second_method
@pytest.mark.parametrize("order", [2, 4])
def test_high_pass_just_protects(order: int) -> None:
    """With scipy.signal's Butterworth of the corner found, the excursion just meets Xmax."""
    solved = sweep(driver=REFERENCE, box=VENTED, frequencies=F, voltage=20.0)
    found = protective_high_pass(solved, order=order)
    assert found is not None
    b, a = signal.butter(order, 2 * np.pi * found.frequency, "highpass", analog=True)
    _, h = signal.freqs(b, a, 2 * np.pi * F)
    assert (solved.excursion * abs(h)).max() == pytest.approx(0.010, rel=1e-9)
    assert found.excursion == pytest.approx(solved.excursion * abs(h), rel=1e-9)
    assert found.spl == pytest.approx(solved.spl + 20 * np.log10(abs(h)), abs=1e-9)
    assert found.f3 is not None
    assert found.f3 > float(solved.f3)


def test_a_curve_that_never_comes_up_to_half_power_has_no_f3() -> None:
    """Driven hard and looked at below 40 Hz only, the protected level stays below its passband."""
    f = np.geomspace(10, 40, 60)
    solved = sweep(driver=REFERENCE, box=VENTED, frequencies=f, voltage=400.0)
    found = protective_high_pass(solved)
    assert found is not None
    assert found.spl.argmax() > 0
    assert found.spl.max() < float(solved.reference) - 3.0103
    assert found.f3 is None


def test_no_filter_where_none_is_needed() -> None:
    """A quiet drive needs no high-pass."""
    solved = sweep(driver=REFERENCE, box=VENTED, frequencies=F, voltage=1.0)
    assert protective_high_pass(solved) is None


@pytest.mark.second_method
def test_the_high_pass_protects_a_radiator_too() -> None:
    """Where the passive cone would bottom first, it just meets its end (scipy.signal)."""
    cone = passive_cone(fp=18, qmp=8, vap=0.05, sd=0.02, xmax=0.004)
    box = PassiveRadiatorBox(volume=0.04, radiator=cone, ql=7.0)
    solved = sweep(driver=REFERENCE, box=box, frequencies=F, voltage=20.0)
    high_pass = protective_high_pass(solved)
    assert high_pass is not None
    b, a = signal.butter(4, 2 * np.pi * high_pass.frequency, "highpass", analog=True)
    _, h = signal.freqs(b, a, 2 * np.pi * F)
    assert (solved.radiator_excursion * abs(h)).max() == pytest.approx(0.004, rel=1e-9)
    assert (solved.excursion * abs(h)).max() < 0.010
