"""Alignments with leakage against the circuit's own polynomial, solved for in `alignments.py`."""

from __future__ import annotations

import numpy as np
import pytest

from acoustics.enclosure.alignments import Shape, align, align_shape, double_pole
from acoustics.enclosure.alignments import chebyshev as chebyshev_shape
from tests.second_method import alignments

pytestmark = pytest.mark.second_method

QB3, C4, SC4 = Shape.QUASI_BUTTERWORTH, Shape.CHEBYSHEV, Shape.SUB_CHEBYSHEV
CASES = [
    *((QB3, qts) for qts in (0.15, 0.20, 0.25, 0.30, 0.35, 0.40)),
    *((C4, qts) for qts in (0.42, 0.45, 0.50, 0.55, 0.60)),
    *((SC4, qts) for qts in (0.25, 0.30, 0.35)),
]


@pytest.mark.parametrize("ql", [5.0, 7.0])
@pytest.mark.parametrize(("shape", "qts"), CASES)
def test_alignments_with_leakage(shape: Shape, qts: float, ql: float) -> None:
    """Every family gives its tuning, compliance ratio and half-power frequency."""
    found = align_shape(shape, qts=qts, ql=ql)
    if shape is QB3:
        expected = alignments.quasi_butterworth(qts, ql)
    else:
        expected = alignments.chebyshev(qts, ql, wide=shape is SC4)
    assert (found.h, found.alpha, found.f3) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("ql", [3.0, 5.0, 7.0, 10.0, 15.0])
def test_butterworth_with_leakage(ql: float) -> None:
    """Leakage asks a Butterworth box for a higher QT and more volume, and keeps h = 1."""
    found = align(chebyshev_shape(1.0), ql=ql)
    assert (found.qts, found.alpha, found.h) == pytest.approx(alignments.butterworth(ql), rel=1e-7)
    assert found.h == pytest.approx(1.0, abs=1e-9)


@pytest.mark.parametrize("a1", [0.7, 2.0, 4.0])
def test_two_equal_pairs_of_poles_multiply_out(a1: float) -> None:
    """A quadratic times itself, as numpy multiplies polynomials."""
    shape = double_pole(a1)
    pair = np.array([1.0, a1 / 2, 1.0])
    assert [1.0, shape.a1, shape.a2, shape.a3, 1.0] == pytest.approx(np.polymul(pair, pair))
