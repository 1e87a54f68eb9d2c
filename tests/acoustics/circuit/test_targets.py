"""Boxes for a wanted Q, reach or volume, and what they cost."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from acoustics.circuit.solver import sweep
from acoustics.circuit.targets import (
    cost_of,
    sealed_for_f3,
    sealed_for_q,
)
from acoustics.circuit.vented_targets import vented_for_f3, vented_for_shape, vented_for_volume
from acoustics.enclosure.alignments import Shape, align_shape
from acoustics.enclosure.boxes import Sealed, Vented
from acoustics.enclosure.closed_box import q_of_shape, resonance_and_q
from acoustics.errors import NoSolutionError, OutOfRangeError
from tests.acoustics.drivers import REFERENCE, driver_with_qts
from tests.refused import refused


@settings(deadline=None, max_examples=40)
@given(
    qtc=st.floats(0.55, 1.4),
    ql=st.floats(4, 50),
    qa=st.floats(10, 100),
    cable=st.floats(0, 1),
)
def test_sealed_q_is_that_of_the_poles(qtc: float, ql: float, qa: float, cable: float) -> None:
    """Whatever the losses, the box found has exactly the Q asked for."""
    box = sealed_for_q(REFERENCE, qtc, ql=ql, qa=qa, series_resistance=cable)
    _, q = resonance_and_q(REFERENCE, box, series_resistance=cable)
    assert float(q) == pytest.approx(qtc, rel=1e-9)


@pytest.mark.second_method
@pytest.mark.parametrize(("ql", "qa"), [(math.inf, math.inf), (7.0, math.inf), (5.0, 20.0)])
def test_poles_are_where_the_circuit_is_singular(ql: float, qa: float) -> None:
    """The pair of poles makes the sum of mechanical and acoustic impedance vanish."""
    box = Sealed(volume=0.040, ql=ql, qa=qa)
    fc, q = (float(v) for v in resonance_and_q(REFERENCE, box))
    w = 2 * math.pi * fc
    s = complex(-w / (2 * q), w * math.sqrt(1 - 1 / (4 * q * q)))
    d = REFERENCE
    # Impedances written out by hand: spring with absorption, beside it the leak.
    c, w0 = 0.040 / (1.204 * 343.2**2), 2 * math.pi * 30 * math.sqrt(2.5)
    spring = 1 / (s * c) + 1 / (w0 * c * qa)
    box_impedance = 1 / (1 / spring + w0 * c / ql)
    motor = float(d.bl) ** 2 / 3.5
    total = motor + d.rms + s * d.mms + 1 / (s * d.cms) + 0.049**2 * box_impedance
    assert abs(total) < 1e-6 * abs(s * d.mms)


def test_unreachable_q_names_the_nearest() -> None:
    """No box lowers Q below the driver's own, and a leak caps it."""
    with pytest.raises(NoSolutionError) as caught:
        sealed_for_q(REFERENCE, 0.40)
    assert caught.value.given["limit"].value == pytest.approx(float(REFERENCE.qts), rel=1e-3)
    with refused(NoSolutionError, "qtc-out-of-reach", value=6.5):
        sealed_for_q(REFERENCE, 6.5, ql=5.0)
    with refused(OutOfRangeError, "above", "qtc"):
        sealed_for_q(REFERENCE, -0.7)
    with refused(NoSolutionError, "shape-of-fourth-order", shape="quasi-butterworth"):
        q_of_shape(Shape.QUASI_BUTTERWORTH)


