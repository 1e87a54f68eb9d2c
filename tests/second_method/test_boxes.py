"""The solver against Small's circuits, solved branch by branch in `boxes.py`."""

from __future__ import annotations

import math

import numpy as np
import pytest

from acoustics.circuit.solver import Sweep, sweep
from acoustics.enclosure.boxes import InfiniteBaffle, PassiveRadiatorBox, Sealed, Vented
from acoustics.enclosure.openings import Radiator
from tests.acoustics.drivers import REFERENCE, REFERENCE_VOLTAGE
from tests.second_method.boxes import RHO, C, closed, elements, leak_of, play

pytestmark = pytest.mark.second_method

DRIVER = elements(fs=30.0, qes=0.45, qms=5.0, vas=0.060, re=3.5, sd=0.0490)
FREQUENCIES = [10, 15, 20, 25, 30, 40, 47.43, 50, 60, 100, 200]


def assert_same(solved: Sweep, **box: float | tuple[float, float, float]) -> None:
    """Hold level, excursion and impedance of every frequency against the circuit."""
    played = [play(DRIVER, f, REFERENCE_VOLTAGE, **box) for f in FREQUENCIES]
    assert solved.spl == pytest.approx([p.level for p in played], abs=1e-3)
    assert solved.excursion == pytest.approx([p.excursion for p in played], rel=1e-5)
    assert solved.impedance == pytest.approx(np.array([p.impedance for p in played]), rel=1e-5)


def solve(box: object) -> Sweep:
    """Ask the product."""
    return sweep(driver=REFERENCE, box=box, frequencies=FREQUENCIES, voltage=REFERENCE_VOLTAGE)


def test_derived_parameters() -> None:
    """Cms, Mms, Rms and Bl of the driver follow from its figures by definition."""
    d = REFERENCE
    assert (d.cms, d.mms, d.rms, d.bl) == pytest.approx(
        (DRIVER.cms, DRIVER.mms, DRIVER.rms, DRIVER.bl), rel=1e-12
    )
    assert d.qts == pytest.approx(1 / (1 / 0.45 + 1 / 5.0))


def test_efficiency_is_what_the_circuit_radiates() -> None:
    """Power through a hemisphere over power into Re, far above resonance, is the efficiency.

    Level at one watt and at 2.83 V are those of the same pressure.
    """
    f, watt = 3e5, math.sqrt(3.5)
    level = play(DRIVER, f, watt).level
    pressure = 20e-6 * 10 ** (level / 20)
    radiated = 2 * math.pi * pressure**2 / (RHO * C)
    assert REFERENCE.efficiency == pytest.approx(radiated, rel=1e-6)
    assert REFERENCE.reference_level(voltage=watt) == pytest.approx(level, abs=1e-5)
    assert REFERENCE.reference_level(voltage=2.83) == pytest.approx(
        play(DRIVER, f, 2.83).level, abs=1e-5
    )


def test_closed_box() -> None:
    """40 L without a leak."""
    assert_same(solve(Sealed(volume=0.040)), **closed(0.040))


@pytest.mark.parametrize("ql", [20.0, 7.0, 3.0, 1.0])
def test_leaky_closed_box(ql: float) -> None:
    """40 L with a leak whose Q is that at the box's resonance, fs √(1 + Vas/Vb)."""
    resonance = 30 * math.sqrt(1 + 0.060 / 0.040)
    leak = leak_of(ql, frequency=resonance, volume=0.040)
    assert_same(solve(Sealed(volume=0.040, ql=ql)), **closed(0.040, leak=leak))


def test_infinite_baffle() -> None:
    """Nothing behind the cone."""
    assert_same(solve(InfiniteBaffle()))


@pytest.mark.parametrize("losses", ["leak", "all"])
def test_vented_box(losses: str) -> None:
    """60 L tuned to 30 Hz with QL 7, alone and with absorption of Q 100 and a port of Q 50."""
    omega, compliance = 2 * math.pi * 30.0, 0.060 / (RHO * C**2)
    mass = 1 / (omega**2 * compliance)
    lossy = losses == "all"
    box = closed(0.060, leak=leak_of(7.0, frequency=30.0, volume=0.060))
    box["absorption"] = 1 / (100.0 * omega * compliance) if lossy else 0.0
    port = (mass, omega * mass / 50.0 if lossy else 0.0, math.inf)
    area = math.pi / 4 * 0.1**2
    q = {"ql": 7.0} | ({"qa": 100.0, "qp": 50.0} if lossy else {})
    solved = solve(Vented.tuned(volume=0.060, frequency=30.0, area=area, **q))
    assert_same(solved, **box, branch=port)
    flows = [play(DRIVER, f, REFERENCE_VOLTAGE, **box, branch=port).branch for f in FREQUENCIES]
    assert solved.port_speed == pytest.approx(np.array(flows) * math.sqrt(2) / area, rel=1e-5)


def test_passive_radiator() -> None:
    """60 L with a cone of 15 Hz, Qmp 10, Vap 120 L and a leak of Q 7 at the box's tuning."""
    compliance = 0.120 / (RHO * C**2)
    omega = 2 * math.pi * 15.0
    mass = 1 / (omega**2 * compliance)
    cone = (mass, omega * mass / 10.0, compliance)
    box = closed(0.060, leak=leak_of(7.0, frequency=15.0 * math.sqrt(3.0), volume=0.060))
    radiator = Radiator(
        sd=0.0490, mms=mass * 0.0490**2, cms=compliance / 0.0490**2, rms=cone[1] * 0.0490**2
    )
    solved = solve(PassiveRadiatorBox(volume=0.060, radiator=radiator, ql=7.0))
    assert_same(solved, **box, branch=cone)
    flows = [play(DRIVER, f, REFERENCE_VOLTAGE, **box, branch=cone).branch for f in FREQUENCIES]
    strokes = np.array(flows) * math.sqrt(2) / (2 * np.pi * np.array(FREQUENCIES) * 0.0490)
    assert solved.radiator_excursion == pytest.approx(strokes, rel=1e-5)
