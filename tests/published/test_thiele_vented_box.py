"""A. N. Thiele, "Loudspeakers in Vented Boxes", JAES 19 (1971) 382-392 and 471-483, Table I."""

import math

import numpy as np
import pytest
from scipy import signal

from acoustics.circuit.solver import sweep
from acoustics.circuit.vented_targets import vented_for_shape
from acoustics.driver.driver import Driver
from acoustics.enclosure.alignments import (
    Alignment,
    Polynomial,
    Shape,
    align,
    align_shape,
    chebyshev,
    quasi_butterworth,
)
from acoustics.enclosure.boxes import Vented
from tests.acoustics.drivers import driver_with_qts

# QT: shape, alpha, f3/fs as printed in the table (from memory of the paper, three figures).
PRINTED = {
    0.180: (Shape.QUASI_BUTTERWORTH, 10.48, 2.68),
    0.209: (Shape.QUASI_BUTTERWORTH, 7.48, 2.28),
    0.259: (Shape.QUASI_BUTTERWORTH, 4.46, 1.77),
    0.303: (Shape.QUASI_BUTTERWORTH, 2.95, 1.45),
    0.415: (Shape.CHEBYSHEV, 1.055, 0.867),
    0.466: (Shape.CHEBYSHEV, 0.729, 0.729),
    0.518: (Shape.CHEBYSHEV, 0.559, 0.641),
    0.557: (Shape.CHEBYSHEV, 0.485, 0.600),
}


@pytest.mark.parametrize("qts", PRINTED)
def test_printed_alignments(qts: float) -> None:
    """The printed alignments come out within the accuracy of a 1971 slide rule, 0.7 %."""
    shape, alpha, f3 = PRINTED[qts]
    found = align_shape(shape, qts=qts)
    assert found.alpha == pytest.approx(alpha, rel=7e-3)
    assert found.f3 == pytest.approx(f3, rel=7e-3)


def test_butterworth_alignment() -> None:
    """Lossless B4: QT = sin 22.5° = 0.38268, alpha = √2, h = 1, f3 = fs."""
    found = align(chebyshev(1.0))
    assert found.qts == pytest.approx(math.sin(math.pi / 8), rel=1e-12)
    assert found.qts == pytest.approx(0.38268, abs=5e-6)
    assert found.alpha == pytest.approx(math.sqrt(2), rel=1e-12)
    assert found.h == pytest.approx(1.0, rel=1e-12)
    assert found.f3 == pytest.approx(1.0, rel=1e-9)


def highpass(poles: np.ndarray) -> Polynomial:
    """Turn a low-pass prototype over and scale it to s⁴ + ... + 1."""
    turned = 1 / np.asarray(poles)
    turned = turned / abs(np.prod(turned)) ** 0.25
    _, a1, a2, a3, last = np.poly(turned).real
    assert last == pytest.approx(1.0)
    return Polynomial(a1=a1, a2=a2, a3=a3)


@pytest.mark.second_method
@pytest.mark.parametrize("qts", [0.40, 0.45, 0.50, 0.60])
def test_chebyshev_against_scipy(qts: float) -> None:
    """scipy.signal's Chebyshev prototype of the same ripple has the same polynomial."""
    found = align_shape(Shape.CHEBYSHEV, qts=qts).polynomial
    # The only free number of the prototype is its ripple, read from the shape's own peak.
    _, poles, _ = signal.cheb1ap(4, found.peak)
    expected = highpass(poles)
    assert (found.a1, found.a2, found.a3) == pytest.approx(
        (expected.a1, expected.a2, expected.a3), rel=2e-5
    )


@pytest.mark.second_method
def test_butterworth_and_bessel_against_scipy() -> None:
    """scipy.signal's prototypes, turned over, are the Butterworth and Bessel polynomials."""
    butterworth = highpass(signal.buttap(4)[1])
    assert chebyshev(1.0).a1 == pytest.approx(butterworth.a1, rel=1e-12)
    bessel = align(highpass(signal.besselap(4, norm="delay")[1]))
    found = align_shape(Shape.BESSEL, qts=bessel.qts)
    assert (found.alpha, found.h) == pytest.approx((bessel.alpha, bessel.h), rel=1e-10)
    # 105^(1/4), 45/sqrt(105), 10/105^(1/4): Bessel polynomial of the fourth order.
    assert found.qts == pytest.approx(0.31623, abs=5e-6)
    assert found.alpha == pytest.approx(7 / 3, rel=1e-9)


def test_quasi_butterworth_is_flat_to_the_third_order() -> None:
    """The magnitude of QB3 has no u and no u² term."""
    for a1 in (2.7, 4.0, 9.0):
        first, second, third = quasi_butterworth(a1).magnitude_terms
        assert first == pytest.approx(0.0, abs=1e-9)
        assert second == pytest.approx(0.0, abs=1e-9 * a1**4)
        assert third > 0


def response(driver: Driver, found: Alignment, ql: float) -> tuple[np.ndarray, np.ndarray]:
    box = Vented.tuned(
        volume=float(driver.vas) / found.alpha,
        frequency=float(driver.fs) * found.h,
        area=0.01,
        ql=ql,
    )
    f = float(driver.fs) * np.geomspace(0.3, 5, 100)
    solved = sweep(driver=driver, box=box, frequencies=f)
    p, w = found.polynomial, 1j * f / (float(driver.fs) * math.sqrt(found.h))
    ideal = w**4 / (w**4 + p.a1 * w**3 + p.a2 * w**2 + p.a3 * w + 1)
    return solved.spl - solved.passband_level, 20 * np.log10(abs(ideal))


@pytest.mark.parametrize("ql", [math.inf, 7.0, 3.0])
@pytest.mark.parametrize(
    ("shape", "qts"),
    [
        (Shape.QUASI_BUTTERWORTH, 0.25),
        (Shape.CHEBYSHEV, 0.50),
        (Shape.SUB_CHEBYSHEV, 0.30),
        (Shape.DOUBLE_POLE, 0.30),
    ],
)
def test_the_solver_plays_the_shape(shape: Shape, qts: float, ql: float) -> None:
    """A box built to an alignment answers with the alignment's own polynomial."""
    mine, ideal = response(driver_with_qts(qts), align_shape(shape, qts=qts, ql=ql), ql)
    assert mine == pytest.approx(ideal, abs=1e-6)


def test_box_for_a_shape_counts_the_cable() -> None:
    """With cable resistance the box is that of the raised Q, so the shape is kept."""
    driver = driver_with_qts(0.38)
    box = vented_for_shape(driver, Shape.CHEBYSHEV, area=0.01, ql=7.0, series_resistance=0.6)
    qes = float(driver.qes) * (3.5 + 0.6) / 3.5
    found = align_shape(Shape.CHEBYSHEV, qts=qes * 5 / (qes + 5), ql=7.0)
    assert box.volume == pytest.approx(0.060 / found.alpha, rel=1e-9)
    f = np.geomspace(10, 1000, 800)
    solved = sweep(driver=driver, box=box, frequencies=f, series_resistance=0.6)
    assert float(solved.f3) == pytest.approx(30 * found.f3, rel=1e-5)