def test_sealed_for_reach() -> None:
    """The box found reaches the wanted frequency and a slightly smaller one does not."""
    box = sealed_for_f3(REFERENCE, 55.0, ql=10.0)
    f = np.geomspace(5, 2000, 800)
    for scale, reaches in ((1.0, True), (0.99, False)):
        tried = Sealed(volume=scale * float(box.volume), ql=10.0)
        f3 = float(sweep(driver=REFERENCE, box=tried, frequencies=f).f3)
        assert (f3 <= 55.0 * (1 + 1e-6)) is reaches
    # Lossless, the lowest reach is that of Qtc = 0.7071 or near it: never below 51.38 Hz.
    with pytest.raises(NoSolutionError) as caught:
        sealed_for_f3(REFERENCE, 30.0)
    assert caught.value.given["limit"].value == pytest.approx(51.383, abs=0.01)


@pytest.mark.parametrize("qts", [0.25, 0.35, 0.45])
def test_vented_for_volume_matches_the_classical_shape(qts: float) -> None:
    """In the litres of a classical shape the lowest tuning reaches as low as the shape does."""
    shape = Shape.CHEBYSHEV if qts > 0.405 else Shape.QUASI_BUTTERWORTH
    driver = driver_with_qts(qts)
    classical = vented_for_shape(driver, shape, area=0.01, ql=7.0)
    exact = cost_of(driver, classical)
    assert exact.f3 == pytest.approx(30 * align_shape(shape, qts=qts, ql=7.0).f3, rel=1e-5)
    found = vented_for_volume(driver, float(classical.volume), area=0.01, ql=7.0, ripple=0.5)
    cost = cost_of(driver, found)
    assert cost.f3 <= exact.f3 * (1 + 1e-6)
    assert cost.peak <= 0.5 + 1e-6


def test_vented_for_reach() -> None:
    """The box found reaches the frequency within the peak; 3 % fewer litres cannot."""
    box = vented_for_f3(REFERENCE, 33.0, area=0.01, ql=7.0)
    cost = cost_of(REFERENCE, box)
    assert cost.f3 <= 33.0 * 1.001
    assert cost.peak <= 0.5 + 1e-6
    smaller = vented_for_volume(REFERENCE, 0.97 * cost.volume, area=0.01, ql=7.0)
    assert cost_of(REFERENCE, smaller).f3 > 33.0
    with refused(NoSolutionError, "vented-f3-out-of-reach"):
        vented_for_f3(REFERENCE, 8.0, area=0.01, ql=7.0)


def test_cost_of_a_box() -> None:
    """Litres, resonance, Q, reach, peak and excursion agree with the solver's own curves."""
    cost = cost_of(REFERENCE, Sealed(volume=0.010), voltage=10.0)
    qtc = float(REFERENCE.qts) * math.sqrt(7)
    assert cost.qtc == pytest.approx(qtc, rel=1e-9)
    assert cost.resonance == pytest.approx(30 * math.sqrt(7), rel=1e-9)
    # Small 1972: peak of a second-order high-pass.
    peak = 20 * math.log10(qtc**2 / math.sqrt(qtc**2 - 0.25))
    assert cost.peak == pytest.approx(peak, abs=2e-3)
    vented = cost_of(REFERENCE, Vented.tuned(volume=0.06, frequency=30, area=0.01, ql=7.0))
    assert vented.qtc is None
    assert vented.resonance == pytest.approx(30.0, rel=1e-9)


@pytest.mark.parametrize(
    ("shape", "qts", "nearest"),
    [
        (Shape.QUASI_BUTTERWORTH, 0.5, 0.40481),  # Butterworth's QT at QL = 7 ends both families
        (Shape.CHEBYSHEV, 0.3, 0.40481),
        (Shape.BUTTERWORTH, 0.5, 0.40481),
        (Shape.BESSEL, 0.5, 0.33119),
    ],
)
def test_unreachable_shape_names_the_nearest_q(shape: Shape, qts: float, nearest: float) -> None:
    """A shape a driver's Q does not allow is refused with the nearest Q that does."""
    with pytest.raises(NoSolutionError) as caught:
        align_shape(shape, qts=qts, ql=7.0)
    assert caught.value.given["limit"].value == pytest.approx(nearest, abs=1e-5)
